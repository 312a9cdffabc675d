"""What the catalogue files say, read on first use."""

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from surfacecalc.pieces import Basis
from surfacecalc.ranges import Range, Source
from surfacecalc.units.grammar import parse_amount, parse_coverage, parse_share


@dataclass(frozen=True)
class ProductClass:
    """A generic class of products.

    Attributes:
        name: what it is called.
        family: what it belongs to.
        basis: whether it is sold by volume or by weight.
        coverage: m2/L or m2/kg; None for a thinner.
        source: "published" or "assumed".
        reference: the published source.
    """

    name: str
    family: str
    basis: Basis
    coverage: Range | None
    source: Source
    reference: str


@cache
def product_classes() -> tuple[ProductClass, ...]:
    """Return the classes in the order of the file."""
    return tuple(_product_class(entry) for entry in _products()["class"])


@cache
def family_words() -> dict[str, tuple[str, ...]]:
    """Return the words that tell a family, by family."""
    return {family: tuple(words) for family, words in _products()["family_words"].items()}


@cache
def first_coat_share(family: str) -> Range:
    """Return the share of its coverage that a family's first coat reaches on bare wood."""
    return _share_range(_products()["first_coat"][family])


@cache
def loss_share(method: str) -> Range:
    """Return the share of what is used that never lands on the piece."""
    return _share_range(_products()["loss"][method])


@cache
def abrasive_forms() -> dict[str, dict[int, Range]]:
    """Return the life [m2] from each grit on, by form and by each of its spellings."""
    forms = {}
    for entry in _abrasives()["form"]:
        life = {int(grit): _area_range(value) for grit, value in entry["life"].items()}
        for name in (entry["name"], *entry["spellings"]):
            forms[name] = life
    return forms


@cache
def grades() -> dict[int, float | None]:
    """Return the FEPA P grades, coarse first, and their particle size [um] where published."""
    return {int(grade): size or None for grade, size in _abrasives()["grades"].items()}


def _product_class(entry: dict[str, Any]) -> ProductClass:
    reference = entry.get("source", "")
    source: Source = "published" if reference else "assumed"
    if "covers" not in entry:
        return ProductClass(entry["name"], entry["family"], "volume", None, source, reference)
    covers = entry["covers"]
    parsed = [parse_coverage(text) for text in (covers if isinstance(covers, list) else [covers])]
    values = [float(value) for value, _ in parsed]
    basis: Basis = "weight" if parsed[0][1] == "weight" else "volume"
    coverage = Range(values[0], values[len(values) // 2], values[-1])
    return ProductClass(entry["name"], entry["family"], basis, coverage, source, reference)


def _share_range(value: str | list[str]) -> Range:
    values = [float(parse_share(text)) for text in (value if isinstance(value, list) else [value])]
    return Range(values[0], values[len(values) // 2], values[-1])


def _area_range(value: list[str]) -> Range:
    low, likely, high = (float(parse_amount(text, "area")) for text in value)
    return Range(low, likely, high)


def _products() -> dict[str, Any]:
    return _file("products.toml")


def _abrasives() -> dict[str, Any]:
    return _file("abrasives.toml")


@cache
def _file(name: str) -> dict[str, Any]:
    return tomllib.loads(files("surfacecalc.catalogue").joinpath(name).read_text("utf-8"))
