"""Pieces for the pictures, read from text or from the examples."""

from collections.abc import Callable
from pathlib import Path

import pytest

from surfacecalc.estimate import read_and_measure
from surfacecalc.model.pieces import Piece
from surfacecalc.zones.areas import Measured

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
Read = tuple[Piece, Measured]


def _read(file: Path) -> Read:
    reading = read_and_measure(file)
    assert reading.piece is not None, reading.problems
    assert reading.measured is not None
    return reading.piece, reading.measured


@pytest.fixture
def read_text(tmp_path: Path) -> Callable[[str], Read]:
    """Return a piece and its measures from the text of a piece file."""

    def read(text: str) -> Read:
        file = tmp_path / "piece.toml"
        file.write_text(text, encoding="utf-8")
        return _read(file)

    return read


@pytest.fixture(params=EXAMPLES, ids=lambda path: path.stem)
def example(request: pytest.FixtureRequest) -> Read:
    """Each example in turn."""
    return _read(request.param)


@pytest.fixture(scope="session")
def read_example() -> Callable[[str], Read]:
    """Return an example by its name."""
    return lambda name: _read(next(path for path in EXAMPLES if path.stem == name))
