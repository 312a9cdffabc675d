"""A piece that is written as the text of a file, measured."""

from collections.abc import Callable

import pytest

from surfacecalc.api import measure, read_piece_text
from surfacecalc.zones.areas import Measured


@pytest.fixture
def measured() -> Callable[[str], Measured]:
    """Read a piece file's text and measure it."""

    def run(text: str) -> Measured:
        reading = read_piece_text(text)
        assert () == reading.problems
        return measure(reading).measured

    return run
