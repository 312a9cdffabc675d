"""The finishing schedule that was printed for a piano bench in 1912, planned by hand and by plan.

Source: a workshop manual of 1912 on plain oak furniture, part 3, pages 5 to 7 (public domain,
Project Gutenberg eBook 23666): one coat of boiled linseed oil, wiped after several hours and left
48 hours; one thin coat of shellac, left overnight and sanded lightly; three coats of wax, half an
hour apart. "Several hours" counts as four here, "overnight" as twelve.
"""

from collections.abc import Callable
from datetime import datetime

import pytest

from surfacecalc.plans.plan import Plan

SCHEDULE = """\
[[part]]
name = "bench"
shape = "board"
width = 1
depth = 0.4
height = 0.5
at = [6, 0, 0]

[[zone]]
name = "bench"
faces = ["bench"]
surface = "bare"

[[zone.step]]
do = "coat"
product = "boiled linseed oil"
coats = 1
by = "cloth"
time = "30 min"
wait = "4 h"

[[zone.step]]
do = "repair"
what = "wipe off the oil"
time = "15 min"
wait = "48 h"

[[zone.step]]
do = "coat"
product = "shellac"
coats = 1
by = "brush"
time = "30 min"
wait = "12 h"

[[zone.step]]
do = "rub out"
grits = [220]
with = "disc"
by = "hand"
time = "20 min"

[[zone.step]]
do = "coat"
product = "paste wax"
coats = 3
by = "cloth"
time = "45 min"
wait = "30 min"

[[product]]
name = "boiled linseed oil"
kind = "drying oil"

[[product]]
name = "shellac"
kind = "shellac"

[[product]]
name = "paste wax"
kind = "paste wax"

"""


def starts(found: Plan) -> list[datetime]:
    return [entry.starts for entry in found.entries]


def test_at_all_hours_the_bench_takes_the_printed_waits_and_the_work(plan: Callable) -> None:
    """Worked by hand, beginning on Saturday at 9."""
    found = plan(SCHEDULE, '[workshop]\nset_up = "0 min"\nhours = ["mon-sun 00:00-24:00"]')
    assert [
        datetime(2026, 11, 28, 9, 0),  # oil, until 9:30
        datetime(2026, 11, 28, 13, 30),  # wiped after 4 h, until 13:45
        datetime(2026, 11, 30, 13, 45),  # shellac after 48 h, until 14:15
        datetime(2026, 12, 1, 2, 15),  # sanded after a night of 12 h, until 2:35
        datetime(2026, 12, 1, 2, 35),  # first wax, until 2:50
        datetime(2026, 12, 1, 3, 20),  # second wax half an hour later, until 3:35
        datetime(2026, 12, 1, 4, 5),  # third wax half an hour later
    ] == starts(found)
    assert datetime(2026, 12, 1, 4, 20) == found.worked


def test_on_evenings_and_weekends_the_bench_takes_until_tuesday(plan: Callable) -> None:
    """The same, with the hours that are assumed where a file gives none."""
    found = plan(SCHEDULE, '[workshop]\nset_up = "0 min"')
    assert [
        datetime(2026, 11, 28, 9, 0),  # Saturday, oil
        datetime(2026, 11, 28, 13, 30),  # wiped
        datetime(2026, 11, 30, 18, 0),  # Monday after work, shellac: 48 h were over at 13:45
        datetime(2026, 12, 1, 18, 0),  # Tuesday evening, sanded
        datetime(2026, 12, 1, 18, 20),  # and waxed three times
        datetime(2026, 12, 1, 19, 5),
        datetime(2026, 12, 1, 19, 50),
    ] == starts(found)
    assert (pytest.approx(2 + 20 / 60), 3) == (found.hands_on_h, found.days)
    assert datetime(2026, 12, 1, 20, 5) == found.worked
    assert found.is_shortest
