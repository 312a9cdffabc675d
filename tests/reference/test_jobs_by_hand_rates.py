"""What is counted, rubbed, rinsed, wiped on or was published, worked out by hand.

The board is 1 m x 0.5 m x 0.1 m, 1.3 m2 all around, under an old finish. own_spread is 0 %: every
number is taken as it is given, unless a test says otherwise.

Sources: the rates of whole jobs are those of `surfacecalc/catalogue/products.toml`, each with its
title and place there; here they stand once more, as they were read.
"""

import pytest
from asked_jobs import asked_supplies

LB_KG, FT2_M2, GALLON_L = 0.45359237, 0.09290304, 3.785411784
BOARD_M2 = 1.3
ROUNDING = 1e-9
"""A few dozen float64 operations."""
DRAWN = 3e-3
"""A point of a need whose hand is drawn too: it moves by 0.1 % from seed to seed as a rule."""


def file(*steps, tables="", piece="", spread='own_spread = "0 %"'):
    """Return a piece file: a board with its steps, and the tables of what they use."""
    head = f'[piece]\nname = "board"\nunit = "m"\n{piece}\n[workshop]\n{spread}\n'
    board = '[[part]]\nname = "board"\nshape = "board"\nwidth = 1\ndepth = 0.5\nheight = 0.1\n'
    zone = '[[zone]]\nname = "all"\nfaces = ["*"]\nsurface = "sealed"\n'
    return "\n".join([head, board, zone, *(f"[[zone.step]]\n{one}" for one in steps), tables])


def coated(kind, *, by="brush", step="", tables="", spread='own_spread = "0 %"'):
    """Return the line of a product that one coat of is put on, all else as the catalogue says."""
    one = f'do = "coat"\nproduct = "it"\ncoats = 1\nby = "{by}"\n{step}'
    product = f'[[product]]\nname = "it"\nkind = "{kind}"\n'
    return asked_supplies(file(one, tables=product + tables, spread=spread))["it"]


def per_lb(area_ft2):
    """Return square feet a pound in m2/kg."""
    return area_ft2 * FT2_M2 / LB_KG


def per_gallon(area_ft2):
    """Return square feet a gallon in m2/L."""
    return area_ft2 * FT2_M2 / GALLON_L


COUNTED = """
[[consumable]]
name = "lead test"
lasts = "1 job"

[[consumable]]
name = "gloves"
lasts = "1 session"

[[consumable]]
name = "cloths"
lasts = "1.3 m2"

[[product]]
name = "paint"
kind = "waterborne paint"
covers = "10 m2/L"
"""


def test_a_tapes_error_adds_nothing_to_what_is_counted():
    """One test for the job, one pair of gloves for each of two coats, whatever the tape says.

    Cloths go by area: two coats of 1.3 m2 are two cloths just so, and a tape that reads 1 mm short
    makes a third.
    """
    step = (
        'do = "coat"\nproduct = "paint"\ncoats = 2\nby = "brush"\n'
        'uses = ["lead test", "gloves", "cloths"]'
    )
    found = asked_supplies(file(step, tables=COUNTED, piece='measured_to = "1 mm"'))
    bought = {name: found[name].need.buy_for for name in ("lead test", "gloves", "cloths")}
    assert {"lead test": 1, "gloves": 2, "cloths": 3} == bought
    assert found["lead test"].is_exact
    assert found["gloves"].is_exact


@pytest.mark.parametrize(
    ("kind", "m2_per_unit"),
    [
        ("putty", per_lb(9 * 100 / 5)),  # 5 lb for 100 square yards
        ("paste grain filler", per_lb(400 / 10)),
        ("paste wax", per_lb(250)),
        ("casein paint powder", per_lb((50 + 75) / 2)),
        ("oil paint", per_gallon(500)),
        ("oil varnish", per_gallon(500)),
        ("penetrating stain", per_gallon(300)),
    ],
)
@pytest.mark.parametrize("by", ["brush", "roller", "cloth"])
def test_what_whole_jobs_took_has_its_loss_in_it(kind, m2_per_unit, by):
    assert BOARD_M2 / m2_per_unit == pytest.approx(coated(kind, by=by).worked_out, rel=ROUNDING)


def test_a_spray_gun_loses_more_than_a_whole_job_with_brushes_did():
    """Two fifths are lost where nothing else is said: 1.3 m2 take as much as 1.3 / 0.6."""
    by_hand = BOARD_M2 / 0.6 / per_gallon(500)
    assert by_hand == pytest.approx(coated("oil varnish", by="spray").worked_out, rel=ROUNDING)


def test_a_loss_or_a_coverage_in_the_file_counts_as_it_is_written():
    written = coated("oil varnish", step='loss = "20 %"').worked_out
    assert BOARD_M2 / per_gallon(500) / 0.8 == pytest.approx(written, rel=ROUNDING)
    label = coated("oil varnish", tables='covers = "10 m2/L"').worked_out
    assert BOARD_M2 / 10 / 0.9 == pytest.approx(label, rel=ROUNDING)


def test_an_assumed_coverage_is_a_label_s_and_loses_a_tenth_by_brush():
    assert BOARD_M2 / 10 / 0.9 == pytest.approx(coated("waterborne paint").worked_out, rel=ROUNDING)


def mixed(other):
    """Return the line of a mix of oil paint and as much of another kind."""
    tables = f"""
[[mix]]
name = "sage"
recipe = [{{ product = "white", parts = 1 }}, {{ product = "green", parts = 1 }}]
[[product]]
name = "white"
kind = "oil paint"
[[product]]
name = "green"
kind = "{other}"
"""
    step = 'do = "coat"\nproduct = "sage"\ncoats = 1\nby = "brush"'
    return asked_supplies(file(step, tables=tables))["sage"]


def test_a_mix_has_its_loss_in_it_where_all_its_paints_have():
    oil = per_gallon(500)
    assert BOARD_M2 / oil == pytest.approx(mixed("oil paint").worked_out, rel=ROUNDING)
    half = (oil + 10) / 2  # the other covers 8, 10 or 12 m2/L and says nothing of what is lost
    by_hand = BOARD_M2 / half / 0.9
    assert by_hand == pytest.approx(mixed("oil-based paint").worked_out, rel=ROUNDING)


def test_what_is_tried_or_rubbed_in_has_its_loss_in_it_too():
    """A patch of 0.5 m2 and a rubbed coat of 1.3 m2 at 500 sq ft a gallon."""
    tables = (
        '[[product]]\nname = "it"\nkind = "oil varnish"\n'
        '[[abrasive]]\nname = "pad"\nform = "sponge"\n'
    )
    trial = 'do = "test"\nproducts = ["it"]\npatch = "0.5 m2"'
    rub = 'do = "rub out"\ngrits = [400]\nwith = "pad"\nproduct = "it"'
    found = asked_supplies(file(trial, rub, tables=tables))["it"]
    amounts = [0.5 / per_gallon(500), BOARD_M2 / per_gallon(500)]
    assert amounts == pytest.approx([use.likely for use in found.uses], rel=ROUNDING)


@pytest.mark.parametrize(("kind", "ft2_per_lb"), [("putty", 180), ("paste grain filler", 40)])
def test_one_published_number_spreads_as_the_row_beside_it(kind, ft2_per_lb):
    """50 to 75 is 62.5 and a fifth of it more or less, so the number is taken likewise.

    A hand of hardly any spread leaves the triangle: its 90 % point of use is the coverage that a
    tenth lies below, low + sqrt(0.1 x 0.4 x 0.2) of the number.
    """
    found = coated(kind, spread='own_spread = "0.001 %"')
    (factor,) = (one for one in found.factors if one.what.quantity == "coverage")
    assert [0.8, 1.2] == pytest.approx(
        [end / per_lb(ft2_per_lb) for end in (factor.range.low, factor.range.high)], rel=ROUNDING
    )
    assert ("published", True) == (factor.source, factor.is_band_assumed)
    covered = per_lb(ft2_per_lb) * (0.8 + (0.1 * 0.4 * 0.2) ** 0.5)
    assert BOARD_M2 / covered == pytest.approx(found.need.buy_for, rel=DRAWN)
    exact = coated(kind)  # own_spread = "0 %" takes a single number as it is
    assert exact.is_exact


def test_wax_of_which_no_other_row_was_read_stays_one_number():
    (factor,) = (o for o in coated("paste wax").factors if o.what.quantity == "coverage")
    assert factor.range.is_fixed


PAD = '[[abrasive]]\nname = "pad"\nform = "sanding sponge"\n'
PAINT = '[[product]]\nname = "paint"\nkind = "waterborne paint"\ncovers = "10 m2/L"\n'
BETWEEN = (
    'do = "coat"\nproduct = "paint"\ncoats = 3\nby = "brush"\nbetween = { grit = 320, with ='
    ' "pad" }'
)


def test_between_coats_a_pad_goes_three_times_as_far_as_in_sanding():
    """By hand 6 m2 an hour between coats and 2 m2 an hour in sanding: 3 times.

    A sponge of P320 sands 0.8, 1.2 or 2 m2. Two passes of 1.3 m2 between three coats.
    """
    found = asked_supplies(file(BETWEEN, tables=PAD + PAINT))["pad P320"]
    assert 2 * BOARD_M2 / (1.2 * 3) == pytest.approx(found.worked_out, rel=ROUNDING)
    assert "life between coats" in {factor.what.quantity for factor in found.assumed}


def test_sanding_itself_wears_a_pad_as_before():
    sand = 'do = "sand"\ngrits = [320]\nwith = "pad"\nby = "hand"'
    found = asked_supplies(file(sand, tables=PAD))["pad P320"]
    assert BOARD_M2 / 1.2 == pytest.approx(found.worked_out, rel=ROUNDING)


def test_a_life_that_the_file_gives_is_taken_as_it_is_between_coats():
    found = asked_supplies(file(BETWEEN, tables=f'{PAD}life = "1 m2"\n{PAINT}'))["pad P320"]
    assert 2 * BOARD_M2 == pytest.approx(found.worked_out, rel=ROUNDING)
    assert not found.assumed


SOAP = '[[product]]\nname = "soap"\nkind = "cleaner"\n'
WATER = "water from the tap"


def test_a_cleaner_used_neat_and_not_rinsed_needs_no_line_of_water():
    wash = 'do = "wash"\nproduct = "soap"\ncovers = "5 m2/L"\nstrength = "100 %"\ntimes = 1\n'
    neat = asked_supplies(file(f"{wash}rinse = false", tables=SOAP))
    assert {"soap"} == neat.keys()
    assert BOARD_M2 / 5 == pytest.approx(neat["soap"].worked_out, rel=ROUNDING)
    rinsed = asked_supplies(file(f'{wash}rinse = "2 m2/L"', tables=SOAP))
    assert BOARD_M2 / 2 == pytest.approx(rinsed[WATER].worked_out, rel=ROUNDING)
    weaker = wash.replace("100 %", "90 %")
    thinned = asked_supplies(file(f"{weaker}rinse = false", tables=SOAP))
    assert BOARD_M2 / 5 / 10 == pytest.approx(thinned[WATER].worked_out, rel=ROUNDING)


def waxed(step, area_m2_per_kg=50.0):
    """Return the line of a wax that the cloth keeps some of."""
    tables = f"""
[[product]]
name = "wax"
kind = "metallic wax"
covers = "{area_m2_per_kg} m2/kg"
[[hardware]]
name = "pulls"
count = 6
plan = "renew"
size = ["100 mm", "25 mm", "20 mm"]
"""
    one = f'product = "wax"\nloss = "0 %"\n{step}'
    return asked_supplies(file(one, tables=tables))["wax"]


PULLS_M2 = 6 * (0.1 * 0.025 + 2 * 0.02 * (0.1 + 0.025))


def test_a_cloth_keeps_of_a_little_wax_in_proportion():
    """Six pulls are 0.045 m2 and take 0.9 g; of 50 g a cloth keeps 5 g, a tenth, so here 0.09 g."""
    found = waxed('do = "wax hardware"\nhardware = "pulls"\nstays_behind = true')
    assert PULLS_M2 == pytest.approx(0.045, rel=ROUNDING)
    assert PULLS_M2 / 50 * 1.1 == pytest.approx(found.worked_out, rel=ROUNDING)


def test_a_cloth_keeps_no_more_of_a_coat_of_much():
    """1.3 m2 at 10 m2/kg are 130 g a coat, so that each of two coats leaves 5 g in the cloth."""
    found = waxed('do = "wax"\ncoats = 2\nstays_behind = true', 10.0)
    assert 0.26 + 2 * 0.005 == pytest.approx(found.worked_out, rel=ROUNDING)
    # at 50 m2/kg each coat puts on 26 g, and 26 / 50 of 5 g stays
    little = waxed('do = "wax"\ncoats = 2\nstays_behind = true', 50.0)
    assert 0.052 + 2 * 0.005 * 26 / 50 == pytest.approx(little.worked_out, rel=ROUNDING)


def test_what_the_file_says_that_a_cloth_keeps_is_not_scaled():
    step = 'do = "wax hardware"\nhardware = "pulls"\nstays_behind = "4 g"'
    assert PULLS_M2 / 50 + 0.004 == pytest.approx(waxed(step).worked_out, rel=ROUNDING)


def test_a_brush_keeps_as_much_of_a_small_coat():
    """26 ml are put on, and a brush keeps 15 ml of it all the same."""
    found = coated("waterborne paint", step='loss = "0 %"\nstays_behind = true')
    assert 0.13 + 0.015 == pytest.approx(found.worked_out, rel=ROUNDING)


def test_zones_that_share_a_schedule_share_what_one_cloth_keeps():
    """Both zones together are one session: 26 g put on, so 26 / 50 of 5 g stays, as in one zone."""
    one = 'do = "wax"\nproduct = "wax"\nloss = "0 %"\nstays_behind = true\n'
    text = file(tables='[[product]]\nname = "wax"\nkind = "wax"\ncovers = "50 m2/kg"\n')
    zones = "".join(
        f'[[zone]]\nname = "{name}"\nfaces = ["{faces}"]\nsurface = "sealed"\nschedule = "waxed"\n'
        for name, faces in (("top", "board.top"), ("rest", "board"))
    )
    whole = '[[zone]]\nname = "all"\nfaces = ["*"]\nsurface = "sealed"\n'
    found = asked_supplies(text.replace(whole, f"{zones}[[schedule.waxed]]\n{one}"))["wax"]
    assert 2 == len(found.uses)
    assert 0.026 + 0.005 * 26 / 50 == pytest.approx(found.worked_out, rel=ROUNDING)
