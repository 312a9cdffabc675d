"""Which zone has each face: selectors, their ranks, and claims that clash."""

import itertools
import re
from collections.abc import Callable

import pytest

from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem

Read = Callable[[str], tuple[Piece | None, list[Problem]]]
PieceOf = Callable[[str], Piece]

PARTS = """\
[piece]
name = "p"
unit = "mm"
[[part]]
name = "case"
shape = "case"
width = 100
depth = 60
height = 80
board = 5
open = ["front"]
at = [0, 0, 50]
[[part]]
name = "leg"
shape = "leg"
width = 10
height = 50
corners = { of = "case", set_in = 0 }
[[part]]
name = "shelf"
shape = "board"
width = 90
depth = 55
height = 5
at = [5, 5, 80]
row = { of = 2, apart = [0, 0, 20] }
[[part]]
name = "side board"
shape = "board"
width = 10
depth = 20
height = 30
loose = true
"""
LINES = PARTS.count("\n")
SIX = ("front", "back", "left", "right", "top", "bottom")


def zones(*selectors: str) -> str:
    """Return the parts and a zone for each list of selectors, called a, b, c ..."""
    text = PARTS
    for name, faces in zip("abcdef", selectors, strict=False):
        text += f'[[zone]]\nname = "{name}"\nfaces = [{faces}]\nleave = true\n'
    return text


def faces_of(piece: Piece, zone: str) -> set[str]:
    """Return the faces of a zone as part.face."""
    return {f"{part}.{face}" for (part, face), name in piece.zone_of.items() if name == zone}


@pytest.mark.parametrize(
    ("selector", "faces"),
    [
        ("case.left", {"case.left"}),
        ("case.edge", {"case.edge"}),
        ("leg 3", {f"leg 3.{face}" for face in SIX}),
        ("leg", {f"leg {n}.{face}" for n in range(1, 5) for face in SIX}),
        ("leg.top", {f"leg {n}.top" for n in range(1, 5)}),
        ("shelf", {f"shelf {n}.{face}" for n in (1, 2) for face in SIX}),
        ("shelf 2.bottom", {"shelf 2.bottom"}),
        ("leg *.front", {f"leg {n}.front" for n in range(1, 5)}),
        ("*.inside", {"case.inside"}),
        ("*board", {f"side board.{face}" for face in SIX}),
        ("*e*", None),
        ("s* 1", {f"shelf 1.{face}" for face in SIX}),
        ("s*d.top", {"side board.top"}),
        ("s*.top", {"shelf 1.top", "shelf 2.top", "side board.top"}),
        (" case . left ", {"case.left"}),
    ],
)
def test_selector_names(selector: str, faces: set[str] | None, piece_of: PieceOf) -> None:
    """A star stands for any run of signs, also none; the name of a row means all of it."""
    piece = piece_of(zones(f'"{selector}"'))
    every = {f"{part.name}.{face}" for part in piece.parts for face in part.solid.faces}
    assert (every if faces is None else faces) == faces_of(piece, "a")


def test_star_alone_names_every_face(piece_of: PieceOf) -> None:
    piece = piece_of(zones('"*"'))
    assert len(faces_of(piece, "a")) == sum(len(part.solid.faces) for part in piece.parts)


def test_zone_has_what_any_of_its_selectors_names(piece_of: PieceOf) -> None:
    piece = piece_of(zones('"case.left", "leg 1.top", "case.left"'))
    assert faces_of(piece, "a") == {"case.left", "leg 1.top"}


def test_pattern_signs_of_other_languages_have_no_meaning(read: Read) -> None:
    for selector in ("leg [1-4]", "leg ?", "l.g", "(leg|case)*"):
        _, problems = read(zones(f"'{selector}'"))
        assert "matches no" in problems[0].message


RANKED = ['"case.left"', '"c*.left"', '"case"', '"c*"', '"*"']
NAMES = ["part and face", "pattern and face", "part", "pattern", "everything"]


@pytest.mark.parametrize(
    ("higher", "lower"),
    list(itertools.combinations(range(5), 2)),
    ids=[" before ".join(pair) for pair in itertools.combinations(NAMES, 2)],
)
@pytest.mark.parametrize("swapped", [False, True], ids=["", "written later"])
def test_higher_rank_wins_wherever_it_stands(
    higher: int, lower: int, swapped: bool, piece_of: PieceOf
) -> None:
    pair = [RANKED[higher], RANKED[lower]]
    piece = piece_of(zones(*(reversed(pair) if swapped else pair)))
    assert piece.zone_of["case", "left"] == ("b" if swapped else "a")


def test_pattern_with_any_face_is_a_pattern_with_a_face(piece_of: PieceOf) -> None:
    piece = piece_of(zones('"case"', '"*.left"'))
    assert piece.zone_of["case", "left"] == "b"
    assert piece.zone_of["case", "right"] == "a"


def test_zone_may_claim_a_face_twice(piece_of: PieceOf) -> None:
    piece = piece_of(zones('"case", "case.left", "*"', '"c*.left"'))
    assert piece.zone_of["case", "left"] == "a"


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ('"case.left"', '"case.left"'),
        ('"c*.left"', '"*e.left"'),
        ('"case"', '"case"'),
        ('"c*"', '"*se"'),
        ('"*"', '"*"'),
        ('"leg"', '"leg 2"'),
        ('"leg.top"', '"leg 2.top"'),
    ],
)
def test_two_zones_at_the_same_rank_clash_and_both_are_named(
    first: str, second: str, read: Read
) -> None:
    piece, problems = read(zones(first, second))
    assert piece is None
    (found,) = problems
    assert (found.level, found.where) == ("mend", 'zone "b"')
    assert found.line == LINES + 7
    assert 'zone "a"' in found.message
    assert f"line {LINES + 3}" in found.message
    assert re.search(r"case\.\w+|leg \d\.\w+", found.message)


def test_clash_at_a_low_rank_does_not_matter_where_a_higher_one_decides(piece_of: PieceOf) -> None:
    piece = piece_of(zones('"case", "leg"', '"c*", "shelf"', '"*se", "side board"')[:-1])
    assert piece.zone_of["case", "left"] == "a"


def test_three_zones_that_claim_a_face_clash_with_the_first(read: Read) -> None:
    _, problems = read(zones('"case.left"', '"case.left"', '"case.left"'))
    assert [found.where for found in problems] == ['zone "b"', 'zone "c"']


@pytest.mark.parametrize(
    ("selector", "right"),
    [
        ("cas", 'did you mean "case"?'),
        ("leg 5", 'did you mean "leg'),
        ("lge.top", 'did you mean "leg"?'),
        ("shelves.top", "shelf"),
        ("drawer *", "no part"),
        ("x*.front", "no part"),
        ("leg.inside", "front, back, left, right, top, bottom"),
        ("leg.tpo", 'did you mean "top"?'),
        ("shelf *.edge", "no face"),
        ("*.sides", "no face"),
        ("case.", "no face"),
        (".left", "no part"),
        ("", "no part"),
        ("case.left.top", "no face"),
        ("case.front", "edge"),
    ],
)
def test_selector_that_matches_nothing_is_refused(selector: str, right: str, read: Read) -> None:
    piece, problems = read(zones(f'"{selector}"'))
    assert piece is None
    (found,) = problems
    assert (found.level, found.where, found.line) == ("mend", 'zone "a"', LINES + 3)
    assert f'"{selector}"' in found.message
    assert right in found.message


def test_each_part_is_listed_once_where_a_selector_names_none(read: Read) -> None:
    """A part that stands in a row has its own name and that of the row."""
    _, (found,) = read(zones('"xyz"'))
    names = found.message.split("use one of ")[1].split(", ")
    assert len(set(names)) == len(names)


def test_selector_is_told_on_its_own_line(read: Read) -> None:
    _, problems = read(zones('\n"case.left",\n"cupboard",\n'))
    assert [LINES + 5] == [found.line for found in problems]


def test_open_side_of_a_case_has_no_face_and_the_message_says_so(read: Read) -> None:
    _, (found,) = read(zones('"case.front"'))
    assert "an open side has no face" in found.message
    assert "edge" in found.message


def test_selector_of_a_part_with_a_mistake_is_not_a_second_mistake(read: Read) -> None:
    for selector in ("shelf", "shelf 2", "shelf.top", "sh*", "shelf *.top"):
        text = zones(f'"{selector}"').replace("width = 90", "width = -90")
        _, (found,) = read(text)
        assert found.where == 'part "shelf"'


def test_part_whose_name_ends_in_a_blank_can_be_named(piece_of: PieceOf) -> None:
    """Blanks around a selector do not count, so they must not count in a name either."""
    piece = piece_of(zones('"shelf "').replace('name = "shelf"', 'name = "shelf "'))
    assert len(faces_of(piece, "a")) == 12


IN_BAYS = PARTS.replace('open = ["front"]', 'open = ["front"]\nbays = { across = 3 }')


@pytest.mark.parametrize(
    ("first", "second", "left_to_first"),
    [
        ('"case.inside"', '"case.inside 2"', {"case.inside 1", "case.inside 3"}),
        ('"*.inside"', '"case.inside"', set()),
        ('"case"', '"case.inside"', None),
        ('"*.inside 2"', '"case.inside"', set()),
    ],
)
def test_inside_is_all_bays_and_less_close_than_the_name_of_one(
    first: str, second: str, left_to_first: set[str] | None, piece_of: PieceOf
) -> None:
    """None: all faces of the case but those of its bays."""
    text = zones(first, second).replace(PARTS, IN_BAYS)
    piece = piece_of(text)
    bays = {f"case.inside {number}" for number in (1, 2, 3)}
    if left_to_first is None:
        assert not faces_of(piece, "a") & bays
        assert bays == faces_of(piece, "b")
    else:
        assert left_to_first == faces_of(piece, "a")
        assert bays - left_to_first == faces_of(piece, "b")
