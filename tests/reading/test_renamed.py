"""A product that was renamed in its table only: the message asks about the new name."""

from typing import Any

import pytest
from piece_texts import piece_text

from surfacecalc.api import read_piece_text

STAIN = {"name": "stain", "kind": "penetrating stain"}
PAINT = {"name": "slate blue", "kind": "waterborne furniture paint"}
SPARE = {"name": "spare", "kind": "oil varnish"}


def coat(product: str, do: str = "coat") -> dict[str, Any]:
    return {"do": do, "product": product, "coats": 2, "by": "brush"}


def said(product: str, *products: dict[str, Any]) -> str:
    """Return the one mistake where a step names a product that the file does not have."""
    steps = (coat("stain", "stain"), coat(product))
    reading = read_piece_text(piece_text(*steps, product=list(products)))
    assert reading.piece is None
    (line,) = [line for line in reading.lines if ": note: " not in line]
    return str(line)


def test_the_one_product_that_no_step_uses_is_asked_about() -> None:
    right = (
        'product = "paint" is not a product in this file;'
        ' no step uses "slate blue", so give both the same name'
    )
    assert said("paint", STAIN, PAINT).endswith(right)


def test_product_used_elsewhere_is_not_asked_about() -> None:
    thinned = {**STAIN, "thinner": "slate blue"}
    assert 'did you mean "stain"?' in said("paint", thinned, PAINT)


def test_kind_that_is_the_name_of_a_product_does_not_use_it() -> None:
    glaze = {"name": "glaze", "kind": "glaze"}
    assert 'no step uses "glaze", so give both the same name' in said("undercoat", STAIN, glaze)


def test_of_two_that_no_step_uses_none_is_asked_about() -> None:
    assert "give both" not in said("paint", STAIN, PAINT, SPARE)


@pytest.mark.parametrize("name", ["slate bleu", "stian", "Slate blue"])
def test_typing_mistake_is_one(name: str) -> None:
    assert "did you mean" in said(name, STAIN, PAINT)


def test_sandpaper_is_asked_about_likewise() -> None:
    sand = {"do": "sand", "grits": [120], "with": "sheet"}
    disc = {"name": "round pad", "form": "125 mm disc"}
    reading = read_piece_text(piece_text(sand, abrasive=disc))
    assert 'no step uses "round pad", so give both the same name' in reading.lines[0]
