"""Lead, wood dust and silica: told where a step sets them free, and nowhere else."""

import pytest

SAND = 'do = "sand"; grits = [180, 220]; with = "disc"'
RUB = 'do = "rub out"; grits = [1000]; with = "disc"'
SAND_TO_BARE = 'do = "strip"; grits = [80, 120]; with = "disc"'
STRIP = 'do = "strip"; product = "stripper"'
WASH = 'do = "wash"; product = "soap"; strength = "1 %"'
FILL = 'do = "fill"; product = "filler"; pits = [{ count = 3, diameter = 5, depth = 3 }]'
PRODUCTS = {
    "stripper": "stripper",
    "soap": "soap",
    "filler": "wood filler; density = '1.5 kg/L'",
    "grain filler": "waterborne grain filler",
}


@pytest.mark.parametrize("step", [SAND, RUB, SAND_TO_BARE, STRIP])
@pytest.mark.parametrize("surface", ["sealed", "varnished", "painted"])
def test_wearing_off_an_old_coating_tells_of_lead(step, surface, found):
    told = found(step, surface=surface, products=PRODUCTS, head="built = 1950")
    assert f'"all" is {surface}; built 1950' == told["LEAD"].applies_to


US = '[workshop]\ncountry = "US"'
UK = '[workshop]\ncountry = "UK"'
FRANCE = '[workshop]\ncountry = "France"'


@pytest.mark.parametrize(
    ("year", "more", "warned"),
    [(1977, US, True), (1978, US, True), (1979, US, False),
     (1991, UK, True), (1992, UK, True), (1993, UK, False),
     (1979, "", True), (1992, "", True), (1993, "", False),
     (1979, FRANCE, True), (1992, FRANCE, True), (1993, FRANCE, False)],
)  # fmt: skip
def test_lead_is_warned_of_up_to_the_year_in_which_its_ban_began(year, more, warned, found):
    """16 CFR 1303.4: made after 27 February 1978; SI 1992/31: from 28 February 1992 on."""
    shown = found(SAND, surface="painted", head=f"built = {year}", more=more)
    assert warned == ("LEAD" in shown)
    assert warned == ("WOOD_DUST_WITH_LEAD" in shown)


@pytest.mark.parametrize("head", ['built = "unknown"', 'currency = "EUR"'])
@pytest.mark.parametrize("more", ["", US, UK, FRANCE])
def test_lead_is_warned_of_where_the_year_is_not_known(head, more, found):
    assert "LEAD" in found(SAND, surface="painted", head=head, more=more)


@pytest.mark.parametrize(
    ("year", "more", "reason"),
    [
        (1978, US, "lead paint was banned in the United States on 28 February 1978"),
        (1985, UK, "lead paint was banned in the United Kingdom on 28 February 1992"),
        (1985, "", "[workshop] gives no country, so the latest ban counts (the United Kingdom,"
                   " 28 February 1992)"),
        (1985, FRANCE, 'no ban is known here for "France", so the latest ban counts (the United'
                       " Kingdom, 28 February 1992)"),
    ],
)  # fmt: skip
def test_lead_says_which_ban_it_goes_by_in_one_sentence(year, more, reason, found):
    shown = found(SAND, surface="painted", head=f"built = {year}", more=more)["LEAD"]
    assert f'"all" is painted; built {year}; {reason}' == shown.applies_to


def test_a_piece_older_than_every_ban_needs_no_country_for_its_caution(found):
    shown = found(SAND, surface="painted", head="built = 1978")["LEAD"]
    assert '"all" is painted; built 1978' == shown.applies_to


@pytest.mark.parametrize(("step", "surface"), [(SAND, "bare"), (WASH, "painted")])
def test_bare_wood_and_washing_alone_tell_nothing_of_lead(step, surface, found):
    assert "LEAD" not in found(step, surface=surface, products=PRODUCTS, head="built = 1950")


@pytest.mark.parametrize("word", ["dry-sand", "1100 F", "HEPA", "pregnant", "N100"])
def test_lead_says_what_lead_safe_work_is(word, found):
    assert word in found(SAND, surface="painted", head="built = 1950")["LEAD"].text


@pytest.mark.parametrize("step", [SAND, SAND_TO_BARE])
def test_sanding_tells_of_wood_dust(step, found):
    assert 'sanding "all"' == found(step)["WOOD_DUST"].applies_to


@pytest.mark.parametrize("step", [RUB, STRIP, WASH])
def test_what_is_not_sanded_tells_nothing_of_wood_dust(step, found):
    assert "WOOD_DUST" not in found(step, products=PRODUCTS)


@pytest.mark.parametrize("fill", [FILL, 'do = "fill grain"; product = "grain filler"'])
def test_filler_that_is_sanded_tells_of_silica(fill, found):
    assert "SILICA" in found(fill, SAND, products=PRODUCTS)
    assert "SILICA" not in found(SAND, fill, products=PRODUCTS)
    assert "SILICA" not in found(SAND)


def test_where_lead_is_possible_one_respirator_is_named_and_it_is_the_stronger(found):
    told = found(SAND, surface="painted", head="built = 1950")
    assert "WOOD_DUST" not in told
    headlines = " ".join(caution.headline for caution in told.values())
    assert "N100" in headlines
    assert "N95" not in headlines
    assert "HEPA" in told["WOOD_DUST_WITH_LEAD"].headline


@pytest.mark.parametrize("given", [{"head": "built = 1993"}, {"surface": "bare"}])
def test_without_lead_an_ordinary_dust_respirator_is_named(given, found):
    told = found(SAND, **({"surface": "painted", "head": "built = 1950"} | given))
    assert "N95" in told["WOOD_DUST"].headline


def test_once_lead_was_found_nobody_is_told_to_test_for_it(found):
    shown = found(STRIP, surface="painted", products=PRODUCTS, head='lead = "found"')
    assert "LEAD" not in shown
    assert '"all" is painted' == shown["LEAD_FOUND"].applies_to
    assert "work wet" in shown["LEAD_FOUND"].headline
