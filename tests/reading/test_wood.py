"""What a zone is made of: a thickness of veneer that is none is one clear line."""

import pytest
from piece_texts import piece_text

from surfacecalc.api import read_piece_text


@pytest.mark.parametrize("veneer", ["thin", "true", ""])
def test_a_word_for_veneer_is_asked_for_true_or_a_thickness(veneer):
    (mistake,) = read_piece_text(piece_text({"do": "dust off"}, piece={"veneer": veneer})).problems
    assert (
        f'veneer = "{veneer}" must be true without quotes, or how thick it is, such as "0.6 mm"'
        == mistake.message
    )


@pytest.mark.parametrize(("veneer", "thick_mm"), [(True, None), ("1/32 in", 25.4 / 32)])
def test_veneer_is_true_or_a_thickness(veneer, thick_mm):
    piece = read_piece_text(piece_text({"do": "dust off"}, piece={"veneer": veneer})).piece
    wood = piece.zones[0].wood
    assert wood.is_veneer
    assert wood.veneer_mm == pytest.approx(thick_mm)
