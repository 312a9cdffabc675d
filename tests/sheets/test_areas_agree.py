"""Every paper shows the same number for a zone: screen, table of the sheet, and drawing.

All examples, in square feet and in square metres; and the rows add up to the totals beside them.
"""

import io
import re
from collections.abc import Iterator
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest
from rich.console import Console

from surfacecalc.api import MeasuredPiece, measure, read_piece
from surfacecalc.elements import Element, Picture
from surfacecalc.reports.screen import print_areas
from surfacecalc.sheets.make import sheet_of
from surfacecalc.units.display import Units

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
AREA = re.compile(r"(?:under )?[\d,]+\.\d+ (?:sq ft|m2)")
each_example = pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
each_unit = pytest.mark.parametrize("units", list(Units), ids=lambda units: units.value)


@cache
def job_of(path: Path) -> MeasuredPiece:
    return measure(read_piece(path))


def number(text: str) -> Decimal:
    """Return what a reader adds up; what is under the least is nothing."""
    return (
        Decimal(0)
        if text.startswith("under")
        else Decimal(text.split(maxsplit=1)[0].replace(",", ""))
    )


def on_screen(
    job: MeasuredPiece, units: Units, number_of_area: int = -1
) -> tuple[dict[str, str], list[str]]:
    """Return each zone's area on the screen, and the areas in the line above the table.

    Of a set the first area of each line is that of one piece, the last that of all.
    """
    out = Console(file=io.StringIO(), width=200, color_system=None, highlight=False, markup=False)
    print_areas(out, job.piece, job.measured, units, faces=False)
    head, _, table = out.file.getvalue().partition("\n\n")  # type: ignore[attr-defined]
    rows = [(line, AREA.search(line)) for line in table.splitlines()]
    found = {
        line[: area.start()].strip(): AREA.findall(line)[number_of_area]
        for line, area in rows
        if area
    }
    told = [line for line in head.splitlines() if " to finish" in line]
    return found, AREA.findall(told[number_of_area])


def plain(names: dict[str, str]) -> dict[str, str]:
    return {name.removesuffix(" (left as it is)"): area for name, area in names.items()}


def pictures(node: Element) -> Iterator[Picture]:
    for child in node.children:
        if isinstance(child, Picture):
            yield child
        elif isinstance(child, Element):
            yield from pictures(child)


def on_sheet(job: MeasuredPiece, units: Units) -> tuple[dict[str, str], str, Element]:
    """Return each zone's area in the sheet's table, the total under it, and the drawing."""
    page = sheet_of(job, units, "a4", for_client=False).main
    (table,) = (one for one in page.all("table") if "Exposed area" in one.text)
    rows = [[cell.text for cell in row.elements] for row in table.all("tr")][1:]
    found = {cells[0]: AREA.findall(cells[-1])[0] for cells in rows}
    (drawing,) = (one.drawing for one in pictures(page))
    return found, found.pop("Total"), drawing


@each_unit
@each_example
def test_number_of_a_zone_is_the_same_text_on_every_paper(path, units):
    job = job_of(path)
    screen, head = on_screen(job, units)
    zones = plain(screen)
    sheet, total, drawing = on_sheet(job, units)
    assert {zone.zone.name for zone in job.measured.zones} <= set(zones)
    assert list(zones.values()) == list(sheet.values())
    texts = [node.text for node in drawing.all("text")]
    (desc,) = drawing.all("desc")
    of_one, head_of_one = on_screen(job, units, 0)
    for name, area in plain(of_one).items():
        assert area in texts, name  # the legend
        assert f"{name} {area}" in desc.text
    (line,) = [t for t in texts if t.endswith(head_of_one[-1]) or " to finish" in t][:1]
    assert head_of_one == AREA.findall(line)  # under the name of the piece
    assert number(total) == sum(map(number, zones.values())) == sum(map(number, head))
    left = [number(area) for name, area in screen.items() if name.endswith("(left as it is)")]
    assert number(head[0]) == sum(map(number, zones.values())) - sum(left) - sum(
        number(area) for name, area in screen.items() if name == "in no zone"
    )
