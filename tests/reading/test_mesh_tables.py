"""Parts whose shape comes from a mesh file beside the piece file."""

import re
from pathlib import Path

import pytest

from surfacecalc.api import Reading, measure, read_piece_text

pytest.importorskip("trimesh")
pytest.importorskip("embreex")

CORNERS = [(x, y, z) for x in (0, 2) for y in (0, 2) for z in (0, 2)]
QUADS = {
    "left": (0, 1, 3, 2), "right": (4, 6, 7, 5), "front": (0, 4, 5, 1),
    "back": (2, 3, 7, 6), "bottom": (0, 2, 6, 4), "top": (1, 5, 7, 3),
}  # fmt: skip


def write_cube(file: Path, *, without: str = "") -> None:
    """Write a cube of side 2 as OBJ, one group, open where a side is left out."""
    lines = [f"v {x} {y} {z}" for x, y, z in CORNERS]
    for name, (a, b, c, d) in QUADS.items():
        if name != without:
            lines += [f"f {a + 1} {b + 1} {c + 1}", f"f {a + 1} {c + 1} {d + 1}"]
    file.write_text("\n".join(lines) + "\n")


@pytest.fixture
def read(tmp_path: Path):
    def read_part(part: str, *, without: str = "") -> Reading:
        write_cube(tmp_path / "cube.obj", without=without)
        (tmp_path / "notes.toml").write_text("# not a mesh")
        return read_piece_text(
            '[piece]\nname = "m"\nunit = "mm"\n\n[[part]]\nname = "cube"\nshape = "mesh"\n'
            f'{part}\n\n[[zone]]\nname = "all"\nfaces = ["*"]\nleave = true\n',
            tmp_path,
        )

    return read_part


def only_mistake(reading: Reading) -> str:
    (problem,) = [p for p in reading.problems if p.level == "mend"]
    return f"{problem.line}: {problem.where}: {problem.message}"


def test_a_closed_mesh_is_measured_exactly_and_its_size_is_told(read) -> None:
    job = measure(read('file = "cube.obj"\nunit = "cm"'))
    assert job.measured.exposed_m2 == pytest.approx(6 * 0.02**2, rel=1e-12)
    small, note = job.notes
    assert small.message.startswith("its largest side is 20 mm, ")
    assert "20 mm x 20 mm x 20 mm" in note.message
    assert "exact" in note.message
    assert "scan" not in note.message


def test_a_closed_mesh_is_joined_to_other_parts(read) -> None:
    board = (
        '\n\n[[part]]\nname = "board"\nshape = "board"\nwidth = 20\ndepth = 20\nheight = 5\n'
        'on = "cube"'
    )
    job = measure(read('file = "cube.obj"\nunit = "cm"' + board))
    # 2 of 20 x 20 mm and the sides of 25 mm height
    expected = (2 * 20 * 20 + 4 * 20 * 25) / 1e6
    assert job.measured.exposed_m2 == pytest.approx(expected, rel=1e-9)


def test_an_open_mesh_is_measured_by_rays_and_its_error_is_told(read) -> None:
    job = measure(read('file = "cube.obj"\nunit = "cm"\nloose = true', without="bottom"))
    # five sides, each counted once; rays miss the truth by far less than 1 % here
    assert job.measured.exposed_m2 == pytest.approx(5 * 0.02**2, rel=0.01)
    _, note = job.notes
    assert "give or take" in note.message
    assert "open edges" in note.message


def test_a_clean_mesh_is_no_scan_and_keeps_its_area(read) -> None:
    job = measure(read('file = "cube.obj"\nunit = "cm"\nloose = true\nscan = true'))
    assert job.measured.exposed_m2 == pytest.approx(6 * 0.02**2, rel=1e-12)
    _, note = job.notes
    assert "no noisy scan, so nothing is taken off: 8 corners are too few" in note.message


def test_an_open_mesh_cannot_be_joined(read) -> None:
    reading = read('file = "cube.obj"\nunit = "cm"', without="bottom")
    assert reading.piece is None
    assert 'part "cube": loose must be true' in only_mistake(reading)


def test_without_a_unit_the_size_is_shown_to_choose_by(read) -> None:
    found = only_mistake(read('file = "cube.obj"'))
    assert "2 x 2 x 2" in found
    assert 'unit = "mm"' in found


def test_a_cut_splits_the_faces(read) -> None:
    cut = 'cuts = [{ height = 5, below = "foot", above = "body" }]'
    job = measure(read(f'file = "cube.obj"\nunit = "cm"\n{cut}'))
    faces = job.measured.zones[0].faces
    assert all(1 == len(re.findall("foot|body", face.face)) for face in faces)
    areas = {face.face.split()[-1]: face.area_m2 for face in faces}
    side = 0.02
    assert areas == pytest.approx(
        {"foot": side**2 + 4 * side * 0.005, "body": side**2 + 4 * side * 0.015}, rel=1e-9
    )


@pytest.mark.parametrize(
    ("part", "wrong"),
    [
        ('file = "cube.obj"\nunit = "cm"\ncuts = [{ height = 50, below = "a", above = "b" }]',
         "cuts nothing"),
        ('file = "none.obj"\nunit = "cm"', "No such file"),
        ('file = "../cube.obj"\nunit = "cm"', "outside the folder"),
        ('file = "notes.toml"\nunit = "cm"', "is not one of STL"),
        ('file = "cube.obj"\nunit = "yard"', '"yard"'),
        ('unit = "cm"', "has no file"),
        ('file = "cube.obj"\nunit = "cm"\nlose = true', '"lose"'),
    ],
)  # fmt: skip
def test_a_mistake_in_a_mesh_is_told(read, part: str, wrong: str) -> None:
    assert wrong in only_mistake(read(part))


def test_without_its_packages_a_mesh_says_what_to_install(read, monkeypatch) -> None:
    monkeypatch.setattr("importlib.util.find_spec", lambda name: None)
    assert 'pip install "surfacecalc[mesh]"' in only_mistake(read('file = "cube.obj"\nunit = "cm"'))
