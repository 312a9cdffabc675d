"""What comes after each sitting, by hand from the times on the label, and what that rests on."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from surfacecalc.model.inputs import Input
from surfacecalc.plans.tasks import Task, tasks_of
from surfacecalc.plans.waits import Wait

COAT = 'do = "coat"\nproduct = "paint"\nby = "roller"'


@pytest.fixture
def tasks(job: Callable, step_zone: Callable) -> Callable:
    """Return the tasks of the first board for its steps; of one product no drying is known."""

    def make(*steps: str, more: str = "", unknown: str = "") -> tuple[Task, ...]:
        found = job(step_zone("one", *steps), more)
        shelf = found.piece.shelf
        products = {
            name: replace(one, drying=None) if name == unknown else one
            for name, one in shelf.products.items()
        }
        piece = replace(found.piece, shelf=replace(shelf, products=products))
        return tasks_of(piece, found.measured)["one"]

    return make


def hours(wait: Wait) -> tuple[float, float, float, float]:
    """Return the hours until the next task, until dry, until handled and until used."""
    return wait.next_h, wait.dry_h, wait.handled_h, wait.used_h


def rests(task: Task) -> list[str]:
    """Return what the wait of a task rests on."""
    return [one.what.quantity for one in task.wait.rests]


def test_nothing_comes_after_a_sitting_that_goes_straight_on() -> None:
    assert (0, 0, 0, 0) == hours(Wait())
    assert ((), ()) == (Wait().unknown, Wait().rests)


def test_a_last_coat_rests_on_all_times_of_its_product(tasks: Callable) -> None:
    (task,) = tasks(f"{COAT}\ncoats = 1")
    assert (4, 1, 4, 14 * 24) == hours(task.wait)
    assert ["dry", "recoat", "cure"] == rests(task)


def test_a_piece_is_turned_as_soon_as_it_is_dry(tasks: Callable) -> None:
    """Dry after 1 h; that wait rests on nothing else."""
    side, other = tasks(f"{COAT}\ncoats = 1\nsides = 2")
    assert (1, 1, 1, 1) == hours(side.wait)
    assert (["dry"], ["dry", "recoat", "cure"]) == (rests(side), rests(other))


def test_a_piece_whose_drying_is_not_known_is_turned_at_once_and_named(tasks: Callable) -> None:
    side, other = tasks(f"{COAT}\ncoats = 1\nsides = 2", unknown="paint")
    for task in (side, other):
        assert ((0, 0, 0, 0), ("paint",), []) == (
            hours(task.wait),
            task.wait.unknown,
            rests(task),
        )


def test_a_written_wait_takes_the_place_of_times_that_are_not_known(tasks: Callable) -> None:
    """It goes before each turn too, and then nothing is unknown."""
    for task in tasks(f'{COAT}\ncoats = 1\nsides = 2\nwait = "3 h"', unknown="paint"):
        assert ((3, 3, 3, 3), (), ["wait"]) == (hours(task.wait), task.wait.unknown, rests(task))


def test_a_written_wait_is_not_for_turning_what_is_known_to_dry(tasks: Callable) -> None:
    side, other = tasks(f'{COAT}\ncoats = 1\nsides = 2\nwait = "12 h"')
    assert ((1, 1, 1, 1), ["dry"]) == (hours(side.wait), rests(side))
    assert ((12, 1, 12, 14 * 24), ["wait", "cure"]) == (hours(other.wait), rests(other))


def test_a_written_wait_shorter_than_drying_rests_on_the_drying_too(tasks: Callable) -> None:
    """Dry after 1 h, coated again after 30 min: handled after 1 h."""
    (task,) = tasks(f'{COAT}\ncoats = 1\nwait = "30 min"')
    assert ((0.5, 1, 1, 14 * 24), ["wait", "dry", "cure"]) == (hours(task.wait), rests(task))
    (task,) = tasks(f'{COAT}\ncoats = 1\nwait = "1 h"')
    assert ((1, 1, 1, 14 * 24), ["wait", "cure"]) == (hours(task.wait), rests(task))


def test_filler_can_be_used_as_soon_as_it_can_be_coated(tasks: Callable) -> None:
    """Dry after 1 h, coated after 2 h; what it cures in is no matter."""
    pits = '[{ count = 3, diameter = "5 mm", depth = "2 mm" }]'
    (task,) = tasks(f'do = "fill"\nproduct = "filler"\npits = {pits}')
    assert ((2, 1, 2, 2), ["dry", "recoat"]) == (hours(task.wait), rests(task))


def test_washed_wood_is_dry_all_over_at_once(tasks: Callable) -> None:
    """4 h by common practice; twice that in air of 10 degrees."""
    wash = 'do = "wash"\nproduct = "cleaner"\nstrength = "5 %"'
    (task,) = tasks(wash)
    assert ((4, 4, 4, 4), ["drying after"]) == (hours(task.wait), rests(task))
    (task,) = tasks(wash, more='[workshop]\ntemperature = "10 C"')
    assert (8, 8, 8, 8) == hours(task.wait)
    (task,) = tasks(f'{wash}\nwait = "6 h"', more='[workshop]\ntemperature = "10 C"')
    assert ((6, 6, 6, 6), ["wait"]) == (hours(task.wait), rests(task))


def test_a_test_patch_waits_for_the_slowest_of_its_products(tasks: Callable) -> None:
    """7 h of the varnish, 1 h of the paint; of the filler nothing is known."""
    varnish = '[[product]]\nname = "varnish"\nkind = "oil varnish"\ncovers = "10 m2/L"\ndry = "7 h"'
    (task,) = tasks(
        'do = "test"\nproducts = ["paint", "varnish", "filler"]', more=varnish, unknown="filler"
    )
    assert ((7, 7, 7, 7), ("filler",)) == (hours(task.wait), task.wait.unknown)


def test_own_set_up_is_known_to_come_from_the_workshop(tasks: Callable) -> None:
    (task,) = tasks(f"{COAT}\ncoats = 1", more='[workshop]\nset_up = "25 min"')
    assert Input("set-up", where="workshop") in [one.what for one in task.rests]


FINISH = """
[[product]]
name = "shellac"
kind = "shellac"
dry = "1 h"
recoat = "2 h"
cure = "7 days"
rub_out = "3 days"
[[product]]
name = "wax"
kind = "paste wax"
[[product]]
name = "stripper"
kind = "solvent stripper"
dry = "2 h"
recoat = "20 h"
cure = "1 days"
[[product]]
name = "lye"
kind = "caustic stripper"
[[product]]
name = "water stripper"
kind = "waterborne stripper"
"""
SHELLAC = 'do = "coat"\nproduct = "shellac"\ncoats = 2\nby = "brush"'
WAX = 'do = "wax"\nproduct = "wax"'
RUB = 'do = "rub out"\ngrits = [400]\nwith = "disc"\nby = "hand"'
DUST = 'do = "dust off"'
STRIP = 'do = "strip"\nproduct = "stripper"\nby = "brush"'
WASH = 'do = "wash"\nproduct = "cleaner"\nstrength = "3 %"'
SPOT = f'{WAX}\nspot = "5 %"'


@pytest.mark.parametrize(
    ("then", "hardens"),
    [
        ([RUB], True),
        ([WAX], True),
        ([DUST, WAX], True),
        ([RUB, WAX], True),
        ([DUST], False),
        ([SPOT], False),
        ([SPOT, RUB], True),
        ([RUB, SHELLAC], False),
        ([SHELLAC, RUB], False),
        ([RUB, STRIP], False),
        ([RUB.replace("rub out", "sand"), WAX], False),
    ],
)
def test_a_film_hardens_before_it_is_rubbed_out_or_waxed(
    tasks: Callable, then: list[str], hardens: bool
) -> None:
    """Three days on its label in place of two hours until the next coat."""
    first, second, *_ = tasks(SHELLAC, *then, more=FINISH)
    assert first.wait.next_h == 2
    assert second.wait.next_h == (72 if hardens else 2)
    assert second.wait.dry_h == 1
    assert second.wait.used_h == 168
    assert ("rub out" in rests(second)) == hardens


def test_a_recoat_longer_than_the_wait_before_rubbing_out_counts(tasks: Callable) -> None:
    slow = FINISH.replace('recoat = "2 h"', 'recoat = "4 days"').replace('rub_out = "3 days"\n', "")
    _, second, *_ = tasks(SHELLAC, RUB, more=slow)
    assert second.wait.next_h == 96


def test_a_written_wait_takes_the_place_of_hardening(tasks: Callable) -> None:
    _, second, *_ = tasks(f'{SHELLAC}\nwait = "5 h"', RUB, more=FINISH)
    assert (5, ["wait", "cure"]) == (second.wait.next_h, rests(second))


def test_hardening_takes_longer_in_the_cold(tasks: Callable) -> None:
    """Twice as long at 10 C."""
    _, second, *_ = tasks(SHELLAC, RUB, more=FINISH + '[workshop]\ntemperature = "10 C"')
    assert second.wait.next_h == 144


def test_wax_on_hardware_waits_for_nothing_on_the_wood(tasks: Callable) -> None:
    on_pulls = 'do = "wax hardware"\nproduct = "wax"\nhardware = "pulls"'
    _, second, *_ = tasks(SHELLAC, on_pulls, more=FINISH)
    assert second.wait.next_h == 2
    paint_on_pulls = 'do = "wax hardware"\nproduct = "shellac"\nhardware = "pulls"'
    first, *_ = tasks(paint_on_pulls, WAX, more=FINISH)
    assert first.wait.next_h == 2


def test_a_stripper_works_for_half_an_hour_and_its_washed_wood_dries_as_it_asks(
    tasks: Callable,
) -> None:
    """30 min (assumed) before its next coat and before the wash; then 20 h by its label."""
    found = tasks(f"{STRIP}\ncoats = 2", STRIP, WASH, WASH, more=FINISH)
    assert [0.5, 0.5, 0.5, 4, 20] == [task.wait.next_h for task in found]
    assert ["drying after", "recoat"] == rests(found[-1])
    assert ["drying after"] == rests(found[0])


def test_a_wash_that_takes_no_stripper_off_dries_as_ever(tasks: Callable) -> None:
    *_, wash = tasks(STRIP, DUST, WASH, more=FINISH)
    assert wash.wait.next_h == 4


def test_a_stripper_that_nothing_washes_off_dries_as_it_asks(tasks: Callable) -> None:
    (strip, _) = tasks(STRIP, DUST, more=FINISH)
    assert strip.wait.next_h == 20
    (last,) = tasks(STRIP, more=FINISH)
    assert last.wait.next_h == 20


@pytest.mark.parametrize(
    ("product", "then", "ends"),
    [
        ("stripper", DUST, "then wash it off with mineral spirits or water, as its label says"),
        ("water stripper", DUST, "then rinse it off with water"),
        ("lye", DUST, "then neutralise it with vinegar in water, then rinse with water"),
        ("lye", WASH, "then neutralise it with vinegar in water"),
        ("stripper", WASH, "by brush"),
    ],
)
def test_the_plan_says_how_a_stripper_comes_off_by_its_kind(
    tasks: Callable, product: str, then: str, ends: str
) -> None:
    strip = STRIP.replace('"stripper"', f'"{product}"')
    first, second, _ = tasks(strip, strip, then, more=FINISH)
    assert first.words.endswith("by brush")
    assert second.words.endswith(ends)


def test_washed_hardware_is_wiped_dry(tasks: Callable) -> None:
    """One hour, and four for washed wood; both assumed (catalogue/rates.toml)."""
    wash = 'do = "wash"\nproduct = "cleaner"\nstrength = "3 %"'
    found = tasks(f'{wash}\nhardware = "pulls"', wash)
    assert [1, 4] == [task.wait.next_h for task in found]


def test_a_stencil_is_coated_over_and_cures_as_the_paint_it_is_made_with(tasks: Callable) -> None:
    (task,) = tasks('do = "decorate"\nwhat = "a border"\narea = "0.1 m2"\nproduct = "paint"')
    assert (4, 1, 4, 14 * 24) == hours(task.wait)
    assert ["dry", "recoat", "cure"] == rests(task)
