"""How often everything lasts, against the normal distribution of two numbers; and buying for it."""

import math

import numpy as np
import pytest
from piece_texts import measured, piece_text
from scipy import optimize, stats

from surfacecalc import api
from surfacecalc.needs.hand import JOB_SD, SUPPLY_SD, WORKSHOP_SD
from surfacecalc.supplies.all_enough import chance_all_lasts

CUBE = {"shape": "board", "width": "1 m", "depth": "1 m", "height": "1 m"}
WHOLE = WORKSHOP_SD**2 + SUPPLY_SD**2 + JOB_SD**2
RHO = WORKSHOP_SD**2 / WHOLE
"""How two supplies of one hand go together: 0.0256 / 0.0521 = 0.4914."""


def colours(count: int, head: str = "", packs=(), name: str = "Box") -> str:
    """Return a job of colours of one plain label each: 1 m2, 10 m2/L, one coat, nothing lost."""
    faces = ["top", "front", "back", "left"][:count]
    return piece_text(
        piece={"name": name},
        part=CUBE,
        zone=[
            {"name": face, "faces": [f"board.{face}"], "surface": "sealed", "step": [
                {"do": "coat", "product": f"{face} colour", "coats": 1, "by": "brush",
                 "loss": "0 %"}]}
            for face in faces
        ],
        product=[
            {"name": f"{face} colour", "kind": "waterborne paint", "covers": "10 m2/L",
             "packs": [{"size": size} for size in packs]}
            for face in faces
        ],
    ).replace("[piece]\n", f"[piece]\n{head}\n")  # fmt: skip


def both_below(z: float) -> float:
    """Return how often two normal numbers of correlation RHO are both below z."""
    return float(stats.multivariate_normal([0, 0], [[1, RHO], [RHO, 1]]).cdf([z, z]))


def test_one_supply_lasts_as_often_as_it_is_bought_for():
    assert pytest.approx(0.9, abs=1e-4) == chance_all_lasts(api.supplies(measured(colours(1))))


def test_two_supplies_of_one_hand_last_together_as_two_normal_numbers_do():
    """0.832: more than 0.81, which two hands that know nothing of each other would reach."""
    found = chance_all_lasts(api.supplies(measured(colours(2))))
    # 0.003: three standard errors of 65 536 draws of a share of 0.84 are 0.004, stratified less
    assert both_below(stats.norm.ppf(0.9)) == pytest.approx(found, abs=0.003)
    assert found > 0.83


def test_the_point_that_makes_both_last_is_that_of_the_normal_distribution():
    """Both below z in 90 %: z = 1.579, so each is bought for 94.3 %."""
    (one, other) = api.supplies(measured(colours(2, 'buy_for_all = "90 %"')))
    z = optimize.brentq(lambda z: both_below(z) - 0.9, 1, 3)
    # 0.002: the point goes up in steps of 0.001, and the chance has its own sampling
    assert stats.norm.cdf(z) == pytest.approx(one.need.bought_at, abs=0.002)
    assert one.need.bought_at == other.need.bought_at
    assert 0.1 * math.exp(z * math.sqrt(WHOLE)) == pytest.approx(one.need.buy_for, rel=0.006)
    assert chance_all_lasts([one, other]) >= 0.9


@pytest.mark.parametrize("wanted", ["80 %", "90 %", "97 %"])
@pytest.mark.parametrize("packs", [(), ("125 ml", "100 ml"), ("1 L",)])
def test_what_is_bought_for_all_is_enough_for_all(wanted, packs):
    found = api.supplies(measured(colours(4, f'buy_for_all = "{wanted}"', packs)))
    assert chance_all_lasts(found) >= float(wanted[:-2]) / 100


def test_the_point_is_not_raised_where_the_packs_last_anyhow():
    found = api.supplies(measured(colours(4, 'buy_for_all = "95 %"', ["1 L"])))
    assert {0.9} == {one.need.bought_at for one in found}


def test_the_point_is_the_lowest_that_reaches_it():
    text = colours(3, 'buy_for_all = "90 %"')
    found = api.supplies(measured(text))
    point = found[0].need.bought_at
    lower = text.replace('buy_for_all = "90 %"', f'buy_for = "{100 * (point - 0.001):.1f} %"')
    assert chance_all_lasts(api.supplies(measured(lower))) < 0.9


def test_what_is_counted_always_lasts():
    exact = colours(2) + '[workshop]\nown_spread = "0 %"\n'
    found = api.supplies(measured(exact))
    assert all(one.is_exact for one in found)
    assert chance_all_lasts(found) == 1.0


def test_the_tap_never_runs_out():
    washed = colours(1).replace(
        "[[zone.step]]\n",
        '[[zone.step]]\ndo = "wash"\nproduct = "soap"\nstrength = "3 %"\n[[zone.step]]\n',
        1,
    )
    found = api.supplies(measured(washed + '[[product]]\nname = "soap"\nkind = "cleaner"\n'))
    assert "water" in {one.what for one in found}
    without = [one for one in found if one.what != "water"]
    assert chance_all_lasts(found) == chance_all_lasts(without)


def test_what_is_on_hand_counts_beside_what_is_bought():
    text = colours(1, packs=["50 ml"]).replace("covers =", 'on_hand = "90 ml"\ncovers =')
    (one,) = api.supplies(measured(text))
    assert one.bought == 0.05  # 134 ml are needed nine times in ten
    assert chance_all_lasts([one]) == np.mean(one.drawn <= 0.14)


def test_a_tin_too_small_runs_out():
    """Bought 100 ml where half of all jobs need more: no pack covers less than is bought for."""
    (one,) = api.supplies(measured(colours(1, packs=["500 ml"])))
    assert chance_all_lasts([one]) == np.mean(one.drawn <= 0.5) > 0.9999


def test_a_trip_is_bought_for_together():
    jobs = [
        measured(colours(2, 'buy_for_all = "90 %"')),
        measured(colours(3, name="Other box")),
    ]
    trip = api.supplies_together(jobs)
    assert chance_all_lasts(trip.supplies) >= 0.9
    assert trip.supplies[0].need.bought_at > 0.9
    assert "the files ask for different buy_for_all; 90 % is used" in trip.remarks
    for supply in trip.supplies:  # what each piece takes is told at the same point
        assert sum(trip.taken(supply).values()) >= supply.need.buy_for * (1 - 1e-9)


@pytest.mark.parametrize("name", ["Other box", "Box"])
def test_one_hand_goes_through_both_pieces_of_a_trip(name):
    """ln-sd of two equal jobs of one supply: a and b once, e of each alone, whatever its name."""
    trip = api.supplies_together([measured(colours(1)), measured(colours(1, name=name))])
    (one,) = trip.supplies
    # a sum of two lognormal numbers, drawn here
    random = np.random.default_rng(3)
    shared = random.normal(0, math.hypot(WORKSHOP_SD, SUPPLY_SD), 400_000)
    own = np.exp(random.normal(0, JOB_SD, (2, 400_000))).sum(axis=0)
    expected = np.quantile(0.1 * np.exp(shared) * own, [0.05, 0.5, 0.9, 0.95])
    found = [one.need.low, one.need.likely, one.need.buy_for, one.need.high]
    # 0.006: sampling on both sides
    assert expected.tolist() == pytest.approx(found, rel=0.006)


def test_of_two_files_the_surer_one_counts():
    sure = {"Box": "80 %", "Other box": "97 %"}
    jobs = [measured(colours(2, f'buy_for_all = "{sure[name]}"', name=name)) for name in sure]
    for files in (jobs, jobs[::-1]):
        assert chance_all_lasts(api.supplies_together(files).supplies) >= 0.97


def test_a_mix_and_what_it_is_made_of_follow_the_raised_point():
    text = colours(2, 'buy_for_all = "95 %"').replace(
        '[[product]]\nname = "top colour"',
        '[[mix]]\nname = "top colour"\n'
        'recipe = [{ product = "front colour", parts = 1 }, { product = "white", parts = 1 }]\n'
        '[[product]]\nname = "white"',
    )
    found = {one.name: one for one in api.supplies(measured(text))}
    mix, white = found["top colour"], found["white"]
    assert mix.need.bought_at > 0.9
    # half of the batch is white, and the batch is the amount at the raised point, rounded up
    assert mix.mixed / 2 == pytest.approx(white.need.buy_for, rel=1e-9)
    assert mix.mixed >= mix.need.buy_for


def test_what_no_purchase_makes_sure_is_bought_for_at_the_surest_point():
    """Forty colours of which each lasts in 999 of 1,000 jobs do not all last in 99 of 100."""
    numbers = range(40)
    text = piece_text(
        piece={"name": "Boards", "buy_for": "99.9 %", "buy_for_all": "99 %"},
        part=[{"name": f"b{k}", "shape": "board", "width": 100, "depth": 90, "height": 10,
               "loose": True} for k in numbers],
        zone=[{"name": f"z{k}", "faces": [f"b{k}"], "surface": "sealed", "step": [
            {"do": "coat", "product": f"p{k}", "coats": 1, "by": "brush"}]} for k in numbers],
        product=[{"name": f"p{k}", "kind": "waterborne paint"} for k in numbers],
    )  # fmt: skip
    found = api.supplies(measured(text))
    assert chance_all_lasts(found) < 0.99
    assert {0.999} == {one.need.bought_at for one in found}


def test_a_batch_counts_whole_as_what_is_there():
    text = colours(1).replace(
        '[[product]]\nname = "top colour"',
        '[[mix]]\nname = "top colour"\nmeasure = "1 L"\n'
        'recipe = [{ product = "blue", parts = 1 }, { product = "white", parts = 1 }]\n'
        '[[product]]\nname = "blue"\nkind = "paint"\n[[product]]\nname = "white"',
    )
    mix = next(one for one in api.supplies(measured(text)) if one.name == "top colour")
    assert (1.0, 1.0) == (mix.mixed, mix.at_hand)


def test_the_spread_of_a_need_is_shared_out_unless_nobody_asks():
    (one,) = api.supplies(measured(colours(1)))
    shares = {factor.what.quantity: share for factor, share in one.drivers}
    # of a variance of 0.16 ** 2 + 0.12 ** 2 + 0.11 ** 2; 0.01: all three are multiplied together
    parts = {"hand": WORKSHOP_SD, "hand with a supply": SUPPLY_SD, "hand in a job": JOB_SD}
    assert {name: pytest.approx(sd**2 / WHOLE, abs=0.02) for name, sd in parts.items()} == shares
