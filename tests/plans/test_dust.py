"""Dust on wet coats: told where it happens, silent where it does not."""

from collections.abc import Callable

import pytest

from surfacecalc.plans.plan import Plan

WEEKEND = '[workshop]\nset_up = "0 min"\nhours = ["sat-sun 09:00-17:00"]\n'
ALLOWED = f"{WEEKEND}sand_near_wet = true\n"
COAT = 'do = "coat"\nproduct = "paint"\ncoats = {}\nby = "roller"\ntime = "1 h"'
SAND = 'do = "sand"\ngrits = [120]\nwith = "disc"\ntime = "2 h"'
STRIP = 'do = "strip"\nproduct = "paint"\ntime = "1 h"'


def dust(plan: Plan) -> list[str]:
    """Return the remarks of a plan on dust."""
    return [plan.dust] if plan.dust else []


LOOSE = (
    '[[part]]\nname = "lid"\nshape = "board"\nwidth = 1\ndepth = 1\nheight = 0.1\nloose = true\n'
)


def starts(plan: Plan, zone: str) -> list[str]:
    """Return when each task of a zone begins."""
    return [f"{one.starts:%a %H:%M}" for one in plan.entries if one.task.zone == zone]


def test_sanding_waits_until_a_coat_on_the_same_body_is_dry(
    plan: Callable, step_zone: Callable
) -> None:
    """By hand: "one" is painted 9 to 10 and dry at 11; then "two" is sanded, not at 10."""
    found = plan(WEEKEND, step_zone("one", COAT.format(1)), step_zone("two", SAND))
    assert (["Sat 09:00"], ["Sat 11:00"]) == (starts(found, "one"), starts(found, "two"))
    assert [] == dust(found)
    assert not found.dusty


def test_sanding_beside_a_wet_coat_that_the_file_allows_is_told(
    plan: Callable, step_zone: Callable
) -> None:
    """By hand: "one" is painted 9 to 10 and dry at 11; "two" is sanded meanwhile, from 10 on."""
    found = plan(ALLOWED, step_zone("one", COAT.format(1)), step_zone("two", SAND))
    assert [
        'Dust: "two" is sanded Sat 28 Nov 10:00 while "one" is wet until 11:00. Your file allows'
        " this."
    ] == dust(found)
    assert {("two", 1)} == found.dusty


def test_loose_part_is_sanded_meanwhile_and_that_is_told(
    plan: Callable, step_zone: Callable
) -> None:
    """By hand: as above, but the lid can dry elsewhere, so nothing is later for it."""
    found = plan(WEEKEND, step_zone("one", COAT.format(1)), step_zone("lid", SAND), LOOSE)
    assert [
        'Dust: "lid" is sanded Sat 28 Nov 10:00 while "one" is wet until 11:00. Let it dry in'
        " another room, or wait."
    ] == dust(found)
    assert {("lid", 1)} == found.dusty


def test_zone_that_is_partly_on_a_body_keeps_dust_off_it(
    plan: Callable, step_zone: Callable
) -> None:
    both = step_zone("lid", SAND).replace('faces = ["lid"]', 'faces = ["lid", "two"]')
    found = plan(WEEKEND, step_zone("one", COAT.format(1)), both, LOOSE)
    assert ["Sat 11:00"] == starts(found, "lid")


def test_film_of_the_zone_itself_is_sanded_as_soon_as_its_written_wait_says(
    plan: Callable, step_zone: Callable
) -> None:
    """By hand: painted 9 to 10 and dry at 11, but the file says half an hour; then the other."""
    one = step_zone("one", f'{COAT.format(1)}\nwait = "30 min"', SAND)
    found = plan(WEEKEND, one, step_zone("two", SAND))
    assert ["Sat 09:00", "Sat 10:30"] == starts(found, "one")
    assert ["Sat 12:30"] == starts(found, "two")
    assert [] == dust(found)


def test_wax_on_hardware_in_its_place_is_kept_from_dust(
    plan: Callable, step_zone: Callable
) -> None:
    """Waxed 9 to 10 the pulls are dry at 11, and "two" is sanded from then on."""
    wax = 'do = "wax hardware"\nproduct = "paint"\nhardware = "pulls"\ntime = "1 h"'
    found = plan(WEEKEND, step_zone("one", wax), step_zone("two", SAND))
    assert (["Sat 09:00"], ["Sat 11:00"]) == (starts(found, "one"), starts(found, "two"))
    assert [] == dust(found)


def test_sanding_of_the_other_zone_before_the_coat_or_after_it_is_dry_is_no_case(
    plan: Callable, step_zone: Callable
) -> None:
    before = plan(ALLOWED, step_zone("one", f'{COAT.format(1)}\nafter = ["two"]'),
                  step_zone("two", SAND))  # fmt: skip
    after = plan(ALLOWED, step_zone("one", COAT.format(1)),
                 step_zone("two", f'{SAND}\nafter = ["one"]'))  # fmt: skip
    assert ([], []) == (dust(before), dust(after))
    assert not before.dusty | after.dusty


def test_coat_that_a_written_wait_lets_go_on_early_is_wet_as_long_as_before(
    plan: Callable, step_zone: Callable
) -> None:
    early = step_zone("one", f'{COAT.format(1)}\nwait = "0 min"')
    two = step_zone("two", f'{SAND}\nafter = ["one"]')
    (text,) = dust(plan(ALLOWED, early, two))
    assert "is wet until 11:00" in text
    assert ["Sat 11:00"] == starts(plan(WEEKEND, early, two), "two")


def test_zones_of_one_part_dry_in_one_place(plan: Callable) -> None:
    zones = (
        '[[zone]]\nname = "top"\nfaces = ["one.top"]\nsurface = "bare"\n'
        f"[[zone.step]]\n{COAT.format(1)}\n"
        '[[zone]]\nname = "sides"\nfaces = ["one"]\nsurface = "bare"\n'
        f"[[zone.step]]\n{SAND}\n"
    )
    assert ["Sat 11:00"] == starts(plan(WEEKEND, zones), "sides")


@pytest.mark.parametrize("denib", ["", 'between = { grit = 320, with = "disc" }'])
def test_rubbing_down_between_coats_makes_dust(
    plan: Callable, step_zone: Callable, denib: str
) -> None:
    """By hand: "one" is painted 9 to 10, "two" 10 to 13:30, which is wet until 14:30; "one" is
    sanded from 14:00 on where that may be, after its recoat of 4 h."""
    step = f"{COAT.format(2)}\n{denib}"
    long = COAT.format(1).replace("1 h", "3.5 h")
    zones = step_zone("one", step.replace("1 h", "2 h")), step_zone("two", long)
    allowed, kept = plan(ALLOWED, *zones), plan(WEEKEND, *zones)
    assert (bool(denib), False) == (bool(allowed.dusty), bool(kept.dusty))
    if denib:
        assert (["Sat 09:00", "Sat 14:00"], ["Sat 09:00", "Sat 14:30"]) == (
            starts(allowed, "one")[:2], starts(kept, "one")[:2],
        )  # fmt: skip


def test_every_time_is_marked_and_the_first_one_named(plan: Callable, step_zone: Callable) -> None:
    long = 'hours = ["mon-sun 00:00-24:00"]\nsand_near_wet = true'
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
