"""The catalogue's entries are whole and keep their own rules."""

import pytest

from surfacecalc.catalogue.entries import (
    abrasive_forms,
    base_words,
    family_words,
    first_coat_share,
    grades,
    loss_share,
    product_classes,
)
from surfacecalc.catalogue.kind_lookup import find_class

DRYING = [entry for entry in product_classes() if entry.drying]
METHODS = ("brush", "roller", "cloth", "spray")
NO_COAT = {"thinner", "cleaner", "glue", "hardener", "tint"}
NEVER_DRIES = {"thinner", "hardener", "tint"}
HOUR_POINTS = ("dry_h", "recoat_h", "cure_h")


def in_order(values):
    return 0 < values.low <= values.likely <= values.high


def wrong(holds, entries=None):
    """Return the names of the classes for which something does not hold."""
    return [entry.name for entry in entries or product_classes() if not holds(entry)]


def test_coverage_is_a_range_in_order_and_what_makes_no_coat_has_none():
    assert [] == wrong(lambda entry: (entry.family in NO_COAT) is (entry.coverage is None))
    assert [] == wrong(lambda entry: entry.coverage is None or in_order(entry.coverage))


def test_a_class_is_published_with_its_source_or_assumed_without():
    assert [] == wrong(lambda entry: entry.source == said_source(entry))


def said_source(found):
    return "published" if found.reference else "assumed"


def test_each_class_finds_itself_and_has_words_for_its_family():
    assert [] == wrong(lambda entry: entry == find_class(entry.name))
    assert {entry.family for entry in product_classes()} == set(family_words())
    assert all(family_words().values())


def test_the_first_coat_of_each_family_covers_no_more_than_the_next():
    shares = [first_coat_share(family) for family in family_words()]
    assert all(in_order(share) and share.high <= 1 for share in shares)


def test_what_is_never_left_on_the_wood_has_no_times():
    assert [] == wrong(lambda entry: (entry.family in NEVER_DRIES) is (entry.drying is None))


def test_nothing_takes_a_coat_before_it_is_dry_nor_is_used_before_it_takes_one():
    for entry in DRYING:
        dry, recoat, cure = (getattr(entry.drying, key).range for key in HOUR_POINTS)
        for point in ("low", "likely", "high"):
            times = [getattr(values, point) for values in (dry, recoat, cure)]
            assert sorted(times) == times, entry.name
        assert all(in_order(values) for values in (dry, recoat, cure)), entry.name


def test_a_time_is_published_with_its_source_or_assumed_without():
    for entry in DRYING:
        factors = [getattr(entry.drying, key) for key in (*HOUR_POINTS, "coldest_c")]
        assert all(one is None or one.source == said_source(one) for one in factors), entry.name


def test_only_a_finish_forms_a_film():
    """Common practice: a drying oil soaks in, hardwax oil stays on top."""
    on_top = ("paint", "casein paint", "primer", "varnish", "shellac", "lacquer")
    assert ["hardwax oil"] == wrong(
        lambda entry: entry.nature.forms_film is (entry.family in on_top)
    )
    assert find_class("hardwax oil").nature.forms_film


def test_a_brush_of_what_is_waterborne_is_cleaned_with_water():
    waterborne = [one for one in product_classes() if one.nature.chemistry == "waterborne"]
    assert [] == wrong(lambda entry: entry.nature.cleanup == "water", waterborne)


def test_a_class_that_says_its_base_hardens_as_that_base_does():
    for entry in product_classes():
        plain = f" {entry.name.replace('-', ' ')} "
        said = [
            words.chemistry
            for words in base_words().values()
            if any(f" {word} " in plain for word in words.said)
        ]
        assert said[:1] in ([], [entry.nature.chemistry]), entry.name


def test_names_are_unique():
    names = [entry.name for entry in product_classes()]
    assert len(names) == len(set(names))


def test_loss_is_a_share_below_one_and_greatest_where_it_is_sprayed():
    losses = {method: loss_share(method) for method in METHODS}
    assert all(in_order(loss) and loss.high < 1 for loss in losses.values())
    assert "spray" == max(losses, key=lambda method: losses[method].likely)


def test_what_is_sprayed_loses_what_is_published_for_spray_guns():
    """No step and no example that is worked out by hand sprays."""
    found = loss_share("spray")
    assert (0.25, 0.4, 0.75) == (found.low, found.likely, found.high)


@pytest.mark.parametrize("family", ["paint", "primer", "varnish", "shellac", "lacquer"])
def test_first_coat_of_what_stays_on_top(family):
    found = first_coat_share(family)
    assert (0.58, 0.75, 0.89) == (found.low, found.likely, found.high)


@pytest.mark.parametrize(
    "family",
    ["stain", "conditioner", "oil", "wax", "filler", "stripper", "cleaner", "casein paint"],
)
def test_labels_of_what_is_made_for_bare_wood_already_speak_of_it(family):
    found = first_coat_share(family)
    assert (1, 1, 1) == (found.low, found.likely, found.high)


def test_every_form_has_a_life_from_the_coarsest_grade_on():
    for life in abrasive_forms().values():
        assert min(grades()) == min(life)
        assert set(life) <= set(grades())
        assert all(in_order(value) for value in life.values())


def test_a_larger_abrasive_of_a_kind_lasts_longer():
    forms = abrasive_forms()
    for small, large in (("125 mm disc", "150 mm disc"), ("quarter sheet", "9 x 11 in sheet")):
        for grit, life in forms[small].items():
            assert life.likely < forms[large][grit].likely


def test_grades_run_from_coarse_to_fine():
    assert sorted(grades()) == list(grades())
    sizes = [size for size in grades().values() if size]
    assert sorted(sizes, reverse=True) == sizes
    assert len(set(sizes)) == len(sizes)
