"""`[[product]]` tables become products; what they leave out comes from the catalogue."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

from surfacecalc.catalogue.entries import ProductClass, product_classes
from surfacecalc.catalogue.lookup import find_class, nearest_kind
from surfacecalc.pieces import Basis, Pack, Product
from surfacecalc.problems import listing, suggestion
from surfacecalc.ranges import Factor
from surfacecalc.reading.jars import MOST_ON_HAND, read_on_hand
from surfacecalc.reading.parts import read_name
from surfacecalc.reading.tables import Table, shown
from surfacecalc.units.grammar import AmountError, parse_coverage
from surfacecalc.units.known import Dimension

KEYS = ("name", "kind", "covers", "solids", "dry_film", "packs", "on_hand", "thinner")
MOST_COVERAGE = 1_000.0
"""m2/L or m2/kg; a film thinner than 1 um is a wrong unit."""
MOST_PRICE = 1_000_000
MOST_DRY_FILM_UM = 1_000.0
PACKS_EXAMPLE = '[{ size = "1 quart", price = 38 }]'


def read_products(document: Table) -> tuple[dict[str, Product], dict[str, int]]:
    """Return the products by name, and the line of every name, also of those with a mistake."""
    products: dict[str, Product] = {}
    lines: dict[str, int] = {}
    thinners: list[tuple[Table, str]] = []
    for table in document.tables("product", "[[product]]"):
        product = _product(table, lines)
        if product is not None:
            products.setdefault(product.name, product)
        if product is not None and product.thinner is not None:
            thinners.append((table, product.thinner))
    for table, thinner in thinners:
        if thinner not in lines:
            table.refuse("thinner", f"is no product; {suggestion(thinner, lines)}")
        elif thinner in products and products[thinner].basis != "volume":
            table.refuse("thinner", "is sold by weight; a thinner is measured by volume")
    return products, lines


def _product(table: Table, lines: dict[str, int]) -> Product | None:
    name = read_name(table, "product", lines)
    table.only(KEYS)
    kind = table.text("kind", '"waterborne furniture paint"')
    entry = find_class(kind)
    if entry is None and kind:
        near = nearest_kind(kind)
        families = listing(dict.fromkeys(entry.family for entry in product_classes()))
        hint = f'did you mean "{near}"?' if near else f"a kind ends in one of {families}"
        table.refuse("kind", f"is no class of product; {hint}")
    if entry is None:
        entry = product_classes()[0]
    coverage, basis = _coverage(table, name, entry)
    packs = _packs(table, basis)
    on_hand = read_on_hand(table, basis)
    thinner = table.text("thinner") if "thinner" in table else None
    if not table.is_sound or basis is None:
        return None
    return Product(name, kind, entry.family, basis, coverage, packs, on_hand, thinner, table.line)


def _coverage(
    table: Table, name: str, entry: ProductClass
) -> tuple[tuple[Factor, ...], Basis | None]:
    """Return what the coverage is worked out from, and what the product is sold by."""
    written = [key for key in ("covers", "solids", "dry_film") if key in table]
    if written == ["covers"]:
        return _covers(table, name)
    if written == ["solids", "dry_film"]:
        return _film(table, name), "volume"
    if written:
        table.mend(
            f"has {' and '.join(written)}; give either covers, or solids and dry_film", written[0]
        )
        return (), None
    if entry.coverage is None:
        return (), "volume"
    factor = Factor(f"product {name} covers", entry.coverage, entry.source, entry.reference)
    return (factor,), entry.basis


def _covers(table: Table, name: str) -> tuple[tuple[Factor, ...], Basis | None]:
    bases: set[Dimension] = set()

    def read(value: Any, *keys: str | int) -> float | None:
        try:
            if not isinstance(value, str):
                raise AmountError('has no unit; write it like "10 m2/L" or "75 ft2/quart"')
            coverage, basis = parse_coverage(value)
        except AmountError as error:
            table.mend(f"covers = {shown(value)} {error}", *keys)
            return None
        bases.add(basis)
        return float(coverage)

    found = table.range("covers", read, _at_most(MOST_COVERAGE, "1 000 m2 for a litre or a kilo"))
    if len(bases) > 1:
        table.refuse("covers", "must be all per volume or all per weight")
    if found is None or not table.is_sound:
        return (), None
    basis: Basis = "weight" if bases == {"weight"} else "volume"
    return (Factor(f"product {name} covers", found, "label"),), basis


def _film(table: Table, name: str) -> tuple[Factor, ...]:
    def film_um(value: Any, *keys: str | int) -> float | None:
        length = table.length_mm(value, *keys)
        return None if length is None else length * 1_000

    solids = table.range("solids", table.share, _share_above_zero)
    film = table.range("dry_film", film_um, _at_most(MOST_DRY_FILM_UM, 'a film of 1 mm: "30 um"'))
    if solids is None or film is None:
        return ()
    return (
        Factor(f"product {name} solids", solids, "label"),
        Factor(f"product {name} dry_film", film, "label"),
    )


def _at_most(most: float, what: str) -> Callable[[float], str | None]:
    def check(value: float) -> str | None:
        if value <= 0:
            return "must be more than zero"
        return f"is over {what}; check the unit" if value > most else None

    return check


def _share_above_zero(value: float) -> str | None:
    return None if 0 < value <= 1 else "must be more than 0 % and at most 100 %"


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
            pack.refuse("size", "is over 1 000 litres or kilos; check the unit")
        price = read_price(pack)
        if size is not None and size > 0 and pack.is_sound:
            packs.append(Pack(size, pack.values["size"], price))
    return tuple(packs)


def read_price(pack: Table) -> Decimal | None:
    """Return the price of a pack, None where none is given."""
    if "price" not in pack:
        return None
    value = pack.number(pack.values["price"], "price")
    if value is None:
        return None
    if not 0 <= value <= MOST_PRICE:
        pack.refuse("price", f"must be from 0 to {MOST_PRICE:,}")
    return Decimal(str(pack.values["price"]))


def _sold_amount(table: Table, basis: Basis | None, value: Any, *keys: str | int) -> float | None:
    """Return an amount in what the product is sold by; nothing is checked where that is unknown."""
    return None if basis is None else table.amount(value, basis, *keys)
