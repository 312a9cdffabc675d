"""Lines of the supply list: points, on hand, packs, cost, left over."""

import math
from dataclasses import replace
from decimal import Decimal

import pytest
from piece_texts import piece_text

from surfacecalc.api import MistakesError
from surfacecalc.model.inputs import Input
from surfacecalc.supplies.shopping import is_unpriced, total_cost, unpriced

ROUNDING = 1e-13
"""A few float64 operations."""

PIECE = """
[piece]
name = "Two boards"
unit = "m"
[[part]]
name = "first"
shape = "board"
width = 1
depth = 0.5
height = 0.02
loose = true
[[part]]
name = "second"
shape = "board"
width = 1
depth = 0.5
height = 0.02
loose = true
[[zone]]
name = "one"
faces = ["first"]
surface = "sealed"
schedule = "finish"
[[zone]]
name = "two"
faces = ["second"]
surface = "sealed"
schedule = "finish"
[[schedule.finish]]
do = "sand"
grits = [120]
with = "disc"
[[schedule.finish]]
do = "coat"
product = "paint"
coats = 2
by = "brush"
loss = LOSS
[[abrasive]]
name = "disc"
form = "125 mm disc"
life = LIFE
DISCS
[[product]]
name = "paint"
kind = "paint"
covers = "10 m2/L"
PAINT
"""
AREA_M2 = 2 * (1 * 0.5 + 1 * 0.02 + 0.5 * 0.02)  # 1.06 m2 of each
NEED_L = 2 * AREA_M2 / 10 * 2  # 0.424 L


def text(paint="", discs="", *, life='"0.5 m2"', loss='"0 %"', head=""):
    filled = PIECE.replace("PAINT", paint).replace("DISCS", discs)
    filled = filled.replace("LIFE", life).replace("LOSS", loss)
    return filled.replace('unit = "m"', f'unit = "m"\n{head}')


PACKS = 'packs = [{ size = "250 ml", price = 11.99 }, { size = "1 L", price = 34 }]'


def test_what_is_bought_costs_its_price_and_leaves_the_rest(shop):
    line = shop(text(PACKS))["paint", None]
    assert [("250 ml", 2)] == [(pack.text, count) for pack, count in line.buy]
    assert Decimal("23.98") == line.cost
    assert NEED_L == pytest.approx(line.need.buy_for, rel=ROUNDING)
    assert 0.5 - NEED_L == pytest.approx(line.left_over, rel=ROUNDING)
    assert ("L", "paint", 0.5, 0.0) == (line.unit, line.kind, line.bought, line.on_hand)


def test_what_is_on_hand_is_not_bought_again(shop):
    line = shop(text(f'{PACKS}\non_hand = "200 ml"'))["paint", None]
    assert [("250 ml", 1)] == [(pack.text, count) for pack, count in line.buy]
    assert 0.2 + 0.25 - NEED_L == pytest.approx(line.left_over, rel=ROUNDING)


def test_enough_on_hand_buys_nothing_for_nothing(shop):
    line = shop(text(f'{PACKS}\non_hand = "1 L"'))["paint", None]
    assert ((), Decimal(0)) == (line.buy, line.cost)
    assert 1 - NEED_L == pytest.approx(line.left_over, rel=ROUNDING)


def test_enough_on_hand_costs_nothing_where_no_pack_is_named(shop):
    assert Decimal(0) == shop(text('on_hand = "1 L"'))["paint", None].cost


@pytest.mark.parametrize("packs", [PACKS, ""], ids=["with packs", "no packs"])
@pytest.mark.parametrize(("covers", "hand"), [(10, 424), (8, 530), (5, 848), (12.5, 339.2)])
def test_just_enough_on_hand_is_enough_whatever_the_last_digit(shop, packs, covers, hand):
    """4.24 m2 in all: what is on hand is the need itself, so nothing is bought, for nothing."""
    paint = f'{packs}\non_hand = "{hand} ml"'
    line = shop(text(paint).replace("10 m2/L", f"{covers} m2/L"))["paint", None]
    assert ((), Decimal(0)) == (line.buy, line.cost)


def test_cost_is_unknown_where_a_bought_pack_has_no_price(shop):
    line = shop(text('packs = [{ size = "250 ml" }]'))["paint", None]
    assert [("250 ml", 2)] == [(pack.text, count) for pack, count in line.buy]
    assert line.cost is None


def test_cost_is_unknown_where_nothing_is_on_offer(shop):
    line = shop(text())["paint", None]
    assert ((), None) == (line.buy, line.cost)
    assert -NEED_L == pytest.approx(line.left_over, rel=ROUNDING)


def test_total_leaves_out_what_has_no_price_and_names_it_once(shop):
    discs = "packs = [{ count = 5, price = 6 }]"
    supplies = list(shop(text("", discs)).values())
    assert Decimal(6) == total_cost(supplies)
    assert ["paint"] == unpriced(supplies)
    assert [] == unpriced(list(shop(text(PACKS, discs)).values()))


@pytest.mark.parametrize(
    ("discs", "paint", "means_nothing"),
    [
        ("", "", True),
        ("packs = [{ count = 5 }]", 'packs = [{ size = "1 L" }]', True),
        ("packs = [{ count = 5, price = 6 }]", "", False),
        ("on_hand = { 120 = 99 }", 'on_hand = "9 L"', False),
        ("on_hand = { 120 = 99 }", "", True),
    ],
)
def test_a_total_means_nothing_where_nothing_to_buy_has_a_price(shop, discs, paint, means_nothing):
    assert means_nothing == is_unpriced(list(shop(text(paint, discs)).values()))


def test_water_without_a_price_says_nothing_about_the_rest(shop):
    paint = shop(text())["paint", None]
    water = replace(paint, what="water", cost=Decimal(0))
    assert is_unpriced([paint, water])
    assert not is_unpriced([water])
    assert not is_unpriced([paint, replace(paint, cost=Decimal(5))])


def test_likely_need_by_zone_adds_up(shop):
    line = shop(text(PACKS))["paint", None]
    assert ["one", "two"] == list(line.by_zone)
    assert {"one": NEED_L / 2, "two": NEED_L / 2} == pytest.approx(line.by_zone, rel=ROUNDING)
    assert line.need.likely == pytest.approx(sum(line.by_zone.values()), rel=ROUNDING)


def test_abrasives_are_rounded_up_once_over_all_zones(shop):
    """2.12 and 2.12 discs are 4.24, so 5; rounded up zone by zone it would be 6."""
    line = shop(text(discs="packs = [{ count = 1, price = 2 }]"))["disc", 120]
    assert [5.0] * 4 == [line.need.low, line.need.likely, line.need.high, line.need.buy_for]
    assert 4.24 == pytest.approx(sum(line.by_zone.values()), rel=ROUNDING)
    assert (5.0, Decimal(10), 0.0) == (line.bought, line.cost, line.left_over)


def test_a_whole_number_of_abrasives_is_not_rounded_up_by_a_last_digit(shop):
    """2.12 m2 by 0.0106 m2 each are 200, though 1.06 / 0.0106 twice may end in another digit."""
    assert 200.0 == shop(text(life='"0.0106 m2"'))["disc", 120].need.buy_for
    assert 4.0 == shop(text(life='"0.53 m2"'))["disc", 120].need.buy_for


def test_abrasives_on_hand_come_off_after_rounding(shop):
    discs = "on_hand = { 120 = 2, 80 = 9 }\npacks = [{ count = 5, price = 6 }]"
    line = shop(text(discs=discs))["disc", 120]
    assert (2.0, 5.0, Decimal(6), 2.0) == (line.on_hand, line.bought, line.cost, line.left_over)
    assert "each" == line.unit
    assert "125 mm disc" == line.kind


def test_every_point_of_an_uncertain_count_is_whole(shop):
    """Discs that last 0.3 to 0.9 m2: 2.12 m2 take from 2.4 to 7.1, likely 3.5."""
    need = shop(text(life='["0.3 m2", "0.6 m2", "0.9 m2"]'))["disc", 120].need
    assert 4.0 == need.likely
    assert 3.0 <= need.low <= need.likely <= need.buy_for <= need.high <= 8.0
    assert {0.0} == {point % 1 for point in (need.low, need.likely, need.high, need.buy_for)}
    assert need.low < need.high


def test_an_uncertain_need_is_bought_for_at_the_point_asked_for(shop):
    loss = '["10 %", "20 %", "60 %"]'
    low, usual, high = (
        shop(text(PACKS, loss=loss, head=f'buy_for = "{share} %"'))["paint", None]
        for share in (5, 90, 95)
    )
    assert usual.need == shop(text(PACKS, loss=loss))["paint", None].need  # 90 % unless told
    assert low.need.low == low.need.buy_for
    assert high.need.high == high.need.buy_for
    assert low.need.buy_for < usual.need.buy_for < high.need.buy_for
    # half of the losses are below 0.6 - sqrt(0.1): above it lies (0.6 - x)^2 / (0.5 x 0.4) = 1/2
    # 1e-4: half a slice of 65 536
    middle = 0.6 - math.sqrt(0.1)
    assert NEED_L / (1 - middle) == pytest.approx(usual.need.likely, rel=1e-4)


def test_thinner_without_a_product_is_listed_without_packs(shop):
    thinned = text(PACKS).replace("coats = 2", 'coats = 2\nthin = "10 %"')
    line = shop(thinned)["thinner for paint", None]
    assert ("thinner", "L", (), None) == (line.kind, line.unit, line.buy, line.cost)
    assert NEED_L / 10 == pytest.approx(line.need.buy_for, rel=ROUNDING)


def test_a_product_by_weight_is_bought_in_kilos(shop):
    waxed = text('packs = [{ size = "500 g", price = 9 }]')
    line = shop(waxed.replace('"10 m2/L"', '"10 m2/kg"'))["paint", None]
    assert ("kg", 0.5) == (line.unit, line.bought)


def test_inputs_are_listed_once_and_defaults_are_assumed(shop):
    line = shop(text(PACKS).replace('loss = "0 %"\n', ""))["paint", None]
    keys = [factor.what for factor in line.factors]
    assert len(set(keys)) == len(keys)
    assert {Input("loss", by="brush"), Input("allowance")} == {one.what for one in line.assumed}
    assert "label" == next(
        factor.source for factor in line.factors if factor.what.quantity == "coverage"
    )


def test_supplies_come_by_first_use(shop):
    assert [("disc", 120), ("paint", None)] == list(shop(text()))


def test_a_zone_of_which_nothing_is_seen_needs_nothing(shop):
    """However uncertain the coverage is, no area is a sure need: it has no spread to share out."""
    hidden = text(PACKS).replace('["first"]', '["first.top"]').replace('["second"]', '["third"]')
    hidden = hidden.replace('"10 m2/L"', '["8 m2/L", "10 m2/L", "14 m2/L"]').replace(
        "loose = true", ""
    )
    hidden = hidden.replace('schedule = "finish"', "leave = true", 1)
    hidden += '[[part]]\nname = "third"\nshape = "board"\nwidth = 0.5\ndepth = 0.3\nheight = 0.01\n'
    hidden += "at = [0.1, 0.1, 0.005]\n"
    line = shop(hidden)["paint", None]
    assert [0.0] * 4 == [line.need.low, line.need.likely, line.need.high, line.need.buy_for]
    assert ((), (), Decimal(0), 0.0) == (line.drivers, line.buy, line.cost, line.left_over)


def test_the_tap_keeps_nothing_and_a_jar_of_water_its_rest(shop):
    line = replace(shop(text(PACKS))["paint", None], what="water", buy=())
    assert 0.0 == line.left_over
    assert 1 - NEED_L == pytest.approx(replace(line, on_hand=1.0).left_over, rel=ROUNDING)


def test_a_last_digit_is_not_left_over(shop):
    line = replace(shop(text(PACKS))["paint", None], buy=())
    assert 0.0 == replace(line, on_hand=line.need.buy_for * (1 + 1e-12)).left_over
    assert 0.0 < replace(line, on_hand=line.need.buy_for * (1 + 1e-8)).left_over


def test_a_need_of_too_many_packs_is_said_with_the_pack(shop):
    """0.424 L in packs of 0.04 ml are 10 600."""
    with pytest.raises(MistakesError) as caught:
        shop(text('packs = [{ size = "0.04 ml" }]'))
    (problem,) = caught.value.problems
    said = "the job needs more than 10,000 packs of 0.04 ml; check the size of the packs"
    assert ('product "paint"', said) == (problem.where, problem.message)


def test_what_is_mixed_or_runs_from_the_tap_costs_nothing_by_itself(shop):
    """Its parts do. Tape is counted by its length, film by its area."""
    found = shop(
        piece_text(
            {"do": "wash", "product": "soap", "covers": "5 m2/L", "strength": "4 %"},
            {"do": "mask", "tape": "tape", "film": "film", "cover": "3 m2"},
            {"do": "coat", "product": "grey", "coats": 1, "by": "brush"},
            product=[
                {"name": "soap", "kind": "cleaner"},
                {"name": "black", "kind": "paint", "covers": "8 m2/L"},
                {"name": "white", "kind": "paint", "covers": "8 m2/L"},
            ],
            mix={
                "name": "grey",
                "recipe": [{"product": name, "parts": 1} for name in ("black", "white")],
                "measure": "50 ml",
            },
            tape=[
                {"name": "tape", "packs": [{"length": "50 m"}]},
                {"name": "film", "packs": [{"area": "20 m2"}]},
            ],
        )
    )
    kinds = {name: (line.kind, line.unit, line.cost) for (name, _), line in found.items()}
    assert ("mix", "L", Decimal(0)) == kinds["grey"]
    assert ("water", "L", Decimal(0)) == kinds["water from the tap"]
    assert ("masking tape", "m", Decimal(0)) == kinds["tape"]  # one zone meets no other
    assert ("masking film", "m2", None) == kinds["film"]
    assert ("paint", "L", None) == kinds["black"]
