"""The arithmetic of one use, in one line: what is multiplied and divided, and what comes out."""

from typing import assert_never

from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import Product
from surfacecalc.model.step_facts import coat_of, likely_coats
from surfacecalc.model.steps import Coat, Fill, Handwork, Mask, Sand, Trial, Wash
from surfacecalc.needs.filling import MM3_IN_L, hole_mm3
from surfacecalc.needs.uses import Use
from surfacecalc.supplies.shopping import Supply
from surfacecalc.units.display import (
    Units,
    format_amount,
    format_coverage,
    format_run,
    format_share,
    format_worked_area,
)


def use_line(piece: Piece, supply: Supply, use: Use, units: Units) -> str:
    """Return how the amount of a use was worked out, with every factor at its likely value."""
    made = _arithmetic(piece, supply, use, units)
    if use.zone_share < 1:
        made = f"({made})" if " + " in made else made
        made += f" x {format_share(use.zone_share)} (its share by area)"
    return f"{use.zone}: {made} = {amount_text(use.likely, supply, units)}"


def amount_text(amount: float, supply: Supply, units: Units) -> str:
    """Return an amount of a supply; a count with its fraction, not rounded up."""
    if supply.unit == "each":
        return f"{amount:.4g}"
    return format_amount(amount, supply.unit, units)


def coverage_text(product: Product, units: Units) -> str:
    """Return what a product covers, or what that follows from."""
    unit = "kg" if product.basis == "weight" else "L"
    if len(product.coverage) == 1:
        return format_coverage(product.coverage[0].range.likely, unit, units)
    if product.recipe and not product.coverage:
        parts = [
            f"{part.per_unit:.3g} x {coverage_text(part.product, units)}"
            for part in product.recipe
            if part.product.stays_on
        ]
        return f"({' + '.join(parts)})"
    solids, film = (factor.range.likely for factor in product.coverage)
    return f"({format_share(solids)} x 1000 / {film:g} um = {1000 * solids / film:.4g} m2/L)"


def _arithmetic(piece: Piece, supply: Supply, use: Use, units: Units) -> str:
    if supply.what == "consumable":
        return _consumable(piece, supply, use, units)
    if use.role == "part of mix":
        return f"its share of one batch of {use.text}"
    match use.step:
        case Coat() if use.role != "between":
            return _coat(piece, use.step, use, supply, units)
        case Coat() | Sand():
            return _sanding(piece, supply, use, units)
        case Wash():
            return _wash(use.step, use, units)
        case Fill():
            return _fill(piece, use.step, use, units)
        case Mask():
            return _mask(use.step, use, supply, units)
        case Trial():
            return _trial(piece, use.step, supply, use, units)
        case Handwork():
            return _handwork(piece, use.step, supply, use, units)
        case _:
            assert_never(use.step)


def _coat(piece: Piece, coat: Coat, use: Use, supply: Supply, units: Units) -> str:
    product = piece.shelf.products[coat.product]
    number = likely_coats(coat)
    coats = f"{number}"
    if use.laid.bare:
        coats = f"(1 / {format_share(coat.first_coat.range.likely)} + {number} - 1)"
    loss, allowance = coat.loss.range.likely, coat.allowance.range.likely
    line = f"{format_worked_area(use.area_m2, units)} / {coverage_text(product, units)} x {coats}"
    if use.laid.extra_m2 and use.laid.bare:
        thirsty = format_worked_area(use.laid.extra_m2, units)
        line += f" (thirsty faces count as {thirsty} more in the first)"
    line += f" / (1 - {format_share(loss)}) x (1 + {format_share(allowance)})"
    if coat.stays_behind is not None:
        kept = coat.stays_behind.range.likely * use.laid.kept_by
        unit = "kg" if product.basis == "weight" else "L"
        line += f" + {number} x {format_amount(kept, unit, units)} left in the tools"
    if use.share is not None:
        line = f"({line})" if coat.stays_behind is not None else line
        line += f" x {format_share(use.share.range.likely)} {use.role}"
    return line


def _sanding(piece: Piece, supply: Supply, use: Use, units: Units) -> str:
    area = format_worked_area(use.area_m2, units)
    if use.role == "rub out":
        product = piece.shelf.products[supply.name]
        loss = format_share(_loss(use))
        return f"{area} / {coverage_text(product, units)} / (1 - {loss}), rubbed in"
    life = piece.shelf.abrasives[supply.name].life[supply.grit or 0].range.likely
    passes = ""
    coat = coat_of(use.step)
    if coat is not None:
        passes = f" x {likely_coats(coat) - 1} between coats"
    return f"{area} / {format_worked_area(life, units)} each{passes}"


def _loss(use: Use) -> float:
    """Return the share that is lost when a product is rubbed in or tried out."""
    return next(one.range.likely for one in use.factors if one.what.quantity == "loss")


def _wash(wash: Wash, use: Use, units: Units) -> str:
    area, covers = format_worked_area(use.area_m2, units), wash.covers.range.likely
    times = f"{wash.times} x " if wash.times > 1 else ""
    solution = f"{times}{area} / {format_coverage(covers, 'L', units)}"
    strength = format_share(wash.strength.range.likely)
    if use.role == "cleaner":
        return f"{solution} x {strength} cleaner"
    rinse = ""
    if wash.rinse:
        rinse = f" + {times}{area} / {format_coverage(wash.rinse.range.likely, 'L', units)} rinse"
    return f"{solution} x (1 - {strength}){rinse}"


def _fill(piece: Piece, fill: Fill, use: Use, units: Units) -> str:
    holes_l = sum(hole_mm3(hole) for hole in fill.holes) / MM3_IN_L
    placed = format_amount(holes_l, "L", units)
    if fill.applications > 1:
        shrinkage = format_share(fill.shrinkage.range.likely)
        placed += f" x {fill.applications} applications that shrink {shrinkage}"
    line = f"{placed} of holes / (1 - {format_share(fill.loss.range.likely)})"
    density = piece.shelf.products[fill.product].density_kg_per_l
    if density and (piece.shelf.products[fill.product].basis == "weight" or use.role == "hardener"):
        line += f" x {density:g} kg/L"
    if use.share is not None:
        line += f" x {format_share(use.share.range.likely)} hardener"
    return line


def _mask(mask: Mask, use: Use, supply: Supply, units: Units) -> str:
    if supply.unit == "m2":
        return f"{format_worked_area(mask.film_m2, units)} covered"
    overlap = mask.overlap.range.likely
    length = format_run(use.likely / (1 + overlap), units)
    return f"{length} where zones meet x (1 + {format_share(overlap)})"


def _trial(piece: Piece, trial: Trial, supply: Supply, use: Use, units: Units) -> str:
    patch = format_worked_area(trial.patch_m2, units)
    loss = format_share(_loss(use))
    covers = coverage_text(piece.shelf.products[supply.name], units)
    return f"sample {patch} / {covers} / (1 - {loss})"


def _handwork(piece: Piece, step: Handwork, supply: Supply, use: Use, units: Units) -> str:
    if step.decor is not None:
        covers = coverage_text(piece.shelf.products[supply.name], units)
        times = f" x {step.decor.coats}" if step.decor.coats > 1 else ""
        area, loss = format_worked_area(use.area_m2, units), format_share(_loss(use))
        return f"{step.what}: {area} / {covers}{times} / (1 - {loss})"
    if step.each is not None:
        each = format_amount(step.each.range.likely, supply.unit, units)
        return f"{step.what}: {step.count} x {each}"
    return f"{piece.shelf.hardware[supply.name].count} to replace"


def _consumable(piece: Piece, supply: Supply, use: Use, units: Units) -> str:
    item = piece.shelf.consumables[supply.name]
    lasts = item.lasts.range.likely
    counted = use.likely * lasts
    if item.by == "area":
        return f"{format_worked_area(counted, units)} / {format_worked_area(lasts, units)} each"
    if item.by == "jobs":
        return _by_job(counted, lasts)
    word = "h" if item.by == "time" else "sessions"
    return f"{counted:.3g} {word} / {lasts:g} {word} each"


def _by_job(counted: float, lasts: float) -> str:
    """Return how many a whole job uses up, and how much of it one step does."""
    each = "one for the whole job" if lasts == 1 else f"one for {lasts:g} jobs"
    return each if round(counted, 9) == 1 else f"{each}, {counted:.3g} of it here"
