"""What the work needs and the file does not list, so that it is not missing in the shop.

It has no quantity: one pair of goggles lasts many jobs, and a brush is chosen by hand. It has a
price only where the user's own record gives one.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from surfacecalc.cautions import cautions
from surfacecalc.gear.gear import Gear
from surfacecalc.gear.protection import GLOVES, protection
from surfacecalc.gear.tools import tools
from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import Consumable, Pack
from surfacecalc.model.step_facts import stripper_of
from surfacecalc.model.step_supplies import steps_of
from surfacecalc.model.steps import Step
from surfacecalc.zones.areas import Measured


@dataclass(frozen=True)
class NeededToo:
    """A thing that the work needs and that no step of the file lists.

    Attributes:
        name: what it is, by the user's own name where a record has one.
        uses: what it is for, each once.
        pack: what it is sold in, the smallest that a record gives; None without a record.
        on_hand: how many the record has on hand.
        is_worn: whether it protects whoever works.
    """

    name: str
    uses: tuple[str, ...]
    pack: Pack | None = None
    on_hand: int = 0
    is_worn: bool = False


def needed_too(piece: Piece, measured: Measured) -> list[NeededToo]:
    """Return what the work on a piece needs and no step of its file lists."""
    return needed_too_together([(piece, measured)])


def needed_too_together(jobs: Iterable[tuple[Piece, Measured]]) -> list[NeededToo]:
    """Return what the work on several pieces needs, each thing once.

    What one of them lists, or what stands in for it, is there for the others as well.
    """
    jobs = list(jobs)
    pieces = [piece for piece, _ in jobs]
    steps = [step for piece in pieces for step in steps_of(piece)]
    asked = _by_gear(
        one
        for piece, measured in jobs
        for one in (*protection(piece, cautions(piece, measured)), *tools(piece))
    )
    replaced = {name for gear in asked for name in gear.instead_of}
    _pass_on(asked)
    unlisted = {gear: _unlisted(steps, gear, tuple(uses)) for gear, uses in asked.items()}
    return [
        _from_record(pieces, gear, uses)
        for gear, uses in unlisted.items()
        if gear.name not in replaced and uses
    ]


def _unlisted(steps: Sequence[Step], gear: Gear, uses: tuple[str, ...]) -> tuple[str, ...]:
    """Return what a thing is needed for and no step lists it for.

    Gloves for any other step do not resist a stripper: only those of its own step count.
    """
    if not any(gear.is_named(name) for step in steps for name in step.work.uses):
        return uses
    strippers = [
        stripper.product
        for step in steps
        for stripper in [stripper_of(step)]
        if gear == GLOVES and stripper and not any(map(gear.is_named, step.work.uses))
    ]
    return tuple(use for use in uses if any(use.startswith(name) for name in strippers))


def _by_gear(asked: Iterable[tuple[Gear, str]]) -> dict[Gear, dict[str, None]]:
    """Return the uses of each thing, each once, in order."""
    found: dict[Gear, dict[str, None]] = {}
    for gear, use in asked:
        found.setdefault(gear, {})[use] = None
    return found


def _pass_on(asked: dict[Gear, dict[str, None]]) -> None:
    """Give the uses of what is replaced to what stands in for it."""
    for gear, uses in asked.items():
        for other in (one for one in asked if one.name in gear.instead_of):
            uses.update(asked[other])


def _from_record(pieces: Iterable[Piece], gear: Gear, uses: tuple[str, ...]) -> NeededToo:
    """Return a thing under the name, with the pack and the stock, that a record has for it."""
    shelves = [piece.shelf for piece in pieces]
    for kept in (k for s in shelves for k in (*s.consumables.values(), *s.kept.values())):
        if gear.is_named(kept.name):
            return NeededToo(kept.name, uses, _smallest(kept), kept.on_hand, gear.is_worn)
    return NeededToo(gear.name, uses, is_worn=gear.is_worn)


def _smallest(kept: Consumable) -> Pack | None:
    return min(kept.packs, key=lambda pack: pack.size, default=None)
