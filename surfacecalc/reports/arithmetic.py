"""How each number on the supply list was made: its arithmetic, and the source of each input."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from surfacecalc.closeness import whole_up
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Evaluate, Factor, Number, likely
from surfacecalc.model.step_facts import coat_of, filling_of
from surfacecalc.needs.spraying import loads_of
from surfacecalc.needs.uses import Use
from surfacecalc.reports.certainty import exact_word
from surfacecalc.reports.chances import times_out_of
from surfacecalc.reports.input_words import input_text, input_words, source_words
from surfacecalc.reports.spray_lines import coats_sprayed
from surfacecalc.reports.use_lines import amount_text, use_line
from surfacecalc.supplies.pack_words import bought_text
from surfacecalc.supplies.shopping import Supply
from surfacecalc.units.display import (
    Units,
)
from surfacecalc.units.money import money_with_code

AsWritten = Callable[[Supply, Use], tuple[Piece, Supply]]
"""Tells which of several pieces a use comes from, and the supply by its name there."""


LEAST_SHARE = 0.005
"""A share of a spread below this would be printed as 0 %."""


@dataclass(frozen=True)
class WhyLine:
    """One line of an explanation.

    Attributes:
        known: what is said.
        assumed: the word at its end that marks an assumed value; empty where nothing is assumed.
    """

    known: str
    assumed: str = ""

    @property
    def text(self) -> str:
        """The whole line."""
        return f"{self.known}{self.assumed}"


def why(
    piece: Piece, supply: Supply, units: Units, as_written: AsWritten | None = None
) -> list[WhyLine]:
    """Return the lines that explain a supply: uses, sum, range, inputs, purchase.

    Args:
        piece: the piece, or the shelf of several.
        supply: what is explained.
        units: which units are shown.
        as_written: where each use comes from, if not from the piece itself.
    """
    lines = []
    for use in supply.uses:
        source, written = as_written(supply, use) if as_written else (piece, supply)
        lines.append(WhyLine(use_line(source, written, use, units)))
    made = [*_sum_lines(supply, units), *_range_lines(supply, units)]
    more = [*_batch_lines(supply, units), *_spray_lines(supply, units)]
    lines += [WhyLine(text) for text in [*made, *more]]
    lines += [_input_line(factor, units) for factor in supply.factors]
    lines.append(WhyLine(_purchase_line(piece, supply, units)))
    return lines


def _sum_lines(supply: Supply, units: Units) -> list[str]:
    """Return the sum over all uses, where there is more than one, and its rounding up."""
    total = supply.worked_out
    if supply.unit == "each":
        return [f"sum {total:.4g}, rounded up to {whole_up(total)}"]
    return [f"sum {amount_text(total, supply, units)}"] if len(supply.uses) > 1 else []


def _range_lines(supply: Supply, units: Units) -> list[str]:
    if supply.is_exact:
        return [f"{exact_word(supply)}: there is no range"]
    need = supply.need
    low, middle, high, bought = (
        amount_text(point, supply, units)
        for point in (need.low, need.likely, need.high, need.buy_for)
    )
    return [
        f"half of all jobs need {middle} or less; 9 jobs in 10 need between {low} and {high};"
        f" {bought} is enough {times_out_of(need.bought_at)}",
        f"the range comes from: {spread_text(supply)}",
    ]


def _batch_lines(supply: Supply, units: Units) -> Iterator[str]:
    """Yield how often a filler is mixed that sets before more of it could be spread."""
    fills = [filling_of(use.step) for use in supply.uses if use.role == "step"]
    sizes = [fill.batch for fill in fills if fill and fill.batch]
    if sizes:
        number = whole_up(supply.need.buy_for / min(sizes))
        most = amount_text(min(sizes), supply, units)
        yield f"mix it in {number} {'batch' if number == 1 else 'batches'} of at most {most}"


def _spray_lines(supply: Supply, units: Units) -> Iterator[str]:
    """Yield what each coat takes of the spray gun, zone by zone."""
    for use in supply.uses:
        coat, first_coats = coat_of(use.step), use.first_coats
        if coat is None or coat.by != "spray" or use.role != "step" or first_coats is None:
            continue
        if supply.unit == "L" and (coat.hardener is None or coat.hardener.by == "volume"):
            mixed = 1.0 if coat.hardener is None else 1 + float(likely(coat.hardener.share))
            loads = loads_of(coat, partial(_taken, first_coats, mixed))
            sides = coat.work.sides
            sprayed = coats_sprayed((load.on_one_side(sides) for load in loads), units, sides)
            yield from (f"{use.zone}: {line}" for line in sprayed)


def _taken(first_coats: Callable[[Evaluate, int], Number], mixed: float, coats: int) -> float:
    """Return what so many first coats take, with the hardener that is mixed into them [L]."""
    return float(first_coats(likely, coats)) * mixed if coats else 0.0


def spread_text(supply: Supply) -> str:
    """Return what drives the spread of a need, and by how much; what is next to nothing is not."""
    return ", ".join(
        f"{input_words(factor.what)} ({100 * share:.0f} % of it)"
        for factor, share in supply.drivers
        if share >= LEAST_SHARE
    )


def _input_line(factor: Factor, units: Units) -> WhyLine:
    """Return an input with its value and its source, the source by itself where it is assumed."""
    known = f"{input_text(factor, units)}: "
    if factor.source == "assumed":
        return WhyLine(known, "assumed")
    if factor.is_band_assumed:
        return WhyLine(f"{known}{source_words(factor)}, ", "its range assumed")
    return WhyLine(f"{known}{source_words(factor)}")


def _purchase_line(piece: Piece, supply: Supply, units: Units) -> str:
    need = amount_text(supply.need.buy_for, supply, units)
    hand = f" less {amount_text(supply.on_hand, supply, units)} on hand" if supply.on_hand else ""
    if supply.what == "water":
        return f"{need}: from the tap"
    if not supply.missing:
        return f"{need}{hand}: nothing to buy"
    if supply.mixed:
        return f"{need}{hand}: mix {amount_text(supply.mixed, supply, units)} in one batch"
    if not supply.buy:
        return f"{need}{hand}: no pack is given"
    packs = ", ".join(bought_text(pack, count, supply.unit) for pack, count in supply.buy)
    cost = "no price"
    if supply.cost is not None:
        cost = money_with_code(supply.cost, piece.settings.currency)
    return (
        f"{need}{hand}: {packs}, {cost}, {amount_text(supply.left_over, supply, units)} left over"
    )
