"""How each number on the supply list was made: its arithmetic, and the source of each input."""

from surfacecalc.needs.draws import DRAWS
from surfacecalc.needs.job import Use
from surfacecalc.pieces import Coat, Piece, Product
from surfacecalc.ranges import Factor
from surfacecalc.supplies.shopping import Supply, bought_text
from surfacecalc.units.display import (
    Units,
    format_amount,
    format_area,
    format_coverage,
    format_money,
    format_share,
)


def why(piece: Piece, supply: Supply, units: Units) -> list[str]:
    """Return the lines that explain a supply: each use, the sum, the range, the purchase."""
    lines = [_use_line(piece, supply, use, units) for use in supply.uses]
    lines += _sum_lines(supply, units)
    lines += _range_lines(piece, supply, units)
    lines.append(_inputs_line(supply, units))
    lines.append(_purchase_line(piece, supply, units))
    return lines


def assumed_text(factor: Factor, unit: str, units: Units) -> str:
    """Return an assumed input with its value."""
    return f"{factor.key} {_value(factor, unit, units)}"


def _use_line(piece: Piece, supply: Supply, use: Use, units: Units) -> str:
    area = format_area(use.area_m2, units)
    amount = _amount(use.likely, supply, units)
    if not isinstance(use.step, Coat):
        life = piece.abrasives[supply.name].life[supply.grit or 0]
        return f"{use.zone}: {area} / {format_area(life.range.likely, units)} each = {amount}"
    product = piece.products[use.step.product]
    coats = f"{use.step.coats.range.likely:g}"
    if use.bare:
        first = format_share(use.step.first_coat.range.likely)
        coats = f"(1 / {first} + {coats} - 1)"
    loss, allowance = use.step.loss.range.likely, use.step.allowance.range.likely
    line = f"{use.zone}: {area} / {_coverage(product, units)} x {coats}"
    line += f" / (1 - {format_share(loss)}) x (1 + {format_share(allowance)})"
    if use.thin is not None:
        line += f" x {format_share(use.thin.range.likely)} thinner"
    return f"{line} = {amount}"


def _coverage(product: Product, units: Units) -> str:
    if len(product.coverage) == 1:
        unit = "kg" if product.basis == "weight" else "L"
        return format_coverage(product.coverage[0].range.likely, unit, units)
    solids, film = (factor.range.likely for factor in product.coverage)
    return f"({format_share(solids)} x 1000 / {film:g} um = {1000 * solids / film:.4g} m2/L)"


def _sum_lines(supply: Supply, units: Units) -> list[str]:
    """Return the sum over all uses, where there is more than one, and its rounding up."""
    total = sum(use.likely for use in supply.uses)
    if supply.unit == "each":
        return [f"sum {total:.4g}, rounded up to {supply.need.likely:.0f}"]
    return [f"sum {_amount(total, supply, units)}"] if len(supply.uses) > 1 else []


def _range_lines(piece: Piece, supply: Supply, units: Units) -> list[str]:
    if all(factor.range.is_fixed for factor in supply.factors):
        return []
    low, high, bought = (
        _amount(point, supply, units)
        for point in (supply.need.low, supply.need.high, supply.need.buy_for)
    )
    share = format_share(piece.settings.buy_for)
    return [
        f"ranges, {DRAWS:,} draws: 5 % {low}, 95 % {high}; bought for {share}: {bought}",
        f"spread: {spread_text(supply)}",
    ]


def spread_text(supply: Supply) -> str:
    """Return what drives the spread of a need, and by how much."""
    return ", ".join(f"{100 * share:.0f} % {factor.key}" for factor, share in supply.drivers)


def _inputs_line(supply: Supply, units: Units) -> str:
    inputs = [
        f"{factor.key} {_value(factor, supply.unit, units)}: {_source(factor)}"
        for factor in supply.factors
    ]
    return f"inputs: {'; '.join(inputs)}"


def _source(factor: Factor) -> str:
    return f"published ({factor.reference})" if factor.reference else factor.source


def _value(factor: Factor, unit: str, units: Units) -> str:
    """Return the value of an input, or its range, in its own unit."""
    values = factor.range
    if values.is_fixed:
        return _one_value(factor.key, values.likely, unit, units)
    texts = [
        _one_value(factor.key, v, unit, units) for v in (values.low, values.likely, values.high)
    ]
    return f"[{', '.join(texts)}]"


def _one_value(key: str, value: float, unit: str, units: Units) -> str:
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


def _purchase_line(piece: Piece, supply: Supply, units: Units) -> str:
    need = _amount(supply.need.buy_for, supply, units)
    hand = f" less {_amount(supply.on_hand, supply, units)} on hand" if supply.on_hand else ""
    if not supply.missing:
        return f"{need}{hand}: nothing to buy"
    if not supply.buy:
        return f"{need}{hand}: no pack is given"
    packs = ", ".join(bought_text(pack, count) for pack, count in supply.buy)
    cost = "no price"
    if supply.cost is not None:
        cost = f"{format_money(supply.cost)} {piece.settings.currency or ''}".rstrip()
    return f"{need}{hand}: {packs}, {cost}, {_amount(supply.left_over, supply, units)} left over"


def _amount(amount: float, supply: Supply, units: Units) -> str:
    if supply.unit == "each":
        return f"{amount:.4g}"
    return format_amount(amount, supply.unit, units)
