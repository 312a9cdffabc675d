"""Dust on wet coats: told where it happens, silent where it does not."""

from collections.abc import Callable

import pytest

from surfacecalc.plans.plan import Plan

WEEKEND = '[workshop]\nset_up = "0 min"\nhours = ["sat-sun 09:00-17:00"]\n'
COAT = 'do = "coat"\nproduct = "paint"\ncoats = {}\nby = "roller"\ntime = "1 h"'
SAND = 'do = "sand"\ngrits = [120]\nwith = "disc"\ntime = "2 h"'
STRIP = 'do = "strip"\nproduct = "paint"\ntime = "1 h"'


def dust(plan: Plan) -> list[str]:
    """Return the remarks of a plan on dust."""
    return [plan.dust] if plan.dust else []


def test_sanding_beside_a_wet_coat_is_told(plan: Callable, step_zone: Callable) -> None:
    """By hand: "one" is painted 9 to 10 and dry at 11; "two" is sanded meanwhile, from 10 on."""
    found = plan(WEEKEND, step_zone("one", COAT.format(1)), step_zone("two", SAND))
    assert [
        'Dust: "two" is sanded Sat 28 Nov 10:00 while "one" is wet until 11:00. Let it dry in'
        " another room, or wait."
    ] == dust(found)
    assert {("two", 1)} == found.dusty


def test_sanding_of_the_other_zone_before_the_coat_or_after_it_is_dry_is_no_case(
    plan: Callable, step_zone: Callable
) -> None:
    before = plan(WEEKEND, step_zone("one", f'{COAT.format(1)}\nafter = ["two"]'),
                  step_zone("two", SAND))  # fmt: skip
    after = plan(WEEKEND, step_zone("one", COAT.format(1)),
                 step_zone("two", f'{SAND}\nafter = ["one"]'))  # fmt: skip
    assert ([], []) == (dust(before), dust(after))
    assert not before.dusty | after.dusty


def test_coat_that_a_written_wait_lets_go_on_early_is_wet_as_long_as_before(
    plan: Callable, step_zone: Callable
) -> None:
    early = f'{COAT.format(1)}\nwait = "0 min"'
    found = plan(WEEKEND, step_zone("one", early), step_zone("two", f'{SAND}\nafter = ["one"]'))
    (text,) = dust(found)
    assert "is wet until 11:00" in text


def test_zones_that_meet_cannot_dry_in_two_rooms(plan: Callable) -> None:
    zones = (
        '[[zone]]\nname = "top"\nfaces = ["one.top"]\nsurface = "bare"\n'
        f"[[zone.step]]\n{COAT.format(1)}\n"
        '[[zone]]\nname = "sides"\nfaces = ["one"]\nsurface = "bare"\n'
        f"[[zone.step]]\n{SAND}\n"
    )
    (text,) = dust(plan(WEEKEND, zones))
    assert text.endswith(". Wait until it is dry.")


@pytest.mark.parametrize("denib", ["", 'between = { grit = 320, with = "disc" }'])
def test_rubbing_down_between_coats_makes_dust(
    plan: Callable, step_zone: Callable, denib: str
) -> None:
    """Both are painted, sanded lightly and painted again; without sanding there is no dust."""
    step = f"{COAT.format(3)}\n{denib}"
    found = dust(plan(WEEKEND, step_zone("one", step), step_zone("two", step)))
    assert bool(denib) == any("is sanded" in text for text in found)
    assert len(found) <= 1


def test_every_time_is_marked_and_the_first_one_named(plan: Callable, step_zone: Callable) -> None:
    long = 'hours = ["mon-sun 00:00-24:00"]'
    slow = f'[workshop]\nset_up = "0 min"\ntemperature = "0 C"\n{long}'
    two = step_zone("two", SAND.replace("[120]", "[120, 180, 220]").replace("2 h", "3 h"))
    found = plan(slow, step_zone("one", COAT.format(1)), two)  # dry after 4 h
    (text,) = dust(found)
    assert "for example" in text
    assert "is sanded Sat 28 Nov 10:00" in text
    assert {("two", 1), ("two", 2), ("two", 3)} == found.dusty


def test_stripper_and_wax_rubbed_in_make_no_dust(plan: Callable, step_zone: Callable) -> None:
    rub = 'do = "rub out"\ngrits = [1000]\nwith = "disc"\nproduct = "paint"\ntime = "2 h"'
    assert [] == dust(plan(WEEKEND, step_zone("one", COAT.format(1)), step_zone("two", rub)))
    assert [] == dust(plan(WEEKEND, step_zone("one", STRIP), step_zone("two", SAND)))
