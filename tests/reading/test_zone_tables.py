"""Zones and schedules: what surface, and one finish."""

from collections.abc import Callable

import pytest

from surfacecalc.model.pieces import Piece
from surfacecalc.model.steps import Coat, Sand
from surfacecalc.problems import Problem

Read = Callable[[str], tuple[Piece | None, list[Problem]]]
PieceOf = Callable[[str], Piece]

HEAD = """\
[piece]
name = "p"
unit = "mm"
[[product]]
name = "paint"
kind = "paint"
[[abrasive]]
name = "disc"
form = "125 mm disc"
[[part]]
name = "top"
shape = "board"
width = 100
depth = 60
height = 20
[[zone]]
name = "all"
faces = ["*"]
"""
LINES = HEAD.count("\n")
SAND = 'do = "sand"\ngrits = [120, "P180", "220"]\nwith = "disc"\n'
COAT = 'do = "coat"\nproduct = "paint"\ncoats = 2\nby = "brush"\n'


def mistakes(read: Read, zone: str) -> list[str]:
    """Return line, place and message of what must be mended."""
    piece, problems = read(HEAD + zone)
    assert piece is None
    return [f"{problem.line}: {problem.where}: {problem.message}" for problem in problems]


@pytest.mark.parametrize("surface", ["bare", "sealed", "varnished", "painted"])
def test_surface_is_kept(surface: str, piece_of: PieceOf) -> None:
    (zone,) = piece_of(f'{HEAD}surface = "{surface}"\n[[zone.step]]\n{COAT}').zones
    assert (surface, False) == (zone.surface, zone.leave)


def test_zone_left_as_it_is_has_no_steps_and_needs_no_surface(piece_of: PieceOf) -> None:
    (zone,) = piece_of(f"{HEAD}leave = true\n").zones
    assert (zone.leave, zone.steps, zone.surface) == (True, (), None)


def test_own_steps_stand_in_their_order(piece_of: PieceOf) -> None:
    steps = f'surface = "bare"\n[[zone.step]]\n{COAT}[[zone.step]]\n{SAND}[[zone.step]]\n{COAT}'
    (zone,) = piece_of(HEAD + steps).zones
    assert [type(step) for step in zone.steps] == [Coat, Sand, Coat]
    assert [step.line for step in zone.steps] == [LINES + 2, LINES + 7, LINES + 11]


def test_schedule_gives_its_steps_wherever_it_stands(piece_of: PieceOf) -> None:
    schedule = f'[[schedule."oil, wax"]]\n{SAND}[[schedule."oil, wax"]]\n{COAT}'
    zone = 'surface = "bare"\nschedule = "oil, wax"\n'
    after = piece_of(f"{HEAD}{zone}{schedule}").zones[0].steps
    before = piece_of(f"{schedule}{HEAD}{zone}").zones[0].steps
    assert [Sand, Coat] == [type(step) for step in after] == [type(step) for step in before]


def test_zones_keep_the_order_of_the_file(piece_of: PieceOf) -> None:
    zones = "".join(
        f'[[zone]]\nname = "{name}"\nfaces = ["top.{name}"]\nleave = true\n'
        for name in ("top", "left", "back")
    )
    piece = piece_of(f"{HEAD}leave = true\n{zones}")
    assert [zone.name for zone in piece.zones] == ["all", "top", "left", "back"]


@pytest.mark.parametrize(
    ("zone", "line", "wrong"),
    [
        ('surface = "bare"\n', LINES - 2, "has no finish"),
        ('surface = "bare"\nleave = false\n', LINES - 2, "has no finish"),
        ('surface = "bare"\nstep = []\n', LINES - 2, "has no finish"),
        (f'leave = true\nschedule = "s"\n[[schedule.s]]\n{COAT}', LINES + 2,
         "has both leave and schedule"),
        (f"leave = true\n[[zone.step]]\n{COAT}", LINES + 2, "has both leave and its own steps"),
        (f'surface = "bare"\nschedule = "s"\n[[zone.step]]\n{COAT}[[schedule.s]]\n{COAT}',
         LINES + 3, "has both schedule and its own steps"),
        ('surface = "bare"\nschedule = "s"\n', LINES + 2, "[[schedule.NAME]]"),
        (f'surface = "bare"\nschedule = "ol"\n[[schedule.oil]]\n{COAT}', LINES + 2,
         'did you mean "oil"?'),
        ("leave = 1\n", LINES + 1, "true or false"),
        ('leave = "true"\n', LINES + 1, "true or false"),
        ('surface = "barre"\nleave = true\n', LINES + 1, 'did you mean "bare"?'),
        (f"[[zone.step]]\n{COAT}", LINES - 2, "has no surface"),
        (f'surface = "bare"\n[zone.step]\n{COAT}', LINES + 2, "[[zone.step]]"),
        (f'surface = "bare"\nschedule = "s"\n[schedule.s]\n{COAT}', LINES + 3, "[[schedule.s]]"),
    ],
)  # fmt: skip
def test_zone_that_is_not_right_is_told(zone: str, line: int, wrong: str, read: Read) -> None:
    found = mistakes(read, zone)
    assert any(text.startswith(f"{line}: ") and wrong in text for text in found), found


def test_schedule_without_a_step_is_refused(read: Read) -> None:
    """A zone that is neither finished nor left as it is would be forgotten on the list."""
    found = mistakes(read, 'surface = "bare"\nschedule = "s"\n[schedule]\ns = []\n')
    assert len(found) == 1


@pytest.mark.parametrize("faces", ['"top"', "[]", "[1]", '["top", 2]', "{}", "true"])
def test_faces_that_are_no_list_of_texts_are_refused(faces: str, read: Read) -> None:
    piece, problems = read(HEAD.replace('["*"]', faces) + "leave = true\n")
    assert piece is None
    (found,) = problems
    assert (found.line, found.where) == (LINES, 'zone "all"')
    assert "list of words in quotes" in found.message


@pytest.mark.parametrize(
    ("grits", "read_as"),
    [("[80, 120, 180]", (80, 120, 180)), ('["P80", "120", "p180"]', (80, 120, 180)), ("[5000]",
     (5000,))],
)  # fmt: skip
def test_grits_are_read_as_numbers_or_with_their_letter(
    grits: str, read_as: tuple[int, ...], piece_of: PieceOf
) -> None:
    sand = SAND.replace('[120, "P180", "220"]', grits)
    (step,) = piece_of(f'{HEAD}surface = "bare"\n[[zone.step]]\n{sand}').zones[0].steps
    assert isinstance(step, Sand)
    assert read_as == step.grits


@pytest.mark.parametrize(
    ("step", "line", "wrong"),
    [
        ('do = "sand"\ngrits = [125]\nwith = "disc"\n', LINES + 4, "125 is not a standard grit"),
        ('do = "sand"\ngrits = [80,\n121]\nwith = "disc"\n', LINES + 5, "120"),
        ('do = "sand"\ngrits = ["fine"]\nwith = "disc"\n', LINES + 4, "grits are numbers"),
        ('do = "sand"\ngrits = [120.0]\nwith = "disc"\n', LINES + 4, "is not a standard grit"),
        ('do = "sand"\ngrits = [-120]\nwith = "disc"\n', LINES + 4, "is not a standard grit"),
        ('do = "sand"\ngrits = [true]\nwith = "disc"\n', LINES + 4, "is not a standard grit"),
        ('do = "sand"\ngrits = []\nwith = "disc"\n', LINES + 4, "[80, 120, 180]"),
        ('do = "sand"\ngrits = 120\nwith = "disc"\n', LINES + 4, "[80, 120, 180]"),
        ('do = "sand"\nwith = "disc"\n', LINES + 2, "has no grits"),
        ('do = "sand"\ngrits = [120]\n', LINES + 2, "has no with"),
        ('do = "sand"\ngrits = [120]\nwith = "disk"\n', LINES + 5, 'did you mean "disc"?'),
        ('do = "sand"\ngrits = [120]\nwith = "disc"\ncoats = 2\n', LINES + 6,
         '"coats" is not known'),
        ('do = "sand"\ngrit = [120]\ngrits = [80]\nwith = "disc"\n', LINES + 4, '"grits"'),
        ('do = "paint"\n', LINES + 3, '"paint"'),
        ('do = "snad"\n', LINES + 3, 'did you mean "sand"?'),
        ('product = "paint"\n', LINES + 2, "has no do"),
        ('do = "coat"\nproduct = "pant"\ncoats = 2\nby = "brush"\n', LINES + 4,
         'did you mean "paint"?'),
        ('do = "coat"\nproduct = "paint"\nby = "brush"\n', LINES + 2, "has no coats"),
        ('do = "coat"\nproduct = "paint"\ncoats = 2\n', LINES + 2, "has no by"),
        ('do = "coat"\nproduct = "paint"\ncoats = 2\nby = "rollr"\n', LINES + 6,
         'did you mean "roller"?'),
        ('do = "coat"\ncoats = 2\nby = "brush"\n', LINES + 2, "has no product"),
        (f"{COAT}grits = [80]\n", LINES + 7, '"grits" is not known'),
    ],
)  # fmt: skip
def test_step_that_is_not_right_is_told_with_its_number(
    step: str, line: int, wrong: str, read: Read
) -> None:
    (found,) = mistakes(read, f'surface = "bare"\n[[zone.step]]\n{step}')
    assert found.startswith(f'{line}: zone "all" step 1: ')
    assert wrong in found


def test_step_of_a_schedule_is_told_by_the_schedule_and_its_number(read: Read) -> None:
    text = (
        f'surface = "bare"\nschedule = "s"\n[[schedule.s]]\n{SAND}[[schedule.s]]\n{COAT}loss = 1\n'
    )
    (found,) = mistakes(read, text)
    assert found.startswith(f'{LINES + 12}: schedule "s" step 2: loss = 1 ')


def test_grit_that_the_abrasive_has_no_life_for_is_refused(read: Read) -> None:
    text = HEAD.replace('disc"\n[[part]]', 'disc"\nlife = { 80 = "1 m2" }\n[[part]]')
    sand = SAND.replace('[120, "P180", "220"]', "[80, 120]")
    piece, problems = read(f'{text}surface = "bare"\n[[zone.step]]\n{sand}')
    assert piece is None
    assert ["120" in problem.message for problem in problems] == [True]


def test_zone_has_knots_where_it_says_so(piece_of: PieceOf) -> None:
    (without,) = piece_of(f"{HEAD}leave = true\n").zones
    (told,) = piece_of(f"{HEAD}leave = true\nknots = true\n").zones
    assert (False, True) == (without.has_knots, told.has_knots)


def test_knots_are_true_or_false(read: Read) -> None:
    wrong = mistakes(read, 'leave = true\nknots = "many"\n')
    assert [f'{LINES + 2}: zone "all": knots = "many" must be true or false'] == wrong
