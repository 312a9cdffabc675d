"""How each number on the supply list was made: its arithmetic, and the source of each input."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from surfacecalc.closeness import whole_up
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor
from surfacecalc.model.step_facts import filling_of
from surfacecalc.needs.draws import DRAWS
from surfacecalc.needs.uses import Use
from surfacecalc.reports.use_lines import amount_text, use_line
from surfacecalc.supplies.shopping import Supply, bought_text
from surfacecalc.units.display import (
    Units,
    format_amount,
    format_area,
    format_coverage,
    format_money,
    format_share,
)

MEASURED = ("m2/L", "m2/kg", "L", "kg", "m2")
"""Units that are shown in metric or US ones; all others stay as they are."""


AsWritten = Callable[[Supply, Use], tuple[Piece, Supply]]
"""Tells which of several pieces a use comes from, and the supply by its name there."""


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
    """Return the lines that explain a supply: each use, the sum, the range, the purchase.

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
    made = [*_sum_lines(supply, units), *_range_lines(piece, supply, units)]
    lines += [WhyLine(text) for text in [*made, *_batch_lines(supply, units)]]
    lines += [_input_line(factor, supply, units) for factor in supply.factors]
    lines.append(WhyLine(_purchase_line(piece, supply, units)))
    return lines


def assumed_text(factor: Factor, unit: str, units: Units) -> str:
    """Return an assumed input with its value."""
    return f"{factor.key} {_value(factor, unit, units)}"


def _sum_lines(supply: Supply, units: Units) -> list[str]:
    """Return the sum over all uses, where there is more than one, and its rounding up."""
    total = sum(use.likely for use in supply.uses)
    if supply.unit == "each":
        return [f"sum {total:.4g}, rounded up to {supply.need.likely:.0f}"]
    return [f"sum {amount_text(total, supply, units)}"] if len(supply.uses) > 1 else []


def _range_lines(piece: Piece, supply: Supply, units: Units) -> list[str]:
    if all(factor.range.is_fixed for factor in supply.factors):
        return []
    low, high, bought = (
        amount_text(point, supply, units)
        for point in (supply.need.low, supply.need.high, supply.need.buy_for)
    )
    share = format_share(piece.settings.buy_for)
    return [
        f"ranges, {DRAWS:,} draws: 5 % {low}, 95 % {high}; bought for {share}: {bought}",
        f"spread: {spread_text(supply)}",
    ]


def _batch_lines(supply: Supply, units: Units) -> Iterator[str]:
    """Yield how often a filler is mixed that sets before more of it could be spread."""
    fills = [filling_of(use.step) for use in supply.uses if use.role == "step"]
    sizes = [fill.batch for fill in fills if fill and fill.batch]
    if sizes:
        number = whole_up(supply.need.buy_for / min(sizes))
        most = amount_text(min(sizes), supply, units)
        yield f"mix it in {number} {'batch' if number == 1 else 'batches'} of {most} at most"


def spread_text(supply: Supply) -> str:
    """Return what drives the spread of a need, and by how much."""
    return ", ".join(f"{100 * share:.0f} % {factor.key}" for factor, share in supply.drivers)


def _input_line(factor: Factor, supply: Supply, units: Units) -> WhyLine:
    known = f"{factor.key} {_value(factor, supply.unit, units)}: "
    if factor.source == "assumed":
        return WhyLine(known, "assumed")
    return WhyLine(f"{known}{_source(factor)}")


def _source(factor: Factor) -> str:
    return f"published ({factor.reference})" if factor.reference else factor.source


def _value(factor: Factor, unit: str, units: Units) -> str:
    """Return the value of an input, or its range, in its own unit."""
    values = factor.range
    if values.is_fixed:
        return _one_value(factor, values.likely, unit, units)
    if factor.unit and factor.unit not in MEASURED:
        return f"[{values.low:g}, {values.likely:g}, {values.high:g}] {factor.unit}"
    texts = [_one_value(factor, v, unit, units) for v in (values.low, values.likely, values.high)]
    return f"[{', '.join(texts)}]"


def _one_value(factor: Factor, value: float, unit: str, units: Units) -> str:
    key = factor.key
    if factor.unit:
        return _in_its_unit(factor.unit, value, units)
    last = key.rsplit(maxsplit=1)[-1]
    if last == "covers":
        return format_coverage(value, unit, units)
    if key.startswith("abrasive "):
        return format_area(value, units)
    if last == "dry_film":
        return f"{value:g} um"
    if last == "coats":
        return f"{value:g}"
    return format_share(value)


def _in_its_unit(unit: str, value: float, units: Units) -> str:
    if unit in ("m2/L", "m2/kg"):
        return format_coverage(value, unit.removeprefix("m2/"), units)
    if unit in MEASURED:
        return format_amount(value, unit, units)
    return f"{value:g} {unit.removesuffix('s') if value == 1 else unit}"


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
    packs = ", ".join(bought_text(pack, count) for pack, count in supply.buy)
    cost = "no price"
    if supply.cost is not None:
        cost = f"{format_money(supply.cost)} {piece.settings.currency or ''}".rstrip()
    return (
        f"{need}{hand}: {packs}, {cost}, {amount_text(supply.left_over, supply, units)} left over"
    )
