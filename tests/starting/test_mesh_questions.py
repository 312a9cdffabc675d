"""A piece that is a mesh file."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

pytest.importorskip("trimesh")
pytest.importorskip("embreex")

Run = Callable[..., Any]

FINISHED = ("--finish", "paint", "--condition", "bare", "--unit", "mm")


def test_mesh_becomes_a_piece_with_its_true_area(box: str, run_new: Run, areas_of: Run) -> None:
    result = run_new("mesh", "--mesh", box, "--mesh-unit", "mm", *FINISHED)
    assert 0 == result.exit_code
    target = Path("models/toy-box.toml")
    assert 'file = "toy_box.off"' in target.read_text()
    area_mm2 = 2 * (500 * 400 + 500 * 300 + 400 * 300)
    assert {"surface": pytest.approx(area_mm2 / 25.4**2, rel=1e-9)} == areas_of(target)


def test_piece_file_may_lie_above_its_mesh(box: str, run_new: Run, run_command: Run) -> None:
    words = ["--mesh", box, "--mesh-unit", "mm", "--out", "box.toml"]
    assert 0 == run_new("mesh", *words, *FINISHED).exit_code
    assert 0 == run_command("check", "box.toml").exit_code


def test_unit_is_chosen_by_the_size_it_gives(box: str, run_new: Run) -> None:
    result = run_new(lines=["mesh", box, "", "", "mm", "m", "cm", "n", "mm"])
    said = " ".join(result.stdout.split())
    assert "1 mm 500 x 400 x 300 mm" in said
    assert "3 m 500,000 x 400,000 x 300,000 mm" in said
    assert "2 cm 5,000 x 4,000 x 3,000 mm" in said
    assert "In m the piece would be longer than 10000 mm" in said
    assert "5,000 x 4,000 x 3,000 mm is an unusual size." in said
    assert "= mm\n" in result.stdout


@pytest.mark.parametrize(
    ("mesh", "said"),
    [("none.off", "there is no file none.off"), ("models", "there is no file models"),
     ("models/bad.off", "bad.off"), ("models/text.txt", "is not one of STL, OBJ, PLY")],
)  # fmt: skip
def test_file_that_is_not_a_mesh_is_refused(mesh: str, said: str, box: str, run_new: Run) -> None:
    Path("models/bad.off").write_text("OFF\n8 12")
    Path("models/text.txt").write_text("a box")
    result = run_new("mesh", "--mesh", mesh, "--mesh-unit", "mm", *FINISHED)
    assert 2 == result.exit_code
    assert result.stderr.startswith("--mesh: ")
    assert said in result.stderr


def test_piece_file_elsewhere_is_refused(box: str, run_new: Run) -> None:
    Path("other").mkdir()
    words = ["--mesh", box, "--mesh-unit", "mm", "--out", "other/box.toml"]
    result = run_new("mesh", *words, *FINISHED)
    assert 2 == result.exit_code
    assert (
        "put the piece file in the same folder as models/toy_box.off or in one above it"
        in result.stderr
    )


def test_measures_do_not_apply_to_a_mesh(box: str, run_new: Run) -> None:
    result = run_new("mesh", "--mesh", box, "--width", "500")
    assert 2 == result.exit_code
    assert "--width does not apply to a mesh; use --mesh, --mesh-unit" in result.stderr
