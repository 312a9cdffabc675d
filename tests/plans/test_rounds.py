"""Zones of one schedule are worked together, step by step, with one set-up for each.

Both boards have 2.4 m2, so each of two zones has half of every set-up. All times by hand.
"""

from collections.abc import Callable

import pytest

from surfacecalc.plans.plan import Plan
from surfacecalc.plans.rounds import bodies_of
from surfacecalc.plans.tasks import hands_on_h, tasks_of

WEEKEND = '[workshop]\nset_up = "20 min"\nhours = ["sat-sun 09:00-17:00"]\n'
ZONE = '[[zone]]\nname = "{0}"\nfaces = ["{0}"]\nsurface = "bare"\nschedule = "all"\n'
BOTH = ZONE.format("one") + ZONE.format("two")
SAND = 'do = "sand"\ngrits = [120, 180]\nwith = "disc"\ntime = "40 min"'
COAT = 'do = "coat"\nproduct = "paint"\ncoats = {}\nby = "roller"\ntime = "{}"'


def schedule(*steps: str) -> str:
    return "".join(f"[[schedule.all]]\n{step}\n" for step in steps)


def course(plan: Plan) -> list[tuple[str, str, str]]:
    """Return the zone, the beginning and the end of each session, in order."""
    return [
        (entry.task.zone, f"{start:%a %H:%M}", f"{end:%a %H:%M}")
        for entry in plan.entries
        for start, end in entry.sessions
    ]


def test_each_step_is_done_on_all_zones_before_the_next(plan: Callable) -> None:
    """By hand: each grit 20 min and half of a set-up of 20; each coat 1 h and half of one."""
    found = plan(WEEKEND, BOTH, schedule(SAND, COAT.format(1, "1 h")))
    assert [
        ("one", "Sat 09:00", "Sat 09:30"),
        ("two", "Sat 09:30", "Sat 10:00"),
        ("one", "Sat 10:00", "Sat 10:30"),
        ("two", "Sat 10:30", "Sat 11:00"),
        ("one", "Sat 11:00", "Sat 12:10"),
        ("two", "Sat 12:10", "Sat 13:20"),
    ] == course(found)
    assert pytest.approx(1.0) == found.set_up_h


def test_next_coat_waits_for_the_zone_that_was_coated_last(plan: Callable) -> None:
    """By hand: coated 9 to 9:40 and to 10:20; ready to recoat 4 h later, at 14:20."""
    found = plan(WEEKEND, BOTH, schedule(COAT.format(2, "1 h")))
    assert [("one", "Sat 14:20", "Sat 15:00"), ("two", "Sat 15:00", "Sat 15:40")] == course(found)[
        2:
    ]


def test_coats_that_are_too_long_for_a_day_go_on_zone_by_zone(plan: Callable) -> None:
    """By hand: 5 h on each; the first on Saturday, the second on Sunday, each without a break."""
    found = plan(WEEKEND, BOTH, schedule(COAT.format(1, "290 min")))
    assert [("one", "Sat 09:00", "Sat 14:00"), ("two", "Sun 09:00", "Sun 14:00")] == course(found)


def test_sanding_of_several_zones_stops_at_closing_time_and_goes_on(plan: Callable) -> None:
    """By hand: 5 h on each, 8 h a day: the second has 3 h on Saturday and 2 h on Sunday."""
    sand = SAND.replace("[120, 180]", "[120]").replace("40 min", "290 min")
    assert [
        ("one", "Sat 09:00", "Sat 14:00"),
        ("two", "Sat 14:00", "Sat 17:00"),
        ("two", "Sun 09:00", "Sun 11:00"),
    ] == course(plan(WEEKEND, BOTH, schedule(sand)))


def test_one_set_up_counts_once_for_all_zones(job: Callable, step_zone: Callable) -> None:
    together = job(WEEKEND, BOTH, schedule(SAND))
    apart = job(WEEKEND, step_zone("one", SAND), step_zone("two", SAND))
    assert pytest.approx(2 * (2 * 20 + 20) / 60) == hands_on_h(together.piece, together.measured)
    assert pytest.approx(2 * (2 * 20 + 2 * 20) / 60) == hands_on_h(apart.piece, apart.measured)


def test_zone_with_nothing_to_mask_has_no_share_in_setting_up_for_it(job: Callable) -> None:
    """Board one has two zones that meet; board two meets nothing and is not masked."""
    top = ZONE.format("one").replace('["one"]', '["one.top"]')
    sides = '[[zone]]\nname = "sides"\nfaces = ["one"]\nleave = true\n'
    mask = 'do = "mask"\nagainst = ["sides"]\ntape = "tape"\ntime = "10 min"'
    made = job(WEEKEND, top, sides, ZONE.format("two"), schedule(mask))
    tasks = tasks_of(made.piece, made.measured)
    assert {"one": 1, "sides": 0, "two": 0} == {name: len(found) for name, found in tasks.items()}
    assert pytest.approx(20 / 60) == tasks["one"][0].set_up_h


def test_steps_keep_their_order_where_the_first_zone_has_nothing_to_mask(plan: Callable) -> None:
    """Board two meets nothing; the top of board one meets its sides and is masked first."""
    top = ZONE.format("one").replace('["one"]', '["one.top"]')
    sides = '[[zone]]\nname = "sides"\nfaces = ["one"]\nleave = true\n'
    mask = 'do = "mask"\nagainst = ["sides"]\ntape = "tape"\ntime = "10 min"'
    steps = schedule(mask, SAND.replace("[120, 180]", "[120]"))
    found = plan(WEEKEND, ZONE.format("two"), top, sides, steps)
    assert [("one", 1), ("two", 2), ("one", 2)] == [
        (entry.task.zone, entry.task.step) for entry in found.entries
    ]


def test_zone_is_on_no_body_of_which_it_has_nothing_but_hidden_faces(
    job: Callable, step_zone: Callable
) -> None:
    """A cap lies on all of the top of board one, which is in the zone of the loose lid."""
    lid = '[[part]]\nname = "lid"\nshape = "board"\nwidth = 1\ndepth = 1\nheight = 0.1\n'
    cap = f"{lid.replace('lid', 'cap')}at = [0, 0, 0.1]\n"
    zone = step_zone("lid", SAND).replace('faces = ["lid"]', 'faces = ["lid", "one.top"]')
    made = job(f"{lid}loose = true\n{cap}", zone, step_zone("one", SAND))
    found = bodies_of(made.piece, made.measured)
    assert (1, 1) == (len(found["lid"]), len(found["one"]))
    assert set(found["lid"]).isdisjoint(found["one"])


def test_task_runs_over_closing_time_as_the_workshop_says(plan: Callable) -> None:
    """By hand: open 9 to 17; 4 h 20 min on each board are 8 h 40 min, 40 min over."""
    sand = SAND.replace("[120, 180]", "[120]").replace("40 min", "250 min")
    ends = {
        over: course(plan(f'{WEEKEND}over = "{over}"\n', BOTH, schedule(sand)))[-1][2]
        for over in ("0 min", "39 min", "40 min")
    }
    assert {"0 min": "Sun 09:40", "39 min": "Sun 09:40", "40 min": "Sat 17:40"} == ends


def test_zone_after_one_of_a_schedule_waits_for_all_of_its_zones(
    plan: Callable, step_zone: Callable
) -> None:
    sides = '[[zone]]\nname = "end"\nfaces = ["two.left"]\nsurface = "bare"\n'
    late = f'{sides}[[zone.step]]\n{SAND}\nafter = ["one"]\n'
    found = plan(WEEKEND, BOTH, late, schedule('do = "dust off"\ntime = "40 min"'))
    assert ["one", "two", "end", "end"] == [entry.task.zone for entry in found.entries]
