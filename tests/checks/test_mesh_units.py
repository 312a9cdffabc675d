"""The wrong unit of a mesh is told, whether it is loose or joined, whatever its kind of file."""

from pathlib import Path

import pytest
from mesh_file_makers import GOOD, write
from polygon_makers import FILES, prism

from surfacecalc.api import measure, read_piece_text
from surfacecalc.model.kind_names import KIND_NAMES, with_article

pytest.importorskip("trimesh")
pytest.importorskip("embreex")

CHAIR = prism([(0, 0), (0.45, 0), (0.45, 0.5), (0, 0.5)], 0.9)
"""As large as a chair, in metres."""


def notes(folder: Path, name: str, part: str, head: str = "") -> list[str]:
    """Return the notes on sizes of a piece of one mesh, each with its place."""
    job = measure(
        read_piece_text(
            f'[piece]\nname = "Piece"\nunit = "in"\n{head}\n[[part]]\nname = "all of it"\n'
            f'shape = "mesh"\nfile = "{name}"\n{part}\n[[zone]]\nname = "all"\nfaces = ["*"]\n'
            "leave = true\n",
            folder,
        )
    )
    return [f"{note.where}: {note.message}" for note in job.notes if "right?" in note.message]


@pytest.mark.parametrize("loose", ["loose = true", ""])
@pytest.mark.parametrize("name", [*GOOD, *FILES])
def test_a_mesh_of_at_most_3_mm_is_told_from_every_kind_of_file(tmp_path, name, loose):
    data = FILES[name](*CHAIR) if name in FILES else GOOD[name]()
    write(tmp_path, name, data)
    (found,) = notes(tmp_path, name, f'unit = "mm"\n{loose}')
    assert found.startswith("piece: its largest side is 0.")
    assert found.endswith('is unit = "mm" of the mesh right?')


@pytest.mark.parametrize("loose", ["loose = true", ""])
@pytest.mark.parametrize("kind", KIND_NAMES)
def test_a_mesh_of_under_a_millimetre_is_told_for_every_kind_of_piece(tmp_path, kind, loose):
    write(tmp_path, "a.obj", FILES["a.obj"](*CHAIR))
    (found,) = notes(tmp_path, "a.obj", f'unit = "mm"\n{loose}', f'kind = "{kind}"')
    assert found.startswith(f"piece: {with_article(kind)} ")
    assert "right?" in found


@pytest.mark.parametrize("loose", ["loose = true", ""])
@pytest.mark.parametrize("unit", ["mm", "cm", "in", "ft"])
def test_the_unit_that_would_fit_is_that_of_the_mesh(tmp_path, unit, loose):
    write(tmp_path, "a.obj", FILES["a.obj"](*CHAIR))
    (found,) = notes(tmp_path, "a.obj", f'unit = "{unit}"\n{loose}', 'kind = "chair"')
    assert f'is unit = "{unit}" of the mesh right? unit = "m" would fit' in found


@pytest.mark.parametrize("loose", ["loose = true", ""])
@pytest.mark.parametrize("head", ["", 'kind = "chair"'])
def test_a_mesh_in_its_true_unit_is_not_asked_about(tmp_path, head, loose):
    write(tmp_path, "a.obj", FILES["a.obj"](*CHAIR))
    assert [] == notes(tmp_path, "a.obj", f'unit = "m"\n{loose}', head)


def test_a_tiny_loose_mesh_beside_a_piece_is_told_with_its_line(tmp_path):
    write(tmp_path, "a.obj", FILES["a.obj"](*CHAIR))
    board = '\n[[part]]\nname = "top"\nshape = "board"\nwidth = 30\ndepth = 20\nheight = 1\n'
    (found,) = notes(tmp_path, "a.obj", 'unit = "mm"\nloose = true' + board)
    assert found.startswith('part "all of it": its largest side is 0.0')
    assert 'is unit = "mm" of the mesh right?' in found
    assert [] == notes(tmp_path, "a.obj", 'unit = "m"\nloose = true' + board)


def test_where_meshes_differ_in_their_units_none_of_them_is_named(tmp_path):
    """9 mm of the one and 0.9 mm of the other: either unit may be wrong, or both."""
    write(tmp_path, "a.obj", FILES["a.obj"](*CHAIR))
    other = '\n[[part]]\nname = "other"\nshape = "mesh"\nfile = "a.obj"\nunit = "mm"\nloose = true'
    for head in ("", 'kind = "chair"'):
        whole, *_ = notes(tmp_path, "a.obj", 'unit = "cm"\nloose = true' + other, head)
        assert whole.startswith("piece: its largest side is ")
        assert whole.endswith("; is the unit right?")
