"""A coat on a set goes on after closing time piece by piece; sanding may stop anywhere."""

from datetime import datetime

import pytest
from piece_texts import measured, piece_text

from surfacecalc import api

MONDAY = datetime(2026, 11, 30, 8, 0)
COAT = {"do": "coat", "product": "paint", "coats": 1, "by": "brush", "time": "30 min"}
SAND = {"do": "sand", "grits": [120], "with": "disc", "time": "30 min"}
NOTE = "Where a coat goes on over closing time, stop between two pieces, never on one."


@pytest.mark.parametrize(
    ("step", "count", "sessions", "noted"),
    [(COAT, 4, 2, True), (COAT, 3, 1, False), (SAND, 4, 2, False)],
)
def test_only_a_coat_that_goes_on_over_closing_time_is_told_where_to_stop(
    step, count, sessions, noted
):
    """Half an hour on each piece, and ten minutes of set-up at most, in evenings of two hours."""
    text = piece_text(
        step,
        piece={"count": count},
        product={"name": "paint", "kind": "waterborne paint"},
        abrasive={"name": "disc", "form": "125 mm disc"},
        workshop={"hours": ["mon-sun 18:00-20:00"]},
    )
    plan = api.plan(measured(text), MONDAY)
    assert [sessions] == [len(entry.sessions) for entry in plan.entries]
    assert noted == (NOTE in plan.mind)
