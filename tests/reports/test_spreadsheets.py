"""A plan for a spreadsheet: every session of every task, exact, and nothing run as a formula."""

import csv
import io
import json
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from surfacecalc import clock
from surfacecalc.commands import app

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.plan.txt"))
Show = Callable[..., str]


@pytest.fixture
def show(monkeypatch: pytest.MonkeyPatch) -> Show:
    """Run `plan` and return what it prints, at a time that stands still."""
    monkeypatch.setattr(clock, "now", lambda: datetime(2026, 11, 25, 15, 7))

    def run(*words: object) -> str:
        result = CliRunner().invoke(app, ["plan", *map(str, words)], catch_exceptions=False)
        assert 0 == result.exit_code, result.output
        return result.stdout

    return run


def rows_of(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


@pytest.mark.parametrize("plan", EXAMPLES, ids=lambda path: path.name.partition(".")[0])
def test_csv_has_each_session_of_the_plan(plan: Path, show: Show) -> None:
    file = plan.with_name(plan.name.replace(".plan.txt", ".toml"))
    tasks: list[dict[str, Any]] = json.loads(show(file, "--json"))["tasks"]
    rows = rows_of(show(file, "--csv"))
    expected = [
        (task["zone"], task["task"], session["from"].replace("T", " "))
        for task in tasks
        for session in task["sessions"]
    ]
    assert [] != expected
    assert expected == [(row["zone"], row["task"], row["from"]) for row in rows]
    hours = sum(float(row["hands_on_h"] or 0) for row in rows)
    assert pytest.approx(sum(task["hands_on_h"] for task in tasks)) == hours


def test_a_zone_named_as_a_formula_stays_text(show: Show, tmp_path: Path) -> None:
    text = (EXAMPLES[0].with_name("mixed-nightstand.toml")).read_text(encoding="utf-8")
    assert 'name = "outside"' in text
    path = tmp_path / "piece.toml"
    path.write_text(text.replace('name = "outside"', 'name = "=outside"'), encoding="utf-8")
    zones = {row["zone"] for row in rows_of(show(path, "--csv"))}
    assert "'=outside" in zones
    assert not any(zone.startswith("=") for zone in zones)
