"""The needs of whole jobs: whose first coat, which draws are shared, in which order."""

import numpy as np
import pytest

from surfacecalc.needs.draws import points

ROUNDING = 1e-13
"""Sums of a few float64 products."""

BOARDS = """
[piece]
name = "Two shelves"
unit = "m"
[[part]]
name = "upper"
shape = "board"
width = 1
depth = 0.5
height = 0.02
loose = true
[[part]]
name = "lower"
shape = "board"
width = 1
depth = 0.5
height = 0.02
loose = true
[[product]]
name = "paint"
kind = "paint"
covers = COVERS
[[product]]
name = "varnish"
kind = "varnish"
covers = "12 m2/L"
[[abrasive]]
name = "disc"
form = "125 mm disc"
life = { 80 = "0.3 m2", 120 = "0.5 m2", 220 = "0.7 m2" }
"""
AREA_M2 = 2 * (1 * 0.5 + 1 * 0.02 + 0.5 * 0.02)  # 1.06 m2 of each board


def shelves(zones, covers='"10 m2/L"'):
    return BOARDS.replace("COVERS", covers) + zones


def zone(name, faces, *steps, surface="bare"):
    head = f'[[zone]]\nname = "{name}"\nfaces = ["{faces}"]\nsurface = "{surface}"\n'
    return head + "".join(f"[[zone.step]]\n{step}\n" for step in steps)


def coat(product="paint", **given):
    given = {"coats": 1, "by": '"brush"', "loss": '"0 %"', **given}
    return f'do = "coat"\nproduct = "{product}"\n' + "\n".join(
        f"{key} = {value}" for key, value in given.items()
    )


def sand(*grits):
    return f'do = "sand"\ngrits = {list(grits)}\nwith = "disc"'


HALF = '"50 %"'


def test_first_coat_counts_once_however_many_coat_steps_follow(job):
    """Steps of 2 and 2 coats, the first at half its coverage: 1 / 0.5 + 1 + 2 = 5 coats."""
    steps = coat(coats=2, first_coat=HALF), sand(220), coat(coats=2, first_coat=HALF)
    needs = job(shelves(zone("all", "*", *steps))).needs
    expected = 2 * AREA_M2 / 10 * 5
    assert expected == pytest.approx(needs["paint", None].likely, rel=ROUNDING)


def test_first_coat_belongs_to_the_first_coat_step_whatever_stands_before_it(job):
    steps = sand(80, 120), coat("varnish", first_coat=HALF), coat(first_coat=HALF)
    needs = job(shelves(zone("all", "*", *steps))).needs
    assert 2 * AREA_M2 / 12 * 2 == pytest.approx(needs["varnish", None].likely, rel=ROUNDING)
    assert 2 * AREA_M2 / 10 == pytest.approx(needs["paint", None].likely, rel=ROUNDING)


@pytest.mark.parametrize("surface", ["sealed", "varnished", "painted"])
def test_sanding_a_coated_surface_does_not_lay_it_bare(job, surface):
    steps = sand(80, 120), coat(first_coat=HALF)
    needs = job(shelves(zone("all", "*", *steps, surface=surface))).needs
    assert 2 * AREA_M2 / 10 == pytest.approx(needs["paint", None].likely, rel=ROUNDING)


def test_each_bare_zone_has_a_first_coat_of_its_own(job):
    zones = zone("a", "upper", coat(first_coat=HALF)) + zone("b", "lower", coat(first_coat=HALF))
    needs = job(shelves(zones)).needs
    assert 2 * AREA_M2 / 10 * 2 == pytest.approx(needs["paint", None].likely, rel=ROUNDING)


def test_thinning_adds_a_line_and_takes_no_less_of_the_product(job):
    plain = job(shelves(zone("all", "*", coat(coats=2)))).needs
    thinned = job(shelves(zone("all", "*", coat(coats=2, thin='"10 %"')))).needs
    assert [("paint", None)] == list(plain)
    assert [("paint", None), ("thinner for paint", None)] == list(thinned)
    assert plain["paint", None].likely == thinned["paint", None].likely
    expected = 0.1 * plain["paint", None].likely
    assert expected == pytest.approx(thinned["thinner for paint", None].likely, rel=ROUNDING)


def test_a_thinner_with_a_name_gathers_what_several_products_take(job):
    text = shelves(
        zone("all", "*", coat(thin='"10 %"'), coat("varnish", thin='"20 %"'), surface="sealed")
        + '[[product]]\nname = "spirits"\nkind = "thinner"\n'
    )
    text = text.replace('kind = "paint"\n', 'kind = "paint"\nthinner = "spirits"\n')
    text = text.replace('kind = "varnish"\n', 'kind = "varnish"\nthinner = "spirits"\n')
    needs = job(text).needs
    expected = 2 * AREA_M2 * (0.1 / 10 + 0.2 / 12)
    assert expected == pytest.approx(needs["spirits", None].likely, rel=ROUNDING)


def test_thinner_varies_as_its_product_does(job):
    text = shelves(zone("all", "*", coat(thin='"10 %"')), covers='["8 m2/L", "10 m2/L", "14 m2/L"]')
    needs = job(text).needs
    # the same draws, so draw by draw a tenth
    assert 0.1 * needs["paint", None].drawn == pytest.approx(
        needs["thinner for paint", None].drawn, rel=ROUNDING
    )


def test_plain_values_give_equal_points(job):
    needs = job(shelves(zone("all", "*", sand(120), coat(coats=2, first_coat=HALF)))).needs
    assert 2 == len(needs)
    for need in needs.values():
        found = points(need.drawn, 0.9)
        assert {found.likely} == {found.low, found.high, found.buy_for}


WIDE = '["20 %", "40 %", "60 %"]'
SCHEDULE = f'[[schedule."coat"]]\n{coat(loss=WIDE)}\n'


def test_a_schedule_that_two_zones_share_is_drawn_once(job):
    """The loss of a shared schedule is one draw: two zones vary as one zone of all their area."""
    head = 'surface = "sealed"\nschedule = "coat"\n'
    two = "".join(f'[[zone]]\nname = "{n}"\nfaces = ["{n}"]\n{head}' for n in ("upper", "lower"))
    one = f'[[zone]]\nname = "all"\nfaces = ["*"]\n{head}'
    shared = job(shelves(two + SCHEDULE)).needs["paint", None]
    whole = job(shelves(one + SCHEDULE)).needs["paint", None]
    assert whole.drawn == pytest.approx(shared.drawn, rel=ROUNDING)


def test_ranges_written_twice_are_two_draws(job):
    """Written in each of two zones the losses even out: the need spreads by 1 / sqrt 2 as much."""
    two = "".join(zone(n, n, coat(loss=WIDE), surface="sealed") for n in ("upper", "lower"))
    apart = job(shelves(two)).needs["paint", None]
    one = job(shelves(zone("all", "*", coat(loss=WIDE), surface="sealed"))).needs["paint", None]
    assert one.likely == pytest.approx(apart.likely, rel=ROUNDING)
    # 1 %: correlation of 50 000 random pairings, standard deviation 1 / sqrt(50 000) = 0.45 %
    assert 0.5**0.5 == pytest.approx(np.std(apart.drawn) / np.std(one.drawn), rel=0.01)


def test_coverage_of_a_product_is_one_draw_for_the_whole_job(job):
    covers = '["8 m2/L", "10 m2/L", "14 m2/L"]'
    two = "".join(zone(n, n, coat(), surface="sealed") for n in ("upper", "lower"))
    apart = job(shelves(two, covers)).needs["paint", None]
    whole = job(shelves(zone("all", "*", coat(), surface="sealed"), covers)).needs["paint", None]
    assert whole.drawn == pytest.approx(apart.drawn, rel=ROUNDING)


def test_supplies_come_by_first_use_and_grits_coarse_first(job):
    zones = zone("a", "upper", coat("varnish"), sand(220)) + zone(
        "b", "lower", sand(80, 120), coat(), coat("varnish")
    )
    needs = job(shelves(zones)).needs
    order = [("varnish", None), ("disc", 80), ("disc", 120), ("disc", 220), ("paint", None)]
    assert order == list(needs)


def test_a_grit_used_in_two_zones_is_one_need(job):
    zones = zone("a", "upper", sand(120)) + zone("b", "lower", sand(120))
    need = job(shelves(zones)).needs["disc", 120]
    assert ["a", "b"] == [use.zone for use in need.uses]
    assert 2 * AREA_M2 / 0.5 == pytest.approx(need.likely, rel=ROUNDING)


def test_a_zone_left_as_it_is_takes_nothing(job):
    zones = '[[zone]]\nname = "kept"\nfaces = ["upper"]\nleave = true\n' + zone(
        "b", "lower", coat(), surface="sealed"
    )
    need = job(shelves(zones)).needs["paint", None]
    assert AREA_M2 / 10 == pytest.approx(need.likely, rel=ROUNDING)
    assert ["b"] == [use.zone for use in need.uses]
