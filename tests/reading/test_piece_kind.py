"""The kind of a piece: written, or a word of its name; mistakes say what was meant."""

import pytest

from surfacecalc.model.kind_names import KIND_NAMES
from surfacecalc.reading.piece_kind import kind_in
from surfacecalc.starting.piece_kinds import KINDS, MESH

FILE = """\
[piece]
name = "{name}"
{kind}unit = "mm"
[[part]]
name = "top"
shape = "board"
width = 500
depth = 400
height = 20
[[zone]]
name = "all"
faces = ["*"]
leave = true
"""


def file_of(name, kind=None):
    return FILE.format(name=name, kind="" if kind is None else f"kind = {kind}\n")


def test_every_kind_that_is_laid_out_is_known():
    assert {kind.key for kind in KINDS} - {MESH} == set(KIND_NAMES)


@pytest.mark.parametrize("kind", KIND_NAMES)
def test_a_written_kind_is_kept_whatever_the_name(kind, piece_of):
    assert kind == piece_of(file_of("Grandmother's chair", f'"{kind}"')).settings.kind


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("Pine dresser", "dresser"),
        ("HALL TABLE", "table"),
        ("Bedside tables", "table"),
        ("Two benches", "bench"),
        ("Desk chair", "chair"),
        ("Writing table, 1912", "table"),
        ("Spindle-back chair", "chair"),
        ("Chest of drawers", "dresser"),
        ("Chests of drawers", "dresser"),
        ("Blanket chest", "chest"),
        ("Dresser with mirror", "dresser"),
        ("Mirror for the dresser", "mirror"),
        ("Stool for the dresser", None),
        ("Tabletop", None),
        ("Washstand", None),
        ("", None),
    ],
)
def test_the_last_word_for_a_kind_in_the_name_tells_it(name, kind):
    assert kind == kind_in(name)


def test_a_kind_that_is_left_out_is_taken_from_the_name(piece_of):
    assert "table" == piece_of(file_of("Hall table")).settings.kind
    assert piece_of(file_of("Plant stand")).settings.kind is None


@pytest.mark.parametrize(
    ("kind", "message"),
    [
        ('"dreser"', 'kind = "dreser" is not known; did you mean "dresser"?'),
        ('"Table"', 'kind = "Table" is not known; did you mean "table"?'),
        ('"mesh"', f'kind = "mesh" is not known; use one of {", ".join(KIND_NAMES)}'),
        ('"sofa"', f'kind = "sofa" is not known; use one of {", ".join(KIND_NAMES)}'),
        ('""', f'kind = "" is not known; use one of {", ".join(KIND_NAMES)}'),
        ("3", f"kind = 3 is not known; use one of {', '.join(KIND_NAMES)}"),
        ("true", f"kind = true is not known; use one of {', '.join(KIND_NAMES)}"),
        ('["table"]', f'kind = ["table"] is not known; use one of {", ".join(KIND_NAMES)}'),
    ],
)
def test_a_kind_that_is_none_is_told_with_what_is_known(kind, message, read):
    piece, problems = read(file_of("Hall table", kind))
    assert piece is None
    assert [(3, message)] == [(problem.line, problem.message) for problem in problems]
