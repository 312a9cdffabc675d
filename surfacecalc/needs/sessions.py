"""What goes into the cup or the bucket for each session of each wet step, likely values.

A session is one coat, one washing or one filling on all zones that share the step; one side of a
coat where the piece is turned over. Of a coat that sets it is what is mixed, waste included, so
that all sessions of a step add up to its line on the supply list.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor, likely
from surfacecalc.model.shelf import What
from surfacecalc.model.step_facts import coat_of, filling_of, likely_coats, washing_of
from surfacecalc.model.steps import Step
from surfacecalc.needs.pot_life import Batches, batches_of, one_coat
from surfacecalc.needs.uses import Need, Role, Use
from surfacecalc.needs.washing import rinse_l
from surfacecalc.zones.areas import Measured
from surfacecalc.zones.worked_surfaces import is_one_session, session_key

STIRRED: tuple[Role, ...] = (
    "step", "hardener", "thinner", "tint", "cleaner", "water", "thrown away",
)  # fmt: skip
POURED: tuple[What, ...] = ("product", "thinner", "hardener", "water")


@dataclass(frozen=True)
class SessionPart:
    """One thing in the cup.

    Attributes:
        supply: its name.
        role: what it is used as; "rinse" for clean water after washing.
        amount: in one session [L or kg].
        unit: "L" or "kg".
        share: of what it is stirred into, None where it is not stirred in.
    """

    supply: str
    role: Role
    amount: float
    unit: Literal["L", "kg"]
    share: Factor | None = None


@dataclass(frozen=True)
class MixingSession:
    """What is mixed for one session.

    Attributes:
        step: the step.
        zones: where it goes, in the order of the file.
        coat: which coat, washing or filling it is, from 0.
        count: how many coats, washings or fillings the step is.
        side: of a piece that is turned over, from 1; 0 where it is not.
        batches: what sets before the session is over is mixed in so many, one after the other.
        pot_life: how long a batch stays usable [h]; None where nothing sets.
        parts: what goes in, the product first.
    """

    step: Step
    zones: tuple[str, ...]
    coat: int
    count: int
    side: int
    batches: int
    pot_life: Factor | None
    parts: tuple[SessionPart, ...]


def sessions_of(piece: Piece, measured: Measured, needs: Sequence[Need]) -> list[MixingSession]:
    """Return the sessions of every wet step, in the order of the file.

    Args:
        piece: the piece.
        measured: its areas.
        needs: what the whole job needs.
    """
    zones: dict[str, list[str]] = {}
    steps: dict[str, Step] = {}
    for zone in measured.zones:
        for step in zone.zone.steps:
            steps.setdefault(session_key(step), step)
            zones.setdefault(session_key(step), []).append(zone.zone.name)
    found: list[MixingSession] = []
    for key, step in steps.items():
        coat = coat_of(step)
        how = batches_of(piece, measured, coat) if coat else None
        found += _of_step(piece, needs, step, tuple(zones[key]), how)
    return found


def _of_step(
    piece: Piece,
    needs: Sequence[Need],
    step: Step,
    zones: tuple[str, ...],
    how: Batches | None,
) -> Iterator[MixingSession]:
    sides, count = step.work.sides, _count(step)
    for number in range(count):
        parts = [part for need in needs for part in _parts(piece, need, step, number)]
        parts.sort(key=lambda part: part.role != "step")
        for side in range(1, sides + 1):
            yield MixingSession(
                step=step,
                zones=zones,
                coat=number,
                count=count,
                side=side if sides > 1 else 0,
                batches=how.each if how else 1,
                pot_life=how.pot_life if how else None,
                parts=tuple(replace(part, amount=part.amount / sides) for part in parts),
            )


def _count(step: Step) -> int:
    """Return how many coats, washings or fillings a step is; 0 for one that mixes nothing."""
    coat, wash, fill = coat_of(step), washing_of(step), filling_of(step)
    if coat is not None:
        return likely_coats(coat)
    if wash is not None:
        return wash.times
    return fill.applications if fill else 0


def _parts(piece: Piece, need: Need, step: Step, number: int) -> Iterator[SessionPart]:
    """Yield what one coat, washing or filling takes of a supply, the water of a wash in two."""
    uses = [use for use in need.uses if is_one_session(use.step, step) and use.role in STIRRED]
    if not uses or need.what not in POURED:
        return
    product = piece.shelf.product(need.supplied)
    unit: Literal["L", "kg"] = "kg" if product and product.basis == "weight" else "L"
    amount = sum(_once(use, step, number) for use in uses)
    rinse, wash = 0.0, washing_of(step)
    if wash is not None and uses[0].role == "water":
        rinse = sum(float(rinse_l(use.area_m2, wash, likely)) for use in uses) / wash.times
        yield SessionPart(need.name, "rinse", rinse, unit)
    if amount > rinse:
        yield SessionPart(need.name, uses[0].role, amount - rinse, unit, uses[0].share)


def _once(use: Use, step: Step, number: int) -> float:
    """Return what one coat, washing or filling takes of a use; what shrinks is filled again."""
    if coat_of(step) is not None:
        return float(one_coat(use, number + 1, likely))
    fill = filling_of(step)
    if fill is None:
        return use.likely / _count(step)
    filled = [float(likely(fill.shrinkage)) ** time for time in range(fill.applications)]
    return use.likely * filled[number] / sum(filled)
