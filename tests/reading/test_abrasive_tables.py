"""`[[abrasive]]` tables: life by grit, FEPA grades, packs and what is on hand."""

from collections.abc import Callable

import pytest

from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import Abrasive
from surfacecalc.problems import Problem

Read = Callable[[str], tuple[Piece | None, list[Problem]]]
PieceOf = Callable[[str], Piece]

HEAD = """\
[piece]
name = "p"
unit = "mm"
[[part]]
name = "top"
shape = "board"
width = 100
depth = 60
height = 20
[[abrasive]]
name = "it"
"""
LINES = HEAD.count("\n")
DISC = 'form = "125 mm disc"\n'

# P grades of FEPA 43-1:2006 and ISO 6344-1, P12 to P2500, and the finer ones of ISO 6344-3:2021.
GRADES = (
    12, 16, 20, 24, 30, 36, 40, 50, 60, 80, 100, 120, 150, 180, 220, 240, 280, 320, 360, 400, 500,
    600, 800, 1000, 1200, 1500, 2000, 2500, 3000, 4000, 5000,
)  # fmt: skip


def abrasive(piece_of: PieceOf, table: str) -> Abrasive:
    return piece_of(HEAD + table).shelf.abrasives["it"]


def mistake(read: Read, table: str) -> str:
    """Return line and message of the one mistake of an abrasive's table."""
    piece, problems = read(HEAD + table)
    assert piece is None
    (found,) = problems
    assert (found.level, found.where) == ("mend", 'abrasive "it"')
    return f"{found.line}: {found.message}"


def test_one_life_holds_for_every_grade(piece_of: PieceOf) -> None:
    found = abrasive(piece_of, f'{DISC}life = "0.5 m2"\n').life
    assert tuple(found) == GRADES
    told = {(factor.range.likely, factor.unit, factor.source) for factor in found.values()}
    assert {(0.5, "m2", "label")} == told


def test_life_by_grit_holds_for_these_grades_only(piece_of: PieceOf) -> None:
    found = abrasive(piece_of, f'{DISC}life = {{ 80 = "0.3 m2", P120 = "5 ft2" }}\n').life
    assert {80: 0.3, 120: 0.4645152} == {grit: life.range.likely for grit, life in found.items()}


@pytest.mark.parametrize(
    ("life", "expected"),
    [
        ('"0.4 m2"', (0.3, 0.4, 0.5)),
        ('{ 120 = "0.4 m2" }', (0.3, 0.4, 0.5)),
        ('["0.4 m2", "0.4 m2", "0.4 m2"]', (0.4, 0.4, 0.4)),
        ('["0.3 m2", "0.4 m2", "0.9 m2"]', (0.3, 0.4, 0.9)),
    ],
)
def test_a_life_in_one_number_may_be_off_by_a_quarter(life, expected, piece_of: PieceOf) -> None:
    found = abrasive(piece_of, f"{DISC}life = {life}\n").life[120]
    values = found.range
    assert expected == pytest.approx((values.low, values.likely, values.high))
    assert found.is_band_assumed == (expected == (0.3, 0.4, 0.5))


def test_life_by_grit_may_be_a_range(piece_of: PieceOf) -> None:
    life = '{ 80 = ["0.2 m2", "0.3 m2", "0.5 m2"] }'
    values = abrasive(piece_of, f"{DISC}life = {life}\n").life[80].range
    assert (values.low, values.likely, values.high) == (0.2, 0.3, 0.5)


@pytest.mark.parametrize("form", ["125 mm disc", "5 in disc", "9 x 11 in sheet", "sanding sponge"])
def test_life_left_out_is_assumed_for_every_grade(form: str, piece_of: PieceOf) -> None:
    found = abrasive(piece_of, f'form = "{form}"\n').life
    assert tuple(found) == GRADES
    assert {factor.source for factor in found.values()} == {"assumed"}


def test_assumed_life_is_not_shorter_for_a_finer_grit(piece_of: PieceOf) -> None:
    lives = [factor.range.likely for factor in abrasive(piece_of, DISC).life.values()]
    assert sorted(lives) == lives


def test_form_of_its_own_needs_a_life(read: Read, piece_of: PieceOf) -> None:
    found = mistake(read, 'form = "steel wool"\n')
    assert found.startswith(f'{LINES + 1}: form = "steel wool" ')
    assert 'life = "0.5 m2"' in found
    assert abrasive(piece_of, 'form = "steel wool"\nlife = "1 m2"\n').form == "steel wool"


@pytest.mark.parametrize(
    ("form", "near"),
    [
        ("125 mm dsic", "125 mm disc"),
        ("5 in dics", "5 in disc"),
        ("sandin sponge", "sanding sponge"),
        ("quater sheet", "quarter sheet"),
    ],
)
def test_form_with_a_life_that_is_nearly_a_known_one_is_noted(
    form: str, near: str, read: Read
) -> None:
    piece, (found,) = read(f'{HEAD}form = "{form}"\nlife = "1 m2"\n')
    assert piece is not None
    assert ("note", LINES + 1, 'abrasive "it"') == (found.level, found.line, found.where)
    assert f'did you mean "{near}"?' in found.message


@pytest.mark.parametrize(
    "form", ["steel wool", "115 mm disc", "8 in disc", "belt", "125 MM Disc", "sheets of pumice"]
)
def test_form_of_its_own_or_of_another_size_is_not_noted(form: str, piece_of: PieceOf) -> None:
    assert abrasive(piece_of, f'form = "{form}"\nlife = "1 m2"\n').form == form


def test_life_that_is_not_right_is_told_with_its_grit_and_what_to_write(read: Read) -> None:
    found = mistake(read, f"{DISC}life = {{ 240 = 5 }}\n")
    assert found == f'{LINES + 2}: life: 240 = 5 has no unit; write 240 = "5 m2"'
    inches = HEAD.replace('unit = "mm"', 'unit = "in"')
    _, (problem,) = read(f"{inches}{DISC}life = {{ 240 = 5 }}\n")
    assert problem.message.endswith('write 240 = "5 ft2"')


def test_life_without_a_grit_is_told_what_to_write(read: Read) -> None:
    assert '240 = "0.5 m2"' in mistake(read, f"{DISC}life = {{}}\n")


@pytest.mark.parametrize("key", ["P120", "120", '"p120"'])
def test_on_hand_is_counted_by_grit(key: str, piece_of: PieceOf) -> None:
    found = abrasive(piece_of, f"{DISC}on_hand = {{ {key} = 3, 80 = 0 }}\n").on_hand
    assert found == {120: 3, 80: 0}


def test_packs_are_counts(piece_of: PieceOf) -> None:
    found = abrasive(piece_of, f"{DISC}packs = [{{ count = 5, price = 6 }}, {{ count = 25 }}]\n")
    assert [(pack.size, pack.price) for pack in found.packs] == [(5, 6), (25, None)]


@pytest.mark.parametrize("grade", GRADES)
def test_grade_of_the_standard_is_known(grade: int, piece_of: PieceOf) -> None:
    assert abrasive(piece_of, f"{DISC}on_hand = {{ {grade} = 1 }}\n").on_hand == {grade: 1}


@pytest.mark.parametrize(
    "grade",
    [
        "0",
        "70",
        "90",
        "125",
        "160",
        "200",
        "230",
        "250",
        "300",
        "10000",
        "99999999",
        "P",
        "fine",
        "-80",
        '""',
        '"80.0"',
        "P-120",
        "PP120",
    ],
)
def test_what_is_no_grade_is_refused(grade: str, read: Read) -> None:
    found = mistake(read, f"{DISC}on_hand = {{ {grade} = 1 }}\n")
    assert found.startswith(f"{LINES + 2}: ")
    assert "not a standard grit" in found


@pytest.mark.parametrize(
    ("grit", "near"), [("90", "80 and 100"), ("170", "150 and 180"), ("230", "220 and 240")]
)
def test_nearest_grades_are_named(grit: str, near: str, read: Read) -> None:
    assert near in mistake(read, f"{DISC}life = {{ {grit} = '1 m2' }}\n")


@pytest.mark.parametrize(
    ("line", "wrong"),
    [
        ('life = "0 m2"', "more than zero"),
        ('life = "-1 m2"', "more than zero"),
        ('life = "0.5"', "has no unit"),
        ("life = 0.5", "has no unit"),
        ('life = "0.5 L"', "must be an area"),
        ('life = "2000 m2"', "check the unit"),
        ('life = ["0.5 m2", "0.3 m2", "0.8 m2"]', "[low, likely, high]"),
        ('life = { 80 = "0 m2" }', "more than zero"),
        ('life = { 80 = "3" }', "has no unit"),
        ("life = true", "has no unit"),
        ("packs = [{ count = 0 }]", "from 1"),
        ("packs = [{ count = 2.5 }]", "whole number"),
        ('packs = [{ count = "5" }]', "whole number"),
        ("packs = [{ price = 3 }]", "has no count"),
        ("packs = [{ count = 5, price = -1 }]", "from 0"),
        ("packs = [{ count = 5, size = 1 }]", '"size" is not known'),
        ("packs = [5]", "{ count = 10"),
        ("packs = 5", "{ count = 10"),
        ("on_hand = 3", "{ 120 = 3 }"),
        ("on_hand = { 120 = -1 }", "from 0"),
        ("on_hand = { 120 = 1.5 }", "whole number"),
        ('on_hand = { 120 = "3" }', "whole number"),
        ('lfie = "1 m2"', 'did you mean "life"?'),
    ],
)
def test_abrasive_that_is_not_right_is_told_with_its_line(
    line: str, wrong: str, read: Read
) -> None:
    found = mistake(read, f"{DISC}{line}\n")
    assert found.startswith(f"{LINES + 2}: ")
    assert wrong in found


def test_same_grit_written_twice_is_refused(read: Read) -> None:
    """120 and P120 are one grade; which of two lives it has must not depend on their order."""
    assert "120" in mistake(read, f'{DISC}life = {{ 120 = "1 m2", P120 = "2 m2" }}\n')


@pytest.mark.parametrize("form", ["", "3", "[]"])
def test_abrasive_without_a_form_is_refused(form: str, read: Read) -> None:
    line = f"form = {form}\n" if form else ""
    assert "form = " in mistake(read, f'{line}life = "1 m2"\n')
