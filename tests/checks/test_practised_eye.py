"""What a practised refinisher sees in a schedule is told, once; its sound neighbour is not."""

from collections.abc import Callable

import pytest
from planted_mistakes import CASES as COAT_CASES
from planted_mistakes import PRODUCTS
from planted_waits import WAIT_CASES
from planted_wood import WOOD_CASES

from surfacecalc.problems import Problem

CASES = {**COAT_CASES, **WAIT_CASES, **WOOD_CASES}
Eye = Callable[..., list[Problem]]


@pytest.mark.parametrize("name", CASES)
def test_a_planted_mistake_is_told_once_and_nothing_else_is(name: str, by_eye: Eye) -> None:
    case = CASES[name]
    found = by_eye(*case.steps, products=PRODUCTS, **case.given)
    told = [note.message for note in found]
    assert 1 == sum(case.says in message for message in told), told
    assert 1 == len(told), told
    assert all(note.line for note in found)


@pytest.mark.parametrize("name", CASES)
def test_its_sound_neighbour_is_not_told(name: str, by_eye: Eye) -> None:
    case = CASES[name]
    given = case.given if case.sound_given is None else case.sound_given
    assert [] == [note.message for note in by_eye(*case.sound, products=PRODUCTS, **given)]
