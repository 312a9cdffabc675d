"""Pieces for the pictures, read from text or from the examples."""

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from surfacecalc.api import Reading, measure, read_piece, read_piece_text
from surfacecalc.model.pieces import Piece
from surfacecalc.zones.areas import Measured

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
Read = tuple[Piece, Measured]


def _read(reading: Reading) -> Read:
    job = measure(reading)
    return job.piece, job.measured


@cache
def _example(path: Path) -> Read:
    return _read(read_piece(path))


@pytest.fixture
def read_text() -> Callable[[str], Read]:
    """Return a piece and its measures from the text of a piece file."""

    def read(text: str) -> Read:
        return _read(read_piece_text(text))

    return read


@pytest.fixture(params=EXAMPLES, ids=lambda path: path.stem)
def example(request: pytest.FixtureRequest) -> Read:
    """Each example in turn."""
    return _example(request.param)


@pytest.fixture(scope="session")
def read_example() -> Callable[[str], Read]:
    """Return an example by its name."""
    return lambda name: _example(next(file for file in EXAMPLES if file.stem == name))
