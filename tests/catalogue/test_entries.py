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

CLASSES = pytest.mark.parametrize("entry", product_classes(), ids=lambda entry: entry.name)
DRYING = pytest.mark.parametrize(
    "entry", [e for e in product_classes() if e.drying], ids=lambda entry: entry.name
)
METHODS = ("brush", "roller", "cloth", "spray")
NO_COAT = {"thinner", "cleaner", "glue", "hardener", "tint"}
NEVER_DRIES = {"thinner", "hardener", "tint"}
HOUR_POINTS = ("dry_h", "recoat_h", "cure_h")


def in_order(values):
    return 0 < values.low <= values.likely <= values.high


@CLASSES
def test_coverage_is_a_range_in_order_and_what_makes_no_coat_has_none(entry):
    assert (entry.family in NO_COAT) is (entry.coverage is None)
    assert entry.coverage is None or in_order(entry.coverage)


@CLASSES
def test_a_class_is_published_with_an_address_or_assumed_without(entry):
    assert entry.source in ("published", "assumed")
    assert (entry.source == "published") is ("http" in entry.reference)


@CLASSES
def test_each_class_finds_itself(entry):
    assert entry == find_class(entry.name)


@CLASSES
def test_each_family_has_words_and_a_first_coat(entry):
    assert family_words()[entry.family]
    assert in_order(first_coat_share(entry.family))
    assert first_coat_share(entry.family).high <= 1


@CLASSES
def test_what_is_never_left_on_the_wood_has_no_times(entry):
    assert (entry.family in NEVER_DRIES) is (entry.drying is None)


@DRYING
def test_nothing_takes_a_coat_before_it_is_dry_nor_is_used_before_it_takes_one(entry):
    dry, recoat, cure = (getattr(entry.drying, key).range for key in HOUR_POINTS)
    for point in ("low", "likely", "high"):
        assert 0 < getattr(dry, point) <= getattr(recoat, point) <= getattr(cure, point)
    assert all(in_order(values) for values in (dry, recoat, cure))


@DRYING
def test_a_time_is_published_with_an_address_or_assumed_without(entry):
    factors = [getattr(entry.drying, key) for key in HOUR_POINTS]
    factors += [entry.drying.coldest_c] if entry.drying.coldest_c else []
    for factor in factors:
        assert factor.source in ("published", "assumed")
        assert (factor.source == "published") is ("http" in factor.reference)


@CLASSES
def test_only_a_finish_forms_a_film(entry):
    """Common practice, no source: a drying oil soaks in, hardwax oil stays on top."""
    if entry.name == "hardwax oil":
        assert entry.nature.forms_film
    else:
        on_top = ("paint", "casein paint", "primer", "varnish", "shellac", "lacquer")
        assert entry.nature.forms_film is (entry.family in on_top)


@CLASSES
def test_a_brush_of_what_is_waterborne_is_cleaned_with_water(entry):
    if entry.nature.chemistry == "waterborne":
        assert entry.nature.cleanup == "water"


@CLASSES
def test_a_class_that_says_its_base_hardens_as_that_base_does(entry):
    plain = f" {entry.name.replace('-', ' ')} "
    for words in base_words().values():
        if any(f" {word} " in plain for word in words.said):
            assert words.chemistry == entry.nature.chemistry
            break


@pytest.mark.parametrize("family", family_words())
def test_each_family_with_words_has_a_class(family):
    assert family in {entry.family for entry in product_classes()}


def test_names_are_unique():
    names = [entry.name for entry in product_classes()]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("method", METHODS)
def test_loss_is_a_share_below_one(method):
    assert in_order(loss_share(method))
    assert loss_share(method).high < 1


@pytest.mark.parametrize(
    ("method", "expected"),
    [
        ("brush", (0.1, 0.1, 0.1)),
        ("roller", (0.1, 0.1, 0.1)),
        ("cloth", (0.15, 0.15, 0.15)),
        ("spray", (0.25, 0.4, 0.75)),
    ],
)
def test_loss_where_a_step_says_none(method, expected):
    found = loss_share(method)
    assert expected == (found.low, found.likely, found.high)


@pytest.mark.parametrize(
    "family",
    ["stain", "conditioner", "oil", "wax", "filler", "stripper", "cleaner", "casein paint"],
)
def test_labels_of_what_is_made_for_bare_wood_already_speak_of_it(family):
    found = first_coat_share(family)
    assert (1, 1, 1) == (found.low, found.likely, found.high)


@pytest.mark.parametrize("family", ["paint", "primer", "varnish", "shellac", "lacquer"])
def test_first_coat_of_what_stays_on_top(family):
    found = first_coat_share(family)
    assert (0.67, 0.75, 0.83) == (found.low, found.likely, found.high)


@pytest.mark.parametrize("form", abrasive_forms())
def test_every_form_has_a_life_from_the_coarsest_grade_on(form):
    life = abrasive_forms()[form]
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
