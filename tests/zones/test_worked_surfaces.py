"""The area that a coat goes on, worked out by hand for a box with a side that slides."""

from dataclasses import replace

import pytest
from piece_texts import measured, piece_text

from surfacecalc.api import MeasuredPiece
from surfacecalc.model.inputs import Input
from surfacecalc.model.shelf import Nature, Product
from surfacecalc.model.step_facts import coats_of
from surfacecalc.zones.worked_surfaces import (
    coated_m2,
    forms_film,
    share_of_session,
    tape_error,
    thirsty_m2,
)

COAT = {"do": "coat", "coats": 1, "by": "brush"}
BOX = piece_text(
    {**COAT, "product": "paint"},
    {**COAT, "product": "oil"},
    {"do": "wax hardware", "product": "wax", "hardware": "knobs", "by": "cloth"},
    part={"width": 1000, "depth": 500, "height": 200},
    zone={
        "no_film": ["board.left"],
        "thirsty": [{"faces": ["board.left", "board.top"], "times": 3}],
    },
    product=[
        {"name": "paint", "kind": "paint"},
        {"name": "oil", "kind": "oil"},
        {"name": "wax", "kind": "metallic wax"},
    ],
    hardware={
        "name": "knobs", "count": 4, "plan": "keep", "size": ["30 mm", "30 mm", "20 mm"],
    },
)  # fmt: skip
ALL, LEFT, TOP = 1.6, 0.1, 0.5
"""2 x (1 x 0.5 + 1 x 0.2 + 0.5 x 0.2), the side of 0.5 x 0.2, the top [m2]."""


@pytest.fixture(scope="module")
def box() -> MeasuredPiece:
    return measured(BOX)


@pytest.mark.parametrize(
    ("number", "area_m2", "more_m2"),
    [
        (0, ALL - LEFT, 2 * TOP),  # the film keeps off the side that slides
        (1, ALL, 2 * (TOP + LEFT)),  # oil soaks in and takes no room there
        (2, 4 * (30 * 30 + 2 * 20 * 60) / 1e6, 0.0),  # knobs drink nothing
    ],
    ids=["paint", "oil", "wax on hardware"],
)
def test_a_coat_goes_where_its_product_may(
    box: MeasuredPiece, number: int, area_m2: float, more_m2: float
) -> None:
    (zone,) = box.measured.zones
    coat = list(coats_of(zone.zone.steps))[number]
    product = box.piece.shelf.products[coat.product]
    assert area_m2 == pytest.approx(coated_m2(zone, coat, product, box.piece))
    assert more_m2 == pytest.approx(thirsty_m2(zone, coat, product))


def product_of(kind: str) -> Product:
    text = piece_text({**COAT, "product": "it"}, product={"name": "it", "kind": kind, **OWN})
    return measured(text).piece.shelf.products["it"]


OWN = {"covers": "10 m2/L"}


@pytest.mark.parametrize(
    ("kind", "is_film"),
    [("paint", True), ("shellac", True), ("oil", False), ("wax", False), ("stain", False),
     ("my grandfather's varnish", True), ("my grandfather's oil", False)],
)  # fmt: skip
def test_what_lies_on_the_wood_is_a_film_and_what_soaks_in_is_none(
    kind: str, is_film: bool
) -> None:
    assert is_film == forms_film(product_of(kind))


@pytest.mark.parametrize(
    ("family", "nature", "is_film"),
    [("paint", None, True), ("oil", None, False),
     ("paint", Nature("drying oil", "water", forms_film=False), False),
     ("oil", Nature("drying oil", "water", forms_film=True), True)],
)  # fmt: skip
def test_what_a_product_is_made_like_goes_before_its_family(
    family: str, nature: Nature | None, is_film: bool
) -> None:
    assert is_film == forms_film(replace(product_of("paint"), family=family, nature=nature))


def test_zones_of_which_nothing_is_seen_share_a_session_alike() -> None:
    """Two of them have half of it each."""
    text = piece_text(
        zone=[{"name": name, "faces": [f"board.{name}"], "surface": "bare", "schedule": "it"}
              for name in ("top", "bottom")],
        product={"name": "oil", "kind": "oil"},
        **{"schedule.it": {**COAT, "product": "oil"}},
    )  # fmt: skip
    zones = measured(text).measured.zones
    step = zones[0].zone.steps[0]
    hidden = [replace(zone, faces=()) for zone in zones]
    assert [0.5, 0.5] == [share_of_session(zone, step, hidden) for zone in hidden]
    half_seen = [zones[0], hidden[1]]
    assert [1.0, 0.0] == [share_of_session(zone, step, half_seen) for zone in half_seen]


def test_a_tape_that_is_5_mm_off_is_two_in_a_hundred_off_on_half_a_metre_square() -> None:
    """Twice 5 mm of 500 mm, on each face of a cube."""
    cube = {"width": 500, "depth": 500, "height": 500}
    text = piece_text(part=cube, zone={"leave": True, "surface": None})
    (zone,) = measured(text).measured.zones
    found = tape_error(zone, 5.0)
    assert found is not None
    assert Input("measuring", of="all") == found.what
    values = found.range
    assert (0.98, 1.0, 1.02) == pytest.approx((values.low, values.likely, values.high), abs=1e-9)
    assert tape_error(zone, 0.0) is None
