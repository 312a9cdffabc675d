"""What hardware is fitted to, tape that comes off, and coats in one session: read, and mistakes."""

from collections.abc import Callable

import pytest
from piece_texts import piece_text

from surfacecalc.api import read_piece_text
from surfacecalc.model.steps import Coat, Fill, Unmask, Wash

OFF = {"do": "take off", "hardware": ["pulls"]}
HOLES = {"do": "fill", "product": "filler", "hardware": "pulls",
         "pits": [{"count": 4, "diameter": 5, "depth": 3}]}  # fmt: skip
WASH = {"do": "wash", "product": "soap", "strength": "3 %", "hardware": "pulls"}
PAINT = {"do": "coat", "product": "paint", "coats": 2, "by": "brush"}
CLEAR = {"do": "top coat", "product": "clear", "coats": 2, "by": "brush", "together": "last"}
MASK = {"do": "mask", "tape": "tape"}
PULLS = {"name": "pulls", "count": 4, "plan": "renew", "size": [80, 25, 20]}
SHARED = {"schedule": "all"}


def text(
    top: dict, rest: dict, shared: list[dict] | None = None, pulls: dict = PULLS, **more: list
) -> str:
    return piece_text(
        zone=[
            {"name": "top", "faces": ["board.top"], "surface": "sealed", **top},
            {"name": "rest", "faces": ["board"], "surface": "sealed", **rest},
        ],
        product=[
            {"name": "paint", "kind": "waterborne paint"},
            {"name": "clear", "kind": "waterborne varnish"},
            {"name": "stripper", "kind": "stripper"},
            {"name": "soap", "kind": "cleaner"},
            {"name": "filler", "kind": "wood filler", "density": "1.5 kg/L"},
        ],
        tape=[{"name": "tape"}, {"name": "blue tape"}],
        abrasive=[{"name": "pad", "form": "sanding sponge"}],
        hardware=[pulls, {"name": "hinges", "count": 2, "plan": "keep"}],
        **({"schedule.all": shared} if shared else {}),
        **more,
    )


@pytest.fixture
def read() -> Callable:
    def run(*given: object, **more: object):
        return read_piece_text(text(*given, **more), ".")  # type: ignore[arg-type]

    return run


@pytest.fixture
def mistakes(read: Callable) -> Callable[..., list[tuple[str, str]]]:
    """Return place and words of each mistake in a file."""

    def run(*given: object, **more: object) -> list[tuple[str, str]]:
        problems = read(*given, **more).problems
        return [(p.where, p.message) for p in problems if p.level == "mend"]

    return run


@pytest.mark.parametrize("on", ["rest", ["rest"], ["rest", "rest"]])
def test_steps_about_hardware_are_for_the_zones_that_it_is_on(read: Callable, on: object) -> None:
    steps = [OFF, HOLES, PAINT, WASH, {**PAINT, "hardware": "pulls"}]
    piece = read(SHARED, SHARED, steps, {**PULLS, "on": on}).piece
    assert ("rest",) == piece.shelf.hardware["pulls"].on
    top, rest = piece.zones
    assert ["Coat"] == [type(step).__name__ for step in top.steps]
    assert ["Handwork", "Fill", "Coat", "Wash", "Coat"] == [type(s).__name__ for s in rest.steps]
    holes, wash, coat = rest.steps[1], rest.steps[3], rest.steps[4]
    assert isinstance(holes, Fill)
    assert isinstance(wash, Wash)
    assert isinstance(coat, Coat)
    assert ["pulls"] * 3 == [holes.hardware, wash.hardware, coat.hardware]


def test_without_on_every_zone_keeps_its_steps(read: Callable) -> None:
    steps = [OFF, PAINT]
    assert [2, 2] == [len(zone.steps) for zone in read(SHARED, SHARED, steps).piece.zones]


def test_step_about_two_is_for_the_zones_of_both(read: Callable) -> None:
    both = {**OFF, "hardware": ["pulls", "hinges"]}
    steps = [both, PAINT]
    # nobody says where the hinges are, so the step may be meant for any zone
    one = read(SHARED, SHARED, steps, {**PULLS, "on": "rest"}).piece
    assert [2, 2] == [len(zone.steps) for zone in one.zones]


def test_wrong_zone_in_on_is_one_mistake(mistakes: Callable) -> None:
    found = mistakes(SHARED, SHARED, [OFF, HOLES], {**PULLS, "on": "ret"})
    assert [
        ('hardware "pulls"', 'on = "ret" is not a zone in this file; did you mean "rest"?')
    ] == found


def test_steps_that_no_zone_keeps_are_one_mistake(mistakes: Callable) -> None:
    found = mistakes({"step": [OFF, PAINT]}, {"step": [PAINT]}, None, {**PULLS, "on": "rest"})
    ((where, message),) = found
    assert 'hardware "pulls"' == where
    assert message.startswith('on = "rest", but the step about it (line ')
    assert message.endswith(') is in zone "top"; name that zone in on, or move the step')


def test_steps_of_several_zones_that_have_no_place_are_one_sentence() -> None:
    third = '[[zone]]\nname = "third"\nfaces = ["board.left"]\nleave = true\n'
    whole = text(SHARED, SHARED, [OFF, HOLES], {**PULLS, "on": "third"}) + third
    (message,) = [one.message for one in read_piece_text(whole).problems]
    assert message.startswith('on = "third", but the steps about it (lines ')
    assert message.endswith(
        ') are in zones "top", "rest"; name one of them in on, or move the steps'
    )


@pytest.mark.parametrize(
    ("on", "words"),
    [(3, "must be words in quotes"), ([], "must be a list of words"), ("", "empty")],
)
def test_on_that_names_nothing_is_a_mistake(mistakes: Callable, on: object, words: str) -> None:
    found = mistakes({"step": [PAINT]}, {"leave": True}, None, {**PULLS, "on": on})
    assert any(words in message for _, message in found)


def test_hardware_that_is_worked_on_needs_a_size_and_its_holes_need_none(
    mistakes: Callable,
) -> None:
    sizeless = {"name": "pulls", "count": 4, "plan": "keep"}
    for step in (WASH, {**PAINT, "hardware": "pulls"}):
        ((_, message),) = mistakes({"step": [step]}, {"leave": True}, None, sizeless)
        assert 'hardware = "pulls" has no size; add size' in message
    assert [] == mistakes({"step": [HOLES]}, {"leave": True}, None, sizeless)


@pytest.mark.parametrize(
    "do", ["coat", "prime", "block", "seal", "top coat", "wax", "wax hardware"]
)
def test_film_and_wax_may_go_on_hardware(mistakes: Callable, do: str) -> None:
    step = {**PAINT, "do": do, "hardware": "pulls"}
    assert [] == mistakes({"step": [step]}, {"leave": True})


@pytest.mark.parametrize("do", ["condition", "fill grain", "dye", "glaze", "stain", "lime wax"])
def test_what_wood_takes_in_may_not(mistakes: Callable, do: str) -> None:
    step = {**PAINT, "do": do, "hardware": "pulls"}
    ((_, message),) = mistakes({"step": [step]}, {"leave": True})
    assert message.startswith('"hardware" is not known here')


def test_tape_comes_off_where_it_is_on(read: Callable) -> None:
    steps = [MASK, PAINT, {"do": "unmask"}, MASK, PAINT, {"do": "unmask", "tape": "tape"}]
    first, second = [s for s in read({"step": steps}, {"leave": True}).piece.zones[0].steps
                     if isinstance(s, Unmask)]  # fmt: skip
    assert (None, "tape") == (first.tape, second.tape)


@pytest.mark.parametrize(
    ("steps", "words"),
    [
        ([PAINT, {"do": "unmask"}], "no tape is on here"),
        ([{"do": "unmask"}, MASK, PAINT], "no tape is on here"),
        ([MASK, PAINT, {"do": "unmask"}, {"do": "unmask"}], "no tape is on here"),
        ([MASK, PAINT, {"do": "unmask", "tape": "blue tape"}], 'no "blue tape" is on here'),
        # the first tape came off with the coat before the second went on
        ([{**MASK, "tape": "blue tape"}, PAINT, MASK, PAINT,
          {"do": "unmask", "tape": "blue tape"}], 'no "blue tape" is on here'),
    ],
)  # fmt: skip
def test_tape_that_is_not_on_does_not_come_off(
    mistakes: Callable, steps: list[dict], words: str
) -> None:
    ((where, message),) = mistakes({"step": steps}, {"leave": True})
    assert 'zone "top"' == where
    assert words in message
    assert 'put a step with do = "mask" before it' in message


def test_coat_on_hardware_takes_no_tape_off(mistakes: Callable) -> None:
    on_pulls = {**PAINT, "hardware": "pulls"}
    steps = [{**MASK, "tape": "blue tape"}, on_pulls, MASK, PAINT]
    assert [] == mistakes(
        {"step": [*steps, {"do": "unmask", "tape": "blue tape"}]}, {"leave": True}
    )


def test_unmask_is_what_other_words_mean(mistakes: Callable) -> None:
    ((_, message),) = mistakes({"step": [MASK, PAINT, {"do": "untape"}]}, {"leave": True})
    assert 'do = "untape" is written do = "unmask" here' in message


def test_coats_with_one_word_are_one_session(read: Callable) -> None:
    piece = read({"step": [PAINT, CLEAR]}, {"step": [CLEAR]}).piece
    words = [step.together for zone in piece.zones for step in zone.steps if step.do == "top coat"]
    assert ["last", "last"] == words


@pytest.mark.parametrize(
    ("other", "key"),
    [
        ({"do": "coat"}, "do"),
        ({"product": "paint"}, "product"),
        ({"coats": 3}, "coats"),
        ({"coats": [2, 2, 3]}, "coats"),
        ({"by": "roller"}, "by"),
        ({"thin": "5 %"}, "thin"),
        ({"tint": {"product": "paint", "share": "5 %"}}, "tint"),
        ({"change": "dark to light"}, "change"),
        ({"between": {"grit": 320, "with": "pad"}}, "between"),
        ({"stays_behind": "30 ml"}, "stays_behind"),
        ({"sides": 2}, "sides"),
        ({"wait": "6 h"}, "wait"),
    ],
)
def test_what_one_session_has_one_of_must_be_the_same(
    mistakes: Callable, other: dict, key: str
) -> None:
    ((where, message),) = mistakes({"step": [CLEAR]}, {"step": [{**CLEAR, **other}]})
    assert 'zone "rest"' == where
    assert f"but they differ in {key}; make {key} the same, or give one of them another" in message
    assert 'together = "last" makes one session of this step and line ' in message


@pytest.mark.parametrize(
    "other", [{"loss": "20 %"}, {"allowance": "5 %"}, {"time": "1 h"}, {"first_coat": "70 %"}]
)
def test_what_each_zone_has_for_itself_may_differ(mistakes: Callable, other: dict) -> None:
    assert [] == mistakes({"step": [CLEAR]}, {"step": [{**CLEAR, **other}]})


def test_same_numbers_in_other_tables_are_the_same(mistakes: Callable) -> None:
    step = {**CLEAR, "thin": "5 %", "tint": {"product": "paint", "share": "5 %"}, "wait": "6 h",
            "stays_behind": "30 ml", "between": {"grit": 320, "with": "pad"},
            "change": "dark to light"}  # fmt: skip
    assert [] == mistakes({"step": [step]}, {"step": [PAINT, step]})


def test_one_zone_cannot_be_in_a_session_twice(mistakes: Callable) -> None:
    ((_, message),) = mistakes({"step": [CLEAR, CLEAR]}, {"leave": True})
    assert "of the same zone; give one of the two another word" in message


def test_session_is_for_coats_on_zones(mistakes: Callable) -> None:
    on_pulls = {**CLEAR, "hardware": "pulls"}
    ((_, message),) = mistakes({"step": [on_pulls]}, {"leave": True})
    assert "has both together and hardware; keep one of them" in message
    strip = {"do": "strip", "product": "stripper", "together": "x"}
    ((_, message),) = mistakes({"step": [strip]}, {"leave": True})
    assert message.startswith('"together" is not known here')
