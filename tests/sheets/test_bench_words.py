"""What the bench needs for a task, in the words of the shop sheet."""

import pytest
from piece_texts import measured, piece_text

from surfacecalc import api
from surfacecalc.sheets.bench_words import bench_lines
from surfacecalc.units.display import Units

SQUARE = {"shape": "board", "width": "1 m", "depth": "1 m", "height": "1 m"}
PAINT = {"kind": "waterborne furniture paint", "covers": "10 m2/L"}
TOP = {"faces": ["board.top"], "surface": "sealed"}
COAT = {"do": "coat", "product": "paint", "by": "brush", "loss": "0 %", "stays_behind": "0 ml"}
GALLON = [{"size": "1 gallon", "price": 60}]


@pytest.fixture
def words():
    """Return the sentences of each task of a face of 1 m2, in the order of the plan."""

    def run(*steps, units=Units.METRIC, paint=None, polish=None, zone=None, **tables):
        text = piece_text(
            *steps,
            part=SQUARE,
            zone=zone or TOP,
            product=[
                {"name": "paint", **PAINT, **(paint or {})},
                {"name": "ochre", **PAINT},
                {"name": "deep ochre", **PAINT, "on_hand": "7 ml"},
                {"name": "spirit", "kind": "thinner", "on_hand": "12 ml", "packs": GALLON},
                {"name": "gel", "kind": "stripper", "on_hand": "20 ml", "packs": GALLON},
                {"name": "catalyst", "kind": "hardener", "density": "1.1 kg/L", "packs": GALLON},
                {"name": "soap", "kind": "cleaner"},
                {"name": "putty", "kind": "two-part filler", "density": "1.5 kg/L"},
                {"name": "paste", "kind": "hardener"},
                {"name": "polish", "kind": "paste wax", "covers": "20 m2/kg", **(polish or {})},
            ],
            workshop={"own_spread": "0 %", "hours": ["mon-sun 00:00-24:00"]},
            **tables,
        )
        job = measured(text)
        made, bought = api.plan(job), api.supplies(job)
        lines = bench_lines(api.bench(job, made, bought), units)
        keys = [(entry.task.zone, entry.task.number) for entry in made.entries]
        return [list(lines[key]) for key in keys if key in lines]

    return run


def test_a_coat_is_rounded_up_and_what_is_stirred_in_keeps_its_ratio(words):
    """0.1 L are 3.38 fl oz, a tenth of that 0.34."""
    step = {**COAT, "coats": 1, "thin": "10 %", "tint": {"product": "ochre", "share": "5 %"}}
    thin = "thinner for paint"
    assert [[f"100 ml for this coat; stir in 10 % {thin} (10.0 ml) and 5 % ochre (5.00 ml)."]] == (
        words(step)
    )
    assert [
        [f"3 1/2 fl oz for this coat; stir in 10 % {thin} (0.34 fl oz) and 5 % ochre (0.17 fl oz)."]
    ] == words(step, units=Units.US)


def test_a_side_is_called_so(words):
    assert [["50 ml for this side."]] * 2 == words({**COAT, "coats": 1, "sides": 2})


def test_washing_gives_parts_amounts_and_rinse(words):
    wash = {"do": "wash", "product": "soap", "strength": "4 %", "covers": "5 m2/L"}
    rinsed = "Mix 1 part with 24 parts water: 8.00 ml in 192 ml water; rinse with 500 ml water."
    assert [[rinsed]] == words({**wash, "rinse": "2 m2/L"})
    pure = {**wash, "strength": "100 %", "rinse": False}
    assert [["Use 200 ml undiluted."]] == words(pure)


def test_filler_gives_its_hardener_and_the_most_at_once(words):
    """A groove of 0.01 L: 15 g. A hardener of 0.0003 g is too little to be shown."""
    fill = {
        "do": "fill",
        "product": "putty",
        "loss": "0 %",
        "applications": 1,
        "grooves": [{"count": 1, "length": 100, "width": 10, "depth": 10}],
        "hardener": {"product": "paste", "share": "2 %"},
        "batch": "10 g",
    }
    assert [["15 g of putty, at most 10 g at a time; stir in 2 % paste (0.30 g)."]] == words(fill)
    small = {**fill, "batch": "15 g"}
    assert [["15 g of putty; stir in 2 % paste (0.30 g)."]] == words(small)
    trace = {**fill, "hardener": {"product": "paste", "share": "0.002 %"}}
    assert [["15 g of putty, at most 10 g at a time; stir in 0.002 % paste."]] == words(trace)


def test_what_is_tried_or_rubbed_in_is_named(words):
    trial = {"do": "test", "products": ["paint", "ochre"], "patch": "0.09 m2"}
    assert [["10 ml of paint and 10 ml of ochre."]] == words(trial)
    rub = {"do": "rub out", "grits": [1000], "with": "pad", "by": "hand", "product": "polish"}
    (lines,) = words(rub, abrasive={"name": "pad", "form": "foam pad"})
    assert 1 == len(lines)
    assert lines[0].endswith(" g of polish.")


PARTS = [{"product": "paint", "parts": 3}, {"product": "ochre", "parts": 1}]
MIX = {"name": "blend", "recipe": PARTS, "covers": "10 m2/L", "measure": "100 ml"}


def test_a_batch_gives_its_parts_and_what_it_is_stirred_into(words):
    first, second = words({**COAT, "product": "blend", "coats": 2}, mix=MIX)
    batch = "First mix 200 ml of blend: 150 ml paint and 50.0 ml ochre."
    assert [batch, "100 ml for this coat."] == first
    assert ["100 ml for this coat."] == second
    begun = {**MIX, "on_hand": "20 ml"}
    first, _ = words({**COAT, "product": "blend", "coats": 2}, mix=begun)
    assert "ochre; stir it into the 20.0 ml you have." in first[0]


def test_a_coat_beyond_the_plan_is_only_if_needed_and_mixed_again_for(words):
    """Bought for six of ten jobs, of which two in three need two coats: 0.2 L are mixed."""
    short = {**MIX, "on_hand": "205 ml", "measure": "5 ml"}
    step = {**COAT, "product": "blend", "coats": [1, 2, 2]}
    first, second = words(step, mix=short)
    assert ["100 ml for this coat."] == first
    assert ["100 ml for this coat, only if it is needed."] == second
    fixed = {**COAT, "product": "blend", "coats": [2, 2, 3]}
    _, second = words(fixed, mix={**short, "on_hand": "0 ml"}, piece={"buy_for": "60 %"})
    assert [
        "100 ml for this coat.",
        "A third coat only if it is needed: 100 ml.",
        "With under 100 ml left after it, mix again and stir the two together before a third coat.",
    ] == second


def test_a_jar_is_poured_together_with_what_was_bought_or_more_is_bought(words):
    coats = {**COAT, "coats": 2}
    enough = words(coats, paint={"on_hand": "200 ml"})
    assert [["100 ml for this coat."]] * 2 == enough
    first, _ = words(coats, paint={"on_hand": "50 ml", "packs": GALLON})
    may_not = "What you have of paint may not be enough for this"
    assert f"{may_not}: first pour it together with what you bought." == first[0]
    left = "With under 100 ml left after it"
    first, _ = words(coats, paint={"on_hand": "150 ml", "packs": GALLON})
    assert f"{left}, pour it together with what you bought before the second coat." == first[1]
    first, _ = words(coats, paint={"on_hand": "50 ml"})  # without packs, the amount is bought
    assert f"{may_not}: first pour it together with what you bought." == first[0]


def test_a_jar_that_is_enough_nine_times_in_ten_says_when_to_buy_more(words):
    """In nine of ten jobs a coat takes at most 1 / 9.095 = 0.10995 L, both 0.2199 L."""
    jar = {"on_hand": "221 ml", "covers": ["8 m2/L", "10 m2/L", "14 m2/L"]}
    first, _ = words({**COAT, "coats": 2}, paint=jar)
    left = "With under 110 ml left after it"
    assert f"{left}, buy more and pour the two together before the second coat." == first[1]


def test_what_was_poured_together_asks_to_buy_more(words):
    """A quart and the jar are enough nine times in ten; a later coat may still want more."""
    jar = {"on_hand": "50 ml", "covers": ["8 m2/L", "10 m2/L", "14 m2/L"]}
    first, _ = words({**COAT, "coats": 2}, paint=jar)
    assert first[0].startswith("What you have of paint may not be enough for this: first pour it")
    left = "With under 110 ml left after it"
    assert f"{left}, buy more and pour the two together before the second coat." == first[2]


def test_what_went_into_a_mix_is_gone_from_its_jar(words):
    """Of 420 ml of paint 300 go into a batch of 400 ml; of the rest, the second coat asks 100."""
    steps = [{**COAT, "product": name, "coats": 2} for name in ("blend", "paint")]
    mix = {**MIX, "measure": "400 ml"}
    found = words(*steps, mix=mix, paint={"on_hand": "420 ml", "packs": GALLON})
    assert ["100 ml for this coat."] == found[1]
    left = "With under 100 ml left after it, pour it together with what you bought"
    assert f"{left} before the second coat." == found[2][1]
    plenty = words(*steps, mix=mix, paint={"on_hand": "520 ml", "packs": GALLON})
    assert ["100 ml for this coat."] == plenty[2]


def test_a_thinner_that_runs_out_is_no_reason_to_stop(words):
    """10 ml go into each coat, 12 ml are there: the next bottle is opened where this one ends."""
    step = {**COAT, "coats": 2, "thin": "10 %"}
    line = "100 ml for this coat; stir in 10 % spirit (10.0 ml)."
    assert [[line]] * 2 == words(step, paint={"thinner": "spirit"})


def test_a_second_can_of_stripper_needs_no_stirring(words):
    (lines,) = words({"do": "strip", "product": "gel"})
    assert 1 == len(lines)
    assert lines[0].endswith(" for this coat.")


def test_a_hardener_by_weight_says_so_where_it_is_given_by_volume(words):
    """100 ml of the mixed stuff, 5 : 1 by weight and equally dense: 83.3 and 16.7 ml."""
    hardener = {"product": "catalyst", "parts": "5 : 1", "by": "weight"}
    step = {**COAT, "coats": 1, "hardener": hardener}
    ((line,),) = words(step, paint={"density": "1.1 kg/L"})
    assert "; stir in 20 % catalyst by weight (" in line
    ((line,),) = words({**step, "hardener": {**hardener, "by": "volume"}})
    assert "; stir in 20 % catalyst (" in line


def test_a_tint_that_must_be_left_is_named(words):
    """5 ml go into each coat, 7 ml are there: the amount of a coat's line is not of the tint."""
    step = {**COAT, "coats": 2, "tint": {"product": "deep ochre", "share": "5 %"}}
    first, _ = words(step)
    assert first[1].startswith("With under 5 ml of deep ochre left after it, pour it together")


def test_a_batch_that_sets_says_how_much_of_it_is_to_be_sure(words):
    """100 ml are likely; nine of ten jobs need at most 109.95 ml, and 110 ml are mixed."""
    step = {**COAT, "coats": 1, "pot_life": "4 h"}
    spread = {"covers": ["8 m2/L", "10 m2/L", "14 m2/L"]}
    assert [["110 ml for this coat, 10 ml of it to be sure, used within 4 h."]] == (
        words(step, paint=spread)
    )
    assert [["100 ml for this coat, used within 4 h."]] == words(step)


def test_a_little_that_must_be_left_is_said_plainly(words):
    """0.005 L are 0.17 fl oz."""
    step = {**COAT, "coats": 2, "spot": "5 %"}
    first, _ = words(step, paint={"on_hand": "6 ml"}, units=Units.US)
    assert "Up to 1/4 fl oz for this coat." == first[0]
    assert first[1].startswith("With under 1/4 fl oz left after it, pour it together")


def test_a_stop_names_the_zones_of_the_coat_that_comes(words):
    """Top and front take 0.2 L for each coat; 0.25 L are there."""
    zones = [
        {"name": name, "faces": [f"board.{name}"], "surface": "sealed", "schedule": "finish"}
        for name in ("top", "front")
    ]
    schedule = {"schedule.finish": [{**COAT, "coats": 2}]}
    found = words(zone=zones, paint={"on_hand": "250 ml"}, **schedule)
    assert [1, 2, 1, 1] == [len(lines) for lines in found]
    assert found[1][1].startswith("With under 200 ml left after it, pour it")
    assert found[1][1].endswith((" on top and front.", " on front and top."))


def test_what_is_left_after_a_task_that_is_no_coat_is_named(words):
    """Tried out on 0.1 m2 (5 to 15 % lost): some 11 ml; 0.1 L for the coat, 0.11 L there."""
    trial = {"do": "test", "products": ["paint"], "patch": "0.1 m2"}
    first, _ = words(trial, {**COAT, "coats": 1}, paint={"on_hand": "105 ml"})
    assert first[1].startswith("With under 100 ml of paint left after it, pour it")
    assert first[1].endswith("before the first coat.")


def test_a_stop_before_what_is_no_coat_says_that_it_is_used_again(words):
    """50 g for the coat, some for the rub-in after it."""
    coat = {**COAT, "product": "polish", "coats": 1, "stays_behind": "0 g"}
    rub = {"do": "rub out", "grits": [1000], "with": "pad", "by": "hand", "product": "polish"}
    pad = {"name": "pad", "form": "foam pad"}
    first, _ = words(coat, rub, abrasive=pad, polish={"on_hand": "60 g"})
    assert first[1].endswith("before it is used again.")
