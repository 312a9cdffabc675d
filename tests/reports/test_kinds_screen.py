"""The kinds that the catalogue knows are shown as it has them, and KINDS.md as they are today.

Run as a script it writes the table anew: `python -P tests/reports/test_kinds.py`.
"""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from surfacecalc.catalogue.entries import product_classes
from surfacecalc.commands import app
from surfacecalc.reports.kinds_screen import HEADINGS, kind_rows, kinds_markdown

PAGE = Path(__file__).parents[2] / "surfacecalc" / "catalogue" / "KINDS.md"
START, END = "<!-- kinds -->\n", "<!-- end -->"
NAMES = [entry.name for entry in product_classes()]


def page_with_table() -> str:
    """Return the page with the catalogue's table put into its block."""
    text = PAGE.read_text(encoding="utf-8")
    before, rest = text.split(START)
    _, after = rest.split(END)
    return f"{before}{START}\n{kinds_markdown()}\n{END}{after}"


def shown(*options: str) -> str:
    run = CliRunner().invoke(
        app, ["kinds", *options], env={"COLUMNS": "80", "NO_COLOR": "1"}, catch_exceptions=False
    )
    assert run.exit_code == 0
    return run.output


def test_page_of_kinds_is_what_the_catalogue_says_today() -> None:
    assert page_with_table() == PAGE.read_text(encoding="utf-8")


def test_table_has_a_row_for_each_class_and_a_cell_for_each_heading() -> None:
    rows = kinds_markdown().splitlines()[2:]
    assert NAMES == [row.split(" | ")[0].removeprefix("| ") for row in rows]
    assert {len(HEADINGS)} == {len(row.strip("|").split("|")) for row in rows}


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        (
            "paste wax",
            ("wax", "51.2 m2/kg", "250 sq ft/lb", "100 %", "1 to 24 h", "covers"),
        ),
        (
            "oil paint",
            ("paint", "9.82 to 14.7 m2/L", "100 to 150 sq ft/qt", "58 to 89 %", "24 h to 3 days",
             "covers, min_temp"),
        ),
        (
            "shellac",
            ("shellac", "8 to 12 m2/L", "81.5 to 122 sq ft/qt", "58 to 89 %", "30 min to 6 h",
             "-"),
        ),
        (
            "oil varnish",
            ("varnish", "11 to 13.5 m2/L", "112 to 138 sq ft/qt", "78 to 82 %", "12 to 24 h",
             "covers, first coat"),
        ),
        (
            "putty",  # 36.9 m2/kg and 180 sq ft/lb were published, a fifth around it is assumed
            ("filler", "29.5 to 44.2 m2/kg", "144 to 216 sq ft/lb", "100 %", "24 h to 3 days",
             "covers"),
        ),
        ("water", ("thinner", "-", "-", "-", "-", "-")),
    ],
)  # fmt: skip
def test_row_says_what_the_catalogue_does(name: str, expected: tuple[str, ...]) -> None:
    (row,) = (row for row in kind_rows() if row.name == name)
    assert expected == row.cells[1:]


def test_screen_fits_80_columns_and_shows_the_units_asked_for() -> None:
    metric, us = shown(), shown("--unit", "us")
    assert max(len(line) for line in f"{metric}\n{us}".splitlines()) <= 80
    assert "m2/L" in metric
    assert "sq ft" not in metric
    assert "sq ft/lb" in us
    assert "m2" not in us


def test_json_has_every_class_with_its_sources() -> None:
    kinds = json.loads(shown("--json"))["kinds"]
    assert NAMES == [kind["kind"] for kind in kinds]
    for kind, entry in zip(kinds, product_classes(), strict=True):
        assert (entry.coverage is None) is (kind["covers"] is None)
        assert (entry.drying is None) is (kind["recoat_h"] is None)
        for key in ("covers", "first_coat", "dry_h", "recoat_h", "cure_h", "min_temp_c"):
            value = kind[key]
            assert value is None or value["source"]
            assert value is None or value["low"] <= value["likely"] <= value["high"]


if __name__ == "__main__":
    PAGE.write_text(page_with_table(), encoding="utf-8")
