"""Every step has words for the owner of a piece, or is one that an owner need not read of."""

from collections.abc import Callable
from pathlib import Path

import pytest

from surfacecalc.reading.piece_file import read_piece
from surfacecalc.sheets.client_words import look_of_zone, work_in_words

PIECE = """
[piece]
name = "board"
unit = "m"
[[part]]
name = "board"
shape = "board"
width = 1
depth = 1
height = 0.1
[[zone]]
name = "all"
faces = ["board"]
surface = "bare"
{steps}
[[product]]
name = "white wax"
kind = "liming wax"
[[product]]
name = "primer"
kind = "primer"
[[abrasive]]
name = "pad"
form = "pad"
life = "0.5 m2"
[[hardware]]
name = "pulls"
count = 2
plan = "keep"
size = [0.1, 0.02, 0.02]
[[hardware]]
name = "hinges"
count = 4
plan = "replace"
[[product]]
name = "soap"
kind = "cleaner"
[[product]]
name = "filler"
kind = "wood filler"
density = "1.5 kg/L"
[[tape]]
name = "tape"
"""


@pytest.fixture
def zone(tmp_path: Path) -> Callable:
    """Return the piece and the zone of a board with some steps."""

    def read(*steps: str, count: int = 1) -> tuple:
        path = tmp_path / "board.toml"
        texts = [f"[[zone.step]]\n{step}" for step in steps]
        head = PIECE.replace('unit = "m"', f'unit = "m"\ncount = {count}')
        path.write_text(head.format(steps="\n".join(texts)), encoding="utf-8")
        piece, problems = read_piece(path)
        assert [] == problems
        return piece, piece.zones[0]

    return read


@pytest.mark.parametrize(
    ("step", "words"),
    [
        ('do = "lime wax"\nproduct = "white wax"', ["White wax is rubbed into the grain."]),
        ('do = "decal"\nwhat = "rose decals"\ncount = 6', ["Rose decals (6): put on."]),
        ('do = "decal"\nwhat = "a rose decal"', ["A rose decal: put on."]),
        (
            'do = "decorate"\nwhat = "a stencilled border"\narea = "0.1 m2"',
            ["Decorated with a stencilled border."],
        ),
        (
            'do = "distress"\ngrits = [220]\nwith = "pad"',
            ["Edges and corners are worn by hand, so that it looks used."],
        ),
        ('do = "repair"\nwhat = "loose joints"', ["Loose joints: repaired."]),
        ('do = "refit"\nhardware = ["pulls"]', ["Pulls (2): put back."]),
        ('do = "refit"\nhardware = ["hinges"]', ["Hinges (4): replaced with new ones."]),
        (
            'do = "refit"\nhardware = ["pulls", "hinges"]',
            ["Pulls (2): put back.", "Hinges (4): replaced with new ones."],
        ),
        ('do = "take off"\nhardware = ["hinges"]', ["Hinges (4): taken off."]),
        (
            'do = "wash"\nproduct = "soap"\nstrength = "3 %"\nhardware = "pulls"',
            ["Pulls: cleaned."],
        ),
        ('do = "wash"\nproduct = "soap"\nstrength = "3 %"', ["Washed and rinsed."]),
        ('do = "wash"\nproduct = "soap"\nstrength = "3 %"\nrinse = false', ["Washed."]),
        (
            'do = "prime"\nproduct = "primer"\nby = "brush"\nhardware = "pulls"',
            ["One coat of primer on the pulls."],
        ),
        (
            'do = "fill"\nproduct = "filler"\nhardware = "hinges"\n'
            "pits = [{ count = 4, diameter = 0.005, depth = 0.003 }]",
            ["Four small holes of the hinges are filled."],
        ),
        ('do = "mask"\ntape = "tape"', []),
        ('do = "dust off"', []),
        ('do = "prime"\nproduct = "primer"\nby = "brush"', ["Primed."]),
    ],
)
def test_step_is_told_to_the_owner(step: str, words: list[str], zone: Callable) -> None:
    piece, found = zone(step)
    assert words == work_in_words(piece, found)


def test_hardware_that_is_replaced_is_not_told_to_come_off_first(zone: Callable) -> None:
    off, on = (f'do = "{do}"\nhardware = ["pulls", "hinges"]' for do in ("take off", "refit"))
    words = ["Pulls (2): taken off.", "Pulls (2): put back.", "Hinges (4): replaced with new ones."]
    assert words == work_in_words(*zone(off, on))


def test_tape_that_comes_off_is_nothing_to_the_owner(zone: Callable) -> None:
    assert [] == work_in_words(*zone('do = "mask"\ntape = "tape"', 'do = "unmask"'))


def test_lime_wax_is_seen_in_the_end_and_primer_is_not(zone: Callable) -> None:
    piece, found = zone(
        'do = "prime"\nproduct = "primer"\nby = "brush"',
        'do = "lime wax"\nproduct = "white wax"',
    )
    look = look_of_zone(piece, found)
    assert look is not None
    assert ("", "white wax") == (look.colour, look.finish)


def test_what_decorates_each_piece_of_a_set_is_not_counted(zone: Callable) -> None:
    step = 'do = "decorate"\nwhat = "a stencilled border"\narea = "0.1 m2"'
    assert ["Decorated with a stencilled border."] == work_in_words(*zone(step, count=4))
