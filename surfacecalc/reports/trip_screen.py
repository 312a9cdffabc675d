"""One list for several pieces on the screen."""

from rich.console import Console
from rich.padding import Padding

from surfacecalc.problems import printable
from surfacecalc.reports.screen import print_supplies
from surfacecalc.reports.table_style import Column, fitted_table
from surfacecalc.reports.use_lines import amount_text
from surfacecalc.supplies.shopping import Supply
from surfacecalc.supplies.together import Trip
from surfacecalc.units.display import Units


def print_trip(out: Console, trip: Trip, units: Units) -> None:
    """Print the supply list of all pieces, how much each piece needs, and what was decided."""
    print_supplies(out, trip.piece, trip.supplies, units)
    out.print()
    out.print("How much each piece needs", style="bold")
    columns: list[Column] = [("Supply", "left")]
    columns += [(label, "right") for label in trip.pieces]
    rows = [_shares(trip, supply, units) for supply in trip.supplies]
    out.print(fitted_table(out, columns, rows, 0) if rows else "")
    if trip.remarks:
        out.print()
        out.print("Check these", style="bold")
    for text in trip.remarks:
        out.print(Padding(printable(f"{text}."), (0, 0, 0, 4), expand=False))


def _shares(trip: Trip, supply: Supply, units: Units) -> list[str]:
    """Return a supply and how much of it each piece needs."""
    taken = trip.taken(supply)
    amounts = (taken.get(label, 0.0) for label in trip.pieces)
    cells = (amount_text(one, supply, units) if one else "" for one in amounts)
    return [printable(supply.title), *cells]
