"""Notes on coats that do not go together, and on what is stirred into them.

Common practice, no source.
"""

import itertools
from collections.abc import Callable, Iterator

from surfacecalc.catalogue.bases import base_of, is_said_waterborne, says
from surfacecalc.checks.layers import FILM, Layer, is_stripped, layers, note, pairs, whole_coats
from surfacecalc.checks.lightness import is_light
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.shelf import Product
from surfacecalc.model.step_facts import abrading_of, coats_of, filling_of, sanding_of
from surfacecalc.problems import Problem

MOST_PAINT = 0.10
"""The most paint or tint in a clear coat, a share of it, before it is weakened."""
CLEAR_FAMILIES = ("varnish", "lacquer", "shellac")
USUAL_THINNING = {"water": 0.10, "drying oil": 0.25}
"""The most thinner by base where the label's limit (`thin_most`) is not given; assumed."""
THINNED = ("paint", "primer", "varnish")
"""Families whose labels limit thinning; shellac, stain and oil are thinned at will."""


def check_yellowing(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield oil-based varnish over light paint."""
    found = layers(zone, piece.shelf.products)
    for paint, clear in pairs(zone, found, ("paint",), ("clear",)):
        if is_light(paint) and base_of(clear.product) in ("drying oil", "unknown"):
            message = (
                f"goes over the light {paint.product.name} of line {paint.step.line}: oil-based"
                " varnish is amber and turns more yellow; use a waterborne clear coat"
            )
            yield note(clear, message)


def check_film_on_waxed_spots(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield a film over wax on spots, and over metallic wax, on the zone or on hardware."""
    coats = list(coats_of(zone.steps))
    for wax, upper in itertools.combinations(coats, 2):
        under, over = piece.shelf.products[wax.product], piece.shelf.products[upper.product]
        is_part = wax.spot is not None or says(under, "metallic wax", "gilding wax")
        if under.family != "wax" or not is_part or wax.hardware != upper.hardware:
            continue
        if over.family in ("paint", "primer", *CLEAR_FAMILIES):
            message = (
                f"goes over the {under.name} of line {wax.line}, and no film sticks to wax, not on"
                " spots either: put the wax on last, unless you want the coat to chip off there"
            )
            yield Problem("note", upper.line, f'{upper.do} "{over.name}"', message)


def check_filler_under_stain(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield two-part filler where stain or dye comes later."""
    found = layers(zone, piece.shelf.products)
    for place, step in enumerate(map(filling_of, zone.steps)):
        if step is None:
            continue
        filler = piece.shelf.products[step.product]
        later = [k for k in found if k.place > place]
        colour = next((k for k in later if k.role == "colour"), None)
        if colour is None or any(k.role == "paint" for k in later):
            continue
        if says(filler, "two part", "polyester", "epoxy", "2k"):
            message = (
                f"two-part filler takes no stain, so the {colour.product.name} of line"
                f" {colour.step.line} leaves it as a pale spot: use a filler that takes stain, or a"
                " coloured wax stick after the finish"
            )
            yield Problem("note", step.line, f'fill "{filler.name}"', message)


def check_dye_lifts(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield a waterborne coat that is rubbed or brushed on a water dye."""
    found = layers(zone, piece.shelf.products)
    for dye, upper in pairs(zone, found, ("colour",), ("seal", *FILM)):
        if not says(dye.product, "dye") or base_of(dye.product) != "water":
            continue
        if is_said_waterborne(upper.product) and upper.step.by != "spray":
            message = (
                f"is waterborne over the water dye of line {dye.step.line}, which it dissolves and"
                " smears: put a coat of shellac between them, or spray the first coat"
            )
            yield note(upper, message)


def check_paint_in_clear(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield clear coats with much paint or tint in them."""
    for layer in whole_coats(zone, piece.shelf.products):
        share = _paint_share(layer.product)
        tint = layer.step.tint
        if tint is not None and layer.product.family in CLEAR_FAMILIES:
            share += tint.share.range.likely
        if share > MOST_PAINT:
            message = (
                f"is a clear coat with {share:.0%} of paint or tint in it: beyond about"
                f" {MOST_PAINT:.0%} it gets soft and cloudy; use less, or a coat of colour under it"
            )
            yield note(layer, message)


def _paint_share(product: Product) -> float:
    """Return the share of paint in a mix that is clear in the main."""
    if product.family not in CLEAR_FAMILIES or not product.recipe:
        return 0.0
    colours = [k.per_unit for k in product.recipe if k.product.family in ("paint", "tint")]
    return sum(colours) / sum(component.per_unit for component in product.recipe)


def check_thinning(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield coats that are thinned more than their label or the trade allows."""
    for layer in layers(zone, piece.shelf.products):
        thin, product = layer.step.thin, layer.product
        most, whose = product.thin_most, "its label allows"
        if most is None and product.family in THINNED:
            most, whose = USUAL_THINNING.get(base_of(product)), "is usual (assumed)"
        if thin is not None and most is not None and thin.range.likely > most:
            message = (
                f"is thinned by {thin.range.likely:.0%}, more than the {most:.0%} that {whose}: a"
                " film that thin covers badly and may not harden; thin less and put on more coats"
            )
            yield note(layer, message)


def check_scuff(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield oil-based coats on each other that nothing scuffs between."""
    found = [k for k in whole_coats(zone, piece.shelf.products) if k.role in ("paint", "clear")]
    oils = [k for k in found if base_of(k.product) == "drying oil"]
    for number, layer in enumerate(oils):
        most = layer.step.coats.range.likely
        following = oils[number + 1 : number + 2]
        scuffed = not following or any(
            map(sanding_of, zone.steps[layer.place + 1 : following[0].place])
        )
        if (most > 1 and layer.step.between is None) or not scuffed:
            message = (
                "is oil-based and nothing scuffs it before the next coat, which then peels: denib"
                ' each coat (between = { grit = 320, with = "..." })'
            )
            yield note(layer, message)
            return


def check_oil_over_water(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield oil-based film over waterborne paint; primer is made to be painted over."""
    found = whole_coats(zone, piece.shelf.products)
    for under, over in itertools.pairwise(found):
        if under.role != "paint" or over.role not in ("paint", "clear"):
            continue
        if is_stripped(zone, under.place, over.place) or is_light(under):
            continue
        if is_said_waterborne(under.product) and base_of(over.product) == "drying oil":
            message = (
                f"is oil-based over the waterborne {under.product.name} of line"
                f" {under.step.line}: the hard film cracks on the softer one; stay with waterborne"
                " products to the end"
            )
            yield note(over, message)


def check_metal_wool(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield steel wool where a waterborne coat follows."""
    found = layers(zone, piece.shelf.products)
    for place, step in enumerate(zone.steps):
        wet = next((k for k in found if k.place >= place and _wets(k)), None)
        if wet is None or not _is_metal_wool(piece, place, zone):
            continue
        message = (
            f"leaves bits of steel that rust in the waterborne {wet.product.name} of line"
            f" {wet.step.line}: use an abrasive pad or fine paper"
        )
        yield Problem("note", step.line, "steel wool", message)


def _wets(layer: Layer) -> bool:
    return layer.role != "strip" and base_of(layer.product) == "water"


def _is_metal_wool(piece: Piece, place: int, zone: Zone) -> bool:
    step = zone.steps[place]
    sanding = abrading_of(step)
    coats = [coat for coat in coats_of([step]) if coat.between]
    names = [*step.work.uses, *([sanding.abrasive] if sanding else [])]
    names += [coat.between.abrasive for coat in coats if coat.between]
    forms = [piece.shelf.abrasives[name].form for name in names if name in piece.shelf.abrasives]
    told = " ".join(names + forms).lower()
    return "steel wool" in told or "wire wool" in told


TOGETHER_CHECKS: tuple[Callable[[Piece, Zone], Iterator[Problem]], ...] = (
    check_yellowing,
    check_film_on_waxed_spots,
    check_filler_under_stain,
    check_dye_lifts,
    check_paint_in_clear,
    check_thinning,
    check_scuff,
    check_oil_over_water,
    check_metal_wool,
)
