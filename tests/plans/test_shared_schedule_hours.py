"""What a schedule counts is done once for all zones that share it, in the plan and for the quote.

One zone has one side of a board, 1 m2; the other has three such sides, 3 m2. So the first has a
quarter of everything that is counted and the second three quarters; every time was made by hand.
"""

from collections.abc import Callable

import pytest

from surfacecalc.plans.tasks import Task, hands_on_h, tasks_of

HEAD = '[[zone]]\nname = "{}"\nfaces = {}\nsurface = "bare"\nschedule = "all"\n'
SMALL = HEAD.format("small", ["one.top"])
LARGE = HEAD.format("large", ["one.bottom", "two.top", "two.bottom"])
WHOLE = HEAD.format("whole", ["one.top", "one.bottom", "two.top", "two.bottom"])
PITS = '[{ count = 12, diameter = "5 mm", depth = "2 mm" }]'
WASH = 'do = "wash"\nproduct = "cleaner"\nstrength = "3 %"\nhardware = "pulls"'
WAX = 'do = "wax hardware"\nproduct = "paint"\nhardware = "pulls"'

STEPS = {
    # step: words in all zones, minutes in all, minutes for setting out
    'do = "repair"\nwhat = "joints"\ncount = 4': ("repair joints (4 total)", 120, 5),
    'do = "repair"\nwhat = "joints"\ncount = 4\ntime = "40 min"': (
        "repair joints (4 total)", 40, 5,
    ),
    f'do = "fill"\nproduct = "filler"\npits = {PITS}': (
        "fill holes (12 total) with filler", 24, 10,
    ),
    'do = "test"\nproducts = ["paint"]': ("test patch: paint (one total)", 10, 10),
    WAX: ("wax hardware: one coat of paint on pulls (6 total), with a cloth", 18, 10),
    f'do = "fill"\nproduct = "filler"\nhardware = "pulls"\npits = {PITS}': (
        "fill holes (12 total) of pulls with filler", 24, 10,
    ),
    WASH: ("wash pulls (6 total) with cleaner", 12, 10),
    # 6 x (60 x 20 + 2 x 20 x 80) mm2 = 0.0264 m2
    f'{WASH}\nrate = "0.05 m2/h"': ("wash pulls (6 total) with cleaner", 0.0264 / 0.05 * 60, 10),
    f'{WAX}\nrate = "0.05 m2/h"': (
        "wax hardware: one coat of paint on pulls (6 total), with a cloth", 0.0264 / 0.05 * 60, 10,
    ),
}  # fmt: skip


@pytest.fixture
def shared(job: Callable) -> Callable[..., tuple[list[Task], float]]:
    """Return all tasks of zones that share the steps, and their time before it is rounded [h]."""

    def make(step: str, *zones: str) -> tuple[list[Task], float]:
        found = job(*zones, f"[[schedule.all]]\n{step}\n")
        tasks = tasks_of(found.piece, found.measured)
        every = [task for chain in tasks.values() for task in chain]
        return every, sum(task.work_h + task.set_up_h for task in every)

    return make


@pytest.mark.parametrize("step", STEPS)
def test_each_zone_has_its_share_of_what_is_counted(shared: Callable, step: str) -> None:
    words, minutes, set_up = STEPS[step]
    (small, large), _ = shared(step, SMALL, LARGE)
    assert [words, words] == [small.words, large.words]
    assert pytest.approx([minutes / 4, minutes * 3 / 4]) == [60 * small.work_h, 60 * large.work_h]
    assert pytest.approx([set_up / 4, set_up * 3 / 4]) == [60 * small.set_up_h, 60 * large.set_up_h]


@pytest.mark.parametrize("step", STEPS)
def test_zones_take_together_as_long_as_one_zone_of_all_their_faces(
    shared: Callable, step: str
) -> None:
    _, minutes, set_up = STEPS[step]
    _, together_h = shared(step, SMALL, LARGE)
    (whole,), alone_h = shared(step, WHOLE)
    assert " total" not in whole.words
    assert pytest.approx((minutes + set_up) / 60) == together_h == pytest.approx(alone_h)


@pytest.mark.parametrize(("word", "minutes"), [("take off", 18), ("refit", 30)])
def test_hardware_comes_off_and_goes_on_once_for_all_zones(
    shared: Callable, word: str, minutes: float
) -> None:
    """Six pulls at 3 min off and 5 min on, and one set-up of 5 min."""
    (task,), whole_h = shared(f'do = "{word}"\nhardware = ["pulls"]', SMALL, LARGE)
    assert (f"{word} pulls (6)", ("small", "large")) == (task.words, task.zones)
    assert pytest.approx(minutes) == 60 * task.work_h
    assert pytest.approx((minutes + 5) / 60) == whole_h


@pytest.mark.parametrize(
    ("step", "minutes"),
    [
        ('do = "sand"\ngrits = [120]\nwith = "disc"\ntime = "40 min"', [40, 40]),
        ('do = "sand"\ngrits = [120]\nwith = "disc"\nrate = "4 m2/h"', [15, 45]),
        ('do = "repair"\nwhat = "scrape"\nrate = "4 m2/h"', [15, 45]),
        ('do = "dust off"\ntime = "10 min"', [10, 10]),
        ('do = "mask"\ntape = "tape"\ntime = "10 min"\nfilm = "film"\ncover = "2 m2"', [10, 10]),
        # film 2 m2 at 5 min, laid once; the zones meet nowhere
        ('do = "mask"\ntape = "tape"\nfilm = "film"\ncover = "2 m2"', [2.5, 7.5]),
    ],
)
def test_what_goes_by_area_or_is_written_for_each_zone_stays_as_it_is(
    shared: Callable, step: str, minutes: list[float]
) -> None:
    film = '[[tape]]\nname = "film"\npacks = [{ area = "20 m2" }]\n'
    found, _ = shared(step, SMALL, LARGE, film)
    assert pytest.approx(minutes) == [60 * task.work_h for task in found]


def test_steps_written_in_each_zone_are_two_jobs(job: Callable, step_zone: Callable) -> None:
    step = 'do = "repair"\nwhat = "joints"\ncount = 4'
    found = job(step_zone("one", step), step_zone("two", step))
    tasks = tasks_of(found.piece, found.measured)
    assert {"repair joints (4)"} == {tasks["one"][0].words, tasks["two"][0].words}
    assert pytest.approx(2 * (4 * 30 + 5) / 60) == hands_on_h(found.piece, found.measured)
