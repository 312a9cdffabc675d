"""Cautions on what finishes harden with: they fire on their kinds, and are not contradicted."""

import pytest

from surfacecalc.catalogue.kind_lookup import find_class

BRUSH = 'do = "coat"; product = "x"; coats = 1; by = "brush"'
SPRAY = BRUSH.replace("brush", "spray")
TWO_PART = [
    "two-part polyurethane", "2K varnish", "two-part paint", "waterborne 2K lacquer",
    "two-component clear coat",
]  # fmt: skip
ACID = ["conversion varnish", "acid-catalysed lacquer", "precatalyzed lacquer"]


@pytest.mark.parametrize("kind", TWO_PART)
def test_two_part_finishes_tell_of_isocyanates(kind, found):
    assert f"x ({kind})" == found(BRUSH, products={"x": kind})["ISOCYANATES"].applies_to


@pytest.mark.parametrize("kind", ["varnish", "epoxy paint", "two-part epoxy primer", *ACID])
def test_other_finishes_do_not(kind, found):
    assert "ISOCYANATES" not in found(BRUSH, products={"x": kind})


def test_a_two_part_filler_is_no_urethane(found):
    fill = 'do = "fill"; product = "x"; pits = [{ count = 3, diameter = 5, depth = 3 }]'
    told = found(fill, products={"x": "two-part filler; density = '1.8 kg/L'"})
    assert "ISOCYANATES" not in told
    assert "PEROXIDE" in told


@pytest.mark.parametrize("kind", TWO_PART)
def test_sprayed_isocyanate_asks_for_supplied_air_and_no_cartridge_is_offered(kind, found):
    told = found(SPRAY, products={"x": kind})
    assert "supplied air" in told["ISOCYANATES"].text
    assert "supplied air" not in found(BRUSH, products={"x": kind})["ISOCYANATES"].text
    offering = [name for name, one in told.items() if "cartridges" in one.headline]
    assert [] == offering
    assert "SOLVENT" not in told


def test_another_sprayed_product_keeps_its_own_caution(found):
    second = SPRAY.replace('"x"', '"y"')
    told = found(SPRAY, second, products={"x": "2K varnish", "y": "waterborne varnish"})
    assert "y (waterborne varnish)" == told["SPRAY"].applies_to


@pytest.mark.parametrize("kind", ACID)
def test_acid_cured_finishes_tell_of_formaldehyde(kind, found):
    assert "formaldehyde" in found(BRUSH, products={"x": kind})["ACID_CURED"].text


def test_a_plain_varnish_does_not_tell_of_formaldehyde(found):
    assert "ACID_CURED" not in found(BRUSH, products={"x": "waterborne varnish"})


@pytest.mark.parametrize(
    ("kind", "told"),
    [
        ("lacquer", True),
        ("nitrocellulose lacquer", True),
        ("waterborne lacquer", False),
        ("acrylic lacquer", False),
        ("shellac", False),
        ("conversion varnish", False),
    ],
)
def test_solvent_lacquer_tells_of_what_dries_to_tinder(kind, told, found):
    assert told is ("NITROCELLULOSE" in found(BRUSH, products={"x": kind}))


def test_the_limit_of_spraying_is_told_where_it_is_sprayed(found):
    assert "fire code" in found(SPRAY, products={"x": "lacquer"})["NITROCELLULOSE"].text
    assert "fire code" not in found(BRUSH, products={"x": "lacquer"})["NITROCELLULOSE"].text


def test_a_spray_can_gives_off_solvent_whatever_is_in_it(found):
    assert "SOLVENT" in found(SPRAY, products={"x": "waterborne paint in a spray can, paint"})
    assert "SOLVENT" not in found(SPRAY, products={"x": "waterborne paint"})


@pytest.mark.parametrize(
    ("kind", "name"),
    [
        ("conversion varnish", "conversion varnish"),
        ("2K varnish", "two-part varnish"),
        ("2k polyurethane", "two-part varnish"),
        ("two-part polyurethane", "two-part varnish"),
        ("two-part paint", "two-part paint"),
        ("polyurethane", "varnish"),
        ("2K lacquer", "catalysed lacquer"),
        ("precatalyzed lacquer", "catalysed lacquer"),
        ("acrylic clear coat", "waterborne varnish"),
        ("wipe-on polyurethane", "wiping varnish"),
    ],
)
def test_what_is_told_apart_by_its_kind_is_no_longer_an_oil_varnish(kind, name):
    assert name == find_class(kind).name


MIXED = f'{BRUSH}; hardener = {{ product = "h", parts = "4 : 1" }}'
LIQUID = "hardener; packs = [{ size = '100 ml' }]"


def test_the_hardener_of_a_coat_is_an_isocyanate_unless_it_says_what_else(found):
    told = found(MIXED, products={"x": "waterborne varnish", "h": LIQUID})
    assert "h (hardener), x (waterborne varnish)" == told["ISOCYANATES"].applies_to
    assert "supplied air" not in told["ISOCYANATES"].text


def test_sprayed_with_a_hardener_no_cartridge_is_offered(found):
    told = found(MIXED.replace("brush", "spray"), products={"x": "waterborne varnish", "h": LIQUID})
    assert "supplied air" in told["ISOCYANATES"].text
    assert [] == [name for name, one in told.items() if "cartridges" in one.headline]


@pytest.mark.parametrize(
    ("product", "hardener"),
    [
        ("epoxy primer", LIQUID),
        ("waterborne varnish", f"epoxy {LIQUID}"),
        ("waterborne varnish", f"acid {LIQUID}"),
        ("conversion varnish", LIQUID),
    ],
)
def test_another_hardener_is_none(product, hardener, found):
    told = found(MIXED, products={"x": product, "h": hardener})
    assert "ISOCYANATES" not in told
    assert ("epoxy" in product + hardener) == ("EPOXY" in told)


@pytest.mark.parametrize(
    ("product", "hardener", "named"),
    [
        ("conversion varnish", LIQUID, "h (hardener), x (conversion varnish)"),
        ("waterborne varnish", f"acid {LIQUID}", "h (acid hardener)"),
    ],
)
def test_an_acid_hardener_tells_of_formaldehyde(product, hardener, named, found):
    assert named == found(MIXED, products={"x": product, "h": hardener})["ACID_CURED"].applies_to


def test_a_filler_s_hardener_is_none_of_them(found):
    fill = 'do = "fill"; product = "x"; pits = [{ count = 3, diameter = 5, depth = 3 }]'
    told = found(
        f'{fill}; hardener = {{ product = "h" }}',
        products={"x": "two-part filler; density = '1.8 kg/L'", "h": "hardener"},
    )
    assert {"ISOCYANATES", "ACID_CURED"}.isdisjoint(told)


@pytest.mark.parametrize("kind", ["two-part varnish", "conversion varnish"])
def test_what_is_left_in_the_cup_is_left_open(kind, found):
    """Said where something is mixed, whether or not the file names the hardener."""
    name = "ISOCYANATES" if kind == "two-part varnish" else "ACID_CURED"
    for step in (BRUSH, MIXED):
        told = found(step, products={"x": kind, **({"h": LIQUID} if step == MIXED else {})})
        assert "left in the cup open outdoors" in told[name].text
    ready = found(f"{BRUSH}; hardener = false", products={"x": kind})[name]
    assert "left in the cup" not in ready.text
    assert not any("cup" in source for source in ready.sources)
