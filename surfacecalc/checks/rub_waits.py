"""Notes on written waits: before a film is rubbed out or waxed, and while a stripper works.

The times before rubbing out are those of the product's class; that a stripper must not dry on the
wood, and that a lye is neutralised, is common practice.
"""

from collections.abc import Callable, Iterator

from surfacecalc.catalogue.bases import is_caustic, says, taken_off_with
from surfacecalc.checks.layers import layers, whole_coats
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.polishing import polished_in
from surfacecalc.model.step_facts import coat_of, likely_coats, stripper_of, washing_of
from surfacecalc.problems import Problem
from surfacecalc.work.task_words import format_hours

LONGEST_STRIPPING_H = 2.0
"""A stripper that is left for longer dries on the wood again [h]; assumed."""
STAYS_WET = ("paste", "under film", "poultice")
"""Words in the kind of a stripper that is made to work for many hours."""
NEUTRALISES = ("vinegar", "acid", "neutraliser", "neutralizer")
"""Words in the kind or the name of what a lye is washed off with."""


def check_rub_out_wait(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield rubbing out or waxing that a written wait puts before the film is hard."""
    products = piece.shelf.products
    for layer in whole_coats(zone, products):
        drying, polish = layer.product.drying, polished_in(zone.steps, layer.place, products)
        if polish is None or drying is None or drying.rub_out_h is None:
            continue
        waits = [step.work.wait_h for step in zone.steps[layer.place : polish]]
        if waits[0] is None:
            continue  # the plan waits long enough
        written_h = sum(wait.range.likely for wait in waits if wait is not None)
        hard = drying.rub_out_h
        if written_h < hard.range.likely:
            step = zone.steps[polish]
            coat = coat_of(step)
            what = "waxes" if coat else "rubs out"
            message = (
                f"{what} the {layer.product.name} of line {layer.step.line} after"
                f" {format_hours(written_h)}; it is hard enough after"
                f" {format_hours(hard.range.likely)} ({hard.source}), and until then it smears,"
                " and scratches show again as it shrinks: wait longer, or take the wait out of that"
                " step so that the plan does"
            )
            yield Problem("note", step.line, "wait", message)


def check_stripper_wait(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield a stripper that a written wait lets dry before it is scraped or washed off."""
    for place, step in enumerate(zone.steps):
        stripper = stripper_of(step)
        if stripper is None or step.work.wait_h is None:
            continue
        then = zone.steps[place + 1 : place + 2]
        goes_on = likely_coats(stripper) > 1 or any(stripper_of(k) or washing_of(k) for k in then)
        product, wait_h = piece.shelf.products[stripper.product], step.work.wait_h.range.likely
        if goes_on and wait_h > LONGEST_STRIPPING_H and not says(product, *STAYS_WET):
            message = (
                f"lets the stripper lie for {format_hours(wait_h)}, and it dries on the wood again:"
                " scrape it off within the hour, then put on the next coat or wash it off, unless"
                " its label says otherwise"
            )
            yield Problem("note", step.line, "wait", message)


def check_neutralised(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield a caustic stripper that is washed, but not neutralised, before the next coat."""
    products = piece.shelf.products
    found = layers(zone, products)
    for layer in found:
        after = zone.steps[layer.place + 1 :]
        coats = [k for k in found if k.place > layer.place and k.role != "strip"]
        if layer.role != "strip" or not is_caustic(layer.product) or not coats:
            continue
        washes = [wash for wash in map(washing_of, after) if wash is not None]
        neutral = any(says(products[k.product], *NEUTRALISES, by_name=True) for k in washes)
        if washes and not neutral:
            message = (
                "is a lye, and what is left of it in the wood eats the next coat:"
                f" {taken_off_with(layer.product)}"
            )
            yield Problem("note", layer.step.line, f'strip "{layer.product.name}"', message)
            return


WAIT_CHECKS: tuple[Callable[[Piece, Zone], Iterator[Problem]], ...] = (
    check_rub_out_wait,
    check_stripper_wait,
    check_neutralised,
)
