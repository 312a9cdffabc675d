"""Lids, tipping over, nursery and food: told by the parts and by what the piece is for."""

import pytest

COAT = 'do = "coat"; product = "x"; coats = 1; by = "brush"'
LID = 'name = "lid"; shape = "board"; width = 520; depth = 420; height = 20; loose = true'


def chest(height, name="box", width=500, depth=400, board=10):
    return (
        f'name = "{name}"; shape = "case"; width = {width}; depth = {depth}; height = {height};'
        f' board = {board}; open = ["top"]'
    )


def cabinet(height, *, width=600, depth=400):
    return (
        f'name = "carcase"; shape = "case"; width = {width}; depth = {depth}; height = {height};'
        ' board = 20; open = ["front"]'
    )


def drawer(count, *, height=150):
    return (
        f'name = "drawer"; shape = "drawer"; width = 560; depth = 380; height = {height};'
        f" front = 20; board = 12; row = {{ of = {count}, apart = [0, 0, {height}] }}"
    )


DOOR = (
    'name = "door"; shape = "panel"; width = 300; depth = 20; height = 700; frame = 50;'
    " recess = 5; loose = true"
)


def test_a_lid_over_a_chest_is_told_with_the_room_under_it(found):
    # inside 480 x 380 x 390 mm = 71.1 L, and the rule begins at 1.1 ft3 = 31.1 L
    told = found(parts=[chest(400), LID])["LID"]
    assert '71 L under "lid"; the rule applies from 31 L up' == told.applies_to


@pytest.mark.parametrize(("height", "told"), [(180, False), (181, True)])
def test_a_lid_is_told_from_the_volume_of_the_rule_on(height, told, found):
    # 1.1 ft3 = 31.149 L; 480 x 380 mm x (height - 10 mm) is 31.008 L at 180, 31.190 L at 181
    assert told == ("LID" in found(parts=[chest(height), LID]))


def test_a_chest_without_a_lid_is_not_told(found):
    assert "LID" not in found(parts=[chest(400)])


def test_a_loose_top_that_covers_the_chest_is_a_lid_by_any_name(found):
    cover = LID.replace('"lid"', '"cover board"')
    assert "LID" in found(parts=[chest(400), cover])


@pytest.mark.parametrize("name", ["drawer", "tray", "shelf"])
def test_a_tray_or_shelf_of_a_chest_is_no_lid(name, found):
    assert "LID" not in found(parts=[chest(400), LID.replace('"lid"', f'"{name}"')])


def test_a_small_loose_part_is_no_lid(found):
    knob = 'name = "knob"; shape = "leg"; form = "round"; height = 20; width = 30; loose = true'
    assert "LID" not in found(parts=[chest(400), knob])


def test_a_chest_of_boards_is_told_with_an_upper_bound(found):
    sides = (
        'name = "side"; shape = "board"; width = 20; depth = 400; height = 400;'
        " row = { of = 2, apart = [480, 0, 0] }"
    )
    base = 'name = "bottom"; shape = "board"; width = 500; depth = 400; height = 20'
    assert found(parts=[sides, base, LID])["LID"].applies_to.startswith("at most 80 L under")
    small = sides.replace("height = 400", "height = 100")
    assert "LID" not in found(parts=[small, base, LID])


def test_a_tall_piece_with_drawers_is_told_with_height_and_room(found):
    # each drawer 536 x 348 x 138 mm = 25.7 L
    told = found(parts=[cabinet(800), drawer(5)])["TIP_OVER"]
    assert told.applies_to.startswith("800 mm high, holds 129 L in its drawers; ")


def test_a_piece_that_can_tip_is_told_why_it_counts_and_not_that_it_is_tall(found):
    told = found(parts=[cabinet(800), drawer(5)])["TIP_OVER"]
    assert told.applies_to.endswith("; the rule applies from 685.8 mm and 91 L up")
    assert "tall" not in told.text + told.in_use


def test_doors_hold_nothing_themselves(found):
    both = [cabinet(800, depth=460), DOOR, drawer(1)]
    half = "(space behind doors counts half, as in the rule)"
    told = found(parts=[cabinet(800, depth=460), DOOR])["TIP_OVER"].applies_to
    assert f"holds 94 L behind its door {half}" in told
    assert "in its drawer and behind its door (" in found(parts=both)["TIP_OVER"].applies_to


@pytest.mark.parametrize(("height", "told"), [(685, False), (686, True)])
def test_tipping_over_is_told_from_27_in(height, told, found):
    assert told == ("TIP_OVER" in found(parts=[cabinet(height), drawer(4)]))


@pytest.mark.parametrize(("count", "told"), [(3, False), (4, True)])
def test_tipping_over_is_told_from_the_storage_of_the_rule_on(count, told, found):
    # 3.2 ft3 = 90.6 L; each drawer 25.7 L
    assert told == ("TIP_OVER" in found(parts=[cabinet(800), drawer(count)]))


def test_storage_behind_doors_counts_half(found):
    # inside 560 x 380 x 760 mm = 161.7 L, half of it 80.9 L; 40 mm deeper 90.6 < 93.6 / 2 ...
    assert "TIP_OVER" not in found(parts=[cabinet(800), DOOR])
    # inside 560 x 440 x 760 mm = 187.3 L, half of it 93.6 L
    assert "TIP_OVER" in found(parts=[cabinet(800, depth=460), DOOR])


def test_bays_hold_what_their_partitions_leave(found):
    # inside (560 - 20) x 460 x 760 mm = 188.8 L, half of it 94.4 L
    in_bays = f"{cabinet(800, depth=480)}; bays = {{ across = 2 }}"
    assert "holds 94 L behind its door" in found(parts=[in_bays, DOOR])["TIP_OVER"].applies_to


def test_a_tall_piece_without_drawers_or_doors_is_not_told(found):
    assert "TIP_OVER" not in found(parts=[cabinet(1800)])


def test_a_piece_of_boards_with_a_door_is_told_that_its_room_is_not_known(found):
    side = 'name = "side"; shape = "board"; width = 30; depth = 500; height = 1200'
    told = found(parts=[side, DOOR])["TIP_OVER"]
    assert "the space behind its door is not known from the parts" in told.applies_to


def test_a_piece_that_is_surely_lighter_than_the_rule_is_not_told(found):
    # 1.2 m x 100 mm x 5 mm of wood and a door of 700 x 300 x 20 mm weigh under 13.6 kg
    side = 'name = "side"; shape = "board"; width = 100; depth = 5; height = 1200'
    assert "TIP_OVER" not in found(parts=[side, DOOR])


def test_a_drawer_of_boards_counts_as_its_box_less_the_boards(found):
    boards = [
        'name = "front"; shape = "board"; width = 500; depth = 20; height = 500;'
        ' loose = "deep drawer"',
        'name = "back"; shape = "board"; width = 500; depth = 20; height = 500;'
        ' at = [0, 430, 0]; loose = "deep drawer"',
    ]
    # box 500 x 450 x 500 mm less two boards of 500 x 20 x 500 mm: 102.5 L
    told = found(parts=[cabinet(800), *boards])["TIP_OVER"]
    assert "holds 102 L in its drawer;" in told.applies_to


def test_a_drawer_knob_is_no_drawer(found):
    knob = (
        'name = "drawer knob"; shape = "leg"; form = "round"; height = 20; width = 30; loose = true'
    )
    assert "TIP_OVER" not in found(parts=[cabinet(800), knob])


@pytest.mark.parametrize(
    ("head", "told"),
    [
        ('for = "nursery"', {"NURSERY"}),
        ('for = "food"', {"FOOD"}),
        ('for = ["nursery", "food"]', {"NURSERY", "FOOD"}),
        ("built = 1990", set()),
    ],
)
def test_what_a_piece_is_for_is_told(head, told, found):
    assert told == {"NURSERY", "FOOD"} & set(found(head=head))


def test_the_longest_cure_of_the_job_is_told_with_where_it_is_from(found):
    products = {"x": "waterborne paint; cure = '9 days'", "y": "waterborne paint; cure = '2 days'"}
    steps = COAT, COAT.replace('"x"', '"y"')
    text = found(*steps, products=products, head='for = "nursery"')["NURSERY"].text
    assert 'The slowest to cure here is "x": 9 days (as its label says).' in text


def test_an_assumed_cure_is_told_as_assumed(found):
    text = found(COAT, products={"x": "waterborne paint"}, head='for = "food"')["FOOD"].text
    assert 'The slowest to cure here is "x": 30 days (assumed).' in text


def test_without_coats_the_usual_cure_is_told(found):
    assert "allow 30 days" in found(head='for = "food"')["FOOD"].text


@pytest.mark.parametrize(
    ("height", "head", "told"),
    [
        (686, 'kind = "bookcase"', True),
        (685, 'kind = "bookcase"', False),
        (1800, 'kind = "bookcase"\nbuilt_in = true', False),
        (1800, 'kind = "cabinet"', False),
    ],
)
def test_a_bookcase_as_tall_as_the_rule_for_drawers_is_to_be_anchored(height, head, told, found):
    assert told is ("TALL_SHELVES" in found(parts=[cabinet(height)], head=head))


def test_drawers_in_a_bookcase_ask_for_one_anchor_not_two(found):
    told = found(parts=[cabinet(1200), drawer(4)], head='kind = "bookcase"')
    assert {"TIP_OVER"} == {"TIP_OVER", "TALL_SHELVES"} & set(told)


def test_what_is_built_in_cannot_tip_over(found):
    assert "TIP_OVER" in found(parts=[cabinet(1200), drawer(4)])
    assert "TIP_OVER" not in found(parts=[cabinet(1200), drawer(4)], head="built_in = true")
