"""What a table of a page holds, row by row."""

from collections.abc import Iterable
from dataclasses import dataclass

from surfacecalc.elements import Element


@dataclass(frozen=True)
class Cell:
    """A cell of a table.

    Attributes:
        element: its element of the page.
        columns: how many columns it takes.
        is_head: whether it says what its row or column is.
        is_number: whether it holds a number.
    """

    element: Element
    columns: int
    is_head: bool
    is_number: bool


Rows = list[list[Cell]]


@dataclass(frozen=True)
class PdfTable:
    """A table.

    Attributes:
        captions: elements that are above it, one or none.
        head: rows that are repeated on each page.
        body: rows between them.
        foot: rows that end it.
    """

    captions: list[Element]
    head: Rows
    body: Rows
    foot: Rows

    @property
    def columns(self) -> int:
        """How many columns it has."""
        rows = [*self.head, *self.body, *self.foot]
        return max((sum(cell.columns for cell in row) for row in rows), default=1)

    @property
    def number_columns(self) -> set[int]:
        """Which of its columns hold numbers, the first being 0."""
        rows = [*self.head, *self.body, *self.foot]
        return {
            sum(cell.columns for cell in row[:place])
            for row in rows
            for place, cell in enumerate(row)
            if cell.is_number
        }


def table_of(element: Element) -> PdfTable:
    """Return a table of a page; rows in no part of it belong to its body."""
    return PdfTable(
        captions=[child for child in element.elements if child.tag == "caption"],
        head=_rows(part for part in element.elements if part.tag == "thead"),
        body=_rows(part for part in element.elements if part.tag in ("tbody", "tr")),
        foot=_rows(part for part in element.elements if part.tag == "tfoot"),
    )


def _rows(parts: Iterable[Element]) -> Rows:
    rows = [row for part in parts for row in ([part] if part.tag == "tr" else part.all("tr"))]
    return [[_cell(child) for child in row.elements] for row in rows]


def _cell(element: Element) -> Cell:
    columns = element.attributes.get("colspan", "1")
    return Cell(
        element,
        columns=int(columns) if columns.isdecimal() else 1,
        is_head=element.tag == "th",
        is_number="number" in element.classes,
    )
