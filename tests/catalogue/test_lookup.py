"""What a piece file names is found in the catalogue, or the nearest to it."""

import pytest

from surfacecalc.catalogue.lookup import find_class, find_life, nearest_kind, steps_too_wide


@pytest.mark.parametrize(
    ("kind", "expected"),
    [
        ("paint", "paint"),
        ("Waterborne Furniture Paint", "waterborne furniture paint"),
        ("water-based gel stain", "gel stain"),
        ("oil paint", "oil paint"),
        ("oil-based paint", "paint"),
        ("alkyd enamel", "paint"),
        ("chalk type furniture paint", "chalk-type furniture paint"),
        ("interior wood primer", "primer"),
        ("undercoat", "primer"),
        ("sanding sealer", "sealer"),
        ("shellac sealer", "sealer"),
        ("water-based polyurethane", "varnish"),
        ("oil varnish", "oil varnish"),
        ("french polish", "shellac"),
        ("spirit dye", "stain"),
        ("boiled linseed oil", "oil"),
        ("drying oil", "drying oil"),
        ("hardwax oil", "hardwax oil"),
        ("clear paste wax", "paste wax"),
        ("furniture wax", "wax"),
        ("paste grain filler", "paste grain filler"),
        ("wood putty", "filler"),
        ("paint thinner", "thinner"),
        ("mineral spirits", "thinner"),
    ],
)
def test_a_kind_finds_its_class(kind, expected):
    assert expected == find_class(kind).name


@pytest.mark.parametrize(
    ("kind", "family"),
    [
        ("polyurethane, water-based", "varnish"),
        ("varnish (oil-based)", "varnish"),
        ("paint, water based", "paint"),
        ("stain, alcohol-based", "stain"),
    ],
)
def test_what_a_product_is_based_on_does_not_make_it_another_one(kind, family):
    assert family == find_class(kind).family


@pytest.mark.parametrize("kind", ["", "   ", "soap", "paints", "unpainted", "waxed"])
def test_no_class_is_found_where_no_whole_word_names_one(kind):
    assert find_class(kind) is None


@pytest.mark.parametrize(
    ("kind", "expected"),
    [
        ("vanish", "varnish"),
        ("shelac", "shellac"),
        ("furniture piant", "waterborne furniture paint"),
        ("gel stian", "gel stain"),
        ("lacker", "lacquer"),
        ("gibberish", None),
        ("", None),
        ("  ", None),
    ],
)
def test_a_misspelled_kind_has_a_nearest_one(kind, expected):
    assert expected == nearest_kind(kind)


@pytest.mark.parametrize(
    ("form", "grit", "expected"),
    [
        ("125 mm disc", 80, 0.3),
        ("125 mm disc", 100, 0.3),
        ("125 mm disc", 120, 0.5),
        ("125 mm disc", 180, 0.5),
        ("125 mm disc", 220, 0.7),
        ("125 mm disc", 5000, 0.7),
        ("5 in disc", 120, 0.5),
        ("5 Inch Disc", 120, 0.5),
        ("9 x 11 in sheet", 12, 0.5),
        ("sheet", 12, 0.5),
        ("1/4 sheet", 220, 0.25),
    ],
)
def test_life_holds_from_its_grit_to_the_next(form, grit, expected):
    assert expected == find_life(form, grit).likely


def test_no_life_is_known_of_an_unknown_form():
    assert find_life("belt", 80) is None


def test_steps_are_looked_at_in_the_order_given():
    assert [] == steps_too_wide(())
    assert [] == steps_too_wide((80,))
    assert [] == steps_too_wide((120, 80))  # back to a coarser one: another remark's business
    ((coarse, fine, ratio),) = steps_too_wide((80, 120, 320))
    assert (120, 320) == (coarse, fine)
    assert 125 / 46.2 == ratio


def test_a_grade_without_a_published_size_is_not_judged():
    assert [] == steps_too_wide((2500, 5000))
