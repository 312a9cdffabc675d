"""Sessions of several zones, and hardware that is washed, on the shop sheet and in the lists."""

import re
from datetime import datetime
from io import StringIO
from pathlib import Path

import pytest
from piece_texts import exact, measured, piece_text
from rich.console import Console

from surfacecalc import api
from surfacecalc.api import MeasuredPiece
from surfacecalc.cautions import cautions
from surfacecalc.needs.draws import Draws
from surfacecalc.needs.job import job_needs
from surfacecalc.reports.plan_screen import print_plan
from surfacecalc.reports.use_lines import use_line
from surfacecalc.sheets.bench_words import bench_lines
from surfacecalc.sheets.make import sheet_of
from surfacecalc.supplies.shopping import supplies_of
from surfacecalc.units.display import Units

CLEAR = {"do": "top coat", "product": "clear", "coats": 1, "by": "brush", "together": "last",
         "stays_behind": "30 ml"}  # fmt: skip
WASH = {"do": "wash", "product": "soap", "strength": "10 %", "covers": "5 m2/L", "rinse": False,
        "hardware": "pulls"}  # fmt: skip
SAND = {"do": "sand", "grits": [120, 150, 180], "with": "disc"}


@pytest.fixture(scope="module")
def job() -> MeasuredPiece:
    """The top has 1 m2, the rest 1.4 m2, the 10 pulls 10 x 100 x 100 mm2 = 0.1 m2, flat."""
    text = piece_text(
        piece={"name": "Board", "unit": "m"},
        part=[{"name": "board", "shape": "board", "width": 1, "depth": 1, "height": 0.1}],
        zone=[
            {"name": "top", "faces": ["board.top"], "surface": "sealed", "step": [WASH, CLEAR]},
            {"name": "rest", "faces": ["board"], "surface": "sealed", "step": [SAND, CLEAR]},
        ],
        product=[
            {"name": "clear", "kind": "waterborne varnish", "covers": "10 m2/L"},
            {"name": "soap", "kind": "mineral spirits"},
        ],
        abrasive=[{"name": "disc", "form": "125 mm disc"}],
        hardware=[
            {"name": "pulls", "count": 10, "plan": "renew", "size": ["100 mm", "99 mm", "0.25 mm"]},
        ],
    )  # fmt: skip
    found = measured(exact(text))
    return MeasuredPiece(Path("board.toml"), found.piece, found.measured)


@pytest.fixture(scope="module")
def words(job: MeasuredPiece) -> str:
    html = sheet_of(job, Units.METRIC, "a4", for_client=False).html()
    return re.sub(r"\s+", " ", re.sub(r"<[^>]*>", " ", html))


def test_session_is_under_each_of_its_zones_with_the_others(words: str) -> None:
    steps = words[words.index("Wash pulls") :]
    top, rest = steps.split("Test the old finish for lead", 1)
    assert "2. Top coat: one coat of clear, by brush in one session with rest" in top
    there = r"in one session with top\s*: amounts and time are there"
    assert re.search(rf"4\. Sand P180.*5\. Top coat: .*brush {there}", rest)
    # what is mixed once is said once
    assert (1, 0) == (top.count("for this coat"), rest.count("for this coat"))


def test_session_has_both_zones_on_its_day(words: str) -> None:
    assert "Top and rest: top coat: one coat of clear" in words


def test_hardware_is_washed_with_what_its_own_area_takes(words: str) -> None:
    """10 x (100 x 99 + 2 x 0.25 x 199) mm2 = 0.1 m2; / 5 m2/L = 20 ml, a tenth of it cleaner."""
    assert "2.00 ml in 18.0 ml water" in words


def test_rest_in_the_tools_is_told_as_a_share_of_one_session(job: MeasuredPiece) -> None:
    """30 ml once, 1 / 2.4 of it for the top."""
    needs = [n for n in job_needs(job.piece, job.measured, Draws(64)) if n.name == "clear"]
    (supply,) = supplies_of(job.piece, needs, Draws(64))
    line = use_line(job.piece, supply, needs[0].uses[0], Units.METRIC)
    assert "+ 1 x 12.5 ml left in the tools, its share of one session" in line


def test_spirits_that_wash_hardware_are_told_as_vapour(job: MeasuredPiece) -> None:
    """What hardware is washed with is breathed like what a zone is washed with."""
    found = " ".join(one.text for one in cautions(job.piece, job.measured))
    assert "vapour" in found


def test_the_bench_amount_of_a_session_names_all_its_zones(job: MeasuredPiece) -> None:
    made = api.plan(job, datetime(2026, 11, 28, 9))
    lines = bench_lines(api.bench(job, made, api.supplies(job)), Units.METRIC)
    shown = StringIO()
    print_plan(Console(file=shown, width=80), job.piece, made, Units.METRIC, lines, why=True)
    table = shown.getvalue().split("At the bench")[1].split("Hands-on time")[0]
    assert re.search(r"top and rest +2 +top coat: one coat of clear", table)


def test_a_session_of_long_zones_leaves_room_for_what_is_done() -> None:
    zones = [
        {"name": name, "faces": [f"board.{side}"], "surface": "sealed", "step": [CLEAR]}
        for name, side in (("upper panel", "top"), ("lower panel", "front"))
    ]
    clear = {"name": "clear", "kind": "waterborne varnish", "covers": "10 m2/L"}
    job = measured(piece_text(zone=zones, product=clear))
    made = api.plan(job, datetime(2026, 11, 28, 9))
    shown = StringIO()
    print_plan(Console(file=shown, width=80), job.piece, made, Units.METRIC, {}, why=False)
    assert "top coat: one coat of" in shown.getvalue()
