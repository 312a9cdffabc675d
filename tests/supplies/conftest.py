"""Packs written short, and the supply list of a job that is written as a piece file."""

from collections.abc import Callable
from decimal import Decimal

import pytest
from piece_texts import exact

from surfacecalc.api import measure, read_piece_text, supplies
from surfacecalc.model.shelf import Pack
from surfacecalc.supplies.shopping import Supply
from surfacecalc.units.grammar import parse_amount
from surfacecalc.units.known import Dimension


@pytest.fixture(scope="session")
def pack() -> Callable[..., Pack]:
    """Make a pack from its size as written and its price, read as a piece file is."""

    def make(text: str, price: float | str | None = None) -> Pack:
        is_weight = text.endswith((" oz", " lb")) and "fl" not in text
        dimension: Dimension = "weight" if is_weight else "volume"
        size = float(parse_amount(text, dimension))
        return Pack(size, text, None if price is None else Decimal(str(price)))

    return make


@pytest.fixture
def shop() -> Callable[[str], dict[tuple[str, int | None], Supply]]:
    """Read a piece file's text, every number as given, and return its supplies by name and grit."""

    def run(text: str) -> dict[tuple[str, int | None], Supply]:
        reading = read_piece_text(exact(text))
        assert () == reading.problems
        found = supplies(measure(reading))
        return {(supply.name, supply.grit): supply for supply in found}

    return run
