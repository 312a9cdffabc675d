"""A piece that is written as a file, measured."""

from collections.abc import Callable

import pytest

from surfacecalc.reading.piece_file import read_piece
from surfacecalc.zones.areas import Measured, measure


@pytest.fixture
def measured(tmp_path) -> Callable[[str], Measured]:
    """Read a piece file's text and measure it."""

    def run(text: str) -> Measured:
        path = tmp_path / "piece.toml"
        path.write_text(text)
        piece, problems = read_piece(path)
        assert [] == problems
        return measure(piece)

    return run
