"""The arithmetic of one use, in one line: what is multiplied and divided, and what comes out."""

from typing import assert_never

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor, likely
from surfacecalc.model.shelf import Product
from surfacecalc.model.step_facts import coat_of, likely_coats
from surfacecalc.model.steps import (
    Addition,
    Coat,
    Fill,
    Handwork,
    Mask,
    Sand,
    Trial,
    Unmask,
    Wash,
)
from surfacecalc.needs.coating import coat_amount
from surfacecalc.needs.filling import MM3_IN_L, hole_mm3
from surfacecalc.needs.two_part import product_share
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
    if use.role in ("part of mix", "thrown away"):
        return _of_batch(use)
    return _of_step(piece, supply, use, units)


def _of_step(piece: Piece, supply: Supply, use: Use, units: Units) -> str:
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
        case Unmask():
            return ""  # it takes nothing but consumables
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
    allowance = coat.allowance.range.likely
    line = f"{format_worked_area(use.area_m2, units)} / {coverage_text(product, units)} x {coats}"
    if use.laid.extra_m2 and use.laid.bare:
        thirsty = format_worked_area(use.laid.extra_m2, units)
        line += f" (thirsty faces count as {thirsty} more in the first)"
    if coat.sprayed_past is not None and use.laid.slender:
        slender, past = use.laid.slender, coat.sprayed_past.range.likely
        line += (
            f" x ({format_share(1 - slender)} + {format_share(slender)} slender"
            f" / (1 - {format_share(past)}))"
        )
    line += f"{_less(coat.loss)} x (1 + {format_share(allowance)})"
    if coat.stays_behind is not None:
        kept = _kept_l(coat, product, use) / number
        unit = "kg" if product.basis == "weight" else "L"
        line += f" + {number} x {format_amount(kept, unit, units)} left in the tools"
        line += ", its share of one session" if coat.together else ""
    if use.share is None and coat.hardener is None:
        return line
    line = f"({line})" if coat.stays_behind is not None else line
    if use.role in ("step", "hardener") and coat.hardener is not None:
        line += _of_mixed(piece, product, coat.hardener, use)
    elif use.share is not None:
        line += f" x {format_share(use.share.range.likely)} {use.role}"
    return line


def _of_mixed(piece: Piece, product: Product, added: Addition, use: Use) -> str:
    """Return how the product, or its hardener, follows from what is mixed."""
    hardener = piece.shelf.products[added.product] if added.product else None
    share = float(product_share(product, hardener, added, likely))
    line = f" x {format_share(share)} {product.name} in the mix"
    if use.role == "hardener":
        line += _hardening(product, hardener, added)
    return line


def _hardening(product: Product, hardener: Product | None, added: Addition) -> str:
    """Return how a hardener follows from the product, with the densities that turn it over."""
    heavy = f" x {product.density_kg_per_l:g} kg/L" if product.density_kg_per_l else ""
    line = heavy if product.basis == "volume" and added.by == "weight" else ""
    if product.basis == "weight" and added.by == "volume":
        line = f" / {product.density_kg_per_l:g} kg/L"
    line += f" x {format_share(added.share.range.likely)} hardener by {added.by}"
    if hardener is None or hardener.basis == added.by:
        return line
    sign = "/" if hardener.basis == "volume" else "x"
    return f"{line} {sign} {hardener.density_kg_per_l:g} kg/L"


def _of_batch(use: Use) -> str:
    """Return what a use has to do with batches that are mixed, of a colour or of what sets."""
    if use.role == "part of mix":
        return f"its share of one batch of {use.text}"
    each = "one batch" if use.batches == 1 else f"{use.batches} batches"
    return f"left of {each} for each coat when the mix sets, thrown away"


def _kept_l(coat: Coat, product: Product, use: Use) -> float:
    """Return what the tools keep of all coats [L or kg]."""
    whole, bare = (
        coat_amount(
            use.area_m2,
            coat,
            product,
            likely,
            bare=use.laid.bare,
            extra_m2=use.laid.extra_m2,
            kept_by=kept_by,
            slender=use.laid.slender,
        )
        for kept_by in (use.laid.kept_by, 0.0)
    )
    return float(whole - bare)


def _sanding(piece: Piece, supply: Supply, use: Use, units: Units) -> str:
    area = format_worked_area(use.area_m2, units)
    if use.role == "rub out":
        product = piece.shelf.products[supply.name]
        return f"{area} / {coverage_text(product, units)}{_less(_loss(use))}, rubbed in"
    life = piece.shelf.abrasives[supply.name].life[supply.grit or 0].range.likely
    each = format_worked_area(life, units)
    coat = coat_of(use.step)
    if coat is None:
        return f"{area} / {each} each"
    lighter = (one for one in use.factors if one.what.quantity == "life between coats")
    for one in lighter:
        each = f"({each} x {one.range.likely:g}, as it wears less)"
    return f"{area} / {each} each x {likely_coats(coat) - 1} between coats"


def _loss(use: Use) -> Factor:
    """Return the share that is lost when a product is rubbed in or tried out."""
    return next(one for one in use.factors if one.what.quantity in ("loss", "loss in coverage"))


def _less(loss: Factor) -> str:
    """Return what a coverage is divided by; nothing where what is lost is in it already."""
    if loss.what.quantity == "loss in coverage":
        return ""
    return f" / (1 - {format_share(loss.range.likely)})"


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
    filler = piece.shelf.products[fill.product]
    if filler.density_kg_per_l and filler.basis == "weight":
        line += f" x {filler.density_kg_per_l:g} kg/L"
    if use.role == "hardener" and fill.hardener is not None:
        hardener = piece.shelf.products[fill.hardener.product or ""]
        line += _hardening(filler, hardener, fill.hardener)
    return line


def _mask(mask: Mask, use: Use, supply: Supply, units: Units) -> str:
    if supply.unit == "m2":
        return f"{format_worked_area(mask.film_m2, units)} covered"
    overlap = mask.overlap.range.likely
    length = format_run(use.likely / (1 + overlap), units)
    return f"{length} where zones meet x (1 + {format_share(overlap)})"


def _trial(piece: Piece, trial: Trial, supply: Supply, use: Use, units: Units) -> str:
    patch = format_worked_area(trial.patch_m2, units)
    covers = coverage_text(piece.shelf.products[supply.name], units)
    return f"sample {patch} / {covers}{_less(_loss(use))}"


def _handwork(piece: Piece, step: Handwork, supply: Supply, use: Use, units: Units) -> str:
    if step.decor is not None:
        covers = coverage_text(piece.shelf.products[supply.name], units)
        times = f" x {step.decor.coats}" if step.decor.coats > 1 else ""
        area = format_worked_area(use.area_m2, units)
        return f"{step.what}: {area} / {covers}{times}{_less(_loss(use))}"
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
