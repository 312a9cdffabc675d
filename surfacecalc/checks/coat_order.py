"""Notes on the order of coats, each with its reason. Common practice, but for the cure."""

import itertools
from collections.abc import Callable, Iterator

from surfacecalc.catalogue.bases import base_of, is_said_waterborne, says
from surfacecalc.checks.layers import (
    BARE_FROM_GRIT,
    FILM,
    Layer,
    Role,
    is_stripped,
    layers,
    note,
    pairs,
)
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.ranges import Factor
from surfacecalc.model.shelf import Drying
from surfacecalc.model.step_facts import (
    coat_nature,
    likely_coats,
    sanding_of,
    takes_off,
    washing_of,
)
from surfacecalc.problems import Problem

NOT_ON_WAX: tuple[Role, ...] = ("condition", "colour", "glaze", "seal", "grain", *FILM)
PRIMES_ITSELF = ("furniture paint", "chalk", "milk", "casein", "mineral paint", "self priming")
"""Paints that are commonly put on bare wood as they are."""
USUAL_COATS: dict[Role, int] = {"paint": 4, "clear": 6}
"""Coats of one product beyond which a film gets thick and brittle; shellac, lacquer and oil are
built up of more."""
BUILT_UP = ("shellac", "lacquer")
FINE_GRIT = 320
"""From here on a grit only smooths and does not cut through a coat."""
SURE_COATS = 2
"""Clear coats over a colour from which sanding no longer reaches it."""
HOURS_IN_DAY = 24


def check_paint_over_clear(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield paint over a clear top coat."""
    found = layers(zone, piece.shelf.products)
    for clear, paint in pairs(zone, found, ("clear",), ("paint", "prime")):
        message = (
            f"goes over the clear coat of line {clear.step.line}, which it will hide and will not"
            " stick to: put the clear coat on last"
        )
        yield note(paint, message)


def check_over_wax(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield anything but wax and oil over wax that nothing washed or stripped off."""
    found = layers(zone, piece.shelf.products)
    for wax, upper in pairs(zone, found, ("wax",), NOT_ON_WAX):
        between = zone.steps[wax.place + 1 : upper.place]
        if not any(map(washing_of, between)):
            message = (
                f"goes over the wax of line {wax.step.line}: hardly anything sticks to or dries on"
                " wax; put the wax on last"
            )
            yield note(upper, message)


def check_colour_on_film(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield stain or dye where a film keeps it out of the wood."""
    found = layers(zone, piece.shelf.products)
    for film, colour in pairs(zone, found, (*FILM, "oil"), ("colour",)):
        if not says(colour.product, "gel"):
            message = (
                f"goes over the {film.product.name} of line {film.step.line}, which keeps it out"
                " of the wood: put the colour on before anything that seals"
            )
            yield note(colour, message)
    first = next((layer for layer in found if layer.role == "colour"), None)
    if first is not None and not _soaks_in(zone, first):
        fix = 'first strip it or sand it to bare wood (do = "strip"), or use a gel stain'
        if says(first.product, "gel"):
            fix = "first sand it dull, or strip it"
        yield note(
            first, f"the surface is {zone.surface}, and colour has to soak in or stick: {fix}"
        )


def _soaks_in(zone: Zone, colour: Layer) -> bool:
    """Whether a zone is bare when colour comes, as far as its steps tell."""
    if zone.surface in ("bare", None):
        return True
    before = zone.steps[: colour.place]
    sanded = [step for step in map(sanding_of, before) if step]
    if says(colour.product, "gel") and sanded:
        return True
    return any(map(takes_off, before)) or any(min(s.grits) <= BARE_FROM_GRIT for s in sanded)


def check_paint_on_bare(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield paint on bare wood with nothing under it, but for paints that prime themselves.

    Where there are knots, the note on them asks for a coat under the paint already.
    """
    found = [layer for layer in layers(zone, piece.shelf.products) if layer.role != "strip"]
    paint = next((layer for layer in found if layer.role == "paint"), None)
    if paint is None or zone.has_knots or says(paint.product, *PRIMES_ITSELF):
        return
    steps = zone.steps[: paint.place]
    last_bare = max((k for k, step in enumerate(steps) if takes_off(step)), default=-1)
    under = [k for k in found if last_bare < k.place < paint.place and k.role != "grain"]
    if not under and (zone.surface == "bare" or last_bare >= 0):
        message = (
            "goes on bare wood, where it soaks in unevenly and knots and tannin bleed through it:"
            " first prime, seal or block the wood"
        )
        yield note(paint, message)


def check_water_over_oil(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield waterborne coats on an oil-based one that has not cured.

    A primer is made to be painted over: it needs to be ready for the next coat, not cured.
    """
    found = [layer for layer in layers(zone, piece.shelf.products) if layer.role != "strip"]
    for oil, water in itertools.pairwise(found):
        drying = oil.product.drying
        if drying is None or not oil.is_whole or base_of(oil.product) != "drying oil":
            continue
        wait_h, ready = _wait_h(zone, oil, water), _ready(oil, drying)
        if is_stripped(zone, oil.place, water.place) or not is_said_waterborne(water.product):
            continue
        if wait_h < ready.range.likely:
            message = (
                f"is waterborne over the oil-based {oil.product.name} of line {oil.step.line},"
                f" {_time(wait_h)} later; the oil-based coat {_READY[ready.what.quantity]} in"
                f" {_time(ready.range.likely)} ({ready.source}), and a waterborne finish beads up"
                " or peels on it until then: wait, or put a coat of shellac between them"
            )
            yield note(water, message)


_READY = {"cure": "cures", "recoat": "is ready for paint"}


def _ready(oil: Layer, drying: Drying) -> Factor:
    return drying.recoat_h if oil.role == "prime" else drying.cure_h


def _wait_h(zone: Zone, first: Layer, then: Layer) -> float:
    """Return how long a coat rests before another one comes [h]."""
    waits = [step.work.wait_h for step in zone.steps[first.place : then.place]]
    written = sum(wait.range.likely for wait in waits if wait is not None)
    if waits[0] is None and first.product.drying is not None:
        return written + first.product.drying.recoat_h.range.likely
    return written


def _time(hours: float) -> str:
    if hours < 2 * HOURS_IN_DAY:
        return f"{hours:.3g} h"
    return f"{hours / HOURS_IN_DAY:.3g} days"


def check_sanding_colour(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield sanding that may cut through a stain or dye; colour that follows covers it."""
    found = layers(zone, piece.shelf.products)
    for place, step in enumerate(map(sanding_of, zone.steps)):
        if step is None or takes_off(step):
            continue
        colours = [k for k in found if k.role == "colour" and k.place < place]
        later = any(layer.role in ("colour", "paint") and layer.place > place for layer in found)
        if not colours or later or any(map(takes_off, zone.steps[colours[-1].place : place])):
            continue
        over = [k for k in found if colours[-1].place < k.place < place and k.is_whole]
        coats = sum(likely_coats(layer.step) for layer in over)
        if coats >= SURE_COATS or (coats > 0 and min(step.grits) >= FINE_GRIT):
            continue
        message = (
            f"can sand through the colour of line {colours[-1].step.line}: sand before the colour;"
            f" after it, sand only over a sealing coat, with P{FINE_GRIT} or finer"
        )
        yield Problem("note", step.line, step.do, message)


def check_conditioner(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield conditioner after the colour that it should even out."""
    found = layers(zone, piece.shelf.products)
    for colour, conditioner in pairs(zone, found, ("colour",), ("condition",)):
        message = (
            f"goes on after the colour of line {colour.step.line}: a conditioner evens out how the"
            " wood soaks up colour, so put it on before"
        )
        yield note(conditioner, message)


def check_lime_wax(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield lime wax on grain that was filled."""
    found = layers(zone, piece.shelf.products)
    for grain, wax in pairs(zone, found, ("grain",), ("wax",)):
        if coat_nature(wax.step.do) == "pore wax":
            message = (
                f"goes on after the grain was filled in line {grain.step.line}: the white wax"
                " stays in open pores only, so leave the grain filler out"
            )
            yield note(wax, message)


def check_many_coats(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield more coats of a paint or varnish than is usual."""
    coats: dict[str, float] = {}
    for layer in layers(zone, piece.shelf.products):
        usual = USUAL_COATS.get(layer.role)
        if usual is None or not layer.is_whole or layer.product.family in BUILT_UP:
            continue
        name, before = layer.product.name, coats.get(layer.product.name, 0.0)
        coats[name] = before + likely_coats(layer.step)
        if before <= usual < coats[name]:
            message = (
                f"{coats[name]:.0f} coats are more than the usual {usual} (common practice): thick"
                " films crack and stay soft; check the number"
            )
            yield note(layer, message)


COAT_CHECKS: tuple[Callable[[Piece, Zone], Iterator[Problem]], ...] = (
    check_paint_over_clear,
    check_over_wax,
    check_colour_on_film,
    check_paint_on_bare,
    check_water_over_oil,
    check_sanding_colour,
    check_conditioner,
    check_lime_wax,
    check_many_coats,
)
