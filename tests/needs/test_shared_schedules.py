"""What is put on hardware is counted once for all zones that share a schedule, and told so."""

from typing import Any

import pytest
from piece_texts import piece_text

from surfacecalc.needs.draws import Draws
from surfacecalc.needs.jars import jars
from surfacecalc.needs.uses import Need
from surfacecalc.reports.use_lines import use_line
from surfacecalc.supplies.shopping import supplies_of
from surfacecalc.units.display import Units

ROUNDING = 1e-12
"""A few dozen float64 operations."""

SCHEDULE: list[dict[str, Any]] = [
    {"do": "fill", "product": "filler",
     "grooves": [{"count": 2, "length": "100 mm", "width": "10 mm", "depth": "10 mm"}],
     "loss": "0 %"},
    {"do": "wax hardware", "product": "gold", "hardware": "knobs", "coats": 2,
     "loss": "0 %", "stays_behind": "10 g", "between": {"grit": 320, "with": "pad"},
     "uses": ["cloth"]},
    {"do": "refit", "hardware": ["pulls"]},
]  # fmt: skip
PIECE = piece_text(
    piece={"name": "board", "unit": "m"},
    part=[
        {"name": "board", "shape": "board", "width": 1, "depth": 1, "height": 0.1},
    ],
    zone=[
        {"name": "top", "faces": ["board.top"], "surface": "bare", "schedule": "all"},
        {"name": "sides", "faces": ["board.left", "board.right", "board.front"],
         "surface": "bare", "schedule": "all"},
    ],
    product=[
        {"name": "filler", "kind": "wood filler", "density": "1.5 kg/L"},
        {"name": "gold", "kind": "metallic wax", "covers": "10 m2/kg", "on_hand": "20 g"},
    ],
    abrasive=[
        {"name": "pad", "form": "pad", "life": "0.1 m2"},
    ],
    hardware=[
        {"name": "knobs", "count": 100, "plan": "renew", "size": ["10 mm", "10 mm", "10 mm"]},
        {"name": "pulls", "count": 12, "plan": "replace"},
    ],
    consumable=[
        {"name": "cloth", "lasts": "1 m2"},
    ],
    **{"schedule.all": SCHEDULE},
)  # fmt: skip
"""The top has 1 m2, the sides 0.3 m2; the knobs 100 x (100 + 2 x 10 x 20) mm2 = 0.05 m2."""

SHARE = 1 / 1.3


@pytest.mark.parametrize(
    ("key", "expected"),
    [
        (("filler", None), 2 * 0.1 * 0.01 * 0.01 * 1000 * 1.5),
        (("gold", None), 0.05 / 10 * 2 + 2 * 0.01),
        (("pad", 320), 0.05 / 0.1),
        (("cloth", None), 2 * 0.05 / 1),
        (("pulls", None), 12),
    ],
)
def test_what_is_counted_is_shared_by_area(job, key, expected):
    need = job(PIECE).needs[key]
    assert expected == pytest.approx(need.likely, rel=ROUNDING)
    parts = [expected * SHARE, expected * (1 - SHARE)]
    assert parts == pytest.approx([use.likely for use in need.uses], rel=ROUNDING)


def test_a_jar_goes_as_far_as_the_need_says(job):
    """Each coat on all knobs takes 5 g and leaves 10 g in the cloth."""
    found = job(PIECE)
    (jar,) = jars(found.piece, list(found.needs.values()), Draws())
    assert [0.015, 0.03] == pytest.approx([reach.likely for reach in jar.reaches], rel=ROUNDING)
    assert 1 == jar.sure_coats


def lines(job, key):
    found = job(PIECE)
    need: Need = found.needs[key]
    (supply,) = supplies_of(found.piece, [need], Draws())
    return [use_line(found.piece, supply, use, Units.METRIC) for use in need.uses]


@pytest.mark.parametrize(
    ("key", "arithmetic"),
    [
        (("filler", None), "20.0 ml of holes / (1 - 0 %) x 1.5 kg/L x 76.92 % (its share by area)"),
        (("gold", None), " left in the tools) x 76.92 % (its share by area) = 23"),
        (("pulls", None), "12 to replace x 76.92 % (its share by area) = 9.231"),
    ],
)
def test_the_share_stands_in_the_arithmetic(job, key, arithmetic):
    assert arithmetic in lines(job, key)[0]


def test_where_nothing_is_shared_no_share_is_told(job):
    alone = PIECE.replace('"all"\n[[zone]]', '"all"\n[[zone]]\nleave = true').replace(
        '"board.front"]\nsurface = "bare"\nschedule = "all"', '"board.front"]'
    )
    found = job(alone)
    (supply,) = supplies_of(found.piece, [found.needs["pulls", None]], Draws())
    (use,) = found.needs["pulls", None].uses
    line = use_line(found.piece, supply, use, Units.METRIC)
    assert "top: 12 to replace = 12" == line
