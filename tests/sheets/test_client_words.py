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
"""


@pytest.fixture
def zone(tmp_path: Path) -> Callable:
    """Return the piece and the zone of a board with some steps."""

    def read(*steps: str) -> tuple:
        path = tmp_path / "board.toml"
        texts = [f"[[zone.step]]\n{step}" for step in steps]
        path.write_text(PIECE.format(steps="\n".join(texts)), encoding="utf-8")
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
            ["A stencilled border: put on."],
        ),
        (
            'do = "distress"\ngrits = [220]\nwith = "pad"',
            ["Edges and corners are worn by hand, so that it looks used."],
        ),
        ('do = "repair"\nwhat = "loose joints"', ["Loose joints: repaired."]),
        ('do = "refit"\nhardware = ["pulls"]', ["Pulls (2): put back."]),
        ('do = "dust off"', []),
        ('do = "prime"\nproduct = "primer"\nby = "brush"', ["Primed."]),
    ],
)
def test_step_is_told_to_the_owner(step: str, words: list[str], zone: Callable) -> None:
    _, found = zone(step)
    assert words == work_in_words(found)


def test_lime_wax_is_seen_in_the_end_and_primer_is_not(zone: Callable) -> None:
    piece, found = zone(
        'do = "prime"\nproduct = "primer"\nby = "brush"',
        'do = "lime wax"\nproduct = "white wax"',
    )
    look = look_of_zone(piece, found)
    assert look is not None
    assert ("", "white wax") == (look.colour, look.finish)
