"""What is bought, mixed and charged, worked out by hand: one file, and several on one trip.

Every board is 1 m x 0.5 m x 0.1 m, 1.3 m2 all around, under an old finish. Where a value is a range
it is the only one, so the points of the need are those of its triangle in closed form: own_spread
is 0 %, which takes every other number as it is given.
"""

from decimal import Decimal
from math import sqrt

import pytest
from asked_jobs import asked_job, asked_quote, asked_supplies
from piece_texts import exact

from surfacecalc import api

ROUNDING = 1e-9
"""A few dozen float64 operations."""
DRAWN = 2e-4
"""The point of a need that one range makes: 65 536 draws, one in each slice."""

BOARD_M2 = 1.3


def file(*tables, name="board", piece="", steps=()):
    """Return a piece file: a board with its steps, and the tables of what they use."""
    head = f'[piece]\nname = "{name}"\nunit = "m"\n{piece}\n'
    board = '[[part]]\nname = "board"\nshape = "board"\nwidth = 1\ndepth = 0.5\nheight = 0.1\n'
    zone = '[[zone]]\nname = "all"\nfaces = ["*"]\nsurface = "sealed"\n'
    worked = "".join(f"[[zone.step]]\n{step}\n" for step in steps)
    return exact("\n".join([head, board, zone, worked, *tables]))


def coat(product, coats=2, loss="20 %"):
    """Return a step that brushes coats of a product."""
    return f'do = "coat"\nproduct = "{product}"\ncoats = {coats}\nby = "brush"\nloss = "{loss}"'


def covered(share):
    """Return the coverage that a share of draws of 8, 10, 14 m2/L lies below.

    Up to the peak, a third of all, low + sqrt(share x 6 x 2); beyond it high - sqrt(rest x 6 x 4).
    """
    if share < 1 / 3:
        return 8 + sqrt(share * 6 * 2)
    return 14 - sqrt((1 - share) * 6 * 4)


PUT_ON = 2 * BOARD_M2 / (1 - 0.2)
"""Two coats, a fifth lost: as much as 3.25 m2 take."""

RANGED = 'covers = ["8 m2/L", "10 m2/L", "14 m2/L"]'
PARTS = """
[[product]]
name = "white"
kind = "waterborne furniture paint"
covers = "10 m2/L"
packs = [{ size = "100 ml", price = 5 }]

[[product]]
name = "leaf green"
kind = "waterborne furniture paint"
covers = "10 m2/L"
packs = [{ size = "50 ml", price = 6 }]
"""
MIX = f"""
[[mix]]
name = "sage"
recipe = [{{ product = "white", parts = 3 }}, {{ product = "leaf green", parts = 1 }}]
measure = "20 ml"
on_hand = "50 ml"
{RANGED}
{PARTS}"""


@pytest.mark.parametrize(
    ("buy_for", "batch_l", "white", "green"),
    [
        # coverage 10.536: 0.3085 L; 50 ml are there, 258 ml missing, 13 measures: 260 ml
        (0.5, 0.26, 2, 2),  # 195 ml of white, 65 ml of green
        # coverage 9.095: 0.3573 L; 307 ml missing, 16 measures: 320 ml
        (0.9, 0.32, 3, 2),  # 240 and 80 ml
        # coverage 8.346: 0.3894 L; 339 ml missing, 17 measures: 340 ml
        (0.99, 0.34, 3, 2),  # 255 and 85 ml
    ],
    ids=["50 %", "90 %", "99 %"],
)
def test_a_batch_is_made_for_what_buy_for_says(buy_for, batch_l, white, green):
    text = file(MIX, piece=f'buy_for = "{100 * buy_for:.0f} %"', steps=[coat("sage")])
    found = asked_supplies(text)
    need_l = PUT_ON / covered(1 - buy_for)
    mix = found["sage"]
    assert need_l == pytest.approx(mix.need.buy_for, rel=DRAWN)
    assert batch_l == pytest.approx(mix.mixed, rel=ROUNDING)
    # what is there and what is made, less what is taken
    assert 0.05 + batch_l - need_l == pytest.approx(mix.left_over, abs=DRAWN * need_l)
    assert 0.75 * batch_l == pytest.approx(found["white"].need.buy_for, rel=ROUNDING)
    assert 0.25 * batch_l == pytest.approx(found["leaf green"].need.buy_for, rel=ROUNDING)
    assert [white, green] == [found[name].buy[0][1] for name in ("white", "leaf green")]


PAINT = f"""
[[product]]
name = "paint"
kind = "waterborne furniture paint"
on_hand = "40 ml"
packs = [{{ size = "100 ml", price = 8 }}]
{RANGED}
"""


@pytest.mark.parametrize(
    ("buy_for", "packs"),
    [
        (0.5, 3),  # 0.3085 L less 40 ml: 269 ml
        (0.9, 4),  # 0.3573 L less 40 ml: 317 ml; at 10 m2/L only 285 ml
    ],
    ids=["50 %", "90 %"],
)
def test_packs_cover_what_buy_for_says(buy_for, packs):
    text = file(PAINT, piece=f'buy_for = "{100 * buy_for:.0f} %"', steps=[coat("paint")])
    paint = asked_supplies(text)["paint"]
    need_l = PUT_ON / covered(1 - buy_for)
    assert need_l == pytest.approx(paint.need.buy_for, rel=DRAWN)
    assert need_l - 0.04 == pytest.approx(paint.missing, rel=2 * DRAWN)
    assert [packs] == [count for _, count in paint.buy]
    assert 8 * packs == paint.cost
    left_l = 0.04 + 0.1 * packs - need_l
    assert left_l == pytest.approx(paint.left_over, abs=DRAWN * need_l)


def test_a_jar_is_measured_at_what_buy_for_says():
    """The first coat of 1.3 m2 takes half of it all: half of 0.3573 L in 9 jobs of 10."""
    (jar,) = api.jars(asked_job(file(PAINT, steps=[coat("paint")])))
    by_hand = [PUT_ON / 2 / covered(0.1), PUT_ON / covered(0.1)]
    assert by_hand == pytest.approx([reach.buy_for for reach in jar.reaches], rel=DRAWN)


SOLD = """
[[product]]
name = "paint"
kind = "waterborne furniture paint"
covers = "10 m2/L"
on_hand = "100 ml"
packs = [{ size = "250 ml", price = 12 }]

[[abrasive]]
name = "disc"
form = "125 mm disc"
life = "0.5 m2"
packs = [{ count = 10, price = 8 }]
"""
SAND = 'do = "sand"\ngrits = [120]\nwith = "disc"'


@pytest.mark.parametrize(
    ("supplies", "by_hand"),
    [
        # paint: 0.325 L at 12 / 0.25 L = 15.60; 3 discs at 0.80 = 2.40
        ("used", Decimal("18.00")),
        # paint: a pack for 12, and 100 ml of the jar at 48 / L = 4.80; discs: a pack for 8
        ("bought", Decimal("24.80")),
    ],
)
def test_supplies_are_charged_as_the_file_says(supplies, by_hand):
    """Ten hours at 20 are 200 on top; there is no overhead, margin or tax."""
    price = f'[price]\nrate = 20\nhours = 10\nsupplies = "{supplies}"\n'
    wanted = asked_quote(file(SOLD, price, steps=[SAND, coat("paint")])).wanted
    assert by_hand == wanted.supplies
    assert 200 + by_hand == wanted.total


def trip(*texts):
    """Return what several files need together, each line by its title."""
    found = api.supplies_together([asked_job(text) for text in texts])
    return found, {line.title: line for line in found.supplies}


def oil(on_hand):
    """Return a paint that both files use, with what each has of it."""
    return f'[[product]]\nname = "oil"\nkind = "hard oil"\non_hand = "{on_hand}"\n{RANGED}\n'


def test_the_highest_certainty_of_several_files_counts_for_all():
    """80 % in one, 95 % in the other: the coverage that only 5 % of draws lie below, 8.775 m2/L.

    Of 30 and 70 ml on hand the larger counts, and once.
    """
    files = [
        file(oil(on_hand), name=name, piece=f'buy_for = "{sure} %"', steps=[coat("oil")])
        for name, sure, on_hand in [("bench", 80, "30 ml"), ("shelf", 95, "70 ml")]
    ]
    for texts in (files, files[::-1]):
        whole, found = trip(*texts)
        need_l = 2 * PUT_ON / covered(0.05)
        assert need_l == pytest.approx(found["oil"].need.buy_for, rel=DRAWN)
        assert need_l - 0.07 == pytest.approx(found["oil"].missing, rel=2 * DRAWN)
        by_piece = {"bench": need_l / 2, "shelf": need_l / 2}
        assert by_piece == pytest.approx(whole.taken(found["oil"]), rel=DRAWN)


def disc(on_hand):
    """Return discs sold one by one, with those on hand."""
    return (
        '[[abrasive]]\nname = "disc"\nform = "125 mm disc"\nlife = "0.5 m2"\n'
        f"packs = [{{ count = 1, price = 1 }}]\non_hand = {on_hand}\n"
    )


@pytest.mark.parametrize(
    ("first", "second", "bought"),
    [
        ("{}", "{ 120 = 2 }", 4),
        ("{ 120 = 1 }", "{ 120 = 2 }", 4),
        ("{ 120 = 3 }", "{ 180 = 9 }", 3),
    ],
)
def test_sheets_that_only_the_second_file_has(first, second, bought):
    """2 x 1.3 m2 / 0.5 m2 = 5.2 discs, 6 of them, less the more that either file has on hand."""
    _, found = trip(
        file(disc(first), name="bench", steps=[SAND]),
        file(disc(second), name="shelf", steps=[SAND]),
    )
    assert 6 == found["disc P120"].need.buy_for
    assert [bought] == [count for _, count in found["disc P120"].buy]


def measured_mix(measure):
    """Return a mix that is made up to a measure."""
    return (
        '[[mix]]\nname = "sage"\nrecipe = [{ product = "white", parts = 3 },'
        f' {{ product = "leaf green", parts = 1 }}]\nmeasure = "{measure}"\n{PARTS}'
    )


def test_mixes_of_different_measure_are_made_apart():
    """1.3 m2 once at 10 m2/L are 130 ml: 13 measures of 10 ml, and 6 of 25 ml, which are 150 ml.

    Of white three parts in four: 97.5 + 112.5 = 210 ml, three packs of 100 ml.
    """
    _, found = trip(
        file(measured_mix("10 ml"), name="bench", steps=[coat("sage", 1, "0 %")]),
        file(measured_mix("25 ml"), name="shelf", steps=[coat("sage", 1, "0 %")]),
    )
    made = {title: line.mixed for title, line in found.items() if line.mixed}
    assert {"sage": 0.13, "sage (shelf)": 0.15} == pytest.approx(made, rel=ROUNDING)
    assert pytest.approx(0.21, rel=ROUNDING) == found["white"].need.buy_for
    assert [3] == [count for _, count in found["white"].buy]


def canned(size):
    """Return a paint of which three coats on a board take 375.9 ml, in cans of one size."""
    return (
        '[[product]]\nname = "paint"\nkind = "waterborne furniture paint"\n'
        f'covers = "10.375 m2/L"\npacks = [{{ size = "{size}", price = 10 }}]\n'
    )


def test_cans_of_375_and_of_378_ml_are_two_sizes():
    """2 x 3 x 1.3 / 10.375 = 751.8 ml: one of each is 753 ml, where two of 375 ml fall short."""
    _, found = trip(
        file(canned("375 ml"), name="bench", steps=[coat("paint", 3, "0 %")]),
        file(canned("378 ml"), name="shelf", steps=[coat("paint", 3, "0 %")]),
    )
    assert 7.8 / 10.375 == pytest.approx(found["paint"].need.buy_for, rel=ROUNDING)
    sizes = {pack.size: count for pack, count in found["paint"].buy}
    assert {0.378: 1, 0.375: 1} == sizes
    assert 20 == found["paint"].cost
