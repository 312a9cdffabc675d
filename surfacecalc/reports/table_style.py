"""The one look of tables on the screen: no lines, headings underlined, long words folded."""

from collections.abc import Sequence
from typing import Literal

from rich.cells import cell_len
from rich.console import Console
from rich.table import Table

from surfacecalc.problems import printable

Justify = Literal["left", "right"]
Column = tuple[str, Justify]
WIDE_GAP = 2
"""Spaces between columns; one where the table would not fit otherwise."""
WHOLE_SHARE = 0.4
"""Share of the screen up to which a name is kept on one line while other columns can give way."""


def plain_table(*columns: Column, headings: bool = True, widths: Sequence[int] = ()) -> Table:
    """Return an empty table with its headings.

    Args:
        *columns: heading of each column, and to which side its cells go.
        headings: whether the headings are shown.
        widths: least number of letters of each column, so that tables are in line.
    """
    table = Table(
        box=None,
        pad_edge=False,
        show_header=headings,
        header_style="underline",
        padding=(0, WIDE_GAP, 0, 0),
    )
    for name, justify in columns:
        table.add_column(printable(name), justify=justify, overflow="fold")
    for column, width in zip(table.columns, widths, strict=False):
        column.min_width = width
    return table


def fitted_table(
    out: Console, columns: Sequence[Column], rows: Sequence[Sequence[str]], *names: int
) -> Table:
    """Return a table without the columns that are empty in every row.

    Args:
        out: where it is printed.
        columns: heading of each column, and to which side its cells go.
        rows: the cells, ready to be shown.
        *names: numbers of the columns whose cells stay on one line as long as they are not wide;
            the other columns give way.
    """
    filled = [k for k in range(len(columns)) if any(row[k] for row in rows)]
    table = plain_table(*(columns[k] for k in filled))
    cells = [[columns[k][0] for k in filled], *([row[k] for k in filled] for row in rows)]
    widths = [max(_width(row[k]) for row in cells) for k in range(len(filled))]
    if sum(widths) + WIDE_GAP * (len(widths) - 1) > out.width:
        table.padding = (0, 1, 0, 0)
    for row in rows:
        table.add_row(*(row[k] for k in filled))
    for column, k in zip(table.columns, filled, strict=True):
        widest = max(_width(row[k]) for row in rows)
        column.no_wrap = k in names and widest <= WHOLE_SHARE * out.width
    return table


def _width(cell: str) -> int:
    """Return how many columns of the screen the longest line of a cell takes."""
    return max((cell_len(line) for line in cell.split("\n")), default=0)
