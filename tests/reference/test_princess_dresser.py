"""The princess dresser of a stock list of 1912 against the sum of the boards in the list.

Source: a workshop manual of 1912 on plain oak furniture, part 3, pages 10 to 13 (public domain;
Project Gutenberg eBook 23666).
"""

from pathlib import Path

import pytest

from shapes.solids import area_mm2
from surfacecalc.reading.piece_file import read_piece
from surfacecalc.zones.areas import measure

EXAMPLE = Path(__file__).parents[2] / "examples" / "princess-dresser.toml"
SQ_IN_MM2 = 25.4**2
STOCK = (
    # pieces, thickness, width, length [in], as listed; the back is listed as 4.5 sq ft of 3/8 in
    (4, 1.75, 1.75, 27),
    (1, 0.75, 17, 37),
    (5, 0.75, 1.5, 37.5),
    (4, 0.75, 2, 17.5),
    (2, 0.25, 16.25, 16.75),
    (1, 1, 7.75, 18.5),
    (1, 0.75, 4.5, 36),
    (2, 0.875, 2.5, 30),
    (2, 0.75, 2, 42),
    (2, 0.75, 2, 21.5),
    (2, 0.75, 7, 17.5),
    (1, 0.75, 7, 36),
    (5, 0.75, 2, 17),
    (6, 0.5, 7, 17),
    (2, 0.5, 17, 17),
    (1, 0.5, 17, 35.5),
    (1, 0.375, 18, 36),
)


def six_faces(thickness: float, width: float, length: float) -> float:
    return 2 * (thickness * width + thickness * length + width * length)


def test_the_model_has_the_boards_of_the_list() -> None:
    piece, problems = read_piece(EXAMPLE)
    assert problems == []
    listed = sorted(six_faces(*sizes) * SQ_IN_MM2 for count, *sizes in STOCK for _ in range(count))
    modelled = sorted(area_mm2(part.solid) for part in piece.parts)
    assert listed == pytest.approx(modelled, rel=1e-12)


def test_the_joined_dresser_shows_less_than_its_boards_and_more_than_half_of_them() -> None:
    """Half is a loose floor: joints, housings and what lies on each other hide far less."""
    piece, _ = read_piece(EXAMPLE)
    listed_m2 = sum(count * six_faces(*sizes) for count, *sizes in STOCK) * SQ_IN_MM2 / 1e6
    assert piece is not None
    exposed_m2 = measure(piece).exposed_m2
    assert listed_m2 / 2 < exposed_m2 < listed_m2
