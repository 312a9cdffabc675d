"""`[[mix]]` tables: a colour mixed from products, by parts."""

from collections.abc import Mapping

from surfacecalc.model.inputs import Input, InputUnit
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.shelf import Basis, Component, Product
from surfacecalc.reading.jar_age import KEYS as AGE_KEYS
from surfacecalc.reading.jar_age import note_on_age
from surfacecalc.reading.on_hand import read_on_hand
from surfacecalc.reading.part_tables import read_name
from surfacecalc.reading.steps.shares import read_covers
from surfacecalc.reading.steps.stock import check_known
from surfacecalc.reading.tables import Table

KEYS = ("name", "recipe", "by", "covers", "measure", "on_hand", "density", *AGE_KEYS)
RECIPE_EXAMPLE = '[{ product = "deep green", parts = 3 }, { product = "white", parts = 1 }]'
ASSUMED_MEASURE = 0.005
"""L or kg: 5 ml on a measuring cup, 5 g on kitchen scales; assumed."""
MOST_MEASURE = 10.0
MOST_PARTS = 1_000_000


def read_mixes(
    document: Table, products: dict[str, Product], lines: dict[str, int]
) -> dict[str, Product]:
    """Return the mixes by name, as products with a recipe; their names join the products' lines.

    Args:
        document: the whole file.
        products: what mixes are made of, by name.
        lines: the line of every product; a mix must have a name of its own.
    """
    plain = dict(lines)
    mixes: dict[str, Product] = {}
    for table in document.tables("mix", "[[mix]]"):
        mix = _mix(table, products, plain, lines)
        if mix is not None:
            mixes.setdefault(mix.name, mix)
    return mixes


def _mix(
    table: Table,
    products: Mapping[str, Product],
    plain: Mapping[str, int],
    lines: dict[str, int],
) -> Product | None:
    name = read_name(table, "mix", lines)
    table.only(KEYS)
    parts = _parts(table, products, plain)
    solid = [(parts_of, product) for product, parts_of in parts if product.coverage]
    if table.is_sound and not solid:
        table.refuse(
            "recipe", "has nothing in it that stays on the wood; add a paint, a stain or a varnish"
        )
    if not table.is_sound:
        return None
    basis = _basis(table, parts[0][0].basis)
    recipe = _recipe(table, parts, basis)
    coverage = _coverage(table, name, basis)
    on_hand = read_on_hand(table, basis)
    note_on_age(table)
    measure = _measure(table, basis)
    if not table.is_sound:
        return None
    main = max(solid, key=lambda part: part[0])[1]
    return Product(
        name=name,
        kind=main.kind,
        family=main.family,
        basis=basis,
        coverage=coverage,
        packs=(),
        on_hand=on_hand,
        thinner=main.thinner,
        line=table.line,
        recipe=recipe,
        batch_step=measure,
        drying=main.drying,
        nature=main.nature,
        hardener=None if _is_hardened(parts) else main.hardener,
        pot_life=main.pot_life,
    )


def _parts(
    table: Table, products: Mapping[str, Product], known: Mapping[str, int]
) -> list[tuple[Product, float]]:
    """Return the products of a recipe and their parts; each is in it once."""
    found: dict[str, tuple[Product, float]] = {}
    if not table.has("recipe", RECIPE_EXAMPLE):
        return []
    for inner in table.tables("recipe", RECIPE_EXAMPLE):
        inner.only(("product", "parts"))
        name = inner.text("product", '"deep green"')
        check_known(inner, "product", name, known, "product")
        parts = _number_of_parts(inner)
        if name in found:
            inner.refuse(
                "product", "is in the recipe twice; keep one of them, with the parts of both"
            )
        if name in products:
            found[name] = (products[name], parts)
    if table.is_sound and not sum(parts for _, parts in found.values()):
        table.mend(
            f"has a recipe whose parts add up to zero; write it like {RECIPE_EXAMPLE}", "recipe"
        )
    return list(found.values())


def _is_hardened(parts: list[tuple[Product, float]]) -> bool:
    """Whether a recipe has its hardener in it already."""
    return any(product.family == "hardener" for product, _ in parts)


def _number_of_parts(table: Table) -> float:
    if not table.has("parts", "3"):
        return 0.0
    number = table.number(table.values["parts"], "parts")
    if number is not None and not 0 <= number <= MOST_PARTS:
        table.refuse("parts", "must be from zero to 1,000,000")
    return float(number or 0)


def _basis(table: Table, usual: Basis) -> Basis:
    if "by" not in table:
        return usual
    return "weight" if table.choice("by", ("volume", "weight")) == "weight" else "volume"


def _recipe(
    table: Table, parts: list[tuple[Product, float]], basis: Basis
) -> tuple[Component, ...]:
    """Return how much of each product, in what it is sold by, a litre or kilo of the mix holds."""
    total = sum(number for _, number in parts)
    recipe = []
    for product, number in parts:
        per_unit = number / total
        if product.basis != basis and product.density_kg_per_l is None:
            table.refuse(
                "recipe",
                f'is by {basis}, but "{product.name}" is sold by {product.basis}; add density ='
                f' "1.3 kg/L" to the product on line {product.line}',
            )
        elif product.basis != basis:
            density = product.density_kg_per_l or 1.0
            per_unit = per_unit * density if basis == "volume" else per_unit / density
        recipe.append(Component(product, per_unit))
    return tuple(recipe)


def _coverage(table: Table, name: str, basis: Basis) -> tuple[Factor, ...]:
    """Return the mix's own coverage, nothing where it follows from what is in it."""
    if "covers" not in table:
        return ()
    unit: InputUnit = "m2/kg" if basis == "weight" else "m2/L"
    unused = Factor(Input("coverage", of=name), Range.fixed(1.0), "piece file", unit=unit)
    return (read_covers(table, "covers", unused, basis),)


def _measure(table: Table, basis: Basis) -> float:
    if "measure" not in table:
        return ASSUMED_MEASURE
    measure = table.amount(table.values["measure"], basis, "measure")
    if measure is not None and not 0 < measure <= MOST_MEASURE:
        table.refuse("measure", "must be more than zero and at most 10 litres or kilos")
    return measure or 0.0
