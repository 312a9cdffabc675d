"""Factors written short, and the needs of a job that is written as a piece file."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import pytest
from piece_texts import exact

from surfacecalc.api import measure, read_piece_text
from surfacecalc.model.inputs import Input
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.shelf import Abrasive, Product
from surfacecalc.model.steps import Coat
from surfacecalc.needs.draws import Draws
from surfacecalc.needs.job import job_needs
from surfacecalc.needs.uses import Need


@dataclass(frozen=True)
class Job:
    """A piece and what it needs, by name of the supply and grit."""

    piece: Piece
    needs: dict[tuple[str, int | None], Need]


def _factor(key: str, *values: float) -> Factor:
    values = values if len(values) == 3 else values * 3
    return Factor(Input("coverage", of=key), Range(*values), "piece file")


@pytest.fixture(scope="session")
def factor() -> Callable[..., Factor]:
    """Make a factor from one value, or from low, likely and high."""
    return _factor


@pytest.fixture(scope="session")
def coat() -> Callable[..., Coat]:
    """Make a coating step; each share is a value or (low, likely, high)."""

    def make(coats=1.0, *, loss=0.0, allowance=0.0, first_coat=1.0) -> Coat:
        given = {"coats": coats, "loss": loss, "allowance": allowance, "first_coat": first_coat}
        factors: dict[str, Any] = {
            key: _factor(key, *(value if isinstance(value, tuple) else (value,)))
            for key, value in given.items()
        }
        return Coat("paint", by="brush", thin=None, line=1, **factors)

    return make


@pytest.fixture(scope="session")
def product() -> Callable[..., Product]:
    """Make a product from one or two factors of coverage."""

    def make(*coverage: Factor) -> Product:
        return Product("paint", "paint", "paint", "volume", coverage, (), 0.0, None, 1)

    return make


@pytest.fixture(scope="session")
def abrasive() -> Callable[[dict[int, Factor]], Abrasive]:
    """Make an abrasive from its life by grit."""
    return lambda life: Abrasive("disc", "125 mm disc", life, (), {}, 1)


@pytest.fixture
def job() -> Callable[[str], Job]:
    """Read a piece file's text, every number as given, and return what the job needs."""

    def run(text: str) -> Job:
        reading = read_piece_text(exact(text))
        assert () == reading.problems
        measured = measure(reading)
        needs = job_needs(measured.piece, measured.measured, Draws())
        return Job(measured.piece, {(need.name, need.grit): need for need in needs})

    return run
