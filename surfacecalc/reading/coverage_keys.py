"""How far a product goes, as its label or its data sheet says it."""

import contextlib
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from surfacecalc.catalogue.entries import ProductClass
from surfacecalc.model.inputs import Input, InputUnit
from surfacecalc.model.ranges import Factor, Range, Source
from surfacecalc.model.shelf import Basis
from surfacecalc.reading.tables import Table, shown
from surfacecalc.units.grammar import AmountError, parse_amount, parse_coverage
from surfacecalc.units.known import Dimension

KEYS = ("covers", "solids", "dry_film")
MOST_COVERAGE = 1_000.0
"""m2/L or m2/kg; a film thinner than 1 um is a wrong unit."""
MOST_DRY_FILM_UM = 1_000.0


def read_coverage(
    table: Table, name: str, entry: ProductClass
) -> tuple[tuple[Factor, ...], Basis | None]:
    """Return what the coverage is worked out from, and what the product is sold by.

    Args:
        table: the product's table.
        name: the product's name.
        entry: its class, which says what the table leaves out.
    """
    written = [key for key in KEYS if key in table]
    if written == ["covers"]:
        found, basis = read_covers(table)
        if found is None:
            return (), None
        return (_covers(name, found, basis, table.context.label),), basis
    if written == ["solids", "dry_film"]:
        return _film(table, name), "volume"
    if written:
        table.mend(
            f"has {' and '.join(written)}; give either covers, or solids and dry_film", written[0]
        )
        return (), None
    if entry.coverage is None:
        return (), entry.basis
    factor = _covers(name, entry.coverage, entry.basis, entry.source, entry.reference)
    return (replace(factor, is_band_assumed=entry.is_band_assumed),), entry.basis


def _covers(
    name: str, values: Range, basis: Basis | None, source: Source, reference: str = ""
) -> Factor:
    unit: InputUnit = "m2/kg" if basis == "weight" else "m2/L"
    return Factor(Input("coverage", of=name), values, source, reference, unit)


def as_sold(
    table: Table,
    coverage: tuple[Factor, ...],
    basis: Basis | None,
    entry: ProductClass,
    density_kg_per_l: float | None,
) -> tuple[tuple[Factor, ...], Basis | None]:
    """Return a coverage per litre or per kilo, as the product is sold: its density turns it over.

    A filler that is sold by volume fills holes without a density; only its coverage is not known.
    What makes no coat has none: a hardener is a paste or a liquid, as its packs say.

    Args:
        table: the product's table.
        coverage: what it is worked out from.
        basis: what that is per.
        entry: the product's class.
        density_kg_per_l: its density, None where it is not said.
    """
    sold = _sold_by(table)
    if basis is None or sold in (None, basis) or len(coverage) > 1:
        return coverage, basis
    if density_kg_per_l is not None:
        times = density_kg_per_l if sold == "volume" else 1 / density_kg_per_l
        return tuple(_scaled(factor, times, sold) for factor in coverage), sold
    if not coverage or (entry.family == "filler" and "covers" not in table):
        return (), sold
    return coverage, basis


def _sold_by(table: Table) -> Basis | None:
    """Return what all packs are measured in; None where there are none, or of both kinds."""
    packs = table.values.get("packs")
    tables = packs if isinstance(packs, list) else []
    sizes = [pack.get("size") for pack in tables if isinstance(pack, dict)]
    found = {_basis_of(size) for size in sizes if isinstance(size, str)}
    return found.pop() if len(found) == 1 else None


def _basis_of(size: str) -> Basis | None:
    dimensions: tuple[Basis, Basis] = ("volume", "weight")
    for dimension in dimensions:
        with contextlib.suppress(AmountError):
            parse_amount(size, dimension)
            return dimension
    return None


def _scaled(factor: Factor, times: float, sold: Basis | None) -> Factor:
    known = factor.range
    scaled = Range(known.low * times, known.likely * times, known.high * times)
    return replace(factor, range=scaled, unit="m2/L" if sold == "volume" else "m2/kg")


def read_covers(table: Table) -> tuple[Range | None, Basis | None]:
    """Return the coverage in `covers` [m2/L or m2/kg], and what it is per."""
    bases: set[Dimension] = set()

    def read(value: Any, *keys: str | int) -> float | None:
        coverage, basis = one_coverage(table, value, "covers", *keys)
        if basis is not None:
            bases.add(basis)
        return coverage

    found = table.range("covers", read, _at_most(MOST_COVERAGE, "1,000 m2 for a litre or a kilo"))
    if len(bases) > 1:
        table.refuse(
            "covers", 'must be all by volume, as in "10 m2/L", or all by weight, as in "8 m2/kg"'
        )
    if found is None or not table.is_sound:
        return None, None
    return found, "weight" if bases == {"weight"} else "volume"


def one_coverage(
    table: Table, value: Any, key: str, *keys: str | int
) -> tuple[float | None, Dimension | None]:
    """Return one coverage [m2/L or m2/kg] and what it is per, or None after recording a mistake.

    Args:
        table: the table that has it.
        value: as it is written.
        key: what it is called there.
        *keys: where it stands.
    """
    try:
        if not isinstance(value, str):
            raise AmountError('has no unit; write it like "10 m2/L" or "75 ft2/quart"')
        coverage, basis = parse_coverage(value)
    except AmountError as error:
        table.mend(f"{key} = {shown(value)} {error}", *keys)
        return None, None
    return float(coverage), basis


def _film(table: Table, name: str) -> tuple[Factor, ...]:
    def film_um(value: Any, *keys: str | int) -> float | None:
        length = table.length_mm(value, *keys)
        return None if length is None else length * 1_000

    solids = table.range("solids", table.share, _share_above_zero)
    film = table.range(
        "dry_film", film_um, _at_most(MOST_DRY_FILM_UM, '1 mm, and a film is more like "30 um"')
    )
    if solids is None or film is None:
        return ()
    return (
        Factor(Input("solids", of=name), solids, table.context.label),
        Factor(Input("dry film", of=name), film, table.context.label, unit="um"),
    )


def _at_most(most: float, what: str) -> Callable[[float], str | None]:
    def check(value: float) -> str | None:
        if value <= 0:
            return "must be more than zero"
        return f"is over {what}; check the unit" if value > most else None

    return check


def _share_above_zero(value: float) -> str | None:
    return None if 0 < value <= 1 else "must be more than 0 % and at most 100 %"
