"""Questions about a mesh file: which one, and in which unit it was made."""

import importlib.util
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from pathlib import Path

from surfacecalc.problems import printable
from surfacecalc.reading.solids.mesh_tables import NEEDED
from surfacecalc.starting.answers import Answer, AnswerError, Doubt, Question
from surfacecalc.starting.choices import choice
from surfacecalc.starting.measurements import UNUSUAL
from surfacecalc.starting.scales import Scale
from surfacecalc.starting.wordings import WORDINGS
from surfacecalc.units.known import factor

MESH_UNITS = ("mm", "cm", "m", "in", "ft")
USUAL_MM = 100, 3000
"""Longest side that a piece of furniture usually has, from and to [mm]; common practice."""
MOST_MM = 10_000
SMALL, LARGE = 0.001, 1000
"""Numbers between these are shown with four digits."""


def mesh_question() -> Question:
    """Return the question where the mesh is."""
    said = WORDINGS["mesh"]
    return Question(
        "mesh", "the mesh file", "--mesh", "scan.ply",
        (said.before,), said.prompt, None, _read_file, said.help,
    )  # fmt: skip


def _read_file(text: str) -> Answer:
    if any(importlib.util.find_spec(name) is None for name in NEEDED):
        raise AnswerError('mesh files need one more package; run: pip install "surfacecalc[mesh]"')
    if printable(text) != text:
        raise AnswerError("a file name cannot contain control characters")
    path = Path(text).expanduser()
    if not path.is_file():
        raise AnswerError(f"there is no file {path}")
    _size(path)
    return Answer(str(path), str(path))


@cache
def _size(path: Path) -> tuple[float, ...]:
    """Return the size of a mesh in its own unit.

    Raises:
        AnswerError: it cannot be read.
    """
    from shapes.meshes.imported import MeshError
    from shapes.meshes.mesh_files import read_mesh

    try:
        return tuple(float(length) for length in read_mesh(path, 1.0).size_mm)
    except MeshError as error:
        raise AnswerError(str(error)) from None


def mesh_unit_question(path: Path, scale: Scale) -> Question:
    """Return the question which unit makes a mesh as large as the piece is."""
    size = _size(path)
    choices = {unit: _size_words(size, unit, scale) for unit in MESH_UNITS}
    said = WORDINGS["mesh-unit"]
    return Question(
        "mesh-unit", "the unit of the mesh", "--mesh-unit", "mm",
        (said.before,), said.prompt, None, lambda text: _read_unit(text, choices, size, scale),
        said.help, choices, is_listed=True,
    )  # fmt: skip


def _size_words(size: tuple[float, ...], unit: str, scale: Scale) -> str:
    ratio = float(factor(unit) / factor(scale.unit))
    return " x ".join(_number(length * ratio) for length in size) + f" {scale.unit}"


def _number(value: float) -> str:
    """Return a number as people read it: four digits, or whole thousands with commas."""
    if value >= LARGE:
        return f"{value:,.0f}"
    return f"{value:.4g}" if value >= SMALL or not value else f"under {SMALL}"


def _read_unit(
    text: str, choices: Mapping[str, str], size: tuple[float, ...], scale: Scale
) -> Answer:
    unit = choice(text, choices)
    longest_mm = max(size) * float(factor(unit))
    if longest_mm > MOST_MM:
        most = scale.words(Fraction(MOST_MM) if scale.unit != "in" else scale.common("393"))
        raise AnswerError(f"in {unit} the piece would be longer than {most}")
    if not USUAL_MM[0] <= longest_mm <= USUAL_MM[1]:
        found = f"{choices[unit]} is an unusual size"
        return Answer(unit, unit, Doubt(found, "Use it anyway?", UNUSUAL))
    return Answer(unit, unit)
