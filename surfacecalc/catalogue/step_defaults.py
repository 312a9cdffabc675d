"""What a step takes where the file does not say, from steps.toml."""

from collections.abc import Callable
from functools import cache
from importlib.resources import files
from typing import Any

import tomli

from surfacecalc.catalogue.entries import gun_loss, loss_share
from surfacecalc.model.bands import LOSS_BAND, banded
from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.shelf import Product
from surfacecalc.model.steps import Change, Gun, Method
from surfacecalc.units.grammar import parse_amount, parse_coverage, parse_share


def wash_covers() -> Range:
    """Return the area that a litre of cleaning solution does [m2/L]."""
    return _range(_defaults()["wash"]["covers"], _coverage)


def rinse_covers() -> Range:
    """Return the area that a litre of rinse water does [m2/L]."""
    return _range(_defaults()["wash"]["rinse"], _coverage)


def filler_loss() -> Range:
    """Return the share of filler that is smeared or sanded away."""
    return _range(_defaults()["fill"]["loss"], _share)


def filler_shrinkage() -> Range:
    """Return the share of its volume that filler loses in setting."""
    return _range(_defaults()["fill"]["shrinkage"], _share)


def hardener_share() -> Factor:
    """Return the hardener of a two-part filler as a share of its weight."""
    return Factor(Input("hardener"), _range(_defaults()["fill"]["hardener"], _share), "assumed")


def usual_pot_life() -> Range:
    """Return how long a mixed coat stays usable where neither file nor kind says [h]."""
    return _range(_defaults()["coat"]["pot_life"], lambda text: float(parse_amount(text, "time")))


def tape_overlap() -> Factor:
    """Return the extra length of tape for corners and ends, as a share."""
    values = _range(_defaults()["mask"]["overlap"], _share)
    return banded(Factor(Input("tape overlap"), values, "assumed"), LOSS_BAND)


def worn_share() -> Factor:
    """Return the share of a zone that is worn where its edges are distressed."""
    return Factor(Input("worn"), _range(_defaults()["distress"]["share"], _share), "assumed")


def usual_loss(by: Method, gun: Gun | None = None) -> Factor:
    """Return the share of what is used that never lands on the piece.

    Args:
        by: how it is put on.
        gun: what it is sprayed with, where that is known.
    """
    if gun is not None:
        return banded(gun_loss(gun), LOSS_BAND, below=1)
    return banded(Factor(Input("loss", by=by), loss_share(by), "assumed"), LOSS_BAND, below=1)


def loss_of(product: Product | None, by: Method, gun: Gun | None = None) -> Factor:
    """Return the share of a product that never lands on the piece, where the step gives none.

    A coverage that was taken from whole jobs has what brush, roller and cloth lose in it already.
    A spray gun loses more than any of them, so its loss counts in full.
    """
    if product is None or not product.counts_loss or by == "spray":
        return usual_loss(by, gun)
    what = Input("loss in coverage", of=product.name)
    return Factor(what, Range.fixed(0.0), "published", product.published_in)


def patch_area_m2() -> float:
    """Return the area of a test patch [m2]."""
    return float(parse_amount(_defaults()["test"]["patch"], "area"))


def stays_behind(by: Method) -> Range:
    """Return what the tools keep of each coat [L, or kg of what is sold by weight]."""
    return _range(_defaults()["stays_behind"][by], lambda text: float(parse_amount(text, "volume")))


def full_tool(by: Method) -> float:
    """Return what a coat must put on for its tool to keep as much as it ever does [L or kg].

    Nought where the tool keeps as much of the smallest coat.
    """
    full = _defaults()["full_tool"].get(by)
    return float(parse_amount(full, "volume")) if full else 0.0


def more_coats(change: Change) -> Range:
    """Return how many coats more than usual a change of colour takes."""
    return _range(_defaults()["more_coats"][change], float)


def _coverage(text: str) -> float:
    return float(parse_coverage(text)[0])


def _share(text: str) -> float:
    return float(parse_share(text))


def _range(value: Any, read: Callable[[Any], float]) -> Range:
    values = [read(text) for text in (value if isinstance(value, list) else [value])]
    return Range(values[0], values[len(values) // 2], values[-1])


@cache
def _defaults() -> dict[str, Any]:
    return tomli.loads(files("surfacecalc.catalogue").joinpath("steps.toml").read_text("utf-8"))
