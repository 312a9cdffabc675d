"""What is offered where a word is not known."""

import pytest

from surfacecalc.problems import is_close, is_slip, nearest, suggestion


@pytest.mark.parametrize(
    ("word", "known", "expected"),
    [
        ("ta", ["on", "at", "row"], "at"),
        ("no", ["on", "at"], "on"),
        ("at", ["ta", "at"], "at"),
        ("AT", ["on", "at"], "at"),
        ("widht", ["width", "depth"], "width"),
        ("zz", ["on", "at"], None),
        ("on", ["of", "in"], None),
    ],
)
def test_nearest_word_is_also_that_of_two_letters_which_changed_places(
    word: str, known: list[str], expected: str | None
) -> None:
    assert expected == nearest(word, known)


@pytest.mark.parametrize(
    ("word", "is_one"),
    [("nam", True), ("names", True), ("nome", True), ("nmae", True), ("naem", True), ("ame", True),
     ("name", False), ("frame", False), ("mane", False), ("", False), ("nameee", False)],
)  # fmt: skip
def test_slip_is_one_letter_or_two_that_changed_places(word: str, is_one: bool) -> None:
    assert is_one == is_slip(word, "name")


def test_word_far_from_another_is_not_taken_for_it() -> None:
    assert is_close("prt", "part")
    assert not is_close("shelf", "schedule")


def test_known_word_is_listed_once() -> None:
    assert suggestion("xyz", ["leg", "top", "leg"]) == "use one of leg, top"
