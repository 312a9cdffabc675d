"""`[[part]]` tables become parts of the right shape, at the right place."""

from collections.abc import Callable
from fractions import Fraction

import pytest

from shapes.grid import to_mm
from shapes.tolerances import GRID_PER_MM
from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem

Read = Callable[[str], tuple[Piece | None, list[Problem]]]
PieceOf = Callable[[str], Piece]

HEAD = '[piece]\nname = "p"\nunit = "{unit}"\n'


def part(table: str, unit: str = "mm") -> str:
    return f"{HEAD.format(unit=unit)}[[part]]\n{table}\n"


def places(piece: Piece) -> dict[str, tuple[float, ...]]:
    """Return where each part stands [mm]."""
    return {part.name: tuple(to_mm(units) for units in part.at) for part in piece.parts}


@pytest.mark.parametrize(
    ("table", "faces", "area_mm2"),
    [
        ('shape = "board"\nwidth = 10\ndepth = 20\nheight = 30',
         "front back left right top bottom", 2 * (10 * 20 + 10 * 30 + 20 * 30)),
        ('shape = "case"\nwidth = 10\ndepth = 20\nheight = 30\nboard = 2',
         "front back left right top bottom inside",
         2 * (10 * 20 + 10 * 30 + 20 * 30) + 2 * (6 * 16 + 6 * 26 + 16 * 26)),
        ('shape = "case"\nwidth = 10\ndepth = 20\nheight = 30\nboard = 2\nopen = ["top"]',
         "front back left right bottom edge inside",
         10 * 20 + 2 * (10 * 30 + 20 * 30) + (10 * 20 - 6 * 16) + 6 * 16 + 2 * 28 * (6 + 16)),
        ('shape = "drawer"\nwidth = 10\ndepth = 20\nheight = 8\nfront = 3\nboard = 1',
         "front edge left right back bottom inside", None),
        ('shape = "leg"\nheight = 30\nwidth = 4', "front back left right top bottom",
         4 * 4 * 30 + 2 * 16),
        ('shape = "leg"\nheight = 30\nwidth = 4\ndepth = 5', "front back left right top bottom",
         2 * (4 + 5) * 30 + 2 * 20),
        ('shape = "leg"\nform = "square"\nheight = 30\nwidth = 4',
         "front back left right top bottom", 4 * 4 * 30 + 2 * 16),
        ('shape = "leg"\nform = "tapered"\nheight = 30\nwidth = 4\nfoot = 2',
         "front back left right top bottom", None),
        ('shape = "leg"\nform = "round"\nheight = 30\nwidth = 4', "side top bottom", None),
        ('shape = "leg"\nform = "turned"\nprofile = [[0, 4], [30, 5]]', "side top bottom", None),
        ('shape = "leg"\nform = "turned"\nheight = 30\nprofile = [[0, 4], [30, 5]]',
         "side top bottom", None),
        ('shape = "panel"\nwidth = 30\ndepth = 4\nheight = 40\nframe = 5\nrecess = 1',
         "front back edge", 2 * (30 * 40 + 2 * (20 + 30)) + 2 * 4 * (30 + 40)),
    ],
)  # fmt: skip
def test_shape_has_its_faces_and_its_area(
    table: str, faces: str, area_mm2: float | None, piece_of: PieceOf
) -> None:
    (found,) = piece_of(part(f'name = "a"\n{table}')).parts
    area_of = {face: area for face, area in found.solid.area_mm2_of.items() if area}
    assert sorted(faces.split()) == sorted(area_of)
    if area_mm2 is not None:
        assert area_mm2 == sum(area_of.values())


@pytest.mark.parametrize(
    ("unit", "mm"), [("mm", "1"), ("cm", "10"), ("m", "1000"), ("in", "25.4"), ("ft", "304.8")]
)
def test_bare_number_is_a_length_in_the_unit_of_the_piece(
    unit: str, mm: str, piece_of: PieceOf
) -> None:
    text = part('name = "a"\nshape = "board"\nwidth = 2\ndepth = 1.5\nheight = 0.5', unit)
    (found,) = piece_of(text).parts
    size = [number * Fraction(mm) * GRID_PER_MM for number in (2, Fraction("1.5"), Fraction("0.5"))]
    assert size == list(found.solid.size)


def test_text_carries_its_own_unit_whatever_that_of_the_piece(piece_of: PieceOf) -> None:
    text = part(
        'name = "a"\nshape = "board"\nwidth = "44 1/2 in"\ndepth = "1.13 m"\nheight = "5 ft 2 in"'
    )
    (found,) = piece_of(text).parts
    size = [Fraction(mm) * GRID_PER_MM for mm in ("1130.3", "1130", "1574.8")]
    assert size == list(found.solid.size)


BOARD = 'name = "a"\nshape = "board"\nwidth = 100\ndepth = 60\nheight = 20\n'


def test_part_stands_at_the_corner_on_the_floor_unless_told_otherwise(piece_of: PieceOf) -> None:
    assert places(piece_of(part(BOARD))) == {"a": (0, 0, 0)}


def test_at_is_left_front_bottom_and_takes_texts_and_negative_lengths(piece_of: PieceOf) -> None:
    assert places(piece_of(part(f'{BOARD}at = [-5, "2 cm", 7.5]'))) == {"a": (-5, 20, 7.5)}


def test_row_counts_from_one_each_that_far_from_the_last(piece_of: PieceOf) -> None:
    text = part(f'{BOARD}at = [1, 2, 3]\nrow = {{ of = 3, apart = [0, "1 cm", -8] }}')
    assert places(piece_of(text)) == {"a 1": (1, 2, 3), "a 2": (1, 12, -5), "a 3": (1, 22, -13)}


def test_row_may_be_written_with_dotted_keys(piece_of: PieceOf) -> None:
    text = part(f"{BOARD}row.of = 2\nrow.apart = [0, 0, 30]")
    assert places(piece_of(text)) == {"a 1": (0, 0, 0), "a 2": (0, 0, 30)}


def test_row_of_one_is_called_one(piece_of: PieceOf) -> None:
    assert list(places(piece_of(part(f"{BOARD}row = {{ of = 1, apart = [0, 0, 0] }}")))) == ["a 1"]


LEG = '[[part]]\nname = "leg"\nshape = "leg"\nwidth = 10\nheight = 50\n'


def test_corners_go_front_left_front_right_back_left_back_right_under_the_box(
    piece_of: PieceOf,
) -> None:
    text = part(f'{BOARD}at = [5, 6, 70]\n{LEG}corners = {{ of = "a", set_in = 2 }}')
    assert places(piece_of(text)) == {
        "a": (5, 6, 70),
        "leg 1": (7, 8, 20),
        "leg 2": (93, 8, 20),
        "leg 3": (7, 54, 20),
        "leg 4": (93, 54, 20),
    }


def test_corners_may_come_before_the_part_they_stand_under(piece_of: PieceOf) -> None:
    leg = LEG.removeprefix("[[part]]\n") + 'corners = { of = "a", set_in = 0 }\n'
    first = piece_of(part(f"{leg}[[part]]\n{BOARD}at = [0, 0, 50]"))
    last = piece_of(part(f'{BOARD}at = [0, 0, 50]\n{LEG}corners = {{ of = "a", set_in = 0 }}'))
    assert places(last) == places(first)


@pytest.mark.parametrize(
    ("line", "loose"),
    [("", False), ("loose = false", False), ("loose = true", True), ('loose = "lid"', "lid")],
)
def test_part_is_joined_unless_loose_says_otherwise(
    line: str, loose: bool | str, piece_of: PieceOf
) -> None:
    (found,) = piece_of(part(f"{BOARD}{line}")).parts
    assert loose == found.loose


DRAWER = 'name = "d"\nshape = "drawer"\nwidth = 40\ndepth = 50\nheight = 20\nfront = 3\nboard = 1\n'


def test_drawer_is_loose_unless_told_otherwise(piece_of: PieceOf) -> None:
    (found,) = piece_of(part(DRAWER)).parts
    assert found.loose is True
    (found,) = piece_of(part(f"{DRAWER}loose = false")).parts
    assert found.loose is False


def mends(read: Read, text: str) -> list[str]:
    """Return line and message of everything to mend in a text that must yield no piece."""
    piece, problems = read(text)
    assert piece is None
    return [f"{problem.line}: {problem.message}" for problem in problems if problem.level == "mend"]


@pytest.mark.parametrize(
    ("table", "line", "rule"),
    [
        ('shape = "case"\nwidth = 100\ndepth = 60\nheight = 80\nboard = 30', 10,
         "board = 30 must be less than half of the depth (30 mm)"),
        ('shape = "case"\nwidth = 100\ndepth = 60\nheight = 80\nboard = 90\nopen = ["front"]', 10,
         "board = 90 must be less than"),
        ('shape = "drawer"\nwidth = 40\ndepth = 50\nheight = 20\nfront = 45\nboard = 5', 10,
         "front = 45 must be less than"),
        ('shape = "drawer"\nwidth = 40\ndepth = 50\nheight = 20\nfront = 3\nboard = 20', 11,
         "board = 20 must be less than"),
        ('shape = "panel"\nwidth = 40\ndepth = 20\nheight = 60\nframe = 20\nrecess = 3', 10,
         "frame = 20 must be less than half of the width (20 mm)"),
        ('shape = "panel"\nwidth = 40\ndepth = 20\nheight = 60\nframe = 5\nrecess = 10', 11,
         "recess = 10 must be less than half of the depth (10 mm)"),
    ],
)  # fmt: skip
def test_measures_that_do_not_go_together_are_refused_with_their_limit(
    table: str, line: int, rule: str, read: Read
) -> None:
    (found,) = mends(read, part(f'name = "a"\n{table}'))
    assert found.startswith(f"{line}: {rule}")


def test_limit_is_told_in_the_unit_of_the_file(read: Read) -> None:
    table = 'name = "a"\nshape = "case"\nwidth = 10\ndepth = 5\nheight = 8\nboard = 3'
    (found,) = mends(read, part(table, "in"))
    assert "(2 1/2 in)" in found


@pytest.mark.parametrize(
    ("profile", "rule"),
    [
        ("[]", "profile"),
        ("[[0, 10]]", "two points"),
        ("[[5, 10], [20, 10]]", "starts at height 0"),
        ("[[0, 10], [20, 10], [10, 10]]", "point 3 is lower"),
        ("[[0, 10], [10, 0], [20, 10]]", "point 2 is 0"),
        ("[[0, 0], [10, 0]]", "wider than 0"),
        ("[[0, 10], [10, 10], [10, 12], [10, 14], [20, 5]]", "point 2"),
        ("[[0, 10], [0, 10], [20, 10]]", "point 2"),
        ("[[0, 10], [20, -5]]", "point 2"),
        ("[[0, 10], [-20, 5]]", "point 2"),
        ("[[0, 10], [20000, 5]]", "10 m"),
        ("[[0, 10], [20]]", "[height, diameter]"),
        ("[[0, 10], [20, 5, 1]]", "[height, diameter]"),
        ("[0, 10]", "[height, diameter]"),
        ('"0 to 10"', "[height, diameter]"),
        ("[[0, 10], [20, nan]]", "ordinary number"),
        ("[[0, 10], [20, true]]", "number"),
        ('[[0, 10], [20, "3,5 cm"]]', '"3.5 cm"'),
    ],
)
def test_profile_that_cannot_be_turned_is_refused_on_its_line(
    profile: str, rule: str, read: Read
) -> None:
    table = f'name = "a"\nshape = "leg"\nform = "turned"\nprofile = {profile}'
    found = mends(read, part(table))
    assert len(found) == 1
    assert found[0].startswith("8: ")
    assert rule in found[0]


def test_profile_without_points_is_refused_also_where_a_height_is_given(read: Read) -> None:
    table = 'name = "a"\nshape = "leg"\nform = "turned"\nheight = 20\nprofile = []'
    (found,) = mends(read, part(table))
    assert found.startswith("9: profile = [] ")


def test_height_unlike_that_of_the_profile_is_refused(read: Read) -> None:
    table = 'name = "a"\nshape = "leg"\nform = "turned"\nprofile = [[0, 5], [20, 5]]\nheight = 21'
    (found,) = mends(read, part(table))
    assert found.startswith("9: height = 21 ")


def test_height_is_that_of_a_profile_in_other_units(piece_of: PieceOf) -> None:
    """A foot of profile is twelve inches of height, though neither is a whole float of mm."""
    table = (
        'name = "a"\nshape = "leg"\nform = "turned"\nheight = "1 ft"\n'
        'profile = [["0 in", "1 in"], ["12 in", "1 in"]]'
    )
    assert len(piece_of(part(table)).parts) == 1


@pytest.mark.parametrize(
    ("lines", "line", "rule"),
    [
        ("row = { of = 0, apart = [0, 0, 1] }", 10, "1"),
        ("row = { of = 1001, apart = [0, 0, 1] }", 10, "1,000"),
        ("row = { of = 2.5, apart = [0, 0, 1] }", 10, "whole number"),
        ("row = { of = true, apart = [0, 0, 1] }", 10, "whole number"),
        ("row = { of = 2 }", 10, "apart"),
        ("row = { apart = [0, 0, 1] }", 10, "has no of"),
        ("row = { of = 2, apart = [0, 0] }", 10, "three lengths"),
        ("row = { of = 2, apart = 8 }", 10, "three lengths"),
        ("row = { of = 900, apart = [0, 0, 50] }", 10, "10 m"),
        ("row = 3", 10, "{ of = 3, apart = [0, 0, 200] }"),
        ("row = { of = 2, apart = [0, 0, 1], off = 1 }", 10, '"of"'),
        ("at = [0, 0]", 10, "three lengths"),
        ("at = [0, 0, 0, 0]", 10, "three lengths"),
        ("at = 5", 10, "three lengths"),
        ("at = [0,\n0,\n20000]", 12, "z = 20000 is over 10 m"),
        ("at = [0, nan, 0]", 10, "ordinary number"),
        ('at = [0, 0, "3 kg"]', 10, "must be a length"),
        ("loose = 1", 10, "true, false, or one word"),
        ('loose = ""', 10, "true, false, or one word"),
    ],
)  # fmt: skip
def test_place_that_cannot_be_is_refused_on_its_line(
    lines: str, line: int, rule: str, read: Read
) -> None:
    found = mends(read, part(f"{BOARD}{lines}"))
    assert len(found) == 1
    assert found[0].startswith(f"{line}: ")
    assert rule in found[0]


@pytest.mark.parametrize(
    ("corners", "rule"),
    [
        ('{ of = "b", set_in = 0 }', '"b" is not a part'),
        ('{ of = "leg", set_in = 0 }', "is placed from this part in turn"),
        ('{ of = "a", set_in = -1 }', "0 or more"),
        ('{ of = "a", set_in = 51 }', "sticks out of a in its"),
        ('{ of = "a", set_in = nan }', "ordinary number"),
        ('{ of = "a", set_out = 1 }', '"set_in"'),
        ("{ set_in = 1 }", "has no of"),
        ('"a"', '{ of = "case", set_in = 0 }'),
    ],
)
def test_corners_that_cannot_be_are_refused_on_their_line(
    corners: str, rule: str, read: Read
) -> None:
    found = mends(read, part(f"{BOARD}{LEG}corners = {corners}"))
    assert len(found) == 1
    assert found[0].startswith("15: ")
    assert rule in found[0]


@pytest.mark.parametrize("other", ["at = [0, 0, 0]", "row = { of = 2, apart = [0, 0, 1] }"])
def test_corners_do_not_go_together_with_at_or_row(other: str, read: Read) -> None:
    (found,) = mends(read, part(f'{BOARD}{LEG}corners = {{ of = "a", set_in = 0 }}\n{other}'))
    assert found.startswith("16: has both corners and ")


def test_corners_under_a_part_with_a_mistake_are_not_a_second_mistake(read: Read) -> None:
    text = part(BOARD.replace("60", "-60") + LEG + 'corners = { of = "a", set_in = 0 }')
    (found,) = mends(read, text)
    assert found.startswith("8: depth = -60 ")


def test_part_called_like_one_of_a_row_is_refused(read: Read) -> None:
    other = BOARD.replace('"a"', '"a 2"')
    text = part(f"{BOARD}row = {{ of = 2, apart = [0, 0, 30] }}\n[[part]]\n{other}")
    (found,) = mends(read, text)
    assert '"a 2"' in found


def test_more_parts_than_any_piece_has_are_refused(read: Read) -> None:
    row = "row = { of = 1000, apart = [0, 0, 1] }\n"
    boards = [BOARD.replace('"a"', f'"a{number}"') for number in range(11)]
    rows = "".join(f"[[part]]\n{board}{row}" for board in boards)
    found = mends(read, HEAD.format(unit="mm") + rows)
    assert len(found) == 1
    assert "10,000 parts" in found[0]


def test_rails_between_two_posts_are_as_loose_as_their_table_says(piece_of: PieceOf) -> None:
    """Two rails of 20 mm in 100 mm of air leave three spaces of 20 mm; the air begins at 40 mm."""
    post = 'name = "{}"\nshape = "board"\nwidth = 40\ndepth = 40\nheight = 300\nat = [{}, 0, 0]\n'
    posts = f"{post.format('a', 0)}[[part]]\n{post.format('b', 140)}[[part]]\n"
    rail = 'name = "rail"\nshape = "board"\nwidth = 20\ndepth = 20\nheight = 300\nloose = {}\n'
    between = 'between = { first = "a", last = "b", of = 2 }'
    for loose, said in ((True, "true"), (False, "false")):
        piece = piece_of(part(posts + rail.format(said) + between))
        rails = [one for one in piece.parts if one.name.startswith("rail")]
        assert [60, 100] == [to_mm(one.at[0]) for one in rails]
        assert [loose, loose] == [one.loose for one in rails]
