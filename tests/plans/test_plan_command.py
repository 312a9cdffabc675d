"""`surfacecalc plan`, from the file to the screen, to JSON and to a calendar."""

import json
import subprocess
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from icalendar import Calendar
from typer.testing import CliRunner, Result

from surfacecalc import clock
from surfacecalc.commands import app

PIECE = """\
[piece]
name = "Stool"
unit = "m"

[[part]]
name = "seat"
shape = "board"
width = 1
depth = 1
height = 0.1

[[zone]]
name = "seat"
faces = ["seat"]
surface = "bare"

[[zone.step]]
do = "coat"
product = "paint"
coats = 2
by = "roller"
time = "2 h"

[[product]]
name = "paint"
kind = "waterborne furniture paint"
covers = "10 m2/L"
dry = "1 h"
recoat = "4 h"
cure = "14 days"
packs = [{ size = "1 L" }]
"""


@pytest.fixture
def piece(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Write the piece file, and stop the clock on a Wednesday afternoon."""
    monkeypatch.setattr(clock, "now", lambda: datetime(2026, 11, 25, 15, 7))
    monkeypatch.setattr(clock, "stamp", lambda: datetime(2026, 11, 25, 14, 7, tzinfo=UTC))
    path = tmp_path / "stool.toml"
    path.write_text(PIECE, encoding="utf-8")
    return path


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch) -> Callable[..., Result]:
    """Run the command in 80 columns; a crash is raised."""
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("NO_COLOR", "1")

    def run_command(*words: object) -> Result:
        texts = ["plan", *(str(word) for word in words)]
        return CliRunner().invoke(app, texts, catch_exceptions=False)

    return run_command


SCREEN = """\
Stool: plan (the shortest possible schedule)
Day         When         Zone  What                             Next from
Wed 25 Nov  18:00-19:10  seat  first coat of paint, by roller   23:10
Thu 26 Nov  18:00-19:10  seat  second coat of paint, by roller  23:10
Hands-on time: 2 h 20 min over 2 days, of which 20 min set-up and clean-up.
Work is over      Thu 26 Nov 2026 19:10  Can be handled  Thu 26 Nov 2026 23:10
Can be delivered  Fri 27 Nov 2026 18:00  Can be used     Thu 10 Dec 2026 19:10
Ready by Fri 27 Nov 2026 in 9 of 10 cases, with 1 1/2 to 3 1/2 hours of work.
1 figure and the working hours assumed: set-up and clean-up for each coat, 10
min.
"""
WHY = """\
Working hours (assumed): mon-fri 18:00-21:00, sat-sun 09:00-17:00.
Hands-on times are rounded to 5 minutes, waits up to the next 5; the total is
the sum of the hands-on times in the table.
Assumed for the 9 of 10 cases: a time, a set-up or a drying time given as one
number turns out between 31 % less and 46 % more. The same hands do every task,
and the same air dries every coat, so slow ones tend to come together.
Drying times are for 20 C (68 F).

Assumed figures, the one that matters most first
    set-up and clean-up for each coat, 10 min
    Put your own in the piece file.

"""


def test_screen_shows_the_days_the_dates_and_what_is_assumed(piece: Path, run: Callable) -> None:
    shown = run(piece).stdout
    assert SCREEN.splitlines() == [line.rstrip() for line in shown.splitlines()]


def test_why_adds_the_steps_the_hours_the_air_and_what_is_assumed(
    piece: Path, run: Callable
) -> None:
    lines = [line.rstrip() for line in run(piece, "--why").stdout.splitlines()]
    assert (
        "Day         When         Zone  Step  What                             Next from" in lines
    )
    assert WHY.splitlines() == lines[-len(WHY.splitlines()) :]


def test_json_says_the_same(piece: Path, run: Callable) -> None:
    found: dict[str, Any] = json.loads(run(piece, "--json").stdout)
    assert ("Stool", True, True, 2) == (
        found["piece"], found["working_hours_assumed"], found["shortest"], found["days"],
    )  # fmt: skip
    assert pytest.approx(2 + 1 / 3) == found["hands_on_h"]
    assert "2026-11-26T19:10" == found["worked"]
    assert "2026-12-10T19:10" == found["used"]
    first = found["tasks"][0]
    assert [{"from": "2026-11-25T18:00", "to": "2026-11-25T19:10"}] == first["sessions"]
    assert ("first coat of paint, by roller", 4, False) == (
        first["task"], first["wait_h"], first["can_pause"],
    )  # fmt: skip


def test_calendar_is_written_beside_the_screen(piece: Path, run: Callable, tmp_path: Path) -> None:
    target = tmp_path / "stool.ics"
    result = run(piece, "--calendar", target)
    assert result.stdout.endswith(f"Wrote {target}\n")
    calendar = Calendar.from_ical(target.read_bytes())
    assert 5 == len(list(calendar.walk("VEVENT")))


def test_json_stays_alone_on_the_output_when_a_calendar_is_written(
    piece: Path, run: Callable, tmp_path: Path
) -> None:
    result = run(piece, "--json", "--calendar", tmp_path / "stool.ics")
    assert "Stool" == json.loads(result.stdout)["piece"]
    assert (tmp_path / "stool.ics").exists()


def test_calendar_that_is_there_is_kept_unless_it_may_be_replaced(
    piece: Path, run: Callable, tmp_path: Path
) -> None:
    target = tmp_path / "stool.ics"
    target.write_text("my own")
    refused = run(piece, "--calendar", target)
    assert (2, "my own") == (refused.exit_code, target.read_text())
    assert "add --replace" in " ".join(refused.stderr.split())
    assert run(piece, "--calendar", target, "--replace").stdout.endswith(f"Replaced {target}\n")
    assert target.read_text().startswith("BEGIN:VCALENDAR")


def test_calendar_with_another_ending_is_wrong_usage(piece: Path, run: Callable) -> None:
    result = run(piece, "--calendar", "stool.txt")
    assert 2 == result.exit_code
    assert "must end in .ics" in result.stderr


def test_calendar_that_cannot_be_written_is_one_line(
    piece: Path, run: Callable, tmp_path: Path
) -> None:
    result = run(piece, "--calendar", tmp_path / "nowhere" / "stool.ics")
    assert 1 == result.exit_code
    assert result.stderr.endswith("cannot be written: No such file or directory\n")


def test_impossible_plan_is_told_at_its_line_and_has_no_dates(piece: Path, run: Callable) -> None:
    piece.write_text(PIECE.replace('"2 h"', '"18 h"'), encoding="utf-8")
    result = run(piece)
    assert (1, "") == (result.exit_code, result.stdout)
    first, last = result.stderr.splitlines()
    assert first.startswith(f'{piece}:17: zone "seat" step 1: first coat of paint, by roller needs')
    assert f"Fix this first, then run: surfacecalc check {piece}" == last


def test_mistake_in_the_workshop_stops_every_number(piece: Path, run: Callable) -> None:
    piece.write_text(PIECE + '[workshop]\ntemperature = "400 C"\n', encoding="utf-8")
    result = run(piece, "--json")
    assert 1 == result.exit_code
    (problem,) = json.loads(result.stdout)["problems"]
    assert (33, "workshop") == (problem["line"], problem["where"])


def test_piece_with_nothing_to_do_says_so(piece: Path, run: Callable) -> None:
    head, _, _ = PIECE.partition("[[zone]]")
    leave = '[[zone]]\nname = "seat"\nfaces = ["seat"]\nleave = true\n'
    piece.write_text(head + leave, encoding="utf-8")
    result = run(piece)
    assert (0, True) == (result.exit_code, "There is nothing to do" in result.stdout)
    assert json.loads(run(piece, "--json").stdout)["delivered"] is None


def test_clock_gives_local_time_and_utc() -> None:
    assert clock.now().tzinfo is None
    assert UTC == clock.stamp().tzinfo
    assert abs((clock.stamp() - datetime.now(UTC)).total_seconds()) < 5


PROGRAM = """\
import contextlib, io, sys
from surfacecalc.__main__ import main
with contextlib.redirect_stdout(io.StringIO()):
    with contextlib.suppress(SystemExit):
        main()
print(*{name.partition(".")[0] for name in sys.modules})
"""


@pytest.mark.parametrize("words", [["--help"], ["{file}"]])
def test_plan_without_a_calendar_imports_no_calendar_library(piece: Path, words: list[str]) -> None:
    """It takes 0.1 s, which every other start would pay for."""
    given = [word.format(file=piece) for word in words]
    result = subprocess.run(
        [sys.executable, "-c", PROGRAM, "plan", *given],
        capture_output=True, text=True, timeout=120, check=True,
    )  # fmt: skip
    assert "typer" in result.stdout
    assert "icalendar" not in result.stdout.split()


def test_grits_with_a_break_between_them_stay_two_rows(piece: Path, run: Callable) -> None:
    """An hour each: the first fills the evening until the break, the second begins after it."""
    hours = 'hours = ["mon-sun 18:00-19:00", "mon-sun 20:00-23:00"]\nset_up = "0 min"\n'
    head, rest = PIECE.split("[[zone.step]]", 1)
    sand = '[[zone.step]]\ndo = "sand"\ngrits = [120, 180]\nwith = "disc"\ntime = "2 h"\n\n'
    disc = '\n[[abrasive]]\nname = "disc"\nform = "125 mm disc"\n'
    workshop = f"[workshop]\n{hours}" if "[workshop]" not in PIECE else ""
    text = f"{head}{sand}[[zone.step]]{rest}{disc}{workshop}"
    piece.write_text(text, encoding="utf-8")
    shown = run(piece).stdout
    assert "18:00-19:00  seat  sand P120, by machine" in shown
    assert "20:00-21:00  seat  sand P180, by machine" in shown


def test_assumed_hours_are_said_where_every_figure_is_given(piece: Path, run: Callable) -> None:
    piece.write_text(PIECE + '[workshop]\nset_up = "0 min"\n', encoding="utf-8")
    assert "Assumed: the working hours (--why).\n" in run(piece).stdout
    piece.write_text(
        PIECE + '[workshop]\nset_up = "0 min"\nhours = ["mon-sun 18:00-21:00"]\n', encoding="utf-8"
    )
    assert "ssumed" not in run(piece).stdout
