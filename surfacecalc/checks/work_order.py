"""Notes on the order of the work around the coats. Common practice."""

from collections.abc import Callable, Iterator

from surfacecalc.catalogue.bases import says
from surfacecalc.checks.layers import Layer, layers, note, whole_coats
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.step_facts import (
    abrading_of,
    coat_of,
    filling_of,
    fits_hardware,
    handwork_of,
    masking_of,
    picture_noun,
    removes_hardware,
    sanding_of,
    takes_off,
    trial_of,
    washing_of,
    wears_edges,
)
from surfacecalc.model.steps import Handwork, Step
from surfacecalc.problems import Problem

DEEP_HOLE_MM = 6.0
"""Deeper than that, one filling sinks back; common practice."""
SOFT_FILLERS = ("wax", "stick", "putty", "crayon", "burn in")
"""Fillers that go in after the finish, coloured to match it."""


def check_strip_after_coat(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield stripping after a coat of the same zone."""
    coats = [layer for layer in layers(zone, piece.shelf.products) if layer.role != "strip"]
    for place, step in enumerate(zone.steps):
        before = [layer for layer in coats if layer.place < place]
        if takes_off(step) and before:
            first = before[0]
            message = (
                f"takes off the {first.product.name} of line {first.step.line}: strip before the"
                " first coat"
            )
            yield Problem("note", step.line, "strip", message)


def check_fill_after_finish(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield filling after the finish, but for soft fillers; paint that follows covers the place."""
    found = layers(zone, piece.shelf.products)
    for place, step in enumerate(map(filling_of, zone.steps)):
        if step is None or says(piece.shelf.products[step.product], *SOFT_FILLERS):
            continue
        before = [k for k in found if k.place < place and k.role in ("paint", "clear", "wax")]
        covered = any(layer.role == "paint" and layer.place > place for layer in found)
        if before and not covered:
            message = (
                f"comes after the {before[-1].product.name} of line {before[-1].step.line},"
                " where it shows, and wood filler sticks to wood, not to a finish:"
                " fill before the finish, or use a coloured wax stick after it"
            )
            yield Problem("note", step.line, "fill", message)


def check_left_uncovered(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield spots that nothing covers, and primer as the last coat."""
    found = layers(zone, piece.shelf.products)
    for layer in found:
        covered = any(k.place > layer.place and k.is_whole and k.role != "strip" for k in found)
        if covered or layer.role not in ("prime", "seal"):
            continue
        if not layer.is_whole:
            yield note(layer, "is put on spots that no later coat covers, so they will show")
        elif _is_primer(layer):
            yield note(layer, "is the last coat here, but primer is made to be painted over")


def _is_primer(layer: Layer) -> bool:
    return layer.role == "prime" and not says(layer.product, "sealer", "shellac")


def check_hardware(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield hardware that goes back on too early or comes off too late."""
    coats = [
        layer for layer in layers(zone, piece.shelf.products) if layer.role not in ("wax", "strip")
    ]
    for place, step in enumerate(map(handwork_of, zone.steps)):
        if step is None:
            continue
        if fits_hardware(step.do):
            later = [k for k in zone.steps[place:] if _takes_off(k, step)]
            if later:
                message = f"comes before the take off of line {later[0].line}: swap the two steps"
                yield Problem("note", step.line, step.do, message)
            elif coats and coats[-1].place > place:
                message = (
                    f"comes before the {coats[-1].product.name} of line {coats[-1].step.line},"
                    " which would get on the hardware: refit it after the last coat"
                )
                yield Problem("note", step.line, step.do, message)
        if removes_hardware(step.do) and coats and coats[0].place < place:
            message = (
                f"comes after the {coats[0].product.name} of line {coats[0].step.line}, which went"
                " on around the hardware: take it off before the first coat"
            )
            yield Problem("note", step.line, step.do, message)


def _takes_off(step: Step, refit: Handwork) -> bool:
    """Whether a step takes off what another one fits; without names, by what is worked on."""
    found = handwork_of(step)
    if found is None or not removes_hardware(found.do):
        return False
    if found.hardware and refit.hardware:
        return not set(found.hardware).isdisjoint(refit.hardware)
    return found.what == refit.what


def check_decals(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield decals and decoration that do not stick, do not stay, or are not seen in the end."""
    found = [layer for layer in layers(zone, piece.shelf.products) if layer.is_whole]
    for place, step in enumerate(map(handwork_of, zone.steps)):
        noun = "" if step is None else picture_noun(step.do)
        if step is not None and noun:
            message = _on_wax(zone, found, place, noun) or _decal_lost(zone, found, place, noun)
            if message:
                yield Problem("note", step.line, step.do, message)


def _on_wax(zone: Zone, found: list[Layer], place: int, noun: str) -> str:
    under = [layer for layer in found if layer.place < place]
    if not under or under[-1].role != "wax":
        return ""
    if any(washing_of(k) or takes_off(k) for k in zone.steps[under[-1].place + 1 : place]):
        return ""
    return (
        f"goes over the wax of line {under[-1].step.line}, and a {noun} does not stick to wax:"
        f" put the {noun} on before the wax"
    )


def _decal_lost(zone: Zone, found: list[Layer], place: int, noun: str) -> str:
    """Return what hides a decal, takes it off, or may wear it off; empty for nothing."""
    over = [layer for layer in found if layer.place > place]
    first = over[0].place if over else len(zone.steps)
    for later, step in enumerate(zone.steps[place:], start=place):
        if takes_off(step) or (later < first and sanding_of(step)):
            return f"is taken off again in line {step.line}: put the {noun} on after that step"
    hides = next((layer for layer in over if layer.role in ("paint", "prime")), None)
    if hides is not None:
        return (
            f"is hidden by the {hides.product.name} of line {hides.step.line}: put the {noun} on"
            " after the last coat of paint"
        )
    if any(layer.role in ("clear", "seal") for layer in over):
        return ""
    return (
        "has no clear coat over it, so cleaning and wear can rub it off: put a clear coat over it"
        f" that the instructions of the {noun} allow"
    )


def check_distress(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield distressing that paint covers again, that opens the clear coat, or stays open."""
    found = whole_coats(zone, piece.shelf.products)
    for place, step in enumerate(map(abrading_of, zone.steps)):
        if step is None or not wears_edges(step.do):
            continue
        message = _wrong_place(
            [layer for layer in found if layer.place < place],
            [layer for layer in found if layer.place > place],
        )
        if message:
            yield Problem("note", step.line, step.do, message)


def _wrong_place(before: list[Layer], after: list[Layer]) -> str:
    """Return what is wrong with distressing between some coats; empty for nothing."""
    paint = next((layer for layer in after if layer.role in ("paint", "prime")), None)
    if paint is not None:
        return (
            f"comes before the {paint.product.name} of line {paint.step.line}, which covers the"
            " worn edges again: distress after the last coat of paint"
        )
    closing = [layer for layer in before if layer.role in ("clear", "oil", "wax")]
    if closing:
        return (
            f"wears through the {closing[0].product.name} of line {closing[0].step.line} and opens"
            " the edges: distress before it"
        )
    if not any(layer.role in ("clear", "seal", "oil", "wax") for layer in after):
        return (
            "leaves edges of bare wood that nothing covers, and they get dirty and swell: put a"
            " clear coat or wax over them"
        )
    return ""


def check_mask(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield masking with no coat after it."""
    for place, step in enumerate(zone.steps):
        if masking_of(step) and not any(map(coat_of, zone.steps[place:])):
            message = (
                "comes after the last coat of its zone, so it keeps nothing off: mask before the"
                " coat that must not get on the other zones"
            )
            yield Problem("note", step.line, "mask", message)


def check_test(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield a test after the coats that it should try out."""
    coats = [layer for layer in layers(zone, piece.shelf.products) if layer.role != "strip"]
    for place, step in enumerate(zone.steps):
        before = [layer for layer in coats if layer.place < place]
        if trial_of(step) and before:
            message = (
                f"comes after the {before[0].product.name} of line {before[0].step.line}: the test"
                " comes too late to help; move it before the first coat"
            )
            yield Problem("note", step.line, "test", message)


def check_deep_holes(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield deep holes that are filled in one go."""
    for step in map(filling_of, zone.steps):
        if step is not None and step.applications == 1:
            deepest_mm = max((hole.depth_mm for hole in step.holes), default=0.0)
            if deepest_mm > DEEP_HOLE_MM:
                message = (
                    "the filler in deep holes sinks back as it shrinks: fill them twice, the second"
                    " time when the first is hard (applications = 2)"
                )
                yield Problem("note", step.line, "fill", message)


WORK_CHECKS: tuple[Callable[[Piece, Zone], Iterator[Problem]], ...] = (
    check_strip_after_coat,
    check_fill_after_finish,
    check_deep_holes,
    check_left_uncovered,
    check_hardware,
    check_decals,
    check_distress,
    check_mask,
    check_test,
)
