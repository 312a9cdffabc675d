"""One list for several pieces on the screen."""

from rich.console import Console
from rich.padding import Padding

from surfacecalc.problems import printable
from surfacecalc.reports.screen import print_supplies
from surfacecalc.reports.table_style import plain_table
from surfacecalc.reports.use_lines import amount_text
from surfacecalc.supplies.together import Trip
from surfacecalc.units.display import Units


def print_trip(out: Console, trip: Trip, units: Units) -> None:
    """Print the supply list of all pieces, what each takes, and what was decided."""
    print_supplies(out, trip.piece, trip.supplies, units)
    out.print()
    out.print("What each piece takes", style="bold")
    table = plain_table(("Supply", "left"), *((printable(label), "right") for label in trip.pieces))
    for supply in trip.supplies:
        taken = trip.taken(supply)
        amounts = (taken.get(label, 0.0) for label in trip.pieces)
        cells = (amount_text(one, supply, units) if one else "" for one in amounts)
        table.add_row(printable(supply.title), *cells)
    out.print(table)
    if trip.remarks:
        out.print()
        out.print("Look at these", style="bold")
    for text in trip.remarks:
        out.print(Padding(printable(f"{text}."), (0, 0, 0, 4), expand=False))
