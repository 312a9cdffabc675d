"""Packs written short, and the supply list of a job that is written as a piece file."""

from collections.abc import Callable
from decimal import Decimal

import pytest

from surfacecalc.estimate import estimate
from surfacecalc.model.shelf import Pack
from surfacecalc.reading.piece_file import read_piece
from surfacecalc.supplies.shopping import Supply
from surfacecalc.units.grammar import parse_amount
from surfacecalc.zones.areas import measure


@pytest.fixture(scope="session")
def pack() -> Callable[..., Pack]:
    """Make a pack from its size as written and its price, read as a piece file is."""

    def make(text: str, price: float | str | None = None) -> Pack:
        is_weight = text.endswith((" oz", " lb")) and "fl" not in text
        dimension = "weight" if is_weight else "volume"
        size = float(parse_amount(text, dimension))
        return Pack(size, text, None if price is None else Decimal(str(price)))

    return make


@pytest.fixture
def shop(tmp_path) -> Callable[[str], dict[tuple[str, int | None], Supply]]:
    """Read a piece file's text and return its supplies by name and grit."""

    def run(text: str) -> dict[tuple[str, int | None], Supply]:
        path = tmp_path / "piece.toml"
        path.write_text(text)
        piece, problems = read_piece(path)
        assert [] == problems
        found = estimate(piece, measure(piece))
        assert isinstance(found, list)
        return {(supply.name, supply.grit): supply for supply in found}

    return run
