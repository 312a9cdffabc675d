"""`for` in [piece]: what a piece is made for."""

import pytest

UNIT = 'unit = "mm"\ngap = 1'


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ('"nursery"', ("nursery",)),
        ('"food"', ("food",)),
        ('["food", "nursery"]', ("nursery", "food")),
        ('["food", "food"]', ("food",)),
    ],
)
def test_words_are_read_alone_or_in_a_list(written, expected, changed, piece_of):
    piece = piece_of(changed((UNIT, f"{UNIT}\nfor = {written}")))
    assert expected == piece.settings.made_for


def test_nothing_is_said_where_it_is_left_out(good, piece_of):
    assert () == piece_of(good).settings.made_for


@pytest.mark.parametrize(
    ("written", "message"),
    [
        ('"nurserie"', 'for = "nurserie" is not known; did you mean "nursery"?'),
        ('"garden"', 'for = "garden" is not known; use one of nursery, food'),
        ("3", "for = 3 is not known; use one of nursery, food"),
        ("[true]", "for = true is not known; use one of nursery, food"),
        ("[]", 'for = [] is empty; write for = "nursery" or take the line out'),
    ],
)
def test_anything_else_is_one_message_with_its_line(written, message, changed, read):
    piece, problems = read(changed((UNIT, f"{UNIT}\nfor = {written}")))
    assert piece is None
    assert [(5, message)] == [(problem.line, problem.message) for problem in problems]
