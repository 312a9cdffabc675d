"""`[[product]]` tables become products; what they leave out comes from the catalogue."""

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from typing import Any

from surfacecalc.catalogue.entries import ProductClass
from surfacecalc.catalogue.kind_lookup import find_class, known_classes, nearest_kind
from surfacecalc.catalogue.own import NOTHING_OWN, OwnCatalogue
from surfacecalc.model.inputs import Input, Quantity
from surfacecalc.model.ranges import Factor
from surfacecalc.model.shelf import Basis, Pack, Product
from surfacecalc.problems import listing, suggestion
from surfacecalc.reading.coverage_keys import KEYS as COVERAGE_KEYS
from surfacecalc.reading.coverage_keys import as_sold, read_coverage
from surfacecalc.reading.drying_times import KEYS as DRYING_KEYS
from surfacecalc.reading.drying_times import read_drying
from surfacecalc.reading.jar_age import KEYS as AGE_KEYS
from surfacecalc.reading.jar_age import note_on_age
from surfacecalc.reading.on_hand import MOST_ON_HAND, read_density, read_on_hand
from surfacecalc.reading.part_tables import read_name
from surfacecalc.reading.prices_read import is_in_coins, read_money
from surfacecalc.reading.tables import Table

KEYS = (
    "name", "kind", *COVERAGE_KEYS, "packs", "on_hand", "thinner", "thin_most", "density",
    *DRYING_KEYS, *AGE_KEYS,
)  # fmt: skip
MOST_PRICE = 100_000_000
MOST_THINNER = 3.0
PACKS_EXAMPLE = '[{ size = "1 quart", price = 38 }]'


def read_products(
    document: Table, own: OwnCatalogue = NOTHING_OWN
) -> tuple[dict[str, Product], dict[str, int]]:
    """Return the products by name, and the line of every name, also of those with a mistake.

    Args:
        document: the whole piece file.
        own: what the user's own files have for it.
    """
    products: dict[str, Product] = {}
    lines: dict[str, int] = {}
    tables = list(document.tables("product", "[[product]]"))
    for table in tables:
        product = read_product(table, lines, own.classes)
        if product is not None:
            products.setdefault(product.name, product)
    products = {**own.products, **products}
    lines = {**own.product_lines, **lines}
    for table in tables:
        check_thinner(table, products, lines)
    return products, lines


def read_product(
    table: Table, lines: dict[str, int], classes: tuple[ProductClass, ...] = ()
) -> Product | None:
    """Return the product that a table describes, None where it has a mistake.

    Args:
        table: its table.
        lines: the line of each name that is taken; its own is added.
        classes: generic classes of the user's own.
    """
    name = read_name(table, "product", lines)
    table.only(KEYS)
    kind = table.text("kind", '"waterborne furniture paint"')
    entry = _entry(table, kind, classes)
    note_on_age(table)
    density = read_density(table)
    coverage, basis = as_sold(table, *read_coverage(table, name, entry), entry, density)
    product = Product(
        name=name,
        kind=kind,
        family=entry.family,
        basis=basis or "volume",
        coverage=coverage,
        packs=_packs(table, basis),
        on_hand=read_on_hand(table, basis),
        thinner=table.text("thinner") if "thinner" in table else None,
        line=table.line,
        density_kg_per_l=density,
        drying=read_drying(table, name, entry.drying),
        nature=entry.nature,
        file=table.context.file,
        thin_most=_thin_most(table),
        is_practical=entry.is_practical and not any(key in table for key in COVERAGE_KEYS),
        first_coat=replace(entry.first_coat, what=Input("first coat", of=name)),
        hardener=_of_class(entry.hardener, "coat hardener", name),
        pot_life=_of_class(entry.pot_life, "pot life", name),
    )
    return product if table.is_sound and basis is not None else None


def check_thinner(table: Table, products: Mapping[str, Product], lines: Mapping[str, int]) -> None:
    """Refuse a thinner that is not a product, or is sold by weight."""
    thinner = table.values.get("thinner")
    if not isinstance(thinner, str) or not thinner.strip():
        return
    if thinner not in lines:
        table.refuse("thinner", f"is not a product in this file; {suggestion(thinner, lines)}")
    elif thinner in products and products[thinner].basis != "volume":
        table.refuse("thinner", "is sold by weight, but a thinner must be sold by volume")


def _entry(table: Table, kind: str, classes: tuple[ProductClass, ...]) -> ProductClass:
    """Return the class that a kind names, or any after recording that it names none."""
    entry = find_class(kind, classes)
    if entry is not None:
        return entry
    known = known_classes(classes)
    if kind:
        near = nearest_kind(kind, classes)
        families = listing(dict.fromkeys(entry.family for entry in known), most=len(known))
        hint = f'did you mean "{near}"?' if near else f"write one that ends in {families}"
        table.refuse("kind", f"is not a kind of product I know; {hint}")
    return known[0]


def _thin_most(table: Table) -> float | None:
    """Return the most thinner that the label allows, None where the file does not say."""
    if "thin_most" not in table:
        return None
    share = table.share(table.values["thin_most"], "thin_most")
    if share is not None and not 0 <= share <= MOST_THINNER:
        table.refuse("thin_most", "must be from 0 % to 300 %: thinner by volume of the product")
    return share


def _of_class(usual: Factor | None, quantity: Quantity, name: str) -> Factor | None:
    """Return what a class says as something of one product."""
    return None if usual is None else replace(usual, what=Input(quantity, of=name))


def _packs(table: Table, basis: Basis | None) -> tuple[Pack, ...]:
    packs = []
    for pack in table.tables("packs", PACKS_EXAMPLE) if "packs" in table else ():
        pack.only(["size", "price"])
        size = None
        if pack.has("size", '"1 quart"'):
            size = _sold_amount(pack, basis, pack.values["size"], "size")
        if size is not None and size <= 0:
            pack.refuse("size", "must be more than zero")
        elif size is not None and size > MOST_ON_HAND:
            pack.refuse("size", "is over 1,000 litres or kilos; check the unit")
        price = read_price(pack)
        if size is not None and size > 0 and pack.is_sound:
            packs.append(Pack(size, pack.values["size"], price))
    return tuple(packs)


def read_price(pack: Table) -> Decimal | None:
    """Return the price of a pack, None where none is given."""
    if "price" not in pack:
        return None
    price = read_money(pack, "price", "38")
    if price is None:
        return None
    if not 0 <= price <= MOST_PRICE:
        pack.refuse("price", f"must be from 0 to {MOST_PRICE:,}")
        return None
    return price if is_in_coins(pack, "price", price) else None


def _sold_amount(table: Table, basis: Basis | None, value: Any, *keys: str | int) -> float | None:
    """Return an amount in what the product is sold by; nothing is checked where that is unknown."""
    return None if basis is None else table.amount(value, basis, *keys)
