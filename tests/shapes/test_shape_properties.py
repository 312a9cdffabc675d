"""What must hold for every assembly: motion, scale, order, units, bounds and small nudges."""

from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shapes.boards import board
from shapes.cases import Bays, case
from shapes.chamfered_legs import chamfered_leg, octagonal_leg
from shapes.drawers import drawer
from shapes.exposure import exposure
from shapes.legs import round_leg, square_leg, tapered_leg, turned_leg
from shapes.panels import panel
from shapes.parts import Part
from shapes.placement import place
from shapes.profiles import chamfer, edge_of
from shapes.solids import area_mm2
from shapes.splayed_legs import splayed_leg
from shapes.worked_edges import profiled_board

FAST = settings(
    max_examples=40, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)

ROUNDING = 1e-9
"""Sums of rounded triangles; the same region may be cut into other triangles."""

NOTHING_MM2 = 1e-6
"""LEAST_PATCH_MM2: less than this is no area at all."""

INCH = 25.4


def make(kind, k):
    """Return a solid of a kind, every size `k` times a whole number."""
    return {
        "board": lambda: board(3 * k, 4 * k, 5 * k),
        "plank": lambda: board(9 * k, 2 * k, 1 * k),
        "case": lambda: case(6 * k, 5 * k, 7 * k, board=k),
        "bay": lambda: case(6 * k, 5 * k, 7 * k, board=k, open_sides=["front", "top"]),
        "drawer": lambda: drawer(6 * k, 7 * k, 4 * k, front=2 * k, board=k),
        "lipped": lambda: drawer(
            8 * k, 7 * k, 6 * k, front=2 * k, board=k, lip={"left": k, "top": k}, lip_thickness=k,
            side_height=4 * k, back_height=3 * k,
        ),
        "bays": lambda: case(
            9 * k, 5 * k, 7 * k, board=k, open_sides=["front"], bays=Bays([2 * k], 2)
        ),
        "panel": lambda: panel(8 * k, 4 * k, 8 * k, frame=2 * k, recess=k),
        "square": lambda: square_leg(8 * k, 2 * k),
        "tapered": lambda: tapered_leg(8 * k, 4 * k, 4 * k, foot=2 * k),
        "octagon": lambda: octagonal_leg(8 * k, 4 * k, foot=3 * k),
        "stopped": lambda: chamfered_leg(
            9 * k, 4 * k, chamfer=k, stops=[2 * k, 8 * k], stop_length=k
        ),
        "splayed": lambda: splayed_leg(8 * k, 3 * k, splay={"left": 9, "back": 12}),
        "round": lambda: round_leg(6 * k, 4 * k),
        "worked": lambda: profiled_board(
            8 * k, 6 * k, 2 * k, profile=edge_of(chamfer(k, k), 2 * k), edges=["front", "left"]
        ),
        "rebated": lambda: profiled_board(
            6 * k, 8 * k, 3 * k, profile=[[k, 0], [k, k], [0, k], [0, 3 * k]], edges=["right"]
        ),
        "turned": lambda: turned_leg([[0, 2 * k], [3 * k, 4 * k], [3 * k, 2 * k], [7 * k, 2 * k]]),
    }[kind]()  # fmt: skip


FLAT = [
    "board", "plank", "case", "bay", "bays", "drawer", "lipped", "panel", "square", "rebated",
]  # fmt: skip
ALL = [*FLAT, "tapered", "octagon", "stopped", "splayed", "round", "turned", "worked"]
LOOSE = st.sampled_from([False] * 5 + [True, "lid"])
PLACES = st.tuples(*[st.integers(-6, 6)] * 3)


def assemblies(kinds=ALL, most=5):
    one = st.tuples(st.sampled_from(kinds), PLACES, LOOSE)
    return st.lists(one, min_size=1, max_size=most)


def build(assembly, k=10.0, shift=(0, 0, 0)):
    return [
        place(f"p{number}", make(kind, k), [k * a + b for a, b in zip(at, shift, strict=True)],
              loose=loose)
        for number, (kind, at, loose) in enumerate(assembly)
    ]  # fmt: skip


def same(expected, actual, factor=1.0, *, by_face=True):
    """Assert that two exposures agree face by face, seam by seam and gap by gap."""
    assert expected.area_mm2 * factor**2 == pytest.approx(actual.area_mm2, rel=ROUNDING)
    if not by_face:
        return
    areas = {key: area * factor**2 for key, area in expected.areas_mm2.items()}
    assert areas == pytest.approx(actual.areas_mm2, rel=ROUNDING, abs=NOTHING_MM2 * factor**2)
    seams = {key: length * factor for key, length in _seams(expected).items()}
    # a seam of less than the side of the least patch, 0.001 mm, is rounding
    assert seams == pytest.approx(_seams(actual, seams), rel=ROUNDING, abs=1e-3)
    assert [(m.face, m.other) for m in expected.closed] == [
        (m.face, m.other) for m in actual.closed
    ]


def is_clear(parts):
    """Return whether no two joined parts, one of them not square, share a plane or an axis.

    Where they do, either face may claim what both cover. Square parts are settled by a rule.
    """
    groups: dict[Any, Any] = {}
    for part in parts:
        planes = set()
        for patch, level in _levels(part):
            planes.add((patch.normal or ("axis", *part.at[:2]), level))
        key = part.name if part.loose is True else f"word {part.loose}"
        square, others = groups.setdefault(key, (set(), set()))
        if planes & others or (planes & square and not part.solid.is_square):
            return False
        (square if part.solid.is_square else others).update(planes)
    return True


def _levels(part):
    solid = part.solid
    for number, patch in enumerate(solid.patches):
        corner = solid.vertices[solid.triangles[solid.patch_of == number][0][0]] + part.at
        normal = patch.normal
        level = sum(a * b for a, b in zip(normal, corner, strict=True)) if normal else 0.0
        yield patch, round(level)


def _seams(shown, keys=()):
    found = dict.fromkeys(keys, 0.0)
    for pair, length in shown.seams_mm.items():
        key = tuple(sorted(pair))
        found[key] = found.get(key, 0.0) + length
    return found


@FAST
@given(assemblies(FLAT), st.tuples(*[st.integers(-80_000_000, 80_000_000)] * 3))
def test_a_shift_by_whole_grid_lines_changes_nothing(assembly, lines):
    shift = [line / 80_000 for line in lines]
    here, there = build(assembly), build(assembly, shift=shift)
    same(exposure(here), exposure(there), by_face=is_clear(here))


@FAST
@given(assemblies(ALL, 4), st.tuples(*[st.integers(-100, 100)] * 3))
def test_a_shift_by_whole_millimetres_changes_nothing(assembly, shift):
    here, there = build(assembly), build(assembly, shift=shift)
    same(exposure(here), exposure(there), by_face=is_clear(here))


@FAST
@given(assemblies())
def test_twice_the_size_has_four_times_the_area(assembly):
    small, large = build(assembly, 10.0), build(assembly, 20.0)
    same(exposure(small), exposure(large), 2.0, by_face=is_clear(small))


@FAST
@given(assemblies(), st.randoms(use_true_random=False))
def test_the_order_of_parts_changes_nothing(assembly, random):
    parts = build(assembly)
    shuffled = random.sample(parts, len(parts))
    one, other = exposure(parts, gap=0), exposure(shuffled, gap=0)
    same(one, other, by_face=is_clear(parts))
    assert one.size_mm == other.size_mm


def test_the_order_of_two_boards_in_shared_planes_changes_no_face():
    a, b = place("a", board(10, 10, 10)), place("b", board(20, 10, 10))
    assert exposure([a, b]).areas_mm2 == exposure([b, a]).areas_mm2


def test_a_shift_of_boards_in_shared_planes_changes_no_face():
    def boards(shift):
        parts = [place(f"b{k}", board(30, 40, 50), (0, shift, 0)) for k in range(3)]
        return [*parts, place("leg", make("turned", 10.0), (0, shift, 0))]

    here, there = exposure(boards(0)), exposure(boards(6))
    assert here.areas_mm2 == pytest.approx(there.areas_mm2, rel=ROUNDING, abs=NOTHING_MM2)


@FAST
@given(assemblies())
def test_millimetres_and_inches_agree(assembly):
    inches = 3 / 16 * INCH  # as a tape gives it
    millimetres = 4.7625  # the same length written in millimetres
    one, other = build(assembly, inches), build(assembly, millimetres)
    same(exposure(one, gap=0), exposure(other, gap=0))


@FAST
@given(assemblies())
def test_no_face_shows_more_than_all_of_it(assembly):
    parts = build(assembly)
    shown = exposure(parts)
    whole = {
        (part.name, face): area for part in parts for face, area in part.solid.area_mm2_of.items()
    }
    assert set(whole) == set(shown.areas_mm2)
    for key, area in shown.areas_mm2.items():
        assert 0.0 <= area <= whole[key] * (1 + ROUNDING)
    assert shown.area_mm2 <= sum(area_mm2(part.solid) for part in parts) * (1 + ROUNDING)


@FAST
@given(assemblies(FLAT), st.sampled_from([1e-12, -1e-12]), st.sampled_from([10.0, INCH / 16]))
def test_a_nudge_of_a_billionth_of_a_micrometre_changes_nothing(assembly, nudge, k):
    here, there = build(assembly, k), build(assembly, k, [nudge] * 3)
    assert [part.at for part in here] == [part.at for part in there]
    one, other = exposure(here, gap=0), exposure(there, gap=0)
    assert one == other


@FAST
@given(assemblies(), st.sampled_from(ALL), PLACES, st.sampled_from([True, "another"]))
def test_another_loose_part_changes_no_other(assembly, kind, at, loose):
    parts = build(assembly)
    more = [*parts, place("more", make(kind, 10.0), [10.0 * a for a in at], loose=loose)]
    before, after = exposure(parts), exposure(more)
    assert before.areas_mm2 == {k: v for k, v in after.areas_mm2.items() if k[0] != "more"}
    assert (before.closed, before.gaps, before.size_mm) == (
        after.closed,
        after.gaps,
        after.size_mm,
    )


@FAST
@given(assemblies(most=4), st.sampled_from(ALL), PLACES)
def test_another_joined_part_uncovers_nothing(assembly, kind, at):
    parts = [Part(p.name, p.solid, p.at) for p in build(assembly)]
    more = [*parts, place("more", make(kind, 10.0), [10.0 * a for a in at])]
    before, after = exposure(parts, gap=0), exposure(more, gap=0)
    old = sum(before.areas_mm2.values())
    new = sum(area for (part, _), area in after.areas_mm2.items() if part != "more")
    # turned faces are off by 1e-4 of themselves when cut
    slack = 1e-4 * sum(area_mm2(p.solid) for p in parts if p.solid.patches[0].normal is None)
    assert new <= old * (1 + ROUNDING) + slack


@FAST
@given(assemblies(FLAT, 6), st.floats(0.01, 0.99))
def test_a_wider_gap_never_shows_more(assembly, air):
    parts = [
        place(p.name, p.solid, [u / 80_000 + air * n for u in p.at], loose=p.loose)
        for n, p in enumerate(build(assembly))
    ]
    areas = [exposure(parts, gap=gap).area_mm2 for gap in (0, 0.5, 1, 5)]
    for wider, narrower in zip(areas[1:], areas, strict=False):
        assert wider <= narrower * (1 + ROUNDING)
