"""Steps that are worked by the piece, and the trial before anything is bought."""

from typing import assert_never

from surfacecalc.catalogue.step_defaults import patch_area_m2
from surfacecalc.model.inputs import Input
from surfacecalc.model.steps import HandWord, Handwork, Trial
from surfacecalc.reading.steps.decor_step import read_decoration
from surfacecalc.reading.steps.shares import read_amount, small_amount
from surfacecalc.reading.steps.stock import Stock, read_names, read_product
from surfacecalc.reading.steps.work import WORK_KEYS, read_work
from surfacecalc.reading.tables import Table

COUNTED_KEYS = ("do", "what", "count", "product", "each", *WORK_KEYS)
MOST_COUNT = 10_000
MOST_PATCH_M2 = 10.0


def read_handwork(table: Table, do: HandWord, stock: Stock) -> Handwork | None:
    """Return a step that is worked by the piece, None where it has a mistake."""
    match do:
        case "repair":
            return _by_the_piece(table, do, stock, '"loose joints"', "wood glue")
        case "decal":
            return _by_the_piece(table, do, stock, '"rose decals"', "decal fluid")
        case "decorate":
            return read_decoration(table, do, stock)
        case "dust off":
            return _by_area(table, do, stock)
        case "take off" | "refit":
            return _on_hardware(table, do, stock)
        case _:
            assert_never(do)


def _by_area(table: Table, do: HandWord, stock: Stock) -> Handwork | None:
    table.only(("do", *WORK_KEYS))
    work = read_work(table, stock)
    return Handwork(do, "", 1, None, None, (), table.line, work) if table.is_sound else None


def _on_hardware(table: Table, do: HandWord, stock: Stock) -> Handwork | None:
    table.only(("do", "hardware", *WORK_KEYS))
    hardware: tuple[str, ...] = ()
    if table.has("hardware", '["pulls"]'):
        hardware = read_names(table, "hardware", stock.hardware_lines, "hardware", '["pulls"]')
    work = read_work(table, stock)
    if not table.is_sound:
        return None
    count = sum(
        stock.shelf.hardware[name].count for name in hardware if name in stock.shelf.hardware
    )
    return Handwork(do, " and ".join(hardware), count, None, None, hardware, table.line, work)


def _by_the_piece(
    table: Table, do: HandWord, stock: Stock, what_example: str, with_example: str
) -> Handwork | None:
    """Return work on what is counted, with or without a product.

    Args:
        table: the step.
        do: its word.
        stock: what it may use.
        what_example: what may be worked on, in quotes.
        with_example: what may be used for it.
    """
    table.only(COUNTED_KEYS)
    what = table.text("what", what_example)
    count = table.whole("count", 1, MOST_COUNT) if "count" in table else 1
    product = (
        read_product(table, "product", stock, f'"{with_example}"') if "product" in table else None
    )
    each = None
    if product is not None and table.has("each", '"5 ml"'):
        each = read_amount(table, "each", Input("amount each"), product.basis, small_amount)
    elif "each" in table and "product" not in table:
        message = f'has each, but does not say of which product; add product = "{with_example}"'
        table.mend(message, "each")
    work = read_work(table, stock)
    if not table.is_sound:
        return None
    name = None if product is None else product.name
    return Handwork(do, what, count, name, each, (), table.line, work)


def read_test(table: Table, stock: Stock) -> Trial | None:
    """Return a test patch or sample board, None where it has a mistake."""
    table.only(("do", "patch", "products", *WORK_KEYS))
    patch_m2 = patch_area_m2()
    if "patch" in table:
        patch_m2 = table.amount(table.values["patch"], "area", "patch") or 0.0
        if table.is_sound and not 0 < patch_m2 <= MOST_PATCH_M2:
            table.refuse("patch", "must be more than zero and at most 10 m2")
    products = read_names(table, "products", stock.product_lines, "product", '["deep green"]')
    for number, name in enumerate(products):
        product = stock.shelf.products.get(name)
        if product is not None and not product.stays_on:
            table.refuse("products", "leaves nothing on the wood; take it out", number)
    work = read_work(table, stock)
    return Trial(patch_m2, products, table.line, work) if table.is_sound else None
