"""What steps may use: everything the file puts on the shelf, by name."""

from collections.abc import Mapping
from dataclasses import dataclass

from surfacecalc.model.shelf import Product, Shelf
from surfacecalc.problems import suggestion
from surfacecalc.reading.steps.renamed import renamed
from surfacecalc.reading.tables import Table


@dataclass(frozen=True)
class Stock:
    """What steps may use. The maps of lines hold every name, also of what has a mistake.

    Attributes:
        shelf: what has no mistake, by name.
        product_lines: line of each product and mix.
        abrasive_lines: line of each abrasive.
        tape_lines: line of each tape.
        hardware_lines: line of each piece of hardware.
        consumable_lines: line of each consumable.
        stays_behind: whether tray, brush and cup keep an assumed amount of each coat.
    """

    shelf: Shelf
    product_lines: Mapping[str, int]
    abrasive_lines: Mapping[str, int]
    tape_lines: Mapping[str, int]
    hardware_lines: Mapping[str, int]
    consumable_lines: Mapping[str, int]
    stays_behind: bool = False


_NAMES = {"abrasive": "an abrasive", "hardware": "a piece of hardware"}
"""What a message calls what it is not simply "a" and its word."""


def check_known(
    table: Table, key: str, name: str, known: Mapping[str, int], what: str, *number: int
) -> None:
    """Record that a name is none of the file's products, abrasives, tapes ..."""
    if not name or name in known or what in table.context.unsure:
        return
    new_name = renamed(name, what, table.context.document)
    if new_name is not None:
        hint = f'no step uses "{new_name}", so give both the same name'
    else:
        hint = suggestion(name, known) if known else f"add one as [[{what}]]"
    table.refuse(key, f"is not {_NAMES.get(what, f'a {what}')} in this file; {hint}", *number)


def read_product(table: Table, key: str, stock: Stock, example: str) -> Product | None:
    """Return the product that a key which must be there names, None where it is none."""
    name = table.text(key, example)
    check_known(table, key, name, stock.product_lines, "product")
    return stock.shelf.products.get(name)


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


def read_hardware_name(table: Table, stock: Stock) -> str | None:
    """Return the hardware that a step names by itself, None where it names none."""
    if "hardware" not in table:
        return None
    name = table.text("hardware", '"pulls"')
    check_known(table, "hardware", name, stock.hardware_lines, "hardware")
    return name


def read_worked_hardware(table: Table, stock: Stock) -> str | None:
    """Return the hardware that is worked on instead of the zone, which must have a size."""
    name = read_hardware_name(table, stock)
    found = stock.shelf.hardware.get(name or "")
    if found is not None and found.size_mm is None:
        table.refuse(
            "hardware", f"has no size; add size = [80, 25, 20] to the hardware on line {found.line}"
        )
    return name
