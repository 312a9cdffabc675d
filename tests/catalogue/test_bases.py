"""What a product is based on is told by its kind; where that is silent, by class and name."""

import pytest

from surfacecalc.catalogue.bases import base_of, says
from surfacecalc.catalogue.kind_lookup import find_class
from surfacecalc.model.shelf import Component, Product


def product(kind, name="x", recipe=()):
    entry = find_class(kind)
    family, nature = (entry.family, entry.nature) if entry else ("mix", None)
    return Product(name, kind, family, "volume", (), (), 0.0, None, 1, recipe=recipe, nature=nature)


@pytest.mark.parametrize(
    ("kind", "base"),
    [
        ("waterborne varnish", "water"),
        ("water-based gel stain", "water"),
        ("water stain", "water"),
        ("water", "water"),
        ("acrylic varnish", "water"),
        ("milk paint", "water"),
        ("chalk-type furniture paint", "water"),
        ("water-white lacquer", "solvent"),
        ("shellac", "solvent"),
        ("mineral spirits", "solvent"),
        ("stripper", "solvent"),
        ("linseed oil", "drying oil"),
        ("oil-based stain", "drying oil"),
        ("penetrating stain", "drying oil"),
        ("alkyd enamel", "drying oil"),
        ("mineral oil", "other"),
        ("oil soap", "other"),
        ("paste wax", "other"),
        ("lime wax", "other"),
        ("white liming wax", "other"),
        ("lime paint", "water"),
        ("two-part filler", "other"),
        ("gel stain", "unknown"),
        ("varnish", "unknown"),
        ("grain filler", "unknown"),
    ],
)
def test_a_kind_tells_the_base(kind, base):
    assert base == base_of(product(kind))


@pytest.mark.parametrize(
    ("name", "base"),
    [("oil-based walnut", "drying oil"), ("waterborne walnut", "water"), ("walnut", "unknown")],
)
def test_a_name_tells_the_base_where_the_kind_does_not(name, base):
    assert base == base_of(product("gel stain", name))


def test_a_mix_has_the_base_of_its_part_that_asks_most_care():
    parts = tuple(Component(product(kind), 0.5) for kind in ("waterborne paint", "oil paint"))
    assert "drying oil" == base_of(product("mixed", recipe=parts))
    assert "water" == base_of(product("mixed", recipe=parts[:1]))


def test_words_are_found_whole_and_in_one_phrase():
    gel = product("gel-type stripper", "tsp wash")
    assert says(gel, "gel type")
    assert not says(gel, "strip", "tsp")
    assert says(gel, "tsp", by_name=True)
