"""Every step that a piece file can have finds its usual rate, and all of them are assumed."""

import itertools
from typing import Any, get_args

from surfacecalc.model.step_facts import is_by_area
from surfacecalc.model.steps import CoatWord, HandWord, Method, SandWord
from surfacecalc.work.rates import Sort, usual_drying, usual_rate, usual_set_up, usual_time

COATS = itertools.product(get_args(CoatWord), get_args(Method))
SANDS = itertools.product(get_args(SandWord), ("machine", "hand"))
BY_AREA = [word for word in get_args(HandWord) if is_by_area(word)]
BY_HAND = itertools.product((*BY_AREA, "wash", "denib"), ("hand",))
AREAS: list[Any] = [*COATS, *SANDS, *BY_HAND]


def test_every_word_and_method_has_a_rate_that_is_marked_assumed() -> None:
    assert {"assumed"} == {usual_rate(do, by).source for do, by in AREAS}


def test_a_gun_is_quicker_than_a_roller_a_roller_than_a_brush_and_a_machine_than_a_hand() -> None:
    """Common practice, for every word."""
    ways: list[tuple[Any, tuple[Any, ...]]] = [
        (word, ("spray", "roller", "brush")) for word in get_args(CoatWord)
    ]
    ways += [(word, ("machine", "hand")) for word in get_args(SandWord)]
    for word, methods in ways:
        rates = [usual_rate(word, by).range.likely for by in methods]
        assert rates == sorted(set(rates), reverse=True), word


def test_coat_words_without_a_rate_of_their_own_are_coats() -> None:
    assert usual_rate("coat", "roller") == usual_rate("prime", "roller")
    assert (
        usual_rate("coat", "brush").range.likely > usual_rate("wax hardware", "brush").range.likely
    )


def test_every_sort_of_work_and_every_hand_word_has_a_time() -> None:
    assert all(0 < usual_set_up(sort).range.likely < 1 for sort in get_args(Sort))
    words = [word for word in get_args(HandWord) if word not in BY_AREA]
    # counted one by one: from half a minute to an hour each
    assert all(1 / 120 <= usual_time(word).range.likely <= 1 for word in words)


def test_washed_wood_dries_for_hours() -> None:
    assert usual_drying("wash").range.likely >= 1
