"""What the catalogue files say, read on first use."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any

import tomli

from surfacecalc.model.inputs import Input, InputUnit, Quantity
from surfacecalc.model.ranges import Factor, Range, Source
from surfacecalc.model.shelf import Basis, Chemistry, Cleanup, Drying, Nature
from surfacecalc.model.steps import Gun
from surfacecalc.units.grammar import (
    parse_amount,
    parse_coverage,
    parse_share,
    parse_temperature,
)
from surfacecalc.units.known import Dimension

TIMES: tuple[Quantity, ...] = ("dry", "recoat", "cure")


@dataclass(frozen=True)
class ProductClass:
    """A generic class of products.

    Attributes:
        name: what it is called.
        family: what it belongs to.
        basis: whether it is sold by volume or by weight.
        coverage: m2/L or m2/kg; None for a thinner and what else makes no coat.
        source: where the coverage comes from.
        reference: its published source and what it was measured on.
        is_practical: whether the coverage was published from whole jobs, what is lost in it.
        is_band_assumed: whether one number was published, and low and high follow from the rows
            beside it.
        first_coat: share of the coverage that its first coat reaches on bare wood.
        nature: what it is made like.
        drying: how it dries; None for what is never left on the wood.
        spellings: other names.
        hardener: share of it, by volume, that is stirred in as hardener; None for none.
        pot_life: how long it stays usable once it is mixed [h]; None where it does not set.
    """

    name: str
    family: str
    basis: Basis
    coverage: Range | None
    source: Source
    reference: str
    first_coat: Factor
    nature: Nature
    drying: Drying | None
    spellings: tuple[str, ...] = ()
    hardener: Factor | None = None
    pot_life: Factor | None = None
    is_practical: bool = False
    is_band_assumed: bool = False


@dataclass(frozen=True)
class BaseWords:
    """What a product may be based on, and the words that tell it.

    Attributes:
        said: words that tell nothing else.
        meant: words that tell it where they are not the product's own family.
        chemistry: how such a product hardens.
        cleanup: what cleans a brush of it.
    """

    said: tuple[str, ...]
    meant: tuple[str, ...]
    chemistry: Chemistry
    cleanup: Cleanup


@cache
def product_classes() -> tuple[ProductClass, ...]:
    """Return the classes in the order of the file."""
    return tuple(_product_class(entry) for entry in _products()["class"])


@cache
def family_words() -> dict[str, tuple[str, ...]]:
    """Return the words that tell a family, by family."""
    return {family: tuple(words) for family, words in _products()["family_words"].items()}


@cache
def base_words() -> dict[str, BaseWords]:
    """Return what products may be based on, by name; the first that a kind tells counts."""
    return {
        name: BaseWords(
            tuple(entry["said"]), tuple(entry["meant"]), entry["chemistry"], entry["cleanup"]
        )
        for name, entry in _products()["bases"].items()
    }


@cache
def solids_share(family: str) -> Range:
    """Return the share of a coat's volume that stays when it has dried, of what leaves a film."""
    return _range(_products()["solids"][family], parse_share)


@cache
def first_coat_share(family: str) -> Range:
    """Return the share of its coverage that a family's first coat reaches on bare wood."""
    return _range(_products()["first_coat"][family], parse_share)


@cache
def loss_share(method: str) -> Range:
    """Return the share of what is used that never lands on the piece."""
    return _range(_products()["loss"][method], parse_share)


@cache
def gun_loss(gun: Gun) -> Factor:
    """Return the share of what a gun sprays that never lands on the piece."""
    entry = _products()["gun"][gun]
    share = _range(entry["loss"], parse_share)
    return Factor(Input("loss", by=gun), share, "published", _reference(entry["source"]))


@cache
def gun_cup(gun: Gun) -> Factor | None:
    """Return what the cup of a gun holds [L], None for one that draws from the can."""
    entry = _products()["gun"][gun]
    if "cup" not in entry:
        return None
    holds = _range(entry["cup"], lambda text: parse_amount(text, "volume"))
    return Factor(Input("cup", by=gun), holds, "assumed", unit="L")


@cache
def sprayed_past() -> Factor:
    """Return the share of spray that flies past slender parts."""
    share = _range(_products()["sprayed_past"]["slender"], parse_share)
    return Factor(Input("sprayed past"), share, "assumed")


@cache
def abrasive_forms() -> dict[str, dict[int, Range]]:
    """Return the life [m2] from each grit on, by form and by each of its spellings."""
    forms = {}
    for entry in _file("abrasives.toml")["form"]:
        life = {int(grit): _range(value, _area) for grit, value in entry["life"].items()}
        for name in (entry["name"], *entry["spellings"]):
            forms[name] = life
    return forms


@cache
def grades() -> dict[int, float | None]:
    """Return the FEPA P grades, coarse first, and their particle size [um] where published."""
    found = _file("abrasives.toml")["grades"]
    return {int(grade): size or None for grade, size in found.items()}


def _product_class(entry: dict[str, Any]) -> ProductClass:
    reference = _reference(entry.get("source", ""))
    told = _products()["references"].get(entry.get("source", ""), {})
    coverage, basis = _coverage(entry, told.get("spread", "0 %"))
    return ProductClass(
        name=entry["name"],
        family=entry["family"],
        basis=basis,
        coverage=coverage,
        source="published" if reference else "assumed",
        reference=reference,
        first_coat=_first_coat(entry),
        nature=Nature(entry["chemistry"], entry["cleanup"], entry.get("film", False)),
        drying=_drying(entry),
        spellings=tuple(entry.get("spellings", ())),
        hardener=_assumed(entry, "hardener", "coat hardener", parse_share, "share"),
        pot_life=_assumed(entry, "pot_life", "pot life", _time, "h"),
        is_practical=told.get("practical", False),
        is_band_assumed="spread" in told,
    )


def _reference(name: str) -> str:
    """Return a published source in one text: what, which edition, where in it, measured on what."""
    if not name:
        return ""
    told = _products()["references"][name]
    parts = ("title", "edition", "place", "measured_on")
    return "{}, {}, {}; measured on: {}".format(*(told[part] for part in parts))


def _first_coat(entry: dict[str, Any]) -> Factor:
    what = Input("first coat", of=entry["name"])
    if "first_coat" not in entry:
        return Factor(what, first_coat_share(entry["family"]), "assumed")
    share = _range(entry["first_coat"], parse_share)
    return Factor(what, share, "published", _reference(entry["source"]))


def _coverage(entry: dict[str, Any], spread: str) -> tuple[Range | None, Basis]:
    if "covers" not in entry:
        return None, entry.get("sold_by", "volume")
    covers = entry["covers"]
    _, dimension = _covers(covers if isinstance(covers, str) else covers[0])
    basis: Basis = "weight" if dimension == "weight" else "volume"
    found = _range(covers, lambda text: _covers(text)[0])
    off = found.likely * float(parse_share(spread))
    return Range(found.low - off, found.likely, found.high + off), basis


def _drying(entry: dict[str, Any]) -> Drying | None:
    if "dry" not in entry:
        return None
    coldest = None
    if "min_temp" in entry:
        coldest = _time_factor(entry, "min_temp", "coldest", parse_temperature, "C")
    dry, recoat, cure = (_time_factor(entry, key, key, _time) for key in TIMES)
    rub_out = _time_factor(entry, "rub_out", "rub out", _time) if "rub_out" in entry else None
    return Drying(dry, recoat, cure, coldest, rub_out)


def _assumed(
    entry: dict[str, Any],
    key: str,
    quantity: Quantity,
    parse: Callable[[str], Fraction],
    unit: InputUnit,
) -> Factor | None:
    """Return what a class says without a source, None where it says nothing."""
    if key not in entry:
        return None
    return Factor(
        Input(quantity, of=entry["name"]), _range(entry[key], parse), "assumed", unit=unit
    )


def _time_factor(
    entry: dict[str, Any],
    key: str,
    quantity: Quantity,
    parse: Callable[[str], Fraction],
    unit: InputUnit = "h",
) -> Factor:
    reference = _reference(entry.get("sources", {}).get(key, ""))
    source: Source = "published" if reference else "assumed"
    what = Input(quantity, of=entry["name"])
    return Factor(what, _range(entry[key], parse), source, reference, unit)


def _range(value: str | list[str], parse: Callable[[str], Fraction]) -> Range:
    values = [float(parse(text)) for text in (value if isinstance(value, list) else [value])]
    return Range(values[0], values[len(values) // 2], values[-1])


def _area(text: str) -> Fraction:
    return parse_amount(text, "area")


@cache  # the same few texts are all over the catalogue
def _time(text: str) -> Fraction:
    return parse_amount(text, "time")


@cache
def _covers(text: str) -> tuple[Fraction, Dimension]:
    return parse_coverage(text)


def _products() -> dict[str, Any]:
    return _file("products.toml")


@cache
def _file(name: str) -> dict[str, Any]:
    return tomli.loads(files("surfacecalc.catalogue").joinpath(name).read_text("utf-8"))
