"""Each remark on the order of coats comes where it should, and nowhere else."""

import pytest

SAND = 'do = "sand"; grits = [180, 220]; with = "disc"'
TO_BARE = 'do = "strip"; grits = [80, 120, 180]; with = "disc"'
STRIP = 'do = "strip"; product = "stripper"'
WASH = 'do = "wash"; product = "cleaner"; strength = "3 %"'


def coat(product, coats=2, *, do="coat", **keys):
    more = "".join(f'; {key} = "{value}"' for key, value in keys.items())
    return f'do = "{do}"; product = "{product}"; coats = {coats}; by = "brush"{more}'


def stain(product="stain", **keys):
    return coat(product, 1, do="stain", **keys)


CLEAN = {
    "primer and paint": [SAND, coat("primer", 1, do="prime"), coat("paint"), coat("varnish")],
    "stain, seal, denib, varnish": [
        SAND,
        stain("water stain"),
        coat("shellac", 1, do="seal"),
        'do = "sand"; grits = [320]; with = "disc"',
        coat("varnish", 3, do="top coat"),
    ],
    "oil and wax": [SAND, coat("oil"), coat("wax", do="wax")],
    "wax over oil, oil over wax": [coat("wax"), coat("oil")],
    "conditioner, then stain": [coat("conditioner", 1, do="condition"), stain("water stain")],
    "dye, sanded back, and dyed again": [
        coat("dye", 1, do="dye"),
        'do = "sand"; grits = [220]; with = "disc"',
        coat("dye", 1, do="dye"),
        coat("shellac"),
    ],
    "glaze between clear coats": [
        coat("shellac", 1, do="seal"),
        coat("glaze", 1, do="glaze"),
        coat("varnish", 3),
    ],
    "shellac between oil-based stain and waterborne varnish": [
        stain(),
        coat("shellac", 1, do="seal"),
        coat("varnish"),
    ],
    "furniture paint on bare wood": [SAND, coat("furniture paint")],
    "shellac built up": [coat("shellac", 12)],
    "metallic wax last": [
        coat("furniture paint"),
        coat("wax"),
        coat("metallic wax", 1, do="wax hardware"),
    ],
    "sealed, limed and waxed": [
        coat("shellac", 1, do="seal"),
        coat("white wax", 1, do="lime wax"),
        coat("wax", 1, do="wax"),
    ],
    "filled and waxed": [coat("filler", 1, do="fill grain"), coat("wax", 1, do="wax")],
    "stripped, then painted over primer": [STRIP, coat("primer", 1, do="prime"), coat("paint")],
}


@pytest.mark.parametrize("name", CLEAN)
def test_usual_schedules_have_no_remark(name, on_steps):
    assert [] == on_steps(*CLEAN[name])


def test_paint_over_a_clear_coat_is_told(on_steps):
    found = on_steps(coat("primer", 1), coat("varnish", do="top coat"), coat("paint"))
    assert [('coat "paint"', True)] == [(w, "put the clear coat on last" in m) for w, m in found]


def test_what_goes_over_wax_is_told_unless_the_wax_was_washed_off(on_steps):
    over = "hardly anything sticks to or dries on wax"
    for between, is_told in (([], True), ([WASH], False)):
        found = on_steps(coat("wax", do="wax"), *between, coat("paint"))
        assert is_told == any(over in message for _, message in found)


@pytest.mark.parametrize(
    ("product", "fix"),
    [("stain", 'first strip it or sand it to bare wood (do = "strip"), or use a gel stain'),
     ("gel stain", "first sand it dull, or strip it")],
)  # fmt: skip
def test_colour_on_an_old_finish_is_told_with_what_to_do_first(product, fix, on_steps):
    ((_, message),) = on_steps(stain(product), surface="varnished")
    assert message == f"the surface is varnished, and colour has to soak in or stick: {fix}"


def test_a_paint_that_says_glaze_is_a_glaze(on_steps):
    """Several coats of it are not a thick film, and clear coats may go under it."""
    products = {"varnish": "waterborne varnish", "it": "glaze paint"}
    found = on_steps(coat("varnish"), coat("it", 2), products=products)
    assert not any("put the clear coat on last" in message for _, message in found)


@pytest.mark.parametrize(("do", "is_told"), [("top coat", True), ("seal", False)])
def test_shellac_is_a_clear_coat_where_it_is_the_top_coat(do, is_told, on_steps):
    found = on_steps(coat("shellac", do=do), coat("paint"))
    assert is_told == any("put the clear coat on last" in message for _, message in found)


def test_primer_over_a_clear_coat_is_told_once(on_steps):
    found = on_steps(coat("lacquer"), coat("primer", 1, do="prime"), coat("furniture paint"))
    assert ['prime "primer"'] == [where for where, _ in found]


def test_paint_over_a_clear_coat_that_was_stripped_is_not_told(on_steps):
    found = on_steps(coat("varnish"), STRIP, coat("furniture paint"))
    assert [] == [where for where, message in found if "clear coat" in message]


def test_shellac_under_paint_is_no_clear_coat(on_steps):
    assert [] == on_steps(coat("shellac", 1), coat("paint"))


@pytest.mark.parametrize("product", ["furniture paint", "varnish", "stain", "shellac"])
def test_anything_over_wax_is_told(product, on_steps):
    found = on_steps(coat("wax"), coat(product))
    assert [f'coat "{product}"'] == [w for w, m in found if "put the wax on last" in m]


@pytest.mark.parametrize("between", [WASH, STRIP])
def test_wax_that_was_washed_or_stripped_off_is_not_told(between, on_steps):
    found = on_steps(coat("wax"), between, coat("varnish"))
    assert [] == [where for where, message in found if "put the wax on last" in message]


def test_wax_on_spots_that_resists_paint_is_not_told(on_steps):
    assert [] == on_steps(coat("wax", 1, spot="5 %"), coat("furniture paint"))


@pytest.mark.parametrize("surface", ["sealed", "varnished", "painted"])
def test_stain_on_a_coated_surface_is_told(surface, on_steps):
    found = on_steps(SAND, stain(), surface=surface)
    assert [('stain "stain"', True)] == [(w, f"surface is {surface}" in m) for w, m in found]


@pytest.mark.parametrize("to_bare", [TO_BARE, STRIP, SAND.replace("180, 220", "120, 180")])
def test_stain_on_a_surface_taken_to_bare_wood_is_not_told(to_bare, on_steps):
    assert [] == on_steps(to_bare, stain(), surface="varnished")


def test_gel_stain_over_a_sanded_finish_is_not_told_and_over_a_glossy_one_is(on_steps):
    assert [] == on_steps(SAND, stain("gel stain"), surface="varnished")
    assert 1 == len(on_steps(stain("gel stain"), surface="varnished"))


@pytest.mark.parametrize("under", ["primer", "varnish", "oil"])
def test_stain_over_a_coat_of_the_same_zone_is_told(under, on_steps):
    found = on_steps(coat(under, 1), stain("water stain"))
    messages = [m for w, m in found if w == 'stain "water stain"']
    assert any("put the colour on before anything that seals" in message for message in messages)


def test_stain_over_a_washcoat_is_not_told(on_steps):
    assert [] == on_steps(coat("shellac", 1, do="seal"), stain())


def test_paint_on_bare_wood_is_told(on_steps):
    found = on_steps(SAND, coat("paint"))
    said = "first prime, seal or block the wood"
    assert [('coat "paint"', True)] == [(w, said in m) for w, m in found]


@pytest.mark.parametrize("strip", [STRIP, TO_BARE])
def test_paint_on_stripped_wood_is_told(strip, on_steps):
    found = on_steps(strip, coat("paint"), surface="painted")
    assert ['coat "paint"'] == [where for where, message in found if "bare wood" in message]


@pytest.mark.parametrize("under", ["primer", "shellac"])
def test_paint_over_primer_or_shellac_is_not_told(under, on_steps):
    assert [] == on_steps(coat(under, 1), coat("paint"))


@pytest.mark.parametrize("surface", ["sealed", "varnished", "painted"])
def test_paint_on_an_old_finish_is_not_told(surface, on_steps):
    assert [] == on_steps(SAND, coat("paint"), surface=surface)


def test_waterborne_varnish_soon_after_an_oil_based_stain_is_told(on_steps):
    found = on_steps(stain(), coat("varnish"))
    assert ['coat "varnish"'] == [where for where, _ in found]
    assert "wait, or put a coat of shellac between them" in found[0][1]


def test_the_remark_on_water_over_oil_names_wait_and_cure(on_steps):
    kind = "oil-based stain; recoat = '6 h'\ncure = '3 days'"
    products = {"stain": kind, "varnish": "waterborne varnish"}
    message = on_steps(stain(), coat("varnish"), products=products)[0][1]
    assert "6 h later; the oil-based coat cures in 3 days (label)" in message


@pytest.mark.parametrize(("wait", "told"), [("71 h", True), ("72 h", False), ("4 days", False)])
def test_a_wait_as_long_as_the_cure_is_not_told(wait, told, on_steps):
    products = {"stain": "oil-based stain; cure = '3 days'", "varnish": "waterborne varnish"}
    found = on_steps(stain(wait=wait), coat("varnish"), products=products)
    assert told == bool(found)


def test_waits_of_steps_between_count(on_steps):
    products = {"stain": "oil-based stain; cure = '2 days'", "varnish": "waterborne varnish"}
    dust = 'do = "dust off"; wait = "1 days"'
    assert [] == on_steps(stain(wait="24 h"), dust, coat("varnish"), products=products)


@pytest.mark.parametrize(("wait", "told"), [(None, False), ("16 h", False), ("15 h", True)])
def test_a_primer_asks_for_its_recoat_before_the_paint_that_belongs_on_it(wait, told, on_steps):
    """16 h on its label; without a wait the plan waits as long."""
    products = {
        "primer": "oil-based primer; recoat = '16 h'\ncure = '14 days'",
        "paint": "waterborne paint",
    }
    primer = coat("primer", 1, do="prime") + (f'; wait = "{wait}"' if wait else "")
    found = [m for _, m in on_steps(primer, coat("paint"), products=products)]
    assert told == any("oil-based coat is ready for paint in 16 h (label)" in m for m in found)
    assert told == bool(found)


@pytest.mark.parametrize("over", ["oil varnish", "shellac", "lacquer"])
def test_what_is_not_waterborne_over_oil_is_not_told(over, on_steps):
    assert [] == on_steps(stain(), coat(over))


def test_sanding_a_stain_is_told(on_steps):
    found = on_steps(stain("water stain"), SAND, coat("varnish"))
    assert [("sand", True)] == [(w, m.startswith("can sand through the colour")) for w, m in found]


@pytest.mark.parametrize(
    ("coats", "grit", "told"), [(1, 320, False), (1, 220, True), (2, 220, False), (0, 400, True)]
)
def test_sanding_over_a_sealed_stain_is_told_where_it_may_cut_through(coats, grit, told, on_steps):
    sealed = [coat("shellac", coats, do="seal")] if coats else []
    sanded = f'do = "sand"; grits = [{grit}]; with = "disc"'
    found = on_steps(stain("water stain"), *sealed, sanded, coat("varnish"))
    assert told == any(where == "sand" for where, _ in found)


def test_stripping_after_a_stain_is_not_told_as_sanding_through_it(on_steps):
    messages = [m for _, m in on_steps(stain("water stain"), TO_BARE, stain("water stain"))]
    assert not any("can sand through" in message for message in messages)


def test_conditioner_after_stain_is_told(on_steps):
    found = on_steps(stain("water stain"), coat("conditioner", 1, do="condition"))
    assert ['condition "conditioner"'] == [where for where, _ in found]


@pytest.mark.parametrize(
    ("coats", "told"), [(4, False), (5, True), ("[3, 4, 6]", False), ("[3, 4, 9]", True)]
)
def test_more_than_four_coats_of_paint_are_told(coats, told, on_steps):
    """Of a range what half of all jobs need counts: 4 coats of the first, 5 of the second."""
    found = on_steps(coat("furniture paint", coats))
    assert told == any("more than the usual 4" in message for _, message in found)


@pytest.mark.parametrize(("coats", "told"), [(6, False), (7, True)])
def test_more_than_six_coats_of_varnish_are_told(coats, told, on_steps):
    found = on_steps(coat("varnish", coats))
    assert told == any("more than the usual 6" in message for _, message in found)


def test_coats_of_one_paint_add_up_over_steps_and_are_told_once(on_steps):
    found = on_steps(*[coat("furniture paint", 2)] * 4)
    assert ["6 coats"] == [message[:7] for _, message in found]


def test_coats_that_a_change_of_colour_adds_count(on_steps):
    found = on_steps(coat("furniture paint", 4, change="dark to light"))
    assert 1 == len(found)


@pytest.mark.parametrize("product", ["lacquer", "shellac", "oil"])
def test_finishes_that_are_built_up_may_have_many_coats(product, on_steps):
    assert [] == on_steps(coat(product, 10))


def test_a_schedule_shared_by_two_zones_is_told_once(notes):
    shared = (
        '[[zone]]\nname = "edges"\nfaces = ["top.left"]\nsurface = "bare"\nschedule = "paint"\n'
        '[[zone]]\nname = "end"\nfaces = ["top.right"]\nsurface = "bare"\nschedule = "paint"\n'
        '[[schedule.paint]]\ndo = "coat"\nproduct = "paint"\ncoats = 2\nby = "brush"\n'
    )
    found = [note for note in notes([SAND], more=shared) if "bare wood" in note.message]
    assert 1 == len(found)


def test_every_remark_says_its_line(notes):
    found = [n for n in notes([SAND, coat("paint", 9)]) if n.where == 'coat "paint"']
    assert 3 == len(found)  # on bare wood, many coats, dust
    assert {18} == {note.line for note in found}


def test_gel_stain_on_a_glossy_finish_is_told_to_be_sanded_under(on_steps):
    message = on_steps(stain("gel stain"), surface="varnished")[0][1]
    assert message.endswith("first sand it dull, or strip it")


def test_waterborne_over_oil_that_was_stripped_off_is_not_told(on_steps):
    found = on_steps(stain(), STRIP, coat("varnish"))
    assert not any("is waterborne over" in message for _, message in found)


def test_what_does_not_say_that_it_is_waterborne_is_not_told_over_oil(on_steps):
    products = {"stain": "oil-based stain", "x": "primer", "y": "furniture paint"}
    found = on_steps(stain(), coat("x"), coat("y"), products=products)
    assert not any("is waterborne over" in message for _, message in found)


def test_lime_wax_on_filled_grain_is_told(on_steps):
    ((where, message),) = on_steps(
        coat("filler", 1, do="fill grain"), coat("white wax", 1, do="lime wax")
    )
    assert 'lime wax "white wax"' == where
    assert message.startswith("goes on after the grain was filled in line ")
    assert "open pores" in message


def test_lime_wax_under_varnish_is_told_as_any_wax_is(on_steps):
    ((where, message),) = on_steps(coat("white wax", 1, do="lime wax"), coat("varnish"))
    assert 'coat "varnish"' == where
    assert "over the wax of line" in message


def test_lime_wax_on_grain_that_was_filled_and_stripped_is_not_told(on_steps):
    filled, limed = coat("filler", 1, do="fill grain"), coat("white wax", 1, do="lime wax")
    assert ["strip"] == [where for where, _ in on_steps(filled, TO_BARE, limed)]
