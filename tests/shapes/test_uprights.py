"""Uprights between two parts: their length and their places, upright and leaning."""

import math

import numpy as np
import pytest

from shapes.boards import board
from shapes.errors import ShapeError
from shapes.exposure import exposure
from shapes.legs import round_leg, tapered_leg
from shapes.placement import place
from shapes.spindles import spindle
from shapes.transforms import lean, turn
from shapes.uprights import upright_length, uprights

SEAT = place("seat", board(430, 410, 30), (0, 0, 420))
CREST = place("crest", board(430, 120, 60), (0, 360, 860))
RISE = 860 - 450
STANDING = [round_leg(90, 20), tapered_leg(90, 30, foot=20), board(9, 9, 90)]


def leaning(length, degrees=0.0, towards="back"):
    return lean(spindle([[0, 12], [length / 2, 22], [length, 12]]), degrees, towards=towards)


@pytest.mark.parametrize("degrees", [0, 5, 8, 22.5, 40])
@pytest.mark.parametrize("towards", ["back", "left", "front"])
def test_the_middle_of_an_upright_runs_from_part_to_part(degrees, towards):
    length = upright_length(leaning(100, degrees, towards), SEAT, CREST, tenon=12)
    assert (RISE + 24) / math.cos(math.radians(degrees)) == pytest.approx(length, rel=1e-9)
    solid = leaning(length, degrees, towards)
    (part,) = uprights("s", solid, SEAT, of=1, tenon=12)
    z = solid.vertices[:, 2] + part.at[2]
    foot, head = z[:256].mean() / 80_000, z[-256:].mean() / 80_000
    # a grid line, since places are whole numbers of it
    assert (450 - 12, 860 + 12) == pytest.approx((foot, head), abs=2 / 80_000)


@pytest.mark.parametrize("solid", STANDING)
def test_any_solid_with_two_ends_will_do(solid):
    assert RISE == pytest.approx(upright_length(turn(solid, 20), SEAT, CREST, tenon=0), rel=1e-12)


def test_the_air_between_uprights_is_the_same():
    row = uprights("s", leaning(434), SEAT, of=5, tenon=12, set_in={"left": 40, "right": 20})
    assert ["s 1", "s 2", "s 3", "s 4", "s 5"] == [part.name for part in row]
    low = np.array([part.at[0] for part in row]) / 80_000
    ends = [40, *(low + 22), 410]
    air = np.diff(np.sort([*low, *ends]))[::2]
    assert air == pytest.approx([(370 - 5 * 22) / 6] * 6, abs=1e-4)
    along = uprights("s", leaning(434), SEAT, of=2, tenon=12, axis="y", set_in={"left": 10})
    assert {10.0} == {part.at[0] / 80_000 for part in along}


def test_a_tenon_hides_both_ends_of_a_leaning_spindle():
    solid = leaning(upright_length(leaning(100, 8), SEAT, CREST, tenon=12), 8)
    row = uprights("s", solid, SEAT, of=3, tenon=12, set_in={"back": -10})
    areas = exposure([SEAT, CREST, *row]).areas_mm2
    assert {0.0} == {areas[part.name, end] for part in row for end in ("top", "bottom")}
    bare = uprights("s", solid, SEAT, of=3, tenon=0, set_in={"back": -10})
    assert exposure([SEAT, CREST, *bare]).areas_mm2["s 1", "bottom"] > 0


@pytest.mark.parametrize(
    ("call", "argument"),
    [
        (lambda: upright_length(leaning(9), CREST, SEAT, tenon=0), "above"),
        (lambda: upright_length(leaning(9), SEAT, CREST, tenon=-1), "tenon"),
        (lambda: upright_length(leaning(99, 70), SEAT, CREST, tenon=0), "degrees"),
        (lambda: uprights("s", leaning(434), SEAT, of=0, tenon=0), "of"),
        (lambda: uprights("s", leaning(434), SEAT, of=20, tenon=0), "of"),
        (lambda: uprights("s", leaning(434), SEAT, of=2, tenon=0, axis="z"), "axis"),
    ],
)
def test_what_does_not_fit_is_refused(call, argument):
    with pytest.raises(ShapeError) as caught:
        call()
    assert argument == caught.value.argument
