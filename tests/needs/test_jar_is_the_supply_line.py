"""Jars and supplies never contradict each other: the same uses, the same draws, the same chance."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from piece_texts import measured, piece_text

from surfacecalc.api import jars, mixes_on_hand, supplies
from surfacecalc.needs.draws import chance_enough

CUBE = {"shape": "board", "width": "1 m", "depth": "1 m", "height": "1 m"}


def job_text(coats, on_hand_ml, extras, *, buy_for="90 %", buy_for_all=None):
    """Return a job that uses a paint in coats, and in as many other ways as are asked for."""
    steps = [{"do": "coat", "product": "paint", "coats": coats, "by": "brush", "loss": "10 %"}]
    if "test patch" in extras:
        steps.insert(0, {"do": "test", "products": ["paint"], "patch": "0.1 m2"})
    if "tint" in extras:
        tint = {"product": "paint", "share": "20 %"}
        steps.append({"do": "coat", "product": "clear", "coats": 2, "by": "brush", "tint": tint})
    if "rubbed in" in extras:
        steps.append({"do": "rub out", "grits": [400], "with": "pad", "product": "paint"})
    if "in a mix" in extras:
        steps.append({"do": "coat", "product": "sage", "coats": 1, "by": "roller"})
    zone = {"name": "top", "faces": ["board.top"], "surface": "bare", "step": steps}
    mix = [{"product": "paint", "parts": 1}, {"product": "clear", "parts": 3}]
    return piece_text(
        piece={
            "buy_for": buy_for,
            "buy_for_all": buy_for_all,
            "measured_to": "5 mm" if "tape" in extras else None,
        },
        part=CUBE,
        zone=zone,
        product=[
            {"name": "paint", "kind": "waterborne paint", "covers": "10 m2/L",
             "on_hand": f"{on_hand_ml} ml", "packs": [{"size": "250 ml"}]},
            {"name": "clear", "kind": "waterborne varnish", "packs": [{"size": "250 ml"}]},
        ],
        mix=[{"name": "sage", "recipe": mix}] if "in a mix" in extras else [],
        abrasive=[{"name": "pad", "form": "sanding sponge"}],
    )  # fmt: skip


EXTRAS = ("test patch", "tint", "rubbed in", "in a mix", "tape")


@settings(max_examples=25, deadline=None)
@given(
    coats=st.sampled_from([1, 2, [1, 2, 3], [2, 2, 3]]),
    on_hand_ml=st.integers(50, 900),
    extras=st.sets(st.sampled_from(EXTRAS)),
)
def test_a_jar_lasts_to_the_end_as_often_as_its_supply_line(coats, on_hand_ml, extras):
    job = measured(job_text(coats, on_hand_ml, extras))
    (line,) = [one for one in supplies(job) if one.name == "paint"]
    (jar,) = [one for one in jars(job) if one.product.name == "paint"]
    last = jar.reaches[-1]
    assert chance_enough(line.drawn, line.on_hand) == last.chance
    assert (line.need.likely, line.need.buy_for) == (last.likely, last.buy_for)
    assert jar.will_do == (line.missing == 0)
    assert line.need.low <= last.likely


@pytest.mark.parametrize("extra", ["test patch", "tint", "rubbed in", "in a mix"])
def test_every_use_of_the_product_takes_from_the_jar(extra):
    """Without it more of the jar is left, from the first coat on."""
    plain, more = (
        jars(measured(job_text(2, 300, extras)))[0].reaches for extras in (set(), {extra})
    )
    assert all(a.likely < b.likely for a, b in zip(plain, more, strict=True))


def test_only_the_first_coats_of_what_is_tinted_take_tint():
    """Tint goes with the coats that it is stirred into."""
    one, two = jars(measured(job_text(2, 300, {"tint"})))[0].reaches
    plain_one, plain_two = jars(measured(job_text(2, 300, set())))[0].reaches
    first, second = one.likely - plain_one.likely, two.likely - plain_two.likely
    assert 0 < first < second


def test_a_jar_is_as_sure_as_the_list_where_all_is_bought_for():
    job = measured(job_text([2, 2, 3], 350, {"test patch", "tint"}, buy_for_all="99 %"))
    (line,) = [one for one in supplies(job) if one.name == "paint"]
    (jar,) = jars(job)
    assert line.need.bought_at == jar.confidence > 0.9
    assert line.need.buy_for == jar.reaches[-1].buy_for


def mix_text(coats, white_ml, green_ml, *, mixed_ml=0, white_coats=0, spread="20 %", tin_ml=None):
    """Return a job with a mix of three parts white and one green, in measures of 5 ml."""
    steps = [{"do": "coat", "product": "sage", "coats": coats, "by": "brush", "loss": "10 %"}]
    zones = [{"name": "top", "faces": ["board.top"], "surface": "bare", "step": steps}]
    if white_coats:
        white = {"do": "coat", "product": "white", "coats": white_coats, "by": "roller"}
        zones.append({"name": "front", "faces": ["board.front"], "surface": "sealed",
                      "step": [white]})  # fmt: skip
    packs = [{"size": "60 ml", "price": 3}, {"size": "250 ml", "price": 8}]
    recipe = [{"product": "white", "parts": 3}, {"product": "green", "parts": 1}]
    jars_there = {"white": white_ml, "green": green_ml}
    if tin_ml:
        name, more_ml = tin_ml
        jars_there[name] += more_ml
    return piece_text(
        part=CUBE,
        zone=zones,
        product=[
            {"name": name, "kind": "waterborne paint", "on_hand": f"{ml} ml", "packs": packs}
            for name, ml in jars_there.items()
        ],
        mix={"name": "sage", "recipe": recipe, "on_hand": f"{mixed_ml} ml"},
        workshop={"own_spread": spread},
    )


@settings(max_examples=30, deadline=None)
@given(
    coats=st.sampled_from([1, 2, [1, 2, 3], [2, 2, 3]]),
    white_ml=st.integers(1, 700),
    green_ml=st.integers(0, 250),
    mixed_ml=st.sampled_from([0, 0, 40, 115]),
    white_coats=st.sampled_from([0, 0, 1, [1, 2, 2]]),
    spread=st.sampled_from(["0 %", "20 %"]),
)
def test_leftovers_of_a_mix_and_its_supply_lines_agree(**told):
    """The jars make the whole batch just where nothing of its parts is bought, and it then lasts.

    One tin more, where one is named, is then all that was missing.
    """
    job = measured(mix_text(**told))
    lines = {line.name: line for line in supplies(job)}
    found = mixes_on_hand(job)
    assert bool(found) == bool(lines["sage"].mixed)
    for mix in found:
        short = [lines[part.product.name].missing for part in mix.parts]
        assert short == [part.missing for part in mix.parts]
        assert mix.batch == lines["sage"].mixed
        is_whole = mix.made >= mix.batch * (1 - 1e-9)
        assert is_whole == (not any(short)) == mix.makes_whole_batch == mix.by_recipe.will_do
        last, line = mix.by_recipe.reaches[-1], lines["sage"]
        assert (line.need.likely, line.need.buy_for) == (last.likely, last.buy_for)
        assert chance_enough(line.drawn, line.on_hand + mix.made) == last.chance
        if mix.one_tin:
            product, pack = mix.one_tin
            tin_ml = (product.name, round(1000 * pack.size))
            (more,) = mixes_on_hand(measured(mix_text(**told, tin_ml=tin_ml)))
            assert more.makes_whole_batch
            assert more.by_recipe.will_do
