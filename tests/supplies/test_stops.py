"""How much must be left before the next coat, where everything varies that may."""

from datetime import datetime

import pytest
from piece_texts import measured, piece_text

from surfacecalc import api

SATURDAY = datetime(2026, 11, 28, 9, 0)
PAINT = {"name": "paint", "kind": "paint", "covers": ["8 m2/L", "10 m2/L", "13 m2/L"]}
COAT = {"do": "coat", "product": "paint", "coats": 3, "by": "brush"}


@pytest.fixture
def job():
    """Two faces of 1 m2, of which one shares what its tools keep with the other."""
    zones = [
        {"name": name, "faces": [f"board.{name}"], "surface": "sealed", "schedule": "finish"}
        for name in ("top", "bottom")
    ]
    text = piece_text(
        piece={"buy_for": "80 %"},
        part={"shape": "board", "width": "1 m", "depth": "1 m", "height": "1 m"},
        zone=zones,
        product={**PAINT, "on_hand": "450 ml"},
        **{"schedule.finish": [COAT]},
    )
    return measured(text)


def test_as_much_must_be_left_as_the_jar_command_says_that_one_coat_needs(job):
    """On a sealed surface every coat takes alike, so the first of all zones is as good as any.

    `jars` counts it without asking what each task takes; the draws are the same.
    """
    (jar,) = api.jars(job)
    made, bought = api.plan(job, SATURDAY), api.supplies(job)
    stops = [stop for task in api.bench(job, made, bought).values() for stop in task.stops]
    both = [stop for stop in stops if set(stop.zones) == {"top", "bottom"}]
    assert both
    for stop in both:
        # 1e-9: sums of floating numbers in another order
        assert jar.reaches[0].buy_for == pytest.approx(stop.least, rel=1e-9)
