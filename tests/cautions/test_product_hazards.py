"""Cautions on products: told by their kinds where a step takes them, and nowhere else."""

import pytest

FILL = 'do = "fill"; product = "x"; pits = [{ count = 3, diameter = 5, depth = 3 }]'
WASH = 'do = "wash"; product = "x"; strength = "3 %"'
STRIP = 'do = "strip"; product = "x"'
COAT = 'do = "coat"; product = "x"; coats = 1; by = "brush"'


def coated(found, kind, step=COAT, name="x"):
    return found(step.replace('"x"', f'"{name}"'), products={name: kind})


OILY = [
    "drying oil", "linseed oil", "tung oil", "hardwax oil", "oil-based stain", "penetrating stain",
    "oil-based gel stain", "oil varnish", "alkyd enamel", "oil paint", "oil-based conditioner",
]  # fmt: skip
UNDECIDED = ["gel stain", "stain", "varnish", "polyurethane", "glaze", "conditioner"]
NOT_OILY = [
    "waterborne paint", "paint", "water-based gel stain", "waterborne varnish", "dye", "shellac",
    "lacquer", "paste wax", "waterborne primer", "chalk-type furniture paint", "mineral oil",
    "water-based polyurethane", "water-based oil-modified polyurethane", "acrylic varnish",
]  # fmt: skip


@pytest.mark.parametrize("kind", OILY)
def test_drying_oils_and_what_is_oil_based_tell_of_oily_rags(kind, found):
    caution = coated(found, kind)["OILY_RAGS"]
    assert f"x ({kind})" == caution.applies_to
    assert "does not say" not in caution.text


@pytest.mark.parametrize("kind", UNDECIDED)
def test_what_does_not_say_its_base_counts_as_oil_based_and_the_text_says_so(kind, found):
    text = coated(found, kind)["OILY_RAGS"].text
    assert 'The kind of "x" does not say what it is based on, so it counts as oil-based' in text


@pytest.mark.parametrize("kind", NOT_OILY)
def test_waterborne_products_shellac_and_lacquer_tell_nothing_of_oily_rags(kind, found):
    assert "OILY_RAGS" not in coated(found, kind)


def test_a_name_decides_where_the_kind_does_not(found):
    assert "OILY_RAGS" not in coated(found, "gel stain", name="water-based walnut")
    told = coated(found, "gel stain", name="oil-based walnut")["OILY_RAGS"]
    assert "does not say" not in told.text


def test_a_product_that_no_step_takes_tells_nothing(found):
    assert {} == found(products={"x": "linseed oil"})


def test_a_mix_with_oil_in_it_tells_of_oily_rags(found):
    mix = (
        '[[mix]]\nname = "mixed"\n'
        'recipe = [{ product = "white", parts = 1 }, { product = "grey", parts = 1 }]\n'
    )
    products = {"white": "oil paint", "grey": "oil paint"}
    step = COAT.replace('"x"', '"mixed"')
    assert "OILY_RAGS" in found(step, products=products, more=mix)
    water = {"white": "waterborne paint", "grey": "waterborne paint"}
    assert "OILY_RAGS" not in found(step, products=water, more=mix)


@pytest.mark.parametrize("kind", ["shellac", "lacquer", *OILY, *UNDECIDED])
def test_solvents_tell_of_vapour(kind, found):
    assert "SOLVENT" in coated(found, kind)


@pytest.mark.parametrize("kind", ["waterborne paint", "waterborne varnish", "dye", "paste wax"])
def test_waterborne_products_and_wax_tell_nothing_of_vapour(kind, found):
    assert "SOLVENT" not in coated(found, kind)


def test_a_thinner_tells_of_vapour_and_water_does_not(found):
    for kind, told in (("thinner", True), ("water", False)):
        products = {"x": 'waterborne paint; thinner = "y"', "y": kind}
        assert told == ("SOLVENT" in found(f'{COAT}; thin = "5 %"', products=products))


def test_washing_with_spirits_tells_of_vapour(found):
    assert "SOLVENT" in coated(found, "mineral spirits", WASH)
    assert "SOLVENT" not in coated(found, "soap", WASH)


def test_a_filler_with_a_hardener_tells_of_peroxide_and_styrene(found):
    products = {
        "x": "wood filler; density = '1.7 kg/L'",
        "h": "hardener; density = '1.1 kg/L'",
    }
    told = found(f'{FILL}; hardener = {{ product = "h" }}', products=products)
    assert "burns the eyes" in told["PEROXIDE"].text
    assert "styrene" in told["PEROXIDE"].text


def test_a_two_part_filler_tells_of_peroxide_without_a_written_hardener(found):
    assert "PEROXIDE" in coated(found, "two-part filler; density = '1.7 kg/L'", FILL)


def test_epoxy_filler_tells_of_epoxy_and_not_of_peroxide(found):
    told = coated(found, "two-part epoxy filler; density = '1.7 kg/L'", FILL)
    assert "EPOXY" in told
    assert "PEROXIDE" not in told


def test_one_part_filler_tells_of_neither(found):
    assert not {"EPOXY", "PEROXIDE"} & set(coated(found, "wood filler; density = '1.7 kg/L'", FILL))


def test_a_stripper_tells_that_methylene_chloride_is_banned_for_consumers(found):
    told = coated(found, "stripper", STRIP)["STRIPPER"]
    assert "methylene chloride" in told.text
    assert "banned for consumers" in told.text
    assert "40 CFR 751" in told.sources


def test_a_stripper_of_methylene_chloride_is_told_by_name(found):
    told = coated(found, "methylene chloride stripper", STRIP)["STRIPPER"]
    assert 'The name or the kind of "x" says methylene chloride: do not use it' in told.text


@pytest.mark.parametrize(
    ("kind", "caustic", "vapour"),
    [
        ("caustic stripper", True, False),
        ("lye stripper", True, False),
        ("solvent stripper", False, True),
        ("stripper", True, True),
    ],
)
def test_a_caustic_stripper_and_one_that_does_not_say_tell_of_lye(kind, caustic, vapour, found):
    told = coated(found, kind, STRIP)
    assert caustic == ("tannin" in told["STRIPPER"].text)
    assert caustic == ("caustic stripper: common practice" in told["STRIPPER"].sources)
    assert vapour == ("SOLVENT" in told)


def test_stripping_by_sanding_tells_nothing_of_strippers(found):
    assert "STRIPPER" not in found('do = "strip"; grits = [80]; with = "disc"')


@pytest.mark.parametrize(
    ("kind", "name", "caution"),
    [
        ("cleaner", "trisodium phosphate", "ALKALINE"),
        ("alkaline cleaner", "x", "ALKALINE"),
        ("cleaner", "sugar soap", "ALKALINE"),
        ("cleaner", "wood bleach", "BLEACH"),
        ("oxalic acid cleaner", "x", "BLEACH"),
        ("cleaner", "x", "CLEANER"),
    ],
)
def test_cleaners_tell_of_gloves_and_of_never_mixing(kind, name, caution, found):
    told = coated(found, kind, WASH, name)
    assert {caution} == {"ALKALINE", "BLEACH", "CLEANER"} & set(told)
    assert "gloves" in told[caution].text
    assert "never mix" in told[caution].text.lower()
    assert "never mix: common practice" in told[caution].sources


@pytest.mark.parametrize("kind", ["soap", "water", "mineral spirits"])
def test_soap_water_and_spirits_tell_nothing_of_cleaners(kind, found):
    assert not {"ALKALINE", "BLEACH", "CLEANER"} & set(coated(found, kind, WASH))


def test_spraying_is_told_and_brushing_is_not(found):
    assert "SPRAY" in coated(found, "waterborne paint", COAT.replace("brush", "spray"))
    assert "SPRAY" not in coated(found, "waterborne paint")
