"""Notes on sanding, stripping and dusting before coats, and on the wood itself.

Common practice, no source, but for the grit on veneer.
"""

from collections.abc import Callable, Iterator

from surfacecalc.catalogue.bases import is_caustic, taken_off_with
from surfacecalc.catalogue.lookup import steps_too_wide
from surfacecalc.checks.layers import FILM, Layer, layers, note
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.step_facts import (
    abrading_of,
    clears_dust,
    coat_left,
    coat_of,
    handwork_of,
    rubs_finish,
    sanding_of,
    stripper_of,
    takes_off,
    washing_of,
)
from surfacecalc.model.steps import Sand, Step
from surfacecalc.problems import Problem

FINEST_BEFORE_COLOUR = 220
"""Finer paper polishes the wood, so that it takes less colour."""
COARSEST_BEFORE_PAINT = 100
"""The last grit must be at least this fine, or its scratches show through paint."""
COARSEST_ON_VENEER = 120
"""By machine: sheet on sanding of a university's extension service (Fact Sheet 6, HI 26, 1995)."""
PICKS_DUST_UP = ("tack", "vacuum", "dust")
"""Words in the name of what takes dust off with the step that uses it."""


def check_grits_across(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield a jump of grits from one sanding to the next with no coat between."""
    last: Sand | None = None
    for step in zone.steps:
        if coat_of(step) is not None:
            last = None
        sanding = sanding_of(step)
        if sanding is None:
            continue
        wide = steps_too_wide((last.grits[-1], sanding.grits[0])) if last else []
        for coarse, fine, ratio in wide:
            message = (
                f"starts with P{fine} after the P{coarse} of line {last.line if last else 0}:"
                f" {ratio:.1f} times finer, and past 1.7 times the finer paper wears out on the old"
                " scratches; put a grit between"
            )
            yield Problem("note", step.line, sanding.do, message)
        last = sanding


def check_last_grit(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield wood that is sanded too fine for colour, or too coarse for paint."""
    found = [k for k in layers(zone, piece.shelf.products) if k.role != "strip" and k.is_whole]
    if not found:
        return
    first = found[0]
    sanded = [step for step in map(sanding_of, zone.steps[: first.place]) if step]
    last = sanded[-1] if sanded else None
    if last is None or rubs_finish(last.do):
        return
    grit = last.grits[-1]
    if first.role in ("colour", "condition") and grit > FINEST_BEFORE_COLOUR:
        message = (
            f"ends with P{grit}, which polishes the wood so that the {first.product.name} of line"
            f" {first.step.line} comes out pale: stop at P180 or P{FINEST_BEFORE_COLOUR}"
        )
        yield Problem("note", last.line, last.do, message)
    if first.role in ("paint", "prime") and grit < COARSEST_BEFORE_PAINT:
        message = (
            f"ends with P{grit}, whose scratches show through the {first.product.name} of line"
            f" {first.step.line}: go on to P150 or P180"
        )
        yield Problem("note", last.line, last.do, message)


def check_dust(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield a coat on sanded wood that nothing dusted off."""
    found = [
        k
        for k in layers(zone, piece.shelf.products)
        if k.role in (*FILM, "seal", "colour", "condition", "oil")
    ]
    for place, step in enumerate(zone.steps):
        if abrading_of(step) is None:
            continue
        coat = next((layer for layer in found if layer.place > place), None)
        if coat is None or any(map(abrading_of, zone.steps[place + 1 : coat.place])):
            continue
        if not any(map(_dusts, zone.steps[place : coat.place + 1])):
            message = (
                f"goes on after the sanding of line {step.line} with nothing to take the dust off,"
                ' and dust stays in the film: put do = "dust off" between'
            )
            yield note(coat, message)


def _dusts(step: Step) -> bool:
    """Whether a step takes dust off: wiping, washing, or with what it uses."""
    work = handwork_of(step)
    uses = " ".join(step.work.uses).lower()
    return (
        (work is not None and clears_dust(work.do))
        or washing_of(step) is not None
        or any(word in uses for word in PICKS_DUST_UP)
    )


def check_left_bare(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield stripping after which no coat comes."""
    stripped = [k for k, step in enumerate(zone.steps) if takes_off(step)]
    if stripped and not any(map(_coat_on_zone, zone.steps[stripped[-1] :])):
        message = (
            "leaves bare wood and no coat follows: it takes up dirt and damp; oil, seal or wax it"
        )
        yield Problem("note", zone.steps[stripped[-1]].line, "strip", message)


def _coat_on_zone(step: Step) -> bool:
    coat = coat_left(step)
    return coat is not None and coat.hardware is None


def check_stripper_washed(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield stripper that nothing washes off before the next coat."""
    for place, step in enumerate(zone.steps):
        coat = stripper_of(step)
        if coat is None:
            continue
        later = [k for k, one in enumerate(zone.steps) if k > place and _coat_on_zone(one)]
        following = list(filter(stripper_of, zone.steps[place + 1 :]))
        if following or not later or any(map(washing_of, zone.steps[place + 1 : later[0]])):
            continue
        message = (
            "is not washed off before the next coat, and what is left of it softens that coat:"
            f' {taken_off_with(piece.shelf.products[coat.product])} (do = "wash")'
        )
        yield Problem("note", step.line, f'strip "{coat.product}"', message)


def check_veneer(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield coarse machine sanding and caustic stripper on veneer."""
    if not zone.wood.is_veneer:
        return
    thin = "" if zone.wood.veneer_mm is None else f", {zone.wood.veneer_mm:.2g} mm thick,"
    for step in zone.steps:
        sanding, coat = sanding_of(step), coat_of(step)
        if sanding and sanding.by == "machine" and min(sanding.grits) < COARSEST_ON_VENEER:
            message = (
                f"goes over veneer{thin} by machine with P{min(sanding.grits)}, which is through it"
                f" in seconds, at the edges first: start with P{COARSEST_ON_VENEER} or finer, and"
                " sand edges by hand"
            )
            yield Problem("note", step.line, sanding.do, message)
        if coat and is_caustic(piece.shelf.products[coat.product]):
            message = "is caustic: it loosens veneer and its glue; use another stripper"
            yield Problem("note", step.line, f'strip "{coat.product}"', message)


def check_cold(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield coats for which the workshop is too cold."""
    temperature_c = piece.workshop.temperature_c
    for layer in _first_of_each(layers(zone, piece.shelf.products)):
        drying = layer.product.drying
        coldest = drying.coldest_c.range.likely if drying and drying.coldest_c else None
        if temperature_c is not None and coldest is not None and temperature_c < coldest:
            message = (
                f"needs {coldest:.3g} C or more, and the workshop has {temperature_c:.3g} C: it"
                " dries badly or not at all; heat the room, or wait for warmer days"
            )
            yield note(layer, message)


def _first_of_each(found: list[Layer]) -> list[Layer]:
    return list({layer.product.name: layer for layer in reversed(found)}.values())[::-1]


PREPARATION_CHECKS: tuple[Callable[[Piece, Zone], Iterator[Problem]], ...] = (
    check_grits_across,
    check_last_grit,
    check_dust,
    check_left_bare,
    check_stripper_washed,
    check_veneer,
    check_cold,
)
