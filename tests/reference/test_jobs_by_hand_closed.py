"""A closed weekend worked out by hand, and the same job without it.

The shop is open on Friday from 18:00 to 21:00 and on Saturday and Sunday from 9:00 to 17:00;
Saturday 5 and Sunday 6 December 2026 are closed. Sanding takes 5 h: Friday 4 December 18:00 to
21:00, and the rest on the next day there is, Friday 11 December until 20:00. Each of two coats
takes an hour; the paint can be coated again after 12 h and used after 100 h. The first goes on at
20:00; it may be coated from 9:00 on Saturday, when the shop opens: 9:00 to 10:00. It can be handled
at 22:00, delivered on Sunday at 9:00, and used 100 h after Saturday 10:00, on Wednesday at 14:00.

Without the closed days: sanded until Saturday 5 December 11:00, coated until 12:00 and, since 12 h
later is midnight, on Sunday from 9:00 to 10:00; delivered on Friday at 18:00, used on Thursday at
14:00.

With the coat on Friday and the weekend closed after it, things dry on: what may be coated again on
Sunday at 1:00 is coated on Friday.
"""

import json
import subprocess
import sys

import pytest

FILE = """
[piece]
name = "shelf"
unit = "m"

[workshop]
hours = ["fri 18:00-21:00", "sat-sun 09:00-17:00"]
start = 2026-12-04
set_up = "0 min"
{closed}

[[part]]
name = "board"
shape = "board"
width = 1
depth = 0.5
height = 0.1

[[zone]]
name = "all"
faces = ["*"]
surface = "bare"
{sand}
[[zone.step]]
do = "coat"
product = "paint"
coats = 2
by = "brush"
time = "2 h"

[[product]]
name = "paint"
kind = "waterborne furniture paint"
dry = "1 h"
recoat = "{recoat}"
cure = "100 h"

[[abrasive]]
name = "disc"
form = "125 mm disc"
"""
SAND = """
[[zone.step]]
do = "sand"
grits = [120]
with = "disc"
time = "5 h"
"""
CLOSED = 'closed = ["2026-12-05 to 2026-12-06"]'
EACH_DAY = "closed = [2026-12-06, 2026-12-05, 2027-01-01, 2026-11-01]"


def planned(folder, *words, closed="", sand=SAND, recoat="12 h"):
    file = folder / "shelf.toml"
    file.write_text(FILE.format(closed=closed, sand=sand, recoat=recoat), "utf-8")
    command = [sys.executable, "-m", "surfacecalc", "plan", str(file), *words]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return done.stdout


def sessions(plan):
    return [(one["from"], one["to"]) for task in plan["tasks"] for one in task["sessions"]]


@pytest.mark.parametrize("closed", [CLOSED, EACH_DAY])
def test_closed_weekend(tmp_path, closed):
    plan = json.loads(planned(tmp_path, "--json", closed=closed))
    assert sessions(plan) == [
        ("2026-12-04T18:00", "2026-12-04T21:00"),
        ("2026-12-11T18:00", "2026-12-11T20:00"),
        ("2026-12-11T20:00", "2026-12-11T21:00"),
        ("2026-12-12T09:00", "2026-12-12T10:00"),
    ]
    assert (plan["worked"], plan["handled"]) == ("2026-12-12T10:00", "2026-12-12T22:00")
    assert (plan["delivered"], plan["used"]) == ("2026-12-13T09:00", "2026-12-16T14:00")
    assert (plan["hands_on_h"], plan["days"]) == (7.0, 3)
    assert {day for days in plan["closed"] for day in days.values()} == {"2026-12-05", "2026-12-06"}
    for by in ("worked", "handled", "delivered", "used"):
        assert plan[f"{by}_by"] >= plan[by]


def test_the_same_job_without_it(tmp_path):
    plan = json.loads(planned(tmp_path, "--json"))
    assert sessions(plan) == [
        ("2026-12-04T18:00", "2026-12-04T21:00"),
        ("2026-12-05T09:00", "2026-12-05T11:00"),
        ("2026-12-05T11:00", "2026-12-05T12:00"),
        ("2026-12-06T09:00", "2026-12-06T10:00"),
    ]
    assert (plan["delivered"], plan["used"]) == ("2026-12-11T18:00", "2026-12-10T14:00")
    assert plan["closed"] == []


def test_drying_goes_on_over_the_closed_days(tmp_path):
    plan = json.loads(planned(tmp_path, "--json", closed=CLOSED, sand="", recoat="30 h"))
    first, second = plan["tasks"]
    assert first["next_from"] == "2026-12-06T01:00"
    assert second["sessions"] == [{"from": "2026-12-11T18:00", "to": "2026-12-11T19:00"}]


def test_closed_days_are_shown_on_the_screen(tmp_path):
    assert "\nClosed: Sat 5 Dec to Sun 6 Dec.\n" in planned(tmp_path, closed=CLOSED)
    assert "\nClosed: Sat 5 Dec, Sun 6 Dec.\n" in planned(tmp_path, closed=EACH_DAY)
    assert "Closed" not in planned(tmp_path)


def test_start_on_a_closed_day_begins_on_the_next(tmp_path):
    plan = json.loads(planned(tmp_path, "--json", closed="closed = 2026-12-04"))
    assert sessions(plan)[0] == ("2026-12-05T09:00", "2026-12-05T14:00")
    assert plan["closed"] == [{"first": "2026-12-04", "last": "2026-12-04"}]
