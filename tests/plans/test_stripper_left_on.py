"""A stripper that the hours leave on the wood overnight is named; one that is washed off is not."""

from datetime import datetime

import pytest
from piece_texts import measured, piece_text

from surfacecalc import api

MONDAY = datetime(2026, 11, 30, 8, 0)
STRIP = {"do": "strip", "product": "gel", "time": "90 min"}
WASH = {"do": "wash", "product": "spirit", "strength": "100 %", "rinse": False}


def said(closes: str, *steps: dict) -> list[str]:
    """Return what a plan says of the stripper: it is on from 18:00 to 19:40, set-up and all."""
    text = piece_text(
        *steps,
        zone={"surface": "varnished"},
        product=[
            {"name": "gel", "kind": "stripper"},
            {"name": "spirit", "kind": "mineral spirits"},
        ],
        workshop={"hours": [f"mon-sun 18:00-{closes}"]},
    )
    found = api.plan(measured(text), MONDAY).mind
    return [line for line in found if line.startswith("Stripper")]


def test_a_stripper_that_stays_on_overnight_is_named_with_its_zone():
    (line,) = said("20:00", STRIP, WASH)
    assert line.startswith('Stripper is still on "all" at closing time')


@pytest.mark.parametrize(
    ("closes", "steps"),
    [
        ("22:00", (STRIP, WASH)),
        ("20:00", (STRIP,)),
        ("20:00", (WASH, WASH)),
        ("20:00", (STRIP, {"do": "dust off"})),
    ],
)
def test_one_that_comes_off_on_its_day_or_that_nothing_washes_off_is_not(closes, steps):
    assert [] == said(closes, *steps)
