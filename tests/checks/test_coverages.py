"""A coverage far from its kind's is asked about; one that a label may say is not."""

from pathlib import Path

import pytest

from surfacecalc.catalogue.kind_lookup import find_class
from surfacecalc.checks.coverages import check_coverage
from surfacecalc.reading.piece_file import read_piece

PIECE = """\
[piece]
name = "Shelf"
unit = "in"
[[part]]
name = "shelf"
shape = "board"
width = 24
depth = 9
height = 1
[[zone]]
name = "all"
faces = ["*"]
surface = "bare"
[[zone.step]]
do = "coat"
product = "it"
coats = 2
by = "brush"
[[product]]
name = "it"
kind = "KIND"
COVERS
"""


def notes(tmp_path: Path, kind: str, covers: str) -> list[str]:
    path = tmp_path / "shelf.toml"
    path.write_text(PIECE.replace("KIND", kind).replace("COVERS", covers))
    piece, problems = read_piece(path)
    assert piece is not None, problems
    return [problem.message for problem in check_coverage(piece)]


@pytest.mark.parametrize(("times", "is_told"), [(3.99, False), (4.01, True)])
def test_four_times_as_much_or_as_little_is_the_limit(tmp_path: Path, times: float, is_told: bool):
    usual = find_class("oil varnish")
    assert usual is not None
    assert usual.coverage is not None
    for covers in (usual.coverage.high * times, usual.coverage.low / times):
        found = notes(tmp_path, "oil varnish", f'covers = "{covers:.6f} m2/L"')
        assert is_told == bool(found)


@pytest.mark.parametrize(
    ("kind", "covers"),
    [
        ("waterborne furniture paint", "750 ft2/quart"),
        ("waterborne furniture paint", "1 m2/L"),
        ("waterborne furniture paint", "7.5 ft2/quart"),
        ("oil varnish", "120 m2/L"),
        ("paste wax", "2 m2/kg"),
    ],
)
def test_a_figure_too_many_or_too_few_is_asked_about(tmp_path: Path, kind: str, covers: str):
    told = notes(tmp_path, kind, f'covers = "{covers}"')
    assert 1 == len(told)
    assert "is a digit or the unit wrong?" in told[0]
    assert kind.rpartition(" ")[2] in told[0]


@pytest.mark.parametrize(
    ("kind", "covers"),
    [
        ("waterborne furniture paint", '"75 ft2/quart"'),
        ("waterborne furniture paint", '"16 m2/L"'),
        ("waterborne furniture paint", '["5 m2/L", "8 m2/L", "10 m2/L"]'),
        ("oil varnish", '"20 m2/L"'),
        ("paste wax", '"100 ft2/lb"'),
        ("paste wax", '"1 m2/L"'),  # sold by volume, where what is known is by weight
    ],
)
def test_what_a_label_may_say_passes(tmp_path: Path, kind: str, covers: str) -> None:
    assert [] == notes(tmp_path, kind, f"covers = {covers}")


def test_what_is_assumed_or_worked_out_from_solids_passes(tmp_path: Path) -> None:
    assert [] == notes(tmp_path, "waterborne furniture paint", "")
    thin = 'solids = "30 %"\ndry_film = "500 um"'
    assert [] == notes(tmp_path, "waterborne furniture paint", thin)


@pytest.mark.parametrize(
    ("covers", "said"),
    [
        ("10 to 20 ft2/quart", "covers 10 to 20 sq ft/qt, but"),
        ("12 ft2/quart", "covers 12 sq ft/qt, but"),
    ],
)
def test_a_range_is_quoted_with_both_its_ends(tmp_path: Path, covers: str, said: str) -> None:
    (note,) = notes(tmp_path, "waterborne furniture paint", f'covers = "{covers}"')
    assert note.startswith(said)
