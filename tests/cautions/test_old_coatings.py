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


@pytest.mark.parametrize(
    ("head", "told"),
    [
        ("built = 1977", True),
        ("built = 1978", False),
        ('built = "unknown"', True),
        ('currency = "EUR"', True),
    ],
)
def test_lead_is_told_before_1978_and_where_the_year_is_not_known(head, told, found):
    assert told == ("LEAD" in found(SAND, surface="painted", head=head))


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


@pytest.mark.parametrize("given", [{"head": "built = 1990"}, {"surface": "bare"}])
def test_without_lead_an_ordinary_dust_respirator_is_named(given, found):
    told = found(SAND, **({"surface": "painted", "head": "built = 1950"} | given))
    assert "N95" in told["WOOD_DUST"].headline
