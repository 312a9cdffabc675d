"""What a need says beside its amount: what it is used as, and on which inputs it rests.

The board is 1 m by 1 m on top; its top is the only zone with steps.
"""

import math
from dataclasses import replace
from typing import Any

import pytest
from piece_texts import measured, piece_text

from surfacecalc.model.ranges import Lognormal, likely
from surfacecalc.model.steps import Fill, Hole, Wash
from surfacecalc.needs.coating import coat_amount
from surfacecalc.needs.consumables import pass_factors
from surfacecalc.needs.draws import Draws, points, shares_of_spread
from surfacecalc.needs.filling import filler_l, hole_mm3
from surfacecalc.needs.hand import Hand
from surfacecalc.needs.jars import jars
from surfacecalc.needs.job import job_needs
from surfacecalc.needs.mixing import batch
from surfacecalc.needs.uses import Need, StepSite
from surfacecalc.needs.washing import rinse_l

ROUNDING = 1e-12
"""A few dozen float64 operations."""

PAINT = {"name": "paint", "kind": "paint", "covers": "10 m2/L"}
COAT = {"do": "coat", "product": "paint", "coats": 2, "by": "brush", "loss": "0 %",
        "first_coat": "100 %"}  # fmt: skip
DISC = {"name": "disc", "form": "disc", "life": "0.5 m2"}


def board(*steps: dict[str, Any], **tables: Any) -> str:
    """Return a piece of which the top is worked on."""
    zones: list[dict[str, Any]] = [
        {"name": "top", "faces": ["board.top"], "surface": "bare", "step": list(steps)},
        {"name": "rest", "faces": ["board"], "leave": True},
    ]
    part = {"name": "board", "shape": "board", "width": 1, "depth": 1, "height": 0.1}
    return piece_text(piece={"unit": "m"}, part=part, zone=zones, **tables)


def quantities(need: Need) -> list[str]:
    """Return what the inputs of a need are."""
    return [factor.what.quantity for factor in need.factors]


def test_a_tint_is_bought_by_its_own_name_and_a_thinner_by_that_of_the_product(job):
    coat = {**COAT, "thin": "5 %", "tint": {"product": "tint", "share": "2 %"}}
    spirit = {"name": "spirit", "kind": "solvent"}
    tint = {**PAINT, "name": "tint"}
    named = job(board(coat, product=[{**PAINT, "thinner": "spirit"}, tint, spirit])).needs
    assert {"paint", "spirit", "tint"} == {name for name, _ in named}
    assert "product" == named["spirit", None].what
    assert 0.01 == pytest.approx(named["spirit", None].likely, rel=ROUNDING)  # 5 % of 0.2 L
    assert 0.004 == pytest.approx(named["tint", None].likely, rel=ROUNDING)
    other = job(board(coat, product=[PAINT, tint])).needs
    assert "thinner" == other["thinner for paint", None].what


def test_denibbing_rests_on_the_coats_that_a_change_of_colour_adds(job):
    coat = {**COAT, "between": {"grit": 320, "with": "disc"}}
    plain = job(board(coat, product=PAINT, abrasive=DISC)).needs["disc", 320]
    change = {**coat, "change": "dark to light"}
    changed = job(board(change, product=PAINT, abrasive=DISC)).needs["disc", 320]
    assert "extra coats" not in quantities(plain)
    assert "extra coats" in quantities(changed)


def test_a_cloth_by_area_rests_on_the_coats_and_a_mask_by_time_does_not(job):
    cloths = [{"name": "cloth", "lasts": "1 m2"}, {"name": "mask", "lasts": "8 h"},
              {"name": "gloves", "lasts": "4 sessions"}]  # fmt: skip
    coat = {
        **COAT,
        "coats": [1, 2, 3],
        "uses": ["cloth", "mask", "gloves"],
        "change": "dark to light",
    }
    found = job(board(coat, product=PAINT, consumable=cloths)).needs
    for name in ("cloth", "gloves"):
        assert {"coats", "extra coats"} <= set(quantities(found[name, None])), name
    assert not {"coats", "extra coats"} & set(quantities(found["mask", None]))


def test_without_a_change_of_colour_no_more_coats_are_an_input(coat):
    assert ["coverage"] == [factor.what.quantity for factor in pass_factors(coat(2.0))]


def test_masking_handwork_and_samples_go_over_their_area_once(job):
    uses = {"uses": ["gloves"]}
    mask = {"do": "mask", "tape": "tape", "overlap": "10 %", **uses}
    repair = {"do": "repair", "what": "joints", "count": 4, **uses}
    sample = {"do": "test", "patch": "0.1 m2", "products": ["paint"], **uses}
    found = job(
        board(mask, repair, sample, product=PAINT, tape={"name": "tape"},
              consumable={"name": "gloves", "lasts": "4 sessions"})
    ).needs  # fmt: skip
    assert 3 / 4 == pytest.approx(found["gloves", None].likely, rel=ROUNDING)


def test_repair_without_an_amount_takes_nothing_of_its_glue(job):
    glue = {"name": "glue", "kind": "wood glue"}
    repair = {"do": "repair", "what": "joints", "count": 4, "each": "6 ml", "product": "glue"}
    assert ["glue"] == [name for name, _ in job(board(repair, product=glue)).needs]


def test_a_sample_is_brushed_and_said_to_be_one(job):
    step = {"do": "test", "patch": "0.09 m2", "products": ["paint"]}
    need = job(board(step, product=PAINT)).needs["paint", None]
    (use,) = need.uses
    assert ("sample", "brush") == (use.role, need.factors[-1].what.by)


def test_what_is_rubbed_in_is_put_on_by_cloth_and_said_to_be(job):
    step = {"do": "rub out", "grits": [1000], "with": "disc", "product": "oil"}
    oil = {"name": "oil", "kind": "oil", "covers": "10 m2/L"}
    need = job(board(step, product=oil, abrasive=DISC)).needs["oil", None]
    (use,) = need.uses
    assert ("rub out", "cloth") == (use.role, need.factors[-1].what.by)


def test_a_wash_without_rinsing_takes_the_water_of_its_solution_alone(job):
    """1 m2 at 5 m2/L are 0.2 L, of which 4 % are soap: 8 ml, at 1.1 kg/L 8.8 g where weighed."""
    wash = {"do": "wash", "product": "soap", "covers": "5 m2/L", "strength": "4 %", "times": 1,
            "rinse": False}  # fmt: skip
    found = job(board(wash, product={"name": "soap", "kind": "cleaner"})).needs
    water, soap = found["water from the tap", None], found["soap", None]
    assert 0.192 == pytest.approx(water.likely, rel=ROUNDING)
    assert 0.008 == pytest.approx(soap.likely, rel=ROUNDING)
    assert ["water"] == [use.role for use in water.uses]
    assert ["cleaner"] == [use.role for use in soap.uses]
    rinsed = job(
        board({**wash, "rinse": "2 m2/L"}, product={"name": "soap", "kind": "cleaner"})
    ).needs["water from the tap", None]
    assert 0.692 == pytest.approx(rinsed.likely, rel=ROUNDING)
    assert len(water.factors) + 1 == len(rinsed.factors)


def test_rinsing_that_is_not_done_takes_no_water(factor):
    wash = Wash("soap", factor("covers", 5.0), factor("strength", 0.04), 1, None, 1)
    assert 0.0 == rinse_l(1.0, wash, likely)
    assert 0.5 == rinse_l(1.0, replace(wash, rinse=factor("rinse", 2.0)), likely)


@pytest.mark.parametrize(
    ("kind", "mm3"),
    [
        ("pit", 2 / 3 * math.pi * 10 * 3 * 4),  # half an ellipsoid of half axes 10, 3 and 4
        ("gouge", math.pi * 3 * 4 / 2 * 20),  # half an ellipse of half axes 3 and 4, 20 long
        ("groove", 20 * 6 * 4),
    ],
)
def test_holes_of_each_kind_by_their_half_axes(kind, mm3):
    assert 2 * mm3 == pytest.approx(hole_mm3(Hole(kind, 2, 20.0, 6.0, 4.0)), rel=ROUNDING)


def test_filler_shrinks_only_where_it_is_filled_again(factor):
    """1 000 000 mm3 are 1 L; a second application fills a tenth of it once more."""
    hole = Hole("groove", 1, 100.0, 100.0, 100.0)
    fill = Fill("filler", (hole,), factor("loss", 0.0), factor("shrinkage", 0.1), 1, None, None, 1)
    assert 1.0 == pytest.approx(filler_l(fill, likely), rel=ROUNDING)
    assert 1.1 == pytest.approx(filler_l(replace(fill, applications=2), likely), rel=ROUNDING)


def test_hardener_rests_on_shrinkage_only_where_it_is_filled_again(job):
    def needs(times: int) -> dict[tuple[str, int | None], Need]:
        step = {"do": "fill", "product": "filler", "applications": times, "loss": "0 %",
                "shrinkage": "10 %", "grooves": [{"count": 1, "length": "100 mm",
                "width": "10 mm", "depth": "10 mm"}],
                "hardener": {"product": "hardener", "share": "2 %"}}  # fmt: skip
        filler = {"name": "filler", "kind": "two-part filler", "density": "1.5 kg/L"}
        hardener = {"name": "hardener", "kind": "hardener"}
        return dict(job(board(step, product=[filler, hardener])).needs)

    once, twice = needs(1), needs(2)
    for name in ("filler", "hardener"):
        before, after = once[name, None], twice[name, None]
        assert len(before.factors) + 1 == len(after.factors), name
        assert 1.1 * before.likely == pytest.approx(after.likely, rel=ROUNDING)
    # 10 ml at 1.5 kg/L are 15 g, and a fiftieth of that is 0.3 g
    assert 0.0003 == pytest.approx(once["hardener", None].likely, rel=ROUNDING)


def test_a_product_of_which_nothing_is_there_has_no_jar(job):
    found = job(board(COAT, product=PAINT))
    assert [] == jars(found.piece, list(found.needs.values()), Draws())


def test_a_jar_says_what_is_assumed_and_not_what_the_file_says(job):
    coat = {**COAT, "loss": None}
    found = job(board(coat, product={**PAINT, "on_hand": "1 L"}))
    (jar,) = jars(found.piece, list(found.needs.values()), Draws())
    assert "loss" in {factor.what.quantity for factor in jar.assumed}
    assert "coats" not in {factor.what.quantity for factor in jar.assumed}


MIX = {"name": "grey", "measure": "50 ml", "recipe": [{"product": "black", "parts": 1},
       {"product": "white", "parts": 3}]}  # fmt: skip
MIXED = [{**PAINT, "name": "black"}, {**PAINT, "name": "white"}]


def test_a_mix_that_is_there_is_not_made_again(job):
    """Two coats on 1 m2 at 10 m2/L take 0.2 L."""
    coat = {**COAT, "product": "grey"}
    there = job(board(coat, mix={**MIX, "on_hand": "200 ml"}, product=MIXED))
    assert {("grey", None)} == there.needs.keys()
    assert 0.0 == batch(
        there.piece.shelf.products["grey"], there.needs["grey", None], there.piece.settings.buy_for
    )
    more = job(board(coat, mix={**MIX, "on_hand": "300 ml"}, product=MIXED)).needs
    assert {("grey", None)} == more.keys()  # nothing is made, and less than nothing neither
    short = job(board(coat, mix={**MIX, "on_hand": "199 ml"}, product=MIXED)).needs
    assert 0.0125 == pytest.approx(short["black", None].likely, rel=ROUNDING)  # 1/4 of 50 ml
    assert [("grey", 1.0)] == [(use.text, use.zone_share) for use in short["black", None].uses]


def test_tools_that_are_nobodys_keep_nothing(coat, product, factor):
    """One coat on 10 m2 at 10 m2/L takes 1 L, and a brush that keeps 50 ml takes 0.05 L more."""
    step = replace(coat(1.0), stays_behind=factor("kept", 0.05))
    paint = product(factor("covers", 10.0))
    assert 1.0 == pytest.approx(coat_amount(10.0, step, paint, likely, bare=False), rel=ROUNDING)
    kept = coat_amount(10.0, step, paint, likely, bare=False, kept_by=0.5)
    assert 1.025 == pytest.approx(kept, rel=ROUNDING)


def test_a_zone_alone_takes_all_that_is_taken_once(coat):
    site = StepSite("top", 1.0, coat(), Draws(), hand=Hand(times=0))
    use = site.use(lambda _: 3.0, [], once=True)
    assert (3.0, 1.0) == (use.likely, use.zone_share)
    assert (False, 0.0, 0.0) == (use.laid.bare, use.laid.extra_m2, use.laid.kept_by)
    share = replace(site, share=0.25).use(lambda _: 3.0, [], once=True)
    assert (0.75, 0.25) == (share.likely, share.zone_share)


def test_two_uses_of_the_same_are_equal_and_show_no_machinery(coat):
    site = StepSite("top", 1.0, coat(), Draws(), hand=Hand(times=0))
    one, other = (
        site.use(lambda _: 3.0, [], first_coats=lambda _, coats: float(coats)) for _ in range(2)
    )
    assert one == other
    assert "lambda" not in repr(one)
    assert "function" not in repr(one)


def test_an_addition_says_what_it_is_a_share_of(job):
    coat = {**COAT, "thin": "5 %"}
    (use,) = job(board(coat, product=PAINT)).needs["thinner for paint", None].uses
    assert "thinner" == use.role
    assert use.share is not None
    assert 0.05 == use.share.range.likely


def test_a_hand_of_which_nothing_is_said_has_the_assumed_spread():
    """ln-sd 0.16, 0.12 and 0.11, assumed; their squares add up to 0.0521."""
    found = Hand().factors("paint", "brush")
    spreads = [factor.range for factor in found if isinstance(factor.range, Lognormal)]
    assert 0.0521 == pytest.approx(sum(one.log_sd**2 for one in spreads), rel=ROUNDING)
    assert [1.0] * 3 == [one.median for one in spreads]


def hands(*steps: dict[str, Any], **tables: Any) -> dict[tuple[str, int | None, str], set[str]]:
    """Return by supply, grit and role what of the hand the uses go up and down with.

    Here the numbers have their assumed spread; `job` takes them as they are given.
    """
    found = measured(board(*steps, **tables))
    needs = job_needs(found.piece, found.measured, Draws())
    return {
        (need.name, need.grit, use.role): {
            f"{factor.what.of} by {factor.what.by}"
            for factor in use.factors
            if factor.what.quantity == "hand with a supply"
        }
        for need in needs
        for use in need.uses
    }


def test_each_use_goes_with_the_hand_that_does_it():
    """What is worn goes with the abrasive, what is put on with its product and its way."""
    coat = {**COAT, "thin": "5 %", "between": {"grit": 320, "with": "disc"}}
    wash = {"do": "wash", "product": "soap", "covers": "5 m2/L", "strength": "4 %"}
    found = hands(
        {"do": "test", "patch": "0.09 m2", "products": ["paint"]},
        wash,
        {"do": "sand", "grits": [120], "with": "disc"},
        coat,
        {"do": "rub out", "grits": [1000], "with": "disc", "product": "paint"},
        product=[PAINT, {"name": "soap", "kind": "cleaner"}],
        abrasive=DISC,
    )
    assert {
        ("paint", None, "sample"): {"paint by brush"},
        ("soap", None, "cleaner"): {"soap by "},
        ("water from the tap", None, "water"): {"soap by "},
        ("disc", 120, "step"): {"disc by "},
        ("disc", 320, "between"): {"disc by "},
        ("disc", 1000, "step"): {"disc by "},
        ("paint", None, "step"): {"paint by brush"},
        ("thinner for paint", None, "thinner"): {"paint by brush"},
        ("paint", None, "rub out"): {"paint by cloth"},
    } == found


def test_glue_and_hardware_are_counted_whatever_the_hand():
    repair = {"do": "repair", "what": "joints", "count": 4, "product": "glue", "each": "6 ml"}
    found = hands(repair, product={"name": "glue", "kind": "wood glue"})
    assert {("glue", None, "step"): set()} == found


def test_what_is_certain_is_enough_in_every_job_whatever_is_bought_for():
    found = points(0.3, 0.9)
    assert ([0.3] * 4, 1.0) == (
        [found.low, found.likely, found.high, found.buy_for],
        found.bought_at,
    )


def test_the_share_of_a_spread_does_not_depend_on_how_large_a_factor_is(factor):
    """9 to 11 and 99 to 101 vary alike, so each brings half of the spread of their sum."""
    draws = Draws()
    small, large = factor("small", 9.0, 10.0, 11.0), factor("large", 99.0, 100.0, 101.0)
    shares = shares_of_spread(draws(small) + draws(large), [small, large], draws)
    # 0.02: the correlation of two factors that are drawn apart from each other is not just nought
    assert [0.5, 0.5] == pytest.approx([share for _, share in shares], abs=0.02)


def test_a_test_patch_is_made_once_for_all_zones_of_a_schedule():
    faces = (["board.top"], ["board.front", "board.back", "board.left", "board.right"])
    zones = [
        {"name": name, "faces": found, "surface": "bare", "schedule": "all"}
        for name, found in zip(("top", "edges"), faces, strict=True)
    ]
    trial = {"do": "test", "patch": "0.1 m2", "products": ["paint"]}
    text = piece_text(zone=zones, product=PAINT, **{"schedule.all": trial})
    job = measured(text)
    (need,) = job_needs(job.piece, job.measured, Draws())
    per_litre = need.uses[0].likely / need.uses[0].zone_share
    assert need.likely == pytest.approx(per_litre)
    assert sum(use.zone_share for use in need.uses) == pytest.approx(1.0)
    assert len(need.uses) == 2


def test_a_life_has_its_assumed_band_unless_every_number_is_taken_as_it_is_given():
    def bands(**tables: Any) -> set[bool]:
        sand = {"do": "sand", "grits": [120], "with": "disc"}
        job = measured(board(sand, abrasive=DISC, **tables))
        (need,) = job_needs(job.piece, job.measured, Draws())
        return {one.is_band_assumed for one in need.factors if "life" in one.what.quantity}

    assert {True} == bands()
    assert {False} == bands(workshop={"own_spread": "0 %"})
