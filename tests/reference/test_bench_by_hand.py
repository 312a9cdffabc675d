"""What the bench needs for each coat, worked out by hand from the file and from nothing else.

Each board is 1 m x 1 m x 0.1 m: 2 + 4 x 0.1 = 2.4 m2 (no part of it touches anything). Every
number is taken as it is given (`own_spread = "0 %"`), but for a range where a test has one.
"""

import pytest
from asked_jobs import SATURDAY, asked_job

from surfacecalc import api

BOARD_M2 = 2.4
HEAD = """
[piece]
name = "two boards"
unit = "m"
buy_for = "90 %"

[workshop]
hours = ["mon-sun 00:00-24:00"]
own_spread = "0 %"

[[part]]
name = "one"
shape = "board"
width = 1
depth = 1
height = 0.1

[[part]]
name = "two"
shape = "board"
width = 1
depth = 1
height = 0.1
at = [3, 0, 0]

[[product]]
name = "paint"
kind = "waterborne furniture paint"
covers = COVERS
thinner = "water"
packs = [{ size = "1 L", price = 20 }]
PAINT

[[product]]
name = "ochre"
kind = "waterborne furniture paint"
covers = "10 m2/L"

[[product]]
name = "water"
kind = "water"

[[product]]
name = "soap"
kind = "cleaner"

[[product]]
name = "putty"
kind = "two-part filler"
density = "1.5 kg/L"

[[product]]
name = "paste"
kind = "hardener"

[[mix]]
name = "blend"
recipe = [{ product = "paint", parts = 3 }, { product = "ochre", parts = 1 }]
covers = COVERS
measure = "100 ml"
MIX
"""
COAT = 'do = "coat"\nby = "brush"\nloss = "10 %"\nallowance = "0 %"\nstays_behind = "0 ml"\n'


def bench(*zones, paint="", mix="", covers='"10 m2/L"', buy_for="90 %"):
    """Return what each task that uses anything uses, in the order of the plan."""
    head = HEAD.replace("PAINT", paint).replace("MIX", mix).replace("COVERS", covers)
    job = asked_job("\n".join((head.replace("90 %", buy_for), *zones)))
    made, bought = api.plan(job, SATURDAY), api.supplies(job)
    found = api.bench(job, made, bought)
    keys = [(entry.task.zone, entry.task.number) for entry in made.entries]
    return [found[key] for key in keys if key in found]


def zone(name, *steps, surface="sealed"):
    head = f'[[zone]]\nname = "{name}"\nfaces = ["{name}"]\nsurface = "{surface}"\n'
    return head + "".join(f"[[zone.step]]\n{step}\n" for step in steps)


def amounts(task):
    return [(one.supply, one.role, pytest.approx(one.amount), one.unit) for one in task.portions]


def test_each_coat_with_its_thinner_and_tint():
    """On bare wood the first coat covers 80 %; 10 % is lost, 5 % extra, 20 ml stay in the brush.

    First: 2.4 / 10 / 0.8 / 0.9 x 1.05 = 0.35 L, and 0.02 L. Next: 2.4 / 10 / 0.9 x 1.05 = 0.28 L,
    and 0.02 L. 10 % water and 5 % ochre go into each.
    """
    step = (
        'do = "coat"\nproduct = "paint"\nby = "brush"\ncoats = 2\nloss = "10 %"\n'
        'allowance = "5 %"\nfirst_coat = "80 %"\nstays_behind = "20 ml"\nthin = "10 %"\n'
        'tint = { product = "ochre", share = "5 %" }'
    )
    first, second = bench(zone("one", step, surface="bare"))
    assert amounts(first) == [
        ("paint", "step", 0.37, "L"),
        ("water", "thinner", 0.037, "L"),
        ("ochre", "tint", 0.0185, "L"),
    ]
    assert amounts(second) == [
        ("paint", "step", 0.30, "L"),
        ("water", "thinner", 0.030, "L"),
        ("ochre", "tint", 0.015, "L"),
    ]
    assert [0.1, 0.05] == [one.share for one in second.portions if one.share]


def test_a_coat_on_two_sides_is_halved():
    """2.4 / 10 / 0.9 = 0.2667 L a coat."""
    sides = bench(zone("one", f'{COAT}product = "paint"\ncoats = 1\nsides = 2'))
    assert [amounts(side) for side in sides] == [[("paint", "step", 0.4 / 3, "L")]] * 2


def test_each_washing_with_its_cleaner_its_water_and_its_rinse():
    """Twice 2.4 / 8 = 0.3 L of solution, 4 % of it soap; 2.4 / 6 = 0.4 L to rinse each time."""
    step = (
        'do = "wash"\nproduct = "soap"\nstrength = "4 %"\ncovers = "8 m2/L"\ntimes = 2\n'
        'rinse = "6 m2/L"'
    )
    for one in bench(zone("one", step)):
        assert amounts(one) == [
            ("soap", "cleaner", 0.012, "L"),
            ("water from the tap", "water", 0.288, "L"),
            ("water from the tap", "rinse", 0.4, "L"),
        ]


def test_holes_are_filled_again_with_what_shrank():
    """A groove of 100 x 20 x 10 mm: 0.02 L; 20 % smeared off: 0.025 L, 37.5 g.

    It shrinks by 10 %, so the second time takes 3.75 g. 2 % paste by weight: 0.75 g and 0.075 g.
    """
    step = (
        'do = "fill"\nproduct = "putty"\napplications = 2\nshrinkage = "10 %"\nloss = "20 %"\n'
        'grooves = [{ count = 1, length = "100 mm", width = "20 mm", depth = "10 mm" }]\n'
        'hardener = { product = "paste", share = "2 %" }'
    )
    first, second = bench(zone("one", step))
    assert amounts(first) == [("putty", "step", 0.0375, "kg"), ("paste", "hardener", 0.00075, "kg")]
    assert amounts(second) == [
        ("putty", "step", 0.00375, "kg"),
        ("paste", "hardener", 0.000075, "kg"),
    ]


def test_a_batch_is_mixed_before_the_first_coat_in_the_ratio_of_its_recipe():
    """Two coats of 2.4 / 10 / 0.9 = 0.2667 L take 0.5333 L; 0.2 L are there, so 0.3333 L are
    missing: in steps of 0.1 L that is 0.4 L, 0.3 L of paint and 0.1 L of ochre."""
    step = f'{COAT}product = "blend"\ncoats = 2'
    first, second = bench(zone("one", step), mix='on_hand = "200 ml"')
    (batch,) = first.batches
    assert ("blend", 0.2) == (batch.mix, batch.on_hand)
    assert 0.4 == pytest.approx(batch.amount)
    assert [("paint", pytest.approx(0.3), "L"), ("ochre", pytest.approx(0.1), "L")] == [
        *batch.parts
    ]
    assert () == second.batches


def test_a_mix_of_what_is_weighed_is_weighed():
    """2.4 / 20 / 0.9 = 0.1333 kg, in steps of 0.1 kg 0.2 kg: 3 parts 0.15 kg, 1 part 0.05 kg."""
    wax = '[[product]]\nname = "NAME"\nkind = "paste wax"\n'
    waxes = "".join(wax.replace("NAME", name) for name in ("clear", "dark"))
    mix = (
        '[[mix]]\nname = "brown wax"\ncovers = "20 m2/kg"\nmeasure = "100 g"\n'
        'recipe = [{ product = "clear", parts = 3 }, { product = "dark", parts = 1 }]\n'
    )
    step = f'{COAT}product = "brown wax"\ncoats = 1'.replace("0 ml", "0 g")
    (only,) = bench(zone("one", step), waxes, mix)
    (batch,) = only.batches
    assert (0.2, "kg") == (pytest.approx(batch.amount), batch.unit)
    assert [("clear", pytest.approx(0.15), "kg"), ("dark", pytest.approx(0.05), "kg")] == [
        *batch.parts
    ]
    assert amounts(only) == [("brown wax", "step", 0.12 / 0.9, "kg")]


THREE = f'{COAT}product = "blend"\ncoats = 3'
RANGED = '["8 m2/L", "10 m2/L", "14 m2/L"]'
Q10 = 8 + (0.1 * (14 - 8) * (10 - 8)) ** 0.5
"""Coverage [m2/L] that one job in ten falls short of: the triangle from 8 over 10 to 14 has the
area (x - 8)^2 / ((14 - 8) (10 - 8)) below x, as long as x is below 10; 9.095."""
WITHIN = 1e-3
"""The draws are as many slices; a point between two slices is off by less than this share."""


def test_a_mix_must_have_left_what_the_next_coat_takes_in_nine_of_ten_jobs():
    """Nothing but the coverage varies, so the coats vary as one.

    2.4 / 9.095 / 0.9 = 0.2932 L for the next coat. The batch is for three of them: 0.8796 L, in
    steps of 0.1 L 0.9 L. After the first coat, at most 2.4 / 8 / 0.9 = 0.333 L are gone and 0.567
    are left: nothing to watch. After the second, less than 0.2932 L are left in each job that needs
    more than (0.9 - 0.2932) / 2 = 0.3034 L a coat: coverage below 8.79, 5 jobs in 100.
    """
    first, second, third = bench(zone("one", THREE), covers=RANGED)
    assert ((), ()) == (first.stops, third.stops)
    (stop,) = second.stops
    assert ("blend", "L", 3, ("one",)) == (stop.supply, stop.unit, stop.coat, stop.zones)
    assert (True, True) == (stop.is_planned, stop.is_mix)
    assert BOARD_M2 / Q10 / 0.9 == pytest.approx(stop.least, rel=WITHIN)


def test_who_buys_for_six_of_ten_jobs_needs_less_left():
    """Four of ten jobs fall short of 14 - sqrt(0.6 x 6 x 4) = 10.205 m2/L.

    For the next coat 2.4 / 10.205 / 0.9 = 0.2613 L. The batch is for three of them,
    0.7839 L, in steps of 0.1 L 0.8 L.
    """
    tasks = bench(zone("one", THREE), covers=RANGED, buy_for="60 %")
    (stop,) = tasks[1].stops
    assert 2.4 / (14 - 14.4**0.5) / 0.9 == pytest.approx(stop.least, rel=WITHIN)
    assert 0.8 == pytest.approx(tasks[0].batches[0].amount)


JAR = f'{COAT}product = "paint"\ncoats = 3'
"""Three coats of 2.4 / 10 / 0.9 = 0.2667 L, 0.8 L in total."""


@pytest.mark.parametrize(
    ("on_hand", "before_first", "stops_after"),
    [
        ("810 ml", False, []),  # enough for all
        ("800 ml", False, []),
        ("700 ml", False, [2]),  # 0.7 - 2 x 0.2667 = 0.167 L left for the third
        ("500 ml", False, [1]),  # 0.233 L left for the second; 1 L is poured in there
        ("200 ml", True, []),  # not even the first; 1.2 L are enough for all
    ],
)
def test_a_jar_says_before_which_coat_it_is_filled_up(on_hand, before_first, stops_after):
    tasks = bench(zone("one", JAR), paint=f'on_hand = "{on_hand}"')
    assert [before_first, False, False] == [bool(task.stir_first) for task in tasks]
    assert stops_after == [task.coat for task in tasks if task.stops]
    for stop in (stop for task in tasks for stop in task.stops):
        assert 0.24 / 0.9 == pytest.approx(stop.least)
        assert (False, True) == (stop.is_mix, stop.is_bought)


@pytest.mark.parametrize(("on_hand", "before_first"), [("290 ml", True), ("296 ml", False)])
def test_a_jar_must_be_as_sure_of_its_first_coat_as_one_buys(on_hand, before_first):
    """Most likely 0.2667 L, in nine of ten jobs at most 2.4 / 9.095 / 0.9 = 0.2932 L."""
    first, *_ = bench(zone("one", JAR), paint=f'on_hand = "{on_hand}"', covers=RANGED)
    assert before_first == bool(first.stir_first)


def test_the_next_coat_counts_through_every_zone_that_gets_it():
    """Both boards get their first coat, then both their second: 0.533 L each time.

    0.9 L are there, so that 0.367 L are left after the first coat of both: less than the second
    takes.
    """
    step = f'{COAT}product = "paint"\ncoats = 2'
    tasks = bench(zone("one", step), zone("two", step), paint='on_hand = "900 ml"')
    assert [1, 1, 2, 2] == [task.coat for task in tasks]
    assert [0, 1, 0, 0] == [len(task.stops) for task in tasks]
    (stop,) = tasks[1].stops
    assert {"one", "two"} == set(stop.zones)
    assert 0.48 / 0.9 == pytest.approx(stop.least)


def test_a_coat_that_only_some_jobs_need_comes_with_its_amount():
    """Two coats, three in some jobs: two are planned. All take 2.4 / 10 / 0.9 = 0.2667 L.

    Nine in ten jobs need no more than three: 0.8 L are bought for, 1 L is bought. With 0.5333 L on
    hand nothing is left for a third.
    """
    step = f'{COAT}product = "paint"\ncoats = [2, 2, 3]'
    first, second = bench(zone("one", step), paint='on_hand = "534 ml"')
    assert ((), False, False) == (first.spare, first.is_only_if_needed, second.is_only_if_needed)
    (spare,) = second.spare
    assert 3 == spare.coat
    assert amounts(spare) == [("paint", "step", 0.24 / 0.9, "L")]
    (stop,) = second.stops
    assert (3, False) == (stop.coat, stop.is_planned)
    assert 0.24 / 0.9 == pytest.approx(stop.least)


def test_of_two_coats_that_only_some_jobs_need_the_next_is_watched():
    """0.6 L less two coats of 0.2667 L leave 0.0667 L: too little for a third or a fourth."""
    step = f'{COAT}product = "paint"\ncoats = [1, 2, 4]'
    tasks = bench(zone("one", step), paint='on_hand = "600 ml"')
    assert [3, 4] == [spare.coat for spare in tasks[-1].spare]
    assert [(3, False)] == [(stop.coat, stop.is_planned) for stop in tasks[-1].stops]


def test_where_the_next_coat_is_for_some_jobs_the_next_planned_one_is_watched_too():
    """Two is begun when one is over, so after the second coat of one there are 0.0667 L left."""
    one = f'{COAT}product = "paint"\ncoats = [2, 2, 3]'
    two = f'{COAT}product = "paint"\ncoats = 1\nafter = ["one"]'
    tasks = bench(zone("one", one), zone("two", two), paint='on_hand = "600 ml"')
    assert [(3, False, ("one",)), (1, True, ("two",))] == [
        (stop.coat, stop.is_planned, stop.zones) for stop in tasks[1].stops
    ]


def test_a_coat_on_two_sides_that_only_some_jobs_need_is_counted_whole():
    *_, last = bench(zone("one", f'{COAT}product = "paint"\ncoats = [2, 2, 3]\nsides = 2'))
    (spare,) = last.spare
    assert amounts(spare) == [("paint", "step", 0.24 / 0.9, "L")]


def test_a_planned_coat_that_some_jobs_do_without_is_only_if_needed():
    """Two to four coats, most likely four: 7 jobs of 12 need no more than three, so three are
    planned. Each job needs the first two; a fourth comes on top."""
    tasks = bench(zone("one", f'{COAT}product = "paint"\ncoats = [2, 4, 4]'))
    assert [False, False, True] == [task.is_only_if_needed for task in tasks]
    assert [[], [], [4]] == [[spare.coat for spare in task.spare] for task in tasks]
