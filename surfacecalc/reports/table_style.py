"""The one look of tables on the screen: no lines, headings underlined, long words folded."""

from typing import Literal

from rich.table import Table

Justify = Literal["left", "right"]


def plain_table(*columns: tuple[str, Justify]) -> Table:
    """Return an empty table with its headings."""
    table = Table(box=None, pad_edge=False, header_style="underline", padding=(0, 2, 0, 0))
    for name, justify in columns:
        table.add_column(name, justify=justify, overflow="fold")
    return table
