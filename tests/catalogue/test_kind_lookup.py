"""The kind of a product finds its class, by its words."""

from dataclasses import replace

import pytest

from surfacecalc.catalogue.entries import product_classes
from surfacecalc.catalogue.kind_lookup import family_of, find_class, known_classes, nearest_kind
from surfacecalc.model.ranges import Range
from surfacecalc.model.shelf import Nature


def own_class(name, family, covers, nature):
    return replace(
        product_classes()[0], name=name, family=family, coverage=Range.fixed(covers),
        source="own record", nature=nature, spellings=(),
    )  # fmt: skip


OWN = own_class("house varnish", "varnish", 14.0, Nature("waterborne", "water", True))


@pytest.mark.parametrize(
    ("kind", "expected"),
    [
        ("paint", "paint"),
        ("latex paint", "waterborne paint"),
        ("Waterborne Furniture Paint", "waterborne furniture paint"),
        ("furniture paint", "paint"),
        ("oil-based furniture paint", "oil-based paint"),
        ("oil paint", "oil paint"),
        ("oil-based paint", "oil-based paint"),
        ("paint, oil-based", "oil-based paint"),
        ("enamel", "enamel"),
        ("alkyd enamel", "alkyd enamel"),
        ("enamel (oil-based)", "alkyd enamel"),
        ("chalk type furniture paint", "chalk-type furniture paint"),
        ("milk paint powder", "casein paint powder"),
        ("milk paint", "paint"),
        ("interior wood primer", "primer"),
        ("undercoat", "primer"),
        ("oil primer", "oil-based primer"),
        ("undercoat, oil-based", "oil-based primer"),
        ("stain blocker", "stain-blocking primer"),
        ("water-based stain-blocking primer", "waterborne stain-blocking primer"),
        ("shellac-based stain blocker", "shellac-based stain-blocking primer"),
        ("shellac primer", "shellac-based stain-blocking primer"),
        ("sanding sealer", "sanding sealer"),
        ("water-based sanding sealer", "waterborne sanding sealer"),
        ("shellac sealer", "shellac-based sealer"),
        ("polyurethane", "varnish"),
        ("water-based polyurethane", "waterborne varnish"),
        ("polyurethane, water-based", "waterborne varnish"),
        ("oil-modified polyurethane", "oil-based varnish"),
        ("oil varnish", "oil varnish"),
        ("acrylic varnish", "waterborne varnish"),
        ("french polish", "shellac"),
        ("acrylic lacquer", "lacquer"),
        ("water-based lacquer", "waterborne lacquer"),
        ("oil stain", "oil-based stain"),
        ("water stain", "waterborne stain"),
        ("water-based gel stain", "waterborne gel stain"),
        ("gel stain", "gel stain"),
        ("oil-based gel stain", "oil-based gel stain"),
        ("spirit dye", "alcohol-based dye"),
        ("alcohol dye", "alcohol-based dye"),
        ("powder dye", "dye"),
        ("antique glaze", "glaze"),
        ("pre-stain wood conditioner", "conditioner"),
        ("boiled linseed oil", "oil"),
        ("drying oil", "drying oil"),
        ("hardwax oil", "hardwax oil"),
        ("clear paste wax", "paste wax"),
        ("furniture wax", "wax"),
        ("metallic wax", "metallic wax"),
        ("gilding wax", "metallic wax"),
        ("lime wax", "liming wax"),
        ("white liming wax", "liming wax"),
        ("paste grain filler", "paste grain filler"),
        ("two-part wood filler", "two-part filler"),
        ("two part filler", "two-part filler"),
        ("2k filler", "two-part filler"),
        ("2K varnish", "two-part varnish"),
        ("2-K clear coat", "two-part varnish"),
        ("two-pack varnish", "two-part varnish"),
        ("two-component polyurethane", "two-part varnish"),
        ("two-part epoxy varnish", "two-part varnish"),
        ("waterborne 2k varnish", "two-part varnish"),
        ("2 pack lacquer", "catalysed lacquer"),
        ("2-component paint", "two-part paint"),
        ("2k enamel", "two-part paint"),
        ("conversion varnish", "conversion varnish"),
        ("acid-catalysed varnish", "conversion varnish"),
        ("wipe-on poly", "wiping varnish"),
        ("wipe-on oil varnish", "wiping varnish"),
        ("acrylic clear coat", "waterborne varnish"),
        ("clear acrylic", "waterborne varnish"),
        ("clear acrylic top coat", "waterborne varnish"),
        ("gilders wax", "metallic wax"),
        ("wood filler", "wood filler"),
        ("wood putty", "putty"),
        ("filler hardener", "hardener"),
        ("wood glue", "glue"),
        ("degreaser", "cleaner"),
        ("paint stripper", "stripper"),
        ("varnish remover", "stripper"),
        ("tinting color", "tinting colour"),
        ("paint thinner", "thinner"),
        ("mineral spirits", "thinner"),
        ("denatured alcohol", "alcohol"),
        ("lacquer thinner", "lacquer thinner"),
        ("water", "water"),
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
        ("tack cloth", None),
    ],
)
def test_what_a_product_is_based_on_does_not_make_it_another_one(kind, family):
    found = find_class(kind)
    assert family == family_of(kind)
    assert family == (found and found.family)


@pytest.mark.parametrize(
    ("kind", "chemistry", "cleanup"),
    [
        ("oil-based dye", "drying oil", "spirits"),
        ("alcohol-based stain", "evaporating solvent", "alcohol"),
        ("water-based hardwax oil", "waterborne", "water"),
        ("solvent-based lacquer", "evaporating solvent", "lacquer thinner"),
        ("water-based wax", "wax", "spirits"),
        ("oil soap", "waterborne", "water"),
        ("waterborne alkyd enamel", "waterborne", "water"),
    ],
)
def test_where_no_class_says_the_base_the_kind_does(kind, chemistry, cleanup):
    found = find_class(kind).nature
    assert (chemistry, cleanup) == (found.chemistry, found.cleanup)


def test_oil_based_dye_waits_as_long_as_an_oil_based_stain():
    assert find_class("oil-based stain").drying == find_class("oil-based dye").drying


def test_waterborne_gel_stain_is_soon_ready_where_an_oil_based_one_waits_six_to_eight_hours():
    """Common practice."""
    kinds = ("oil-based gel stain", "water-based gel stain")
    slow, soon = (find_class(kind).drying.recoat_h for kind in kinds)
    assert (6, 8) == (slow.range.low, slow.range.high)
    assert soon.range.high < slow.range.low


@pytest.mark.parametrize("base", ["water-based", "waterborne", "oil-based"])
@pytest.mark.parametrize("kind", ["paint", "primer", "varnish", "stain", "gel stain", "glaze"])
def test_the_same_product_is_sooner_ready_where_it_is_waterborne(kind, base):
    """Common practice."""
    found = find_class(f"{base} {kind}")
    assert ("drying oil" if base == "oil-based" else "waterborne") == found.nature.chemistry
    oil_based = find_class(f"oil-based {kind}").drying.recoat_h.range.likely
    assert (found.drying.recoat_h.range.likely < oil_based) is (base != "oil-based")


@pytest.mark.parametrize("kind", ["", "   ", "tack cloth", "paints", "unpainted", "waxed", "alkyd"])
def test_no_class_is_found_where_no_whole_word_names_one(kind):
    assert find_class(kind) is None


def test_each_spelling_finds_its_class():
    spellings = [spelling for entry in product_classes() for spelling in entry.spellings]
    assert [] == [one for one in spellings if one not in find_class(one).spellings]


@pytest.mark.parametrize(
    ("kind", "expected"),
    [
        ("vanish", "varnish"),
        ("shelac", "shellac"),
        ("furniture piant", "furniture paint"),
        ("gel stian", "gel stain"),
        ("lacker", "lacquer"),
        ("wood gleu", "wood glue"),
        ("gibberish", None),
        ("", None),
        ("  ", None),
    ],
)
def test_a_misspelled_kind_has_a_nearest_one(kind, expected):
    assert expected == nearest_kind(kind)


def test_own_class_is_found_by_its_name_and_leaves_the_others_alone():
    assert OWN == find_class("matt house varnish", (OWN,))
    assert "varnish" == find_class("varnish", (OWN,)).name
    assert product_classes() == known_classes(())


def test_own_class_with_a_built_in_name_takes_its_place():
    own = own_class("shellac", "shellac", 7.0, Nature("evaporating solvent", "alcohol", True))
    assert own == find_class("blond shellac", (own,))
    assert len(product_classes()) == len(known_classes((own,)))


def test_own_class_without_a_word_of_any_family_is_found_too():
    own = own_class("secret sauce", "oil", 7.0, Nature("drying oil", "spirits", False))
    assert find_class("secret sauce") is None
    assert own == find_class("secret sauce", (own,))
    assert "secret sauce" == nearest_kind("secret sause", (own,))


@pytest.mark.parametrize("kind", ["2k primer", "epoxy primer"])
def test_what_is_mixed_from_two_parts_hardens_in_two_parts_whatever_its_class(kind):
    assert find_class(kind).nature.chemistry == "two-part"
    assert find_class(kind.split()[-1]).nature.chemistry != "two-part"


@pytest.mark.parametrize(
    ("kind", "days"),
    [
        ("shellac", 2),
        ("lacquer", 2),
        ("oil varnish", 7),
        ("polyurethane, oil-based", 7),
        ("wiping varnish", 7),
        ("waterborne varnish", 21),
        ("waterborne wiping varnish", 21),
        ("acrylic clear coat", 21),
        ("chalk-type furniture paint", 1),
    ],
)
def test_a_film_waits_for_its_class_before_it_is_rubbed_out(kind, days):
    """Days of a woodworking magazine, assumed; chalk-type paint is waxed the next day."""
    found = find_class(kind).drying.rub_out_h
    assert (days * 24, "assumed") == (found.range.likely, found.source)


def test_what_leaves_no_film_has_no_wait_before_rubbing_out():
    assert find_class("oil-based stain").drying.rub_out_h is None
