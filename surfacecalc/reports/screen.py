"""Plain tables for people, narrow enough for 80 columns."""

import os
import re
import sys
from collections.abc import Iterable, Iterator
from typing import Any, TextIO, cast

from rich.console import Console
from rich.padding import Padding
from rich.table import Table

from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import COLOURED
from surfacecalc.problems import Problem, format_problem, printable
from surfacecalc.reports.arithmetic import AsWritten, why
from surfacecalc.reports.certainty import certainty_lines, exact_word
from surfacecalc.reports.table_style import Column, fitted_table, plain_table
from surfacecalc.supplies.pack_words import bought_text
from surfacecalc.supplies.shopping import Supply, is_unpriced, total_cost, unpriced
from surfacecalc.units.display import (
    Units,
    format_amount,
    format_length,
    format_span,
    format_worked_area,
)
from surfacecalc.units.money import format_money
from surfacecalc.units.shown_areas import format_area
from surfacecalc.zones.area_words import areas_in_words, lines_to_mask
from surfacecalc.zones.areas import Measured, ZoneArea

NARROWEST, USUAL_WIDTH = 60, 80
"""Columns below which tables cannot be read, and those of a terminal that gives none."""
SUPPLY_COLUMNS: tuple[Column, ...] = (
    ("Supply", "left"), ("Need", "right"), ("Range", "left"), ("On hand", "right"),
    ("Buy", "left"),
)  # fmt: skip
NAME, NEED, ON_HAND, COST = 0, 1, 3, 5
"""Numbers of the columns that stay on one line."""


def console(*, stderr: bool = False) -> Console:
    """Return a console that takes user's text as it is: no markup, no emoji."""
    plain = bool(os.environ.get("NO_COLOR"))
    columns = os.environ.get("COLUMNS", "")
    is_narrow = columns.isdecimal() and int(columns) < NARROWEST
    return Console(
        file=cast(TextIO, _Trimmed(sys.stderr if stderr else sys.stdout)),
        markup=False,
        emoji=False,
        highlight=False,
        width=(NARROWEST if int(columns) else USUAL_WIDTH) if is_narrow else None,
        color_system=None if plain else "auto",
    )


class _Trimmed:
    """A stream that drops the spaces with which lines are filled up to their width."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def write(self, text: str) -> int:
        return self._stream.write(re.sub(r"[ ]+(?=\n)", "", text))

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)


def print_problems(out: Console, problems: Iterable[Problem], file: str) -> None:
    """Print problems, one line each; a screen shows long ones on several, no word broken."""
    for problem in problems:
        out.print(format_problem(problem, file), soft_wrap=not out.is_terminal)


def print_areas(
    out: Console, piece: Piece, measured: Measured, units: Units, *, faces: bool
) -> None:
    """Print zones with their area and the lines where they meet."""
    size = " x ".join(format_length(length, units) for length in measured.size_mm)
    out.print(printable(piece.settings.title), style="bold")
    out.print(
        f"{size} (width x depth x height)" if any(measured.size_mm) else "all parts are loose"
    )
    if measured.of_one:
        out.print(f"One of them: {areas_in_words(measured.one, units)}")
        out.print(f"All {piece.settings.count}: {areas_in_words(measured, units)}")
    else:
        out.print(areas_in_words(measured, units))
    out.print()
    out.print(_zone_table(piece.settings.count, measured, units))
    if faces:
        _print_faces(out, measured.one, units)


def _zone_table(count: int, measured: Measured, units: Units) -> Table:
    """Return the table of zones; of a set with the areas of one piece and of all."""
    amounts: list[Column] = [("Area", "right"), ("Line to mask", "left")]
    if count > 1:
        amounts = [("One", "right"), (f"All {count}", "right"), (f"Mask on all {count}", "left")]
    table = plain_table(("Zone", "left"), *amounts)
    for zone, one in zip(measured.zones, measured.one.zones, strict=True):
        name = f"{zone.zone.name} (left as it is)" if zone.zone.leave else zone.zone.name
        areas = (one.area_m2, zone.area_m2) if count > 1 else (zone.area_m2,)
        shown = (format_area(area_m2, units) for area_m2 in areas)
        table.add_row(printable(name), *shown, _meets(zone, units))
    if measured.in_no_zone:
        both = (measured.one.in_no_zone_m2, measured.in_no_zone_m2)
        shown = (format_area(area_m2, units) for area_m2 in both[count == 1 :])
        table.add_row("in no zone", *shown, "")
    return table


def _print_faces(out: Console, measured: Measured, units: Units) -> None:
    """Print every face of one piece with its area."""
    table = plain_table(("Zone", "left"), ("Part", "left"), ("Face", "left"), ("Area", "right"))
    for zone in measured.zones:
        for face in zone.faces:
            area = format_worked_area(face.area_m2, units)
            table.add_row(printable(zone.zone.name), printable(face.part), face.face, area)
    for face in measured.in_no_zone:
        area = format_worked_area(face.area_m2, units)
        table.add_row("in no zone", printable(face.part), face.face, area)
    out.print()
    out.print(table)


def print_supplies(out: Console, piece: Piece, supplies: list[Supply], units: Units) -> None:
    """Print the supply list with its total, and what its numbers mean."""
    out.print(printable(f"{piece.settings.title}: supplies"), style="bold")
    out.print()
    currency = piece.settings.currency
    total = "no price" if is_unpriced(supplies) else format_money(total_cost(supplies), currency)
    rows = [_supply_row(supply, currency, units) for supply in supplies]
    rows.append(("Total", "", "", "", "", total))
    whole = (NAME, NEED, ON_HAND, COST)
    cost: Column = (currency or "Cost", "right")
    out.print(fitted_table(out, (*SUPPLY_COLUMNS, cost), rows, *whole))
    out.print()
    for text in _notes(piece, supplies):
        out.print(text)


def _supply_row(supply: Supply, currency: str | None, units: Units) -> tuple[str, ...]:
    mark = "*" if supply.assumed else ""
    need = supply.need
    bought, hand = (
        format_amount(amount, supply.unit, units) for amount in (need.buy_for, supply.on_hand)
    )
    return (
        f"{printable(supply.title)}{mark}",
        bought,
        _span(supply, units),
        hand if supply.on_hand else "",
        _buy(supply, units),
        "no price" if supply.cost is None else format_money(supply.cost, currency),
    )


def _buy(supply: Supply, units: Units) -> str:
    """Return what to buy, or what to do instead."""
    if supply.buy:
        return "\n".join(
            printable(bought_text(pack, count, supply.unit)) for pack, count in supply.buy
        )
    if supply.what == "water":
        return "from the tap"
    if supply.mixed:
        return f"mix {format_amount(supply.mixed, supply.unit, units)}"
    return "no pack given" if supply.missing else "nothing"


def _span(supply: Supply, units: Units) -> str:
    need = supply.need
    if need.low == need.high:
        return exact_word(supply) if supply.is_exact else ""
    return format_span(need.low, need.high, need.buy_for, supply.unit, units)


def _notes(piece: Piece, supplies: list[Supply]) -> Iterator[str]:
    """Yield what the columns mean, and what the total does not count."""
    yield from map(printable, certainty_lines(piece, supplies))
    without = unpriced(supplies)
    if without:
        yield f"Not in the total, no price: {printable(', '.join(without))}."
    poured = ", ".join(_poured_together(piece, supplies))
    if poured:
        yield f"Pour all cans of the same colour together before the first coat: {poured}."


def _poured_together(piece: Piece, supplies: list[Supply]) -> Iterator[str]:
    """Yield colours of which there will be more than one can; each is a little off the next."""
    for supply in supplies:
        tins = sum(count for _, count in supply.buy) + (supply.on_hand > 0)
        product = piece.shelf.product(supply.key)
        if supply.buy and tins > 1 and product and product.family in COLOURED:
            yield printable(supply.name)


def print_why(
    out: Console,
    piece: Piece,
    supplies: list[Supply],
    units: Units,
    as_written: AsWritten | None = None,
) -> None:
    """Print how each number was made."""
    for supply in supplies:
        out.print()
        out.print(f"{printable(supply.title)} ({printable(supply.kind)})", style="bold")
        for line in why(piece, supply, units, as_written):
            out.print(Padding(printable(line.text), (0, 0, 0, 4), expand=False))


def _meets(zone: ZoneArea, units: Units) -> str:
    lines = lines_to_mask(zone, units)
    return "\n".join(f"{length} to {printable(other)}" for other, length in lines)
