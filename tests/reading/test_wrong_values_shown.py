"""What stands in the wrong place, or is far too long, is told in few words."""

from collections.abc import Callable

import pytest

from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem

Read = Callable[[str], tuple[Piece | None, list[Problem]]]
Changed = Callable[..., str]


@pytest.mark.parametrize(
    ("head", "wrong"),
    [
        ("part = 3", "[[part]]"),
        ("zone = {}", "[[zone]]"),
        ("zone = [1]", "[[zone]]"),
        ('product = "paint"', "[[product]]"),
        ("abrasive = [[]]", "[[abrasive]]"),
        ("schedule = 3", "[[schedule.NAME]]"),
        ("piece = []", "[piece]"),
        ("[part]\nname = 'a'", "[[part]]"),
    ],
)
def test_table_of_the_wrong_shape_is_told_how_it_is_written(
    head: str, wrong: str, read: Read
) -> None:
    piece, problems = read(f"{head}\n")
    assert piece is None
    assert any(found.line == 1 and wrong in found.message for found in problems)


def test_long_values_are_cut_short_in_messages(changed: Changed, read: Read) -> None:
    _, (found,) = read(changed(('shape = "board"', f'shape = "{"x" * 5000}"')))
    assert len(found.message) < 200


def test_long_unknown_unit_is_cut_short_in_messages(changed: Changed, read: Read) -> None:
    _, (found,) = read(changed(("width = 500", f'width = "5 {"x" * 5000}"')))
    assert len(found.message) < 300


def test_suggestion_for_a_long_word_comes_at_once(changed: Changed, read: Read) -> None:
    piece, problems = read(changed(('shape = "board"', f'shape = "{"board" * 10_000}"')))
    assert piece is None
    assert len(problems) == 1
