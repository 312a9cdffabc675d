"""Steps become tasks: what they are called, how long they take, what they are followed by."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from piece_texts import measured, piece_text

from surfacecalc.model.inputs import Input
from surfacecalc.plans.tasks import hands_on_h, tasks_of

AREA_M2 = 2.4
MIN = 1 / 60
COAT = 'do = "coat"\nproduct = "paint"\nby = "roller"'


@pytest.fixture
def tasks(job: Callable, step_zone: Callable) -> Callable:
    """Return the tasks of the first board, whose steps are given."""

    def make(*steps: str, more: str = ""):
        found = job(step_zone("one", *steps), more)
        return tasks_of(found.piece, found.measured)["one"]

    return make


def test_each_coat_is_a_task_with_its_number(tasks: Callable) -> None:
    found = tasks(f"{COAT}\ncoats = 2")
    assert ["first coat of paint, by roller", "second coat of paint, by roller"] == [
        task.words for task in found
    ]
    assert [1, 2] == [task.number for task in found]
    assert not any(task.can_pause for task in found)


def test_usual_rate_gives_the_time_of_each_coat(tasks: Callable) -> None:
    found = tasks(f"{COAT}\ncoats = 2")
    assert pytest.approx([AREA_M2 / 8] * 2) == [task.work_h for task in found]
    assert pytest.approx([10 * MIN] * 2) == [task.set_up_h for task in found]
    assert Input("rate", of="coat", by="roller") in [factor.what for factor in found[0].rests]


@pytest.mark.parametrize("count", [1, 2, 3])
def test_a_coat_may_stop_between_pieces_of_a_set_and_never_on_one(count: int) -> None:
    """A top of 1 m2 takes an hour and set-up 10 min, so a piece takes 70 min at a stretch."""
    coat = {"do": "coat", "product": "paint", "coats": 1, "by": "roller", "rate": "1 m2/h"}
    text = piece_text(
        coat,
        piece={"count": count},
        part={"width": 1000, "depth": 1000},
        zone={"faces": ["board.top"]},
        product={"name": "paint", "kind": "waterborne paint"},
    )
    job = measured(text)
    (task,) = tasks_of(job.piece, job.measured)["all"]
    assert (count, count > 1) == (task.pieces, task.may_stop)
    assert (70, 60 * count + 10) == (task.unbroken_min, task.work_min)


def test_rate_of_the_step_is_for_each_coat(tasks: Callable) -> None:
    found = tasks(f'{COAT}\ncoats = 2\nrate = "4 m2/h"')
    assert pytest.approx([0.6, 0.6]) == [task.work_h for task in found]
    assert Input("rate", of="coat", by="roller") not in [factor.what for factor in found[0].rests]


def test_time_of_the_step_is_for_all_its_coats(tasks: Callable) -> None:
    found = tasks(f'{COAT}\ncoats = 2\ntime = "1 h"')
    assert pytest.approx([0.5, 0.5]) == [task.work_h for task in found]


def test_each_grit_is_a_task_that_can_pause_and_needs_no_wait(tasks: Callable) -> None:
    found = tasks('do = "sand"\ngrits = [120, 180]\nwith = "disc"', f"{COAT}\ncoats = 1")
    assert ["sand P120, by machine", "sand P180, by machine", "one coat of paint, by roller"] == [
        task.words for task in found
    ]
    assert [True, True, False] == [task.can_pause for task in found]
    assert [0, 0, 4] == [task.wait.next_h for task in found]
    assert [1, 1, 2] == [task.step for task in found]


def test_wait_of_a_sanding_step_comes_after_its_last_grit(tasks: Callable) -> None:
    found = tasks('do = "sand"\ngrits = [120, 180]\nwith = "disc"\nwait = "2 h"')
    assert [0, 2] == [task.wait.next_h for task in found]


def test_product_tells_the_waits(tasks: Callable) -> None:
    (task,) = tasks(f"{COAT}\ncoats = 1")
    assert (4, 1, 14 * 24) == (task.wait.next_h, task.wait.dry_h, task.wait.used_h)


def test_wait_of_the_step_goes_before_that_of_its_product(tasks: Callable) -> None:
    (task,) = tasks(f'{COAT}\ncoats = 1\nwait = "12 h"')
    assert (12, 12, 14 * 24) == (task.wait.next_h, task.wait.handled_h, task.wait.used_h)
    (task,) = tasks(f'{COAT}\ncoats = 1\nwait = "20 days"')
    assert 20 * 24 == task.wait.used_h  # nobody uses what still has to wait


@pytest.mark.parametrize(
    ("wait", "handled_h"), [("", 4), ('wait = "12 h"', 12), ('wait = "30 min"', 1)]
)
def test_coat_is_handled_when_it_is_dry_and_could_be_coated_again(
    tasks: Callable, wait: str, handled_h: float
) -> None:
    """Dry after 1 h, coated again after 4 h or what the step says: the later of the two."""
    (task,) = tasks(f"{COAT}\ncoats = 1\n{wait}")
    assert (handled_h, 1) == (task.wait.handled_h, task.wait.dry_h)


def test_cold_makes_the_waits_of_products_longer_and_leaves_written_ones(tasks: Callable) -> None:
    cold = '[workshop]\ntemperature = "10 C"'
    (task,) = tasks(f"{COAT}\ncoats = 1", more=cold)
    assert (8, 2, 28 * 24) == (task.wait.next_h, task.wait.dry_h, task.wait.used_h)
    (task,) = tasks(f'{COAT}\ncoats = 1\nwait = "12 h"', more=cold)
    assert 12 == task.wait.next_h


def test_two_sides_are_two_half_tasks_with_time_to_dry_between(tasks: Callable) -> None:
    found = tasks(f'{COAT}\ncoats = 2\nsides = 2\nrate = "4 m2/h"')
    assert "first coat of paint, by roller, side 1 of 2" == found[0].words
    assert [1, 4, 1, 4] == [task.wait.next_h for task in found]
    assert pytest.approx([0.3] * 4) == [task.work_h for task in found]


def test_denibbing_stands_between_coats_with_the_wait_before_it(tasks: Callable) -> None:
    found = tasks(f'{COAT}\ncoats = 2\nbetween = {{ grit = 320, with = "disc" }}')
    assert [
        "first coat of paint, by roller",
        "sand lightly P320, by hand",
        "second coat of paint, by roller",
    ] == [task.words for task in found]
    assert [4, 0, 4] == [task.wait.next_h for task in found]
    assert [False, True, False] == [task.can_pause for task in found]


def test_likely_number_of_coats_is_planned(tasks: Callable) -> None:
    assert 2 == len(tasks(f"{COAT}\ncoats = [1, 2, 3]"))


def test_spot_takes_its_share_of_the_time(tasks: Callable) -> None:
    (task,) = tasks(f'{COAT}\ncoats = 1\nspot = "25 %"\nrate = "4 m2/h"')
    assert pytest.approx(0.15) == task.work_h


def test_coat_on_hardware_counts_the_pieces(tasks: Callable) -> None:
    step = COAT.replace('"coat"', '"wax hardware"').replace("roller", "cloth")
    (task,) = tasks(f'{step}\ncoats = 1\nhardware = "pulls"')
    assert "wax hardware: one coat of paint on pulls (6), with a cloth" == task.words
    assert pytest.approx(6 * 3 * MIN) == task.work_h


def test_washing_waits_until_the_wood_is_dry(tasks: Callable) -> None:
    found = tasks('do = "wash"\nproduct = "cleaner"\nstrength = "5 %"\ntimes = 2')
    assert ["wash with cleaner, first time", "wash with cleaner, second time"] == [
        task.words for task in found
    ]
    assert [0, 4] == [task.wait.next_h for task in found]


def test_filling_counts_the_holes_and_waits_for_the_filler(tasks: Callable) -> None:
    pits = '[{ count = 3, diameter = "5 mm", depth = "2 mm" }]'
    (task,) = tasks(f'do = "fill"\nproduct = "filler"\npits = {pits}')
    assert "fill 3 holes with filler" == task.words
    assert pytest.approx(3 * 2 * MIN) == task.work_h
    assert 2 == task.wait.next_h
    assert not task.can_pause


def test_handwork_takes_its_time_for_each(tasks: Callable) -> None:
    off, on, dust = tasks(
        'do = "take off"\nhardware = ["pulls"]',
        'do = "refit"\nhardware = ["pulls"]',
        'do = "dust off"',
    )
    assert ("take off pulls (6)", "refit pulls (6)", "dust off") == (
        off.words,
        on.words,
        dust.words,
    )
    assert pytest.approx((6 * 3 * MIN, 6 * 5 * MIN, AREA_M2 / 20)) == (
        off.work_h,
        on.work_h,
        dust.work_h,
    )


def test_clamps_stay_on_as_long_as_the_step_waits(tasks: Callable) -> None:
    (task,) = tasks('do = "repair"\nwhat = "loose joints"\ncount = 2\nwait = "12 h"')
    assert ("repair loose joints (2)", 12) == (task.words, task.wait.next_h)
    assert pytest.approx(1.0) == task.work_h


def test_decals_take_their_time_for_each(tasks: Callable) -> None:
    (task,) = tasks('do = "decal"\nwhat = "rose decals"\ncount = 6')
    assert ("put on rose decals (6)", 0) == (task.words, task.wait.next_h)
    assert pytest.approx(6 * 10 * MIN) == task.work_h


def test_decals_put_on_with_a_product_wait_until_it_is_dry(tasks: Callable) -> None:
    step = 'do = "decal"\nwhat = "rose decals"\nproduct = "paint"\neach = "2 ml"'
    (task,) = tasks(step)
    assert task.wait.dry_h == task.wait.next_h > 0
    (told,) = tasks(f'{step}\nwait = "3 h"')
    assert 3 == told.wait.next_h


def test_lime_wax_is_rubbed_in_by_cloth_slower_than_a_coat(tasks: Callable) -> None:
    (task,) = tasks('do = "lime wax"\nproduct = "paint"')
    assert "lime wax: one coat of paint, with a cloth" == task.words
    (coat,) = tasks('do = "wax"\nproduct = "paint"')
    assert pytest.approx(2 * coat.work_h) == task.work_h  # 3 m2/h instead of 6


def test_test_patch_takes_its_time_for_each_product(tasks: Callable) -> None:
    (task,) = tasks('do = "test"\nproducts = ["paint"]')
    assert ("test patch: paint", 1) == (task.words, task.wait.next_h)
    assert pytest.approx(10 * MIN) == task.work_h


def test_masking_follows_the_line_where_zones_meet(job: Callable) -> None:
    top = '[[zone]]\nname = "top"\nfaces = ["one.top"]\nsurface = "bare"\n[[zone.step]]\n'
    step = 'do = "mask"\ntape = "tape"\nagainst = ["sides"]\n'
    sides = '[[zone]]\nname = "sides"\nfaces = ["one"]\nleave = true'
    found = job(f"{top}{step}{sides}")
    (task,) = tasks_of(found.piece, found.measured)["top"]
    assert "mask sides with tape" == task.words
    assert pytest.approx(4 * MIN) == task.work_h  # round the top, 4 m


FEET = '[[zone]]\nname = "feet"\nfaces = ["two"]\nleave = true\n'


def test_zone_that_meets_none_it_is_masked_against_has_nothing_to_mask(tasks: Callable) -> None:
    """The boards lie 2 m apart."""
    mask = 'do = "mask"\ntape = "tape"\nagainst = ["feet"]\ntime = "10 min"'
    coat = f"{COAT}\ncoats = 1"
    (task,) = tasks(mask, coat, more=FEET)
    assert ("one coat of paint, by roller", 2, 1) == (task.words, task.step, task.number)


def test_zones_that_a_mask_without_a_task_waits_for_are_waited_for_by_the_next(
    tasks: Callable,
) -> None:
    mask = 'do = "mask"\ntape = "tape"\nagainst = ["feet"]\nafter = ["feet"]'
    (task,) = tasks(mask, f"{COAT}\ncoats = 1", more=FEET)
    assert ("feet",) == task.after


@pytest.fixture
def top(job: Callable) -> Callable:
    """Return the words of the tasks of a board's top, which meets its sides, for its steps."""

    def make(*steps: str) -> list[str]:
        head = '[[zone]]\nname = "top"\nfaces = ["one.top"]\nsurface = "bare"\n'
        sides = '[[zone]]\nname = "sides"\nfaces = ["one"]\nleave = true'
        body = "".join(f"[[zone.step]]\n{step}\n" for step in steps)
        found = job(head, body, sides, FEET)
        return [task.words for task in tasks_of(found.piece, found.measured)["top"]]

    return make


MASK = 'do = "mask"\ntape = "tape"'
OFF = ", then take the tape off"


def test_only_zones_that_are_met_are_masked(top: Callable) -> None:
    (words,) = top(f'{MASK}\nagainst = ["feet", "sides"]')
    assert "mask sides with tape" == words


def test_tape_comes_off_with_the_last_coat_on_the_zone(top: Callable) -> None:
    prime, coat = (COAT.replace('"coat"', word) + "\ncoats = 2" for word in ('"prime"', '"coat"'))
    wax = 'do = "wax hardware"\nproduct = "paint"\nhardware = "pulls"'
    found = top(MASK, prime, coat, 'do = "dust off"', wax)
    assert "second coat of paint, by roller" + OFF == found[4]
    assert 1 == sum(OFF in words for words in found)


def test_tape_that_comes_off_leaves_the_last_coat_as_it_is(tasks: Callable) -> None:
    """Two sides: 1 h until the board is turned, 4 h after the side with which the tape goes."""
    head = '[[zone]]\nname = "feet"\nfaces = ["one.top"]\nleave = true\n'
    found = tasks(MASK, f"{COAT}\ncoats = 1\nsides = 2", more=head)
    assert [False, False, True] == [task.words.endswith(OFF) for task in found]
    assert [1, 4] == [task.wait.next_h for task in found[1:]]


def test_tape_comes_off_before_the_zone_is_masked_anew(top: Callable) -> None:
    coat = f"{COAT}\ncoats = 1"
    found = top(MASK, coat, MASK, coat)
    assert [False, True, False, True] == [words.endswith(OFF) for words in found]


def test_tape_that_was_never_put_on_does_not_come_off(top: Callable) -> None:
    coat = f"{COAT}\ncoats = 1"
    assert not any(OFF in words for words in top(coat, f'{MASK}\nagainst = ["feet"]', coat))


def test_own_time_for_setting_out_goes_before_the_usual_one(tasks: Callable) -> None:
    (task,) = tasks(f"{COAT}\ncoats = 1", more='[workshop]\nset_up = "25 min"')
    assert pytest.approx(25 * MIN) == task.set_up_h
    assert not [
        factor
        for factor in task.rests
        if factor.source == "assumed" and factor.what.quantity == "set-up"
    ]


def test_hands_on_time_of_a_job_is_the_sum_of_its_tasks(job: Callable, step_zone: Callable) -> None:
    """Each of four coats of 36 min and 10 min of set-up is planned with 45 min."""
    step = f'{COAT}\ncoats = 2\nrate = "4 m2/h"'
    found = job(step_zone("one", step), step_zone("two", step))
    assert pytest.approx(4 * 45 * MIN) == hands_on_h(found.piece, found.measured)


@pytest.mark.parametrize(("pieces", "may_stop", "unbroken_min"), [(1, False, 150), (2, True, 90)])
def test_a_coat_stops_between_two_pieces_of_a_set_and_never_on_one(
    tasks: Callable, pieces: int, may_stop: bool, unbroken_min: int
) -> None:
    """Two hours on all and half an hour of set-up: 120 / pieces + 30 min without a break."""
    (coat,) = tasks(f"{COAT}\ncoats = 1")
    one = replace(coat, work_h=2.0, set_up_h=0.5, pieces=pieces)
    assert (may_stop, unbroken_min) == (one.may_stop, one.unbroken_min)
    assert 1 == coat.pieces
