"""Notes on what is put over the old finish. Common practice, no source, but where one is named."""

from collections.abc import Callable, Iterator

from surfacecalc.catalogue.bases import says
from surfacecalc.checks.layers import (
    FILM,
    Layer,
    holds_back,
    layers,
    note,
    on_old_film,
    pairs,
    whole_coats,
)
from surfacecalc.checks.lightness import is_light
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.step_facts import sanding_of, takes_off, washing_of
from surfacecalc.problems import Problem

GRIPS = ("bonding", "adhesion", "shellac")
"""Words in the kind of what holds on an old film that nobody sanded."""
SMOOTH = ("varnished", "painted", "laminate", "metal")
"""Surfaces on which a new film holds only where they are clean and scuffed."""
TANNIN = (
    "oak", "mahogany", "walnut", "cherry", "chestnut", "teak", "rosewood", "sapele", "merbau",
    "iroko", "cedar", "redwood",
)  # fmt: skip
OPEN_GRAIN = ("oak", "ash", "chestnut", "elm", "mahogany", "sapele", "teak", "iroko", "walnut")
RESIN = ("pine", "fir", "spruce", "larch", "cedar")
"""Woods whose tannin or resin comes through a light film."""


def check_old_film(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield a new film on an old one that nobody washed and sanded."""
    first = next((k for k in whole_coats(zone, piece.shelf.products) if k.role in FILM), None)
    if first is None or zone.surface not in SMOOTH:
        return
    before = zone.steps[: first.place]
    grips = any(says(k.product, *GRIPS) for k in layers(zone, piece.shelf.products)[:1])
    if not on_old_film(zone, first.place) or grips:
        return
    if not any(map(sanding_of, before)):
        message = (
            f"goes on the old {zone.surface} surface, which no step sands: a new coat peels off a"
            " smooth old one, so wash it, then sand it dull with P180 to P220"
        )
        yield note(first, message)
    elif not any(map(washing_of, before)):
        message = (
            f"goes on the old {zone.surface} surface, which no step washes: sanding rubs grease and"
            ' old polish in, and no coat sticks to them; put do = "wash" before the sanding'
        )
        yield note(first, message)


def check_waxed(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield anything but wax on a waxed surface that nothing washed or stripped."""
    if zone.surface != "waxed":
        return
    coats = layers(zone, piece.shelf.products)
    first = next((layer for layer in coats if layer.role not in ("wax", "strip")), None)
    before = zone.steps[: first.place] if first else ()
    if first is not None and not any(washing_of(step) or takes_off(step) for step in before):
        message = (
            "goes on a waxed surface, and hardly anything sticks to wax: wash it off with mineral"
            " spirits first, and change the cloth often"
        )
        yield note(first, message)


def check_bleed(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield light paint over what bleeds through it with no blocking coat between.

    Where there are knots, the note on them asks for a blocking coat already.
    """
    found = layers(zone, piece.shelf.products)
    light = next((k for k in found if k.role == "paint" and is_light(k)), None)
    if light is None or zone.has_knots:
        return
    reason = _what_bleeds(zone, light)
    stripped = [k for k, step in enumerate(zone.steps[: light.place]) if takes_off(step)]
    under = [k for k in found if max(stripped, default=-1) < k.place < light.place]
    if reason and not any(holds_back(layer) for layer in under):
        message = (
            f"is light, and {reason}: it comes through as yellow or brown stains, sometimes weeks"
            ' later; first put on a blocking coat (do = "block")'
        )
        yield note(light, message)


def _what_bleeds(zone: Zone, light: Layer) -> str:
    """Return what bleeds through a light coat, empty for nothing."""
    species = zone.wood.species
    if any(word in species for word in TANNIN):
        return f"the tannin of {species} bleeds"
    if not on_old_film(zone, light.place) and any(word in species for word in RESIN):
        return f"the resin of {species} bleeds"
    if zone.surface == "varnished" and on_old_film(zone, light.place) and not species:
        return "the stain under an old varnish of unknown colour often bleeds"
    return ""


def check_open_grain(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield paint on bare wood with open pores that nothing filled."""
    found = layers(zone, piece.shelf.products)
    paint = next((layer for layer in found if layer.role == "paint" and layer.is_whole), None)
    species = zone.wood.species
    if paint is None or not any(word in species for word in OPEN_GRAIN):
        return
    if any(layer.role == "grain" for layer in found) or on_old_film(zone, paint.place):
        return
    message = (
        f"goes on {species}, whose open pores show through paint as fine lines: for a smooth face"
        ' first fill them (do = "fill grain")'
    )
    yield note(paint, message)


def check_lacquer(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield solvent lacquer over old paint."""
    for layer in whole_coats(zone, piece.shelf.products):
        if not _is_hot(layer) or zone.surface != "painted":
            continue
        if on_old_film(zone, layer.place):
            message = (
                "goes on old paint, and the strong solvent in lacquer lifts and wrinkles it: strip"
                " the paint, or use a waterborne clear coat"
            )
            yield note(layer, message)
        return


def check_lacquer_on_oil(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield solvent lacquer over an oil-based film of the same job."""
    found = layers(zone, piece.shelf.products)
    for oil, upper in pairs(zone, found, (*FILM, "oil"), ("clear",)):
        nature = oil.product.nature
        if _is_hot(upper) and nature is not None and nature.chemistry == "drying oil":
            message = (
                f"goes over the oil-based {oil.product.name} of line {oil.step.line}: its strong"
                " solvent lifts and wrinkles oil that has not hardened for months; put a coat of"
                " shellac between, or use a varnish"
            )
            yield note(upper, message)


def _is_hot(layer: Layer) -> bool:
    """Whether a coat is a lacquer in solvent strong enough to soften what is under it."""
    nature = layer.product.nature
    return (
        layer.product.family == "lacquer"
        and nature is not None
        and nature.chemistry == "evaporating solvent"
    )


def check_oil_on_film(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield oil that cannot soak in, on an old film or on one of this job."""
    found = layers(zone, piece.shelf.products)
    oil = next((layer for layer in found if layer.role == "oil"), None)
    if oil is None:
        return
    film = next(pairs(zone, found, (*FILM, "seal"), ("oil",)), None)
    if film is not None:
        under = f"the {film[0].product.name} of line {film[0].step.line}"
    elif on_old_film(zone, oil.place):
        under = f"a {zone.surface} surface"
    else:
        return
    message = (
        f"goes on {under}, where oil cannot soak in: it stays sticky on top; strip or sand to bare"
        " wood first, or use a varnish"
    )
    yield note(oil, message)


OLD_FINISH_CHECKS: tuple[Callable[[Piece, Zone], Iterator[Problem]], ...] = (
    check_old_film,
    check_waxed,
    check_bleed,
    check_open_grain,
    check_lacquer,
    check_lacquer_on_oil,
    check_oil_on_film,
)
