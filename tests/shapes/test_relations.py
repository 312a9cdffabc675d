"""Relations: where parts stand by what they stand on, under, against and between."""

import itertools
import math

import pytest

from shapes.boards import board
from shapes.errors import ShapeError
from shapes.exposure import exposure
from shapes.placement import place
from shapes.relations import against, beside, between, grid, on, under, within

CASE = place("case", board(1000, 400, 600), (10, 20, 30))
CUBE = board(100, 100, 100)


def at_mm(at):
    return tuple(units / 80_000 for units in at)


@pytest.mark.parametrize(
    ("side", "expected"),
    [
        ("left", (-90, 170, 280)),
        ("right", (1010, 170, 280)),
        ("front", (460, -80, 280)),
        ("back", (460, 420, 280)),
        ("bottom", (460, 170, -70)),
        ("top", (460, 170, 630)),
    ],
)
def test_a_part_stands_against_a_side_and_is_centred_otherwise(side, expected):
    assert expected == at_mm(beside(CUBE, CASE, side))
    assert expected == at_mm(against("cube", CUBE, CASE, side).at)


@pytest.mark.parametrize("side", ["left", "right", "front", "back", "bottom", "top"])
def test_what_stands_against_a_side_touches_it(side):
    seen = exposure([CASE, against("cube", CUBE, CASE, side)])
    assert 10_000 == CASE.solid.area_mm2_of[side] - seen.areas_mm2["case", side]


def test_set_in_is_measured_from_the_same_side():
    assert at_mm(beside(CUBE, CASE, "top", set_in={"left": 5, "back": 7})) == (15, 313, 630)
    assert at_mm(beside(CUBE, CASE, "top", set_in={"right": 0, "front": 0})) == (910, 20, 630)


def test_below_zero_is_an_overhang():
    top = board(1040, 420, 20)
    at = at_mm(on("top", top, CASE, set_in={"front": -20}).at)
    assert at == (-10, 0, 630)  # centred over the width, flush at the back


def test_apart_leaves_air():
    assert at_mm(beside(CUBE, CASE, "right", apart=3)) == (1013, 170, 280)
    assert at_mm(beside(CUBE, CASE, "left", apart=3)) == (-93, 170, 280)
    assert at_mm(beside(CUBE, CASE, "bottom", apart=-5)) == (460, 170, -65)


def test_on_and_under_are_top_and_bottom():
    assert on("a", CUBE, CASE).at == beside(CUBE, CASE, "top")
    assert under("a", CUBE, CASE, loose="lid").at == beside(CUBE, CASE, "bottom")
    assert under("a", CUBE, CASE, loose="lid").loose == "lid"


def test_what_stands_on_under_or_against_is_joined_and_may_be_set_in():
    inset = {"left": 5, "front": 7}
    found = [on("a", CUBE, CASE, set_in=inset), under("a", CUBE, CASE, set_in=inset)]
    found += [against("a", CUBE, CASE, "top", set_in=inset, apart=0)]
    assert [True] * 3 == [part.is_joined for part in found]
    assert [(15, 27, 630), (15, 27, -70), (15, 27, 630)] == [at_mm(part.at) for part in found]
    assert (15, 27, 633) == at_mm(against("a", CUBE, CASE, "top", set_in=inset, apart=3).at)


def test_within_centres_or_sets_in_along_three_axes():
    assert at_mm(within(CUBE, CASE)) == (460, 170, 280)
    inside = within(CUBE, CASE, set_in={"left": 18, "back": 18, "top": 0})
    assert at_mm(inside) == (28, 302, 530)


def test_half_a_grid_unit_is_dropped():
    odd = board(100 + 1 / 80_000, 100, 100)
    assert within(CUBE, place("odd", odd))[0] == 0
    assert within(odd, place("cube", CUBE))[0] == -1


def test_a_grid_goes_row_by_row():
    parts = grid("knob", CUBE, (1, 2, 3), of=(2, 2), apart=((200, 0, 0), (0, 0, 150)), loose=True)
    expected = [(1, 2, 3), (201, 2, 3), (1, 2, 153), (201, 2, 153)]
    assert expected == [at_mm(part.at) for part in parts]
    assert [part.name for part in parts] == ["knob 1", "knob 2", "knob 3", "knob 4"]
    assert all(part.loose is True for part in parts)


def test_slats_between_posts_leave_equal_air():
    left = place("left", board(40, 40, 700))
    right = place("right", board(40, 40, 700), (500, 0, 0))
    slats = between("slat", board(60, 12, 500), left, right, of=4, set_in={"bottom": 100})
    edges = [40, *[x for s in slats for x in (at_mm(s.at)[0], at_mm(s.at)[0] + 60)], 500]
    assert [44.0] * 5 == [high - low for low, high in zip(edges[::2], edges[1::2], strict=True)]
    assert {at_mm(slat.at)[1:] for slat in slats} == {(14.0, 100.0)}


def test_slats_without_air_between_them_just_fit():
    posts = place("left", CUBE), place("right", CUBE, (400, 0, 0))
    assert [100, 200, 300] == [at_mm(p.at)[0] for p in between("slat", CUBE, *posts, of=3)]


def test_air_that_does_not_divide_differs_by_one_grid_unit():
    left, right = place("left", CUBE), place("right", CUBE, (500, 0, 0))
    slats = between("slat", board(30, 10, 10), left, right, of=6)
    ends = [100 * 80_000, *[s.at[0] for s in slats], 500 * 80_000]
    air = [b - a - (30 * 80_000 if k else 0) for k, (a, b) in enumerate(itertools.pairwise(ends))]
    assert max(air) - min(air) <= 1
    assert sum(air) == 220 * 80_000


def test_rungs_go_up_and_depth_goes_back():
    low, high = place("low", CUBE), place("high", CUBE, (0, 0, 300))
    assert at_mm(between("rung", CUBE, low, high, of=1, axis="z")[0].at) == (0, 0, 150)
    behind = place("behind", CUBE, (0, 300, 0))
    assert at_mm(between("bar", CUBE, low, behind, of=1, axis="y")[0].at) == (0, 150, 0)


@pytest.mark.parametrize(
    ("call", "argument"),
    [
        (lambda: beside(CUBE, CASE, "above"), "side"),
        (lambda: beside(CUBE, CASE, "top", set_in={"above": 0}), "set_in"),
        (lambda: beside(CUBE, CASE, "top", set_in={"left": 0, "right": 0}), "set_in"),
        (lambda: beside(CUBE, CASE, "top", set_in={"bottom": 0}), "set_in"),
        (lambda: beside(CUBE, CASE, "top", set_in={"left": math.nan}), "set_in left"),
        (lambda: beside(CUBE, CASE, "top", apart=math.inf), "apart"),
        (lambda: beside(CUBE, CASE, "right", apart=9_000), "at x"),
        (lambda: within(CUBE, CASE, set_in={"top": 0, "bottom": 0}), "set_in"),
        (lambda: grid("a", CUBE, (0, 0, 0), of=(2,), apart=((1, 0, 0),)), "of"),
        (lambda: grid("a", CUBE, (0, 0, 0), of=(0, 2), apart=((1, 0, 0), (0, 1, 0))), "of"),
        (lambda: grid("a", CUBE, (0, 0, 0), of=(50, 50), apart=((1, 0, 0), (0, 1, 0))), "of"),
        (lambda: grid("a", CUBE, (0, 0), of=(2, 2), apart=((1, 0, 0), (0, 1, 0))), "at"),
        (lambda: grid("a", CUBE, (0, 0, 0), of=(9, 9), apart=((2e3, 0, 0), (0, 1, 0))), "at x"),
        (lambda: between("a", CUBE, CASE, CASE, of=1), "of"),
        (lambda: between("a", CUBE, CASE, CASE, of=0), "of"),
        (lambda: between("a", CUBE, CASE, CASE, of=1, axis="w"), "axis"),
    ],
)
def test_what_is_wrong_is_named(call, argument):
    with pytest.raises(ShapeError) as caught:
        call()
    assert argument == caught.value.argument
