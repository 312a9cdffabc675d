"""Tasks that go on beside each other, and tasks that several zones do at once."""

import json
from collections.abc import Callable

import pytest

from surfacecalc.plans.calendar import calendar_of
from surfacecalc.plans.plan import Plan
from surfacecalc.plans.tasks import tasks_of
from surfacecalc.plans.tracks import chains_of
from surfacecalc.reports.plan_json import plan_json
from surfacecalc.reports.plan_words import together_words
from surfacecalc.reports.spreadsheets import plan_csv

COAT = 'do = "coat"\nproduct = "paint"\ncoats = 1\nby = "roller"'
CLEAR = f'{COAT}\ntogether = "clear"'
GLOSS = f'{COAT}\ntogether = "gloss"'
SAND = 'do = "sand"\ngrits = [120]\nwith = "disc"'
OFF, REFIT = (f'do = "{do}"\nhardware = ["pulls"]' for do in ("take off", "refit"))
WAX = 'do = "wax hardware"\nproduct = "paint"\nhardware = "pulls"'
WASH = 'do = "wash"\nproduct = "cleaner"\nstrength = "3 %"\nhardware = "pulls"'
THREE = '[[part]]\nname = "three"\nshape = "board"\nwidth = 1\ndepth = 1\nheight = 1\nat = [9,0,0]'
SHARED = '[[zone]]\nname = "{0}"\nfaces = ["{0}"]\nsurface = "bare"\nschedule = "all"\n'


@pytest.fixture
def chains(job: Callable) -> Callable[..., dict[str, set[str]]]:
    """Return the chains of a file as first words, with the first words of what each follows."""

    def run(*texts: str) -> dict[str, set[str]]:
        found = job(*texts)
        made = chains_of(tasks_of(found.piece, found.measured))
        said = {
            key: ", ".join(f"{t.place}: {' '.join(t.words.split()[:2])}" for t in own)
            for key, own in made.items()
        }
        return {
            said[key]: {said[other] for task in own for other in task.follows}
            for key, own in made.items()
        }

    return run


def shared(*steps: str) -> list[str]:
    return [SHARED.format("one"), SHARED.format("two"), *(f"[[schedule.all]]\n{s}" for s in steps)]


def test_one_zone_without_work_beside_it_stays_one_chain(
    chains: Callable, step_zone: Callable
) -> None:
    found = chains(step_zone("one", OFF, COAT, REFIT), step_zone("two", COAT))
    assert ["one: take off, one: one coat, one: refit pulls", "two: one coat"] == list(found)
    assert [set(), set()] == list(found.values())


def test_hardware_that_is_not_off_is_worked_on_in_its_zone(
    chains: Callable, step_zone: Callable
) -> None:
    for steps in ([WAX, COAT], [WAX, OFF, REFIT], [OFF, REFIT, WAX]):
        assert 1 == len(chains(step_zone("one", *steps)))


def test_work_beside_waits_for_the_take_off_and_the_refit_for_it(
    chains: Callable, step_zone: Callable
) -> None:
    last = SAND.replace("120", "180")
    found = chains(step_zone("one", SAND, OFF, WASH, COAT, WAX, REFIT, last))
    off, beside = "one: take off", "one: wash pulls, one: wax hardware:"
    assert {
        "one: sand P120,": set(),
        off: {"one: sand P120,"},
        beside: {off},
        "one: one coat": {off},
        "one: refit pulls": {"one: one coat", beside},
        "one: sand P180,": {"one: refit pulls"},
    } == found


def test_each_set_of_hardware_has_its_own_track(chains: Callable, step_zone: Callable) -> None:
    hinges = '[[hardware]]\nname = "hinges"\ncount = 2\nplan = "renew"\nsize = [0.1, 0.1, 0.1]'
    both = [step.replace('["pulls"]', '["pulls", "hinges"]') for step in (OFF, REFIT)]
    on_hinges = WASH.replace('"pulls"', '"hinges"')
    found = chains(hinges, step_zone("one", both[0], WAX, on_hinges, COAT, both[1]))
    tracks = {"one: wax hardware:", "one: wash hinges", "one: one coat"}
    assert all({"one: take off"} == found[track] for track in tracks)
    assert tracks == found["one: refit pulls"]


def test_zones_of_a_schedule_wait_for_the_take_off_and_the_refit_for_all(chains: Callable) -> None:
    found = chains(*shared(OFF, COAT, WAX, REFIT))
    off = "one and two: take off"
    zones = {"one: one coat", "two: one coat"}
    assert {off} == found["one: one coat"] == found["two: one coat"]
    assert {off} == found["one and two: wax hardware:"]
    assert {*zones, "one and two: wax hardware:"} == found["one and two: refit pulls"]


def test_session_follows_all_its_zones_and_they_go_on_after_it(
    chains: Callable, step_zone: Callable
) -> None:
    found = chains(step_zone("one", SAND, CLEAR, WAX), step_zone("two", CLEAR))
    assert {
        "one: sand P120,": set(),
        "one and two: one coat": {"one: sand P120,"},
        "one: wax hardware:": {"one and two: one coat"},
    } == found


def test_session_of_one_zone_is_a_step_like_any_other(
    chains: Callable, step_zone: Callable
) -> None:
    assert ["one: sand P120,, one: one coat"] == list(chains(step_zone("one", SAND, CLEAR)))


def test_after_a_zone_means_all_that_is_done_on_it_but_not_its_hardware(
    chains: Callable, step_zone: Callable
) -> None:
    found = chains(
        THREE, step_zone("three", f'{SAND}\nafter = ["one"]'), *shared(OFF, COAT, WAX, REFIT)
    )
    assert {"one: one coat"} == found["three: sand P120,"]


def test_only_the_first_task_of_a_chain_follows_others(job: Callable) -> None:
    found = job(*shared(OFF, COAT.replace("coats = 1", "coats = 2")))
    follows = [bool(t.follows) for t in tasks_of(found.piece, found.measured)["two"]]
    assert [True, False] == follows


def test_after_at_a_session_is_for_the_whole_session(chains: Callable, step_zone: Callable) -> None:
    # a name of its own zones says nothing new
    late, known = (f'{CLEAR}\nafter = ["{name}"]' for name in ("three", "one"))
    zones = step_zone("one", CLEAR), step_zone("two", late), step_zone("three", SAND)
    assert {"three: sand P120,"} == chains(THREE, *zones)["one and two: one coat"]
    zones = step_zone("one", SAND, CLEAR), step_zone("two", known), step_zone("three", SAND)
    assert {"one: sand P120,"} == chains(THREE, *zones)["one and two: one coat"]


def test_session_of_three_zones(job: Callable, step_zone: Callable) -> None:
    names = ("one", "two", "three")
    found = job(THREE, *(step_zone(name, CLEAR) for name in names))
    (task,) = tasks_of(found.piece, found.measured)["one"]
    assert (names, "one, two and three") == (task.zones, task.place)


@pytest.mark.parametrize(
    ("first", "second", "words"),
    [
        ([CLEAR, GLOSS], [GLOSS, CLEAR], "can never begin: the session of line "),
        ([SAND, CLEAR], [f'{SAND}\nafter = ["one"]', CLEAR], "takes in zones that wait for each"),
        (
            [f'{SAND}\nafter = ["two"]'],
            [f'{SAND}\nafter = ["one"]'],
            'waits for "two", which waits',
        ),
    ],
)
def test_zones_that_wait_for_each_other_are_told(
    job: Callable, step_zone: Callable, first: list[str], second: list[str], words: str
) -> None:
    (problem,) = job(step_zone("one", *first), step_zone("two", *second)).plan()
    assert words in problem.message
    assert problem.where in ('zone "one"', 'zone "two"')
    assert "\n" not in problem.message


@pytest.fixture
def session_plan(plan: Callable, step_zone: Callable) -> Plan:
    made: Plan = plan(step_zone("one", OFF, WAX, CLEAR, REFIT), step_zone("two", SAND, CLEAR))
    return made


def test_session_has_its_zones_wherever_it_is_told(session_plan: Plan, job: Callable) -> None:
    entry = next(e for e in session_plan.entries if e.task.also)
    assert ("one", ("one", "two"), "one and two") == (
        entry.task.zone, entry.task.zones, entry.task.place,
    )  # fmt: skip
    piece = job(SHARED.format("one"), f"[[schedule.all]]\n{COAT}").piece
    told = json.loads(plan_json(piece, session_plan, {}))["tasks"]
    assert [["one", "two"]] == [task["zones"] for task in told if len(task["zones"]) > 1]
    assert {"one", "two"} == {task["zone"] for task in told}
    assert "one and two" in plan_csv(session_plan, {})
    calendar = calendar_of("Boards", session_plan, {}, session_plan.entries[0].starts).decode()
    assert "Boards\\, one and two: one coat of paint" in calendar.replace("\r\n ", "")


def test_why_says_what_is_done_at_once_and_what_beside(session_plan: Plan) -> None:
    first, second = together_words(session_plan)
    assert first.startswith("Done in one session (line ")
    assert first.endswith(
        "): one and two. It has one set-up, and each of them waits for the others."
    )
    assert "Worked on while they are off the piece, beside it: pulls." == second


def test_time_and_set_up_of_a_session(job: Callable, step_zone: Callable) -> None:
    """2.4 m2 each at 8 m2/h, and 10 min once; with a time of its own, one zone adds that."""
    found = job(step_zone("one", CLEAR), step_zone("two", f'{CLEAR}\ntime = "1 h"'))
    (task,) = tasks_of(found.piece, found.measured)["one"]
    assert () == tasks_of(found.piece, found.measured)["two"]
    assert pytest.approx(2.4 / 8 + 1) == task.work_h
    assert pytest.approx(10 / 60) == task.set_up_h
    assert {"rate", "time", "set-up"} <= {factor.what.quantity for factor in task.rests}


def test_tape_that_comes_off_with_a_session_is_said_once(job: Callable) -> None:
    def part(name: str, face: str, *steps: str) -> str:
        head = f'[[zone]]\nname = "{name}"\nfaces = ["{face}"]\nsurface = "bare"\n'
        return head + "".join(f"[[zone.step]]\n{step}\n" for step in steps)

    mask = 'do = "mask"\ntape = "tape"\nagainst = ["rest"]'
    rest = '[[zone]]\nname = "rest"\nfaces = ["two", "one"]\nleave = true\n'
    found = job(part("top", "one.top", CLEAR), part("under", "one.bottom", mask, CLEAR), rest)
    (task,) = tasks_of(found.piece, found.measured)["top"]
    assert "one coat of paint, by roller, then take the tape off" == task.words


def test_dust_does_not_fall_on_hardware_that_is_off_as_if_it_were_on_its_zone(
    plan: Callable, step_zone: Callable
) -> None:
    """Wet pulls lie beside the piece: the zone that they are from is sanded meanwhile."""
    found = plan(step_zone("one", OFF, WAX, f'{SAND}\ntime = "2 h"', REFIT))
    sanded = next(e for e in found.entries if e.task.dust)
    waxed = next(e for e in found.entries if e.task.off)
    assert waxed.ends <= sanded.starts  # else this shows nothing
    assert 'while "pulls" is wet until' in found.dust
    assert found.dust.endswith("Let it dry in another room, or wait.")
    assert {("one", sanded.task.number)} == found.dusty
