"""Notes on coats in one session, on tape between their zones, and on coats beside the zone."""

from collections.abc import Callable

import pytest
from piece_texts import piece_text

from surfacecalc.api import read_piece_text
from surfacecalc.checks.one_session import check_coat_over_tape, check_one_session, check_unmask
from surfacecalc.checks.preparation import PREPARATION_CHECKS

PAINT = {"do": "coat", "product": "paint", "coats": 1, "by": "brush"}
CLEAR = {"do": "top coat", "product": "clear", "coats": 2, "by": "brush", "together": "last"}
MASK = {"do": "mask", "tape": "tape"}
UNMASK = {"do": "unmask"}


@pytest.fixture
def notes() -> Callable[..., list[tuple[str, str]]]:
    """Return place and words of each note on two zones with these steps."""

    def run(*zones: list[dict]) -> list[tuple[str, str]]:
        names = ("top", "rest", "under")
        faces = (["board.top"], ["board"], ["board.bottom"])
        text = piece_text(
            zone=[
                {"name": name, "faces": face, "surface": "sealed", "step": steps}
                for name, face, steps in zip(names, faces, zones, strict=False)
            ],
            product=[
                {"name": "paint", "kind": "waterborne paint"},
                {"name": "clear", "kind": "waterborne varnish"},
                {"name": "soap", "kind": "cleaner"},
                {"name": "stripper", "kind": "stripper"},
            ],
            tape=[{"name": "tape"}],
            hardware=[{"name": "pulls", "count": 4, "plan": "renew", "size": [80, 25, 20]}],
        )
        piece = read_piece_text(text, ".").piece
        assert piece is not None
        checks = (check_one_session, check_coat_over_tape, check_unmask)
        eyes = (lambda piece, eye=eye: eye(piece, piece.zones[0]) for eye in PREPARATION_CHECKS)
        return [(note.where, note.message) for check in (*checks, *eyes) for note in check(piece)]

    return run


def test_session_is_told_with_its_zones(notes: Callable) -> None:
    words = (
        'clear goes on "top" and "rest" in one session: one set-up, one tool, and each zone waits'
        " until the others are ready for it"
    )
    assert [('together "last"', words)] == notes([PAINT, CLEAR], [CLEAR])
    ((_, three),) = notes([CLEAR], [CLEAR], [CLEAR])
    assert '"top", "rest" and "under"' in three


def test_word_at_one_step_alone_is_told(notes: Callable) -> None:
    ((_, first), (_, second)) = notes([CLEAR], [{**CLEAR, "together": "lst"}])
    assert first.startswith('is at this step of "top" only, so nothing goes on with it')
    assert second.startswith('is at this step of "rest" only')


def test_coats_without_a_word_say_nothing(notes: Callable) -> None:
    assert [] == notes([{**PAINT}], [{**PAINT}])


@pytest.mark.parametrize("mask", [MASK, {**MASK, "against": ["rest"]}])
def test_tape_between_two_zones_of_a_session_is_told(notes: Callable, mask: dict) -> None:
    found = notes([mask, PAINT, CLEAR], [CLEAR])
    ((_, message),) = [one for one in found if "tape" in one[1]]
    assert message.startswith('goes on "rest" as well, where the tape of line ')
    assert message.endswith(' is still on: put a step with do = "unmask" before it')


def test_tape_that_came_off_or_is_elsewhere_is_not(notes: Callable) -> None:
    assert 1 == len(notes([MASK, PAINT, UNMASK, CLEAR], [CLEAR]))
    elsewhere = {**MASK, "against": ["under"]}
    assert 1 == len(notes([elsewhere, PAINT, CLEAR], [CLEAR], [PAINT]))


def test_tape_off_before_a_coat_is_told(notes: Callable) -> None:
    on_pulls = {**PAINT, "hardware": "pulls"}
    for steps in ([PAINT, MASK, UNMASK, PAINT], [MASK, on_pulls, UNMASK, PAINT]):
        ((where, message),) = notes(steps)
        assert "unmask" == where
        assert message.endswith(
            " before any coat has gone on: put it after the coat that the tape is for"
        )
    assert [] == notes([MASK, PAINT, UNMASK, PAINT])


STRIP = {"do": "strip", "product": "stripper"}
WASH = {"do": "wash", "product": "soap", "strength": "3 %"}
ON_PULLS = {**PAINT, "hardware": "pulls"}


def test_coat_on_hardware_is_none_on_the_zone_that_was_stripped(notes: Callable) -> None:
    assert [] == notes([STRIP, ON_PULLS, WASH, PAINT])
    ((_, unwashed),) = notes([STRIP, ON_PULLS, PAINT])
    assert unwashed.startswith("is not washed off before the next coat")
    ((_, bare),) = notes([STRIP, WASH, ON_PULLS])
    assert bare.startswith("leaves bare wood and no coat follows")


def test_washed_hardware_washes_no_stripper_off(notes: Callable) -> None:
    ((_, unwashed),) = notes([STRIP, {**WASH, "hardware": "pulls"}, PAINT])
    assert unwashed.startswith("is not washed off before the next coat")
