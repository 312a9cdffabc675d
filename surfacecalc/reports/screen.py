"""Plain tables for people, narrow enough for 80 columns."""

import os
import re
import sys
from collections.abc import Collection, Iterable, Iterator
from typing import TYPE_CHECKING, Any, TextIO, cast

from rich.console import Console
from rich.padding import Padding

from surfacecalc.cautions import CLOSING, Caution
from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import COLOURED
from surfacecalc.problems import Problem, format_problem, printable
from surfacecalc.reports.arithmetic import AsWritten, assumed_text, why
from surfacecalc.reports.table_style import Justify, plain_table
from surfacecalc.supplies.shopping import Supply, bought_text, is_unpriced, total_cost, unpriced
from surfacecalc.units.display import (
    Units,
    format_amount,
    format_area,
    format_length,
    format_money,
    format_run,
    format_share,
    format_span,
)
from surfacecalc.zones.areas import Measured, ZoneArea

if TYPE_CHECKING:  # of no use to the other lists, which start sooner without it
    from surfacecalc.needs.jars import Jar

NARROWEST, USUAL_WIDTH = 60, 80
"""Columns below which tables cannot be read, and those of a terminal that tells none."""


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
    """A stream that drops the blanks with which lines are filled up to their width."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def write(self, text: str) -> int:
        return self._stream.write(re.sub(r"[ ]+(?=\n)", "", text))

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)


def print_problems(out: Console, problems: Iterable[Problem], file: str) -> None:
    """Print problems, one line each, not wrapped."""
    for problem in problems:
        out.print(format_problem(problem, file), soft_wrap=True)


def print_areas(
    out: Console, piece: Piece, measured: Measured, units: Units, *, faces: bool
) -> None:
    """Print zones with their area and the lines where they meet."""
    size = " x ".join(format_length(length, units) for length in measured.size_mm)
    out.print(printable(piece.settings.name), style="bold")
    out.print(f"{size} (joined parts)" if any(measured.size_mm) else "all parts are loose")
    out.print(f"{format_area(measured.exposed_m2, units)} exposed (with loose parts)")
    out.print()
    table = plain_table(("Zone", "left"), ("Area", "right"), ("Meets", "left"))
    for zone in measured.zones:
        name = f"{zone.zone.name} (left as it is)" if zone.zone.leave else zone.zone.name
        table.add_row(printable(name), format_area(zone.area_m2, units), _meets(zone, units))
    if measured.in_no_zone:
        table.add_row("in no zone", format_area(measured.in_no_zone_m2, units), "")
    out.print(table)
    if faces:
        _print_faces(out, measured, units)


def _print_faces(out: Console, measured: Measured, units: Units) -> None:
    table = plain_table(("Zone", "left"), ("Part", "left"), ("Face", "left"), ("Area", "right"))
    for zone in measured.zones:
        for face in zone.faces:
            area = format_area(face.area_m2, units)
            table.add_row(printable(zone.zone.name), printable(face.part), face.face, area)
    for face in measured.in_no_zone:
        area = format_area(face.area_m2, units)
        table.add_row("in no zone", printable(face.part), face.face, area)
    out.print()
    out.print(table)


def print_supplies(out: Console, piece: Piece, supplies: list[Supply], units: Units) -> None:
    """Print the supply list with its total, and what in it is assumed."""
    out.print(printable(f"{piece.settings.name}: supplies"), style="bold")
    out.print()
    columns: list[tuple[str, Justify]] = [("Supply", "left"), ("Need", "right")]
    columns += [("Range", "left"), ("On hand", "right"), ("Buy", "left"), ("Cost", "right")]
    table = plain_table(*columns)
    for supply in supplies:
        table.add_row(*_supply_row(supply, units))
    table.add_section()
    total = f"{format_money(total_cost(supplies))} {piece.settings.currency or ''}".strip()
    table.add_row("Total", "", "", "", "", "no price" if is_unpriced(supplies) else total)
    out.print(table)
    _print_remarks(out, piece, supplies, units)


def _supply_row(supply: Supply, units: Units) -> tuple[str, ...]:
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
        "no price" if supply.cost is None else format_money(supply.cost),
    )


def _buy(supply: Supply, units: Units) -> str:
    """Return what to buy, or what to do instead."""
    if supply.buy:
        return "\n".join(printable(bought_text(pack, count)) for pack, count in supply.buy)
    if supply.what == "water":
        return "from the tap"
    if supply.mixed:
        return f"mix {format_amount(supply.mixed, supply.unit, units)}"
    return "no pack given" if supply.missing else "nothing"


def _span(supply: Supply, units: Units) -> str:
    need = supply.need
    if need.low == need.high:
        return ""
    return format_span(need.low, need.high, need.buy_for, supply.unit, units)


def _print_remarks(out: Console, piece: Piece, supplies: list[Supply], units: Units) -> None:
    out.print()
    if any(supply.need.low != supply.need.high for supply in supplies):
        share = format_share(piece.settings.buy_for)
        out.print(f"Need: enough in {share} of cases. Range: from the 5 % to the 95 % point.")
    without = unpriced(supplies)
    if without:
        out.print(f"Not in the total, no price: {printable(', '.join(without))}.")
    poured = ", ".join(_poured_together(piece, supplies))
    if poured:
        out.print(f"Pour all tins of one colour together before the first coat: {poured}.")
    assumed = {
        factor.key: assumed_text(factor, supply.unit, units)
        for supply in supplies
        for factor in supply.assumed
    }
    _print_assumed(out, assumed.values())


def _print_assumed(out: Console, texts: Collection[str]) -> None:
    """Print the assumed inputs of what has a star."""
    if texts:
        out.print("* rests on assumed values; write your own in the piece file:")
        for text in texts:
            out.print(Padding(printable(text), (0, 0, 0, 4), expand=False))


def _poured_together(piece: Piece, supplies: list[Supply]) -> Iterator[str]:
    """Yield colours of which there will be more than one tin; each is a little off the next."""
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
        for line in (one.text for one in why(piece, supply, units, as_written)):
            out.print(Padding(printable(line), (0, 0, 0, 4), expand=False))


def print_jars(out: Console, piece: Piece, found: "list[Jar]", units: Units) -> None:
    """Print how far what is on hand goes."""
    out.print(printable(f"{piece.settings.name}: what is on hand"), style="bold")
    if not found:
        out.print("The file has no product on_hand that a coat uses.")
        return
    share = format_share(piece.settings.buy_for)
    for jar in found:
        unit = "kg" if jar.product.basis == "weight" else "L"
        out.print()
        mark = "*" if jar.assumed else ""
        name = f"{jar.product.name}{mark}, {format_amount(jar.product.on_hand, unit, units)}"
        out.print(printable(name), style="bold")
        table = plain_table(
            ("Coats", "left"), ("Likely", "right"), (share, "right"), ("Lasts", "right")
        )
        for reach in jar.reaches:
            amounts = (format_amount(v, unit, units) for v in (reach.likely, reach.buy_for))
            table.add_row(_through(reach.coats), *amounts, f"{100 * reach.chance:.0f} %")
        out.print(table)
        out.print(_verdict(jar, share))
    assumed = {
        factor.key: assumed_text(factor, "kg" if jar.product.basis == "weight" else "L", units)
        for jar in found
        for factor in jar.assumed
    }
    if assumed:
        out.print()
    _print_assumed(out, assumed.values())


def _through(coats: int) -> str:
    return "first" if coats == 1 else f"first {coats}"


def _verdict(jar: "Jar", share: str) -> str:
    if jar.will_do:
        return f"It will do: it lasts through every coat in {share} of cases."
    lasts = "not even the first coat" if not jar.sure_coats else f"{_through(jar.sure_coats)} coats"
    if jar.sure_coats == 1:
        lasts = "the first coat only"
    return (
        f"Sure in {share} of cases: {lasts}. Top up and stir together before coat"
        f" {jar.sure_coats + 1}, not in it: a mixed colour is hard to match."
    )


def print_cautions(out: Console, found: list[Caution]) -> None:
    """Print the cautions that apply to a job."""
    if not found:
        return
    out.print()
    out.print("Safety", style="bold")
    for caution in found:
        text = (
            f"{caution.text} Here: {printable(caution.applies_to)}. [{'; '.join(caution.sources)}]"
        )
        out.print(Padding(text, (0, 0, 0, 4), expand=False))
    out.print(Padding(CLOSING, (0, 0, 0, 4), expand=False))


def _meets(zone: ZoneArea, units: Units) -> str:
    return "\n".join(
        f"{printable(other)} along {format_run(length, units)}"
        for other, length in zone.meets_m.items()
    )
