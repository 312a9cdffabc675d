"""How large each kind of piece is: spans of the guided start's own measures, and nearly so."""

import pytest
from piece_texts import measured, piece_text

from surfacecalc.checks.usual_sizes import SizeSpan, usual_sizes
from surfacecalc.model.kind_names import KIND_NAMES
from surfacecalc.starting.piece_kinds import kind_of
from surfacecalc.starting.scales import Scale

LEFT = {"surface": None, "leave": True}


def mm(inches: str) -> float:
    return float(Scale("in").common(inches))


def ends(kind: str, *keys: str) -> list[tuple[float, float]]:
    """Return the least and the most of all measures of a kind that have one of some keys [mm]."""
    measures = [measure for measure in kind_of(kind).measures if measure.key in keys]
    return [(mm(measure.least), mm(measure.most)) for measure in measures]


@pytest.mark.parametrize(
    ("size_mm", "is_held"), [(94.1, True), (93.9, False), (211.9, True), (212.1, False)]
)
def test_a_size_may_miss_a_limit_by_6_in_a_hundred(size_mm: float, is_held: bool) -> None:
    """94 to 212 mm for 100 to 200 mm."""
    assert is_held == SizeSpan(100.0, 200.0).holds(size_mm)


@pytest.mark.parametrize("kind", KIND_NAMES)
def test_a_piece_is_as_wide_and_high_as_its_measures_allow(kind: str) -> None:
    width, _, height = usual_sizes(kind).spans
    assert ends(kind, "width") == [(width.least_mm, width.most_mm)]
    lid, back = (
        sum(most for _, most in ends(kind, key)) for key in ("lid-thickness", "back-height")
    )
    high = ends(kind, "height", "board-height", "drawer-height")
    assert min(least for least, _ in high) - lid == height.least_mm
    assert max(most for _, most in high) + back == height.most_mm


@pytest.mark.parametrize("kind", ["headboard", "mirror"])
def test_what_has_no_depth_is_as_thick_as_its_boards_and_posts(kind: str) -> None:
    found = ends(kind, "board", "post-thickness")
    depth = usual_sizes(kind).spans[1]
    assert (min(least for least, _ in found), max(most for _, most in found)) == (
        depth.least_mm,
        depth.most_mm,
    )
    assert usual_sizes(kind).is_flat


def test_loose_parts_are_as_long_as_their_box_wherever_it_is() -> None:
    """100 mm at 5 m from the corner."""
    at = {"at": [5000, 0, 0], "width": 100, "depth": 60, "height": 20, "loose": True}
    assert [] == [
        n for n in measured(piece_text(part=at, zone=LEFT)).notes if "largest side" in n.message
    ]
    (note,) = [
        n
        for n in measured(piece_text(part={**at, "width": 40, "depth": 40}, zone=LEFT)).notes
        if "largest side" in n.message
    ]
    assert note.message.startswith("its largest side is 40 mm")


def test_of_two_parts_a_tiny_one_is_told() -> None:
    board = {"name": "board", "shape": "board", "width": 500, "depth": 400, "height": 20}
    tiny = {**board, "name": "plug", "width": 4, "depth": 4, "height": 4, "at": [0, 0, 20]}
    notes = measured(piece_text(part=[board, tiny], zone=LEFT)).notes
    assert ['part "plug"'] == [n.where for n in notes if "its largest side is 4 mm" in n.message]
