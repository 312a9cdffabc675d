"""What each step is worked with: common practice, no source."""

from collections.abc import Iterator
from typing import assert_never

from surfacecalc.catalogue.bases import base_of
from surfacecalc.gear.gear import Gear
from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import Product
from surfacecalc.model.step_facts import coat_nature
from surfacecalc.model.step_supplies import steps_of
from surfacecalc.model.steps import Coat, Fill, Handwork, Mask, Sand, Step, Trial, Unmask, Wash

WATER_BRUSH = Gear("brush with synthetic bristle", ("brush",))
OIL_BRUSH = Gear("brush with natural bristle", ("brush",))
OLD_BRUSH = Gear("throwaway brush", ("brush",))
SCRAPER = Gear("scraper", ("scraper",))
SLEEVE = Gear("roller sleeve", ("sleeve", "roller"))
TRAY = Gear("roller tray", ("tray",))
STRAINER = Gear("paint strainers", ("strainer",))
CLOTHS = Gear("lint-free cloths", ("cloth", "rag", "lint-free"))
CUPS = Gear("mixing cups with marks, and stirring sticks", ("mixing cup", "cups", "stir"))
KNIFE = Gear("filling knife", ("knife", "spatula"))


def tools(piece: Piece) -> Iterator[tuple[Gear, str]]:
    """Yield what the steps of a piece are worked with, and the product that it is for."""
    for step in steps_of(piece):
        yield from _tools_of(step, piece)


def _tools_of(step: Step, piece: Piece) -> Iterator[tuple[Gear, str]]:
    match step:
        case Coat():
            product = piece.shelf.products[step.product]
            for tool in (*_put_on_with(step, product), *_stirred_with(step, product)):
                yield tool, product.name
        case Fill():
            yield KNIFE, step.product
            if step.hardener is not None:
                yield CUPS, step.product
        case Handwork(do="dust off"):
            yield CLOTHS, "dusting off"
        case Wash() | Mask() | Unmask() | Trial() | Handwork() | Sand():
            return
        case _:
            assert_never(step)


def _put_on_with(coat: Coat, product: Product) -> Iterator[Gear]:
    """Yield what a coat is put on with, and what it is taken off with."""
    is_stripper = coat_nature(coat.do) == "stripper"
    match coat.by:
        case "brush":
            yield OLD_BRUSH if is_stripper else _brush(product)
        case "roller":
            yield SLEEVE
            yield TRAY
        case "cloth":
            yield CLOTHS
        case "spray":
            yield STRAINER
        case _:
            assert_never(coat.by)
    if is_stripper:
        yield SCRAPER


def _brush(product: Product) -> Gear:
    """Return the brush that a product asks for: water swells natural bristle."""
    return WATER_BRUSH if base_of(product) == "water" else OIL_BRUSH


def _stirred_with(coat: Coat, product: Product) -> Iterator[Gear]:
    stirred_in = (coat.thin, coat.tint, coat.hardener)
    if product.recipe or any(added is not None for added in stirred_in):
        yield CUPS
