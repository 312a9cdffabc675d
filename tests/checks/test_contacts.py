"""Parts that touch nothing, and parts that run deep through others, are told."""

import pytest

TOP = 'name = "top"; shape = "board"; width = 500; depth = 400; height = 20; at = [0, 0, 480]'
LEG = 'name = "leg"; shape = "leg"; width = 40; height = 480; corners = { of = "top", set_in = 10 }'
SHELF = 'name = "shelf"; shape = "board"; width = 300; depth = 200; height = 18'
CASE = (
    'name = "case"; shape = "case"; width = 600; depth = 300; height = 700; board = 20;'
    ' open = ["front"]'
)


@pytest.fixture
def told(notes):
    """Return what is told of where parts stand."""

    def run(*parts):
        found = [note for note in notes(parts=parts) if note.where.startswith("part")]
        return [
            (note.where, note.line, note.message) for note in found if "used" not in note.message
        ]

    return run


def test_parts_that_stand_on_each_other_are_not_told(told):
    assert [] == told(TOP, LEG)


def test_a_part_far_from_all_others_is_told_with_its_line(told):
    found = told(TOP, LEG, f"{SHELF}; at = [900, 0, 100]")
    assert [('part "shelf"', 18)] == [(where, line) for where, line, _ in found]
    assert "write loose = true" in found[0][2]


def test_one_part_and_several_are_told_in_the_same_words(told):
    row = "row = { of = 2, apart = [0, 0, 100] }"
    (one,) = told(TOP, LEG, f"{SHELF}; at = [900, 0, 0]")
    (several,) = told(TOP, LEG, f"{SHELF}; at = [900, 0, 0]; {row}")
    assert one[2].startswith("touches nothing else: if it is taken off for finishing")
    assert several[2].startswith("touch nothing else: if they are taken off for finishing")


def test_a_closed_case_among_others_that_touches_none_is_told(told):
    """Its inside is hidden, but by itself."""
    closed = 'name = "box"; shape = "case"; width = 100; depth = 100; height = 100; board = 5'
    found = told(CASE, f"{closed}; open = []; at = [150, 60, 300]")
    assert ['part "box"'] == [where for where, _, _ in found]


def test_a_part_among_others_that_touches_none_is_told(told):
    found = told(TOP, LEG, f"{SHELF}; at = [100, 100, 100]")
    assert ['part "shelf"'] == [where for where, _, _ in found]


def test_a_shelf_that_stands_clear_inside_a_case_is_told(told):
    found = told(CASE, f"{SHELF}; at = [150, 60, 300]")
    assert ['part "shelf"'] == [where for where, _, _ in found]


@pytest.mark.parametrize("keys", ["at = [20, 20, 300]", "at = [900, 0, 0]; loose = true"])
def test_a_shelf_that_touches_or_is_loose_is_not_told(keys, told):
    assert [] == told(CASE, f"{SHELF}; {keys}")


def test_a_row_that_touches_nothing_is_told_once(told):
    row = "at = [900, 0, 0]; row = { of = 4, apart = [0, 0, 100] }"
    found = told(TOP, LEG, f"{SHELF}; {row}")
    assert ['parts "shelf 1", "shelf 2", "shelf 3" and 1 more'] == [where for where, _, _ in found]


def test_air_that_counts_as_touching_is_not_told_as_apart(told):
    assert [] == told(TOP, f"{SHELF}; at = [100, 100, 461.5]")


def test_air_that_the_gaps_tell_is_not_told_twice(notes):
    found = notes(parts=[TOP, f"{SHELF}; at = [100, 100, 459]"])
    about = [note.message for note in found if "shelf" in note.where + note.message]
    assert ["3 mm of air"] == [message[:11] for message in about]


def test_two_heaps_of_parts_are_told_as_the_smaller_one(told):
    away = [f'name = "block {k}"; shape = "board"; width = 50; depth = 50; height = 50;'
            f" at = [{900 + 50 * k}, 0, 0]" for k in range(2)]  # fmt: skip
    found = told(TOP, LEG, *away)
    assert ['parts "block 0", "block 1"'] == [where for where, _, _ in found]


def test_one_part_alone_is_not_told(told):
    assert [] == told(SHELF)


def test_a_closed_case_that_stands_apart_is_told(told):
    closed = CASE.replace('["front"]', "[]").replace('"case";', '"box";', 1)
    closed = closed.replace("height = 700", "height = 100")
    found = told(TOP, LEG, f"{closed}; at = [100, 2000, 0]")
    assert ['part "box"'] == [where for where, _, _ in found]


@pytest.mark.parametrize(
    "closed", ["open = []", 'open = ["front"]; bays = { up = 2, closed = [2] }']
)
def test_a_case_or_a_bay_that_is_closed_hides_no_other_part(closed, told):
    box = 'name = "box"; shape = "case"; width = 200; depth = 100; height = 100; board = 10'
    found = told(CASE, f"{box}; {closed}; at = [150, 60, 300]")
    assert ['part "box"'] == [where for where, _, _ in found]


def test_boards_in_one_place_are_told(told):
    found = told(TOP, TOP.replace('"top"', '"other"').replace("height = 20", "height = 30"))
    assert [('part "top"', 5, "100% of it lies inside")] == [
        (where, line, message[:22]) for where, line, message in found
    ]


def test_a_tenon_in_a_leg_is_not_told(told):
    rail = (
        'name = "rail"; shape = "board"; width = 424; depth = 20; height = 60; at = [38, 20, 400]'
    )
    assert [] == told(TOP, LEG, rail)


@pytest.mark.parametrize(("sunk", "is_told"), [(8, False), (11, True)])
def test_a_part_is_told_from_half_of_its_wood_on(sunk, is_told, told):
    block = f"width = 100; depth = 100; height = 20; at = [100, 100, {500 - sunk}]"
    found = told(TOP, f'name = "block"; shape = "board"; {block}')
    assert is_told == bool(found)


def test_what_stands_in_the_hollow_of_a_case_is_not_deep_in_it(told):
    assert [] == told(CASE, f"{SHELF}; at = [20, 20, 300]")


def test_a_row_in_one_place_is_told_once(told):
    row = "row = { of = 30, apart = [0, 0, 0] }"
    found = told(f"{SHELF}; {row}")
    assert 1 == len(found)
