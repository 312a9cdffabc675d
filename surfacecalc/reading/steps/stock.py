"""What steps may use: everything the file puts on the shelf, by name."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from surfacecalc.model.shelf import Abrasive, Consumable, Hardware, Product, Tape
from surfacecalc.problems import suggestion
from surfacecalc.reading.tables import Table


@dataclass(frozen=True)
class Stock:
    """What steps may use. The maps of lines hold every name, also of what has a mistake.

    Attributes:
        products: by name, mixes among them.
        abrasives: by name.
        tapes: by name.
        hardware: by name.
        consumables: by name.
        product_lines: line of each product and mix.
        abrasive_lines: line of each abrasive.
        tape_lines: line of each tape.
        hardware_lines: line of each piece of hardware.
        consumable_lines: line of each consumable.
        stays_behind: whether tray, brush and cup keep an assumed amount of each coat.
    """

    products: Mapping[str, Product]
    abrasives: Mapping[str, Abrasive]
    product_lines: Mapping[str, int]
    abrasive_lines: Mapping[str, int]
    tapes: Mapping[str, Tape] = field(default_factory=dict)
    hardware: Mapping[str, Hardware] = field(default_factory=dict)
    consumables: Mapping[str, Consumable] = field(default_factory=dict)
    tape_lines: Mapping[str, int] = field(default_factory=dict)
    hardware_lines: Mapping[str, int] = field(default_factory=dict)
    consumable_lines: Mapping[str, int] = field(default_factory=dict)
    stays_behind: bool = False


_NAMES = {"abrasive": "an abrasive", "hardware": "a piece of hardware"}
"""What a message calls what it is not simply "a" and its word."""


def check_known(
    table: Table, key: str, name: str, known: Mapping[str, int], what: str, *number: int
) -> None:
    """Record that a name is none of the file's products, abrasives, tapes ..."""
    if not name or name in known or what in table.context.unsure:
        return
    hint = suggestion(name, known) if known else f"add one as [[{what}]]"
    table.refuse(key, f"is not {_NAMES.get(what, f'a {what}')} in this file; {hint}", *number)


def read_product(table: Table, key: str, stock: Stock, example: str) -> Product | None:
    """Return the product that a key which must be there names, None where it is none."""
    name = table.text(key, example)
    check_known(table, key, name, stock.product_lines, "product")
    return stock.products.get(name)


def read_names(
    table: Table, key: str, known: Mapping[str, int], what: str, example: str
) -> tuple[str, ...]:
    """Return the names in a list that may be missing; each must be known."""
    if key not in table:
        return ()
    names = table.texts(key, example)
    for number, name in enumerate(names):
        check_known(table, key, name, known, what, number)
    return tuple(dict.fromkeys(names))
