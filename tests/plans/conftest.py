"""Shops of jobs, and plans of jobs that are written as a piece file."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

import pytest
from piece_texts import piece_text

from surfacecalc.api import measure, read_piece_text
from surfacecalc.model.pieces import Piece
from surfacecalc.plans.plan import Plan, make_plan
from surfacecalc.problems import Problem
from surfacecalc.zones.areas import Measured

SATURDAY = datetime(2026, 11, 28, 9, 0)

HEAD = piece_text(
    piece={"name": "Two boards", "unit": "m"},
    part=[
        {"name": "one", "shape": "board", "width": 1, "depth": 1, "height": 0.1},
        {"name": "two", "shape": "board", "width": 1, "depth": 1, "height": 0.1, "at": [3, 0, 0]},
    ],
    product=[
        {"name": "paint", "kind": "waterborne furniture paint", "covers": "10 m2/L", "dry": "1 h",
         "recoat": "4 h", "cure": "14 days", "min_temp": "10 C"},
        {"name": "filler", "kind": "wood filler", "density": "1.6 kg/L", "dry": "1 h",
         "recoat": "2 h", "cure": "1 days"},
        {"name": "cleaner", "kind": "cleaner"},
    ],
    abrasive=[
        {"name": "disc", "form": "125 mm disc"},
    ],
    tape=[
        {"name": "tape"},
    ],
    hardware=[
        {"name": "pulls", "count": 6, "plan": "renew", "size": ["60 mm", "20 mm", "20 mm"]},
    ],
    zone=[],
)  # fmt: skip
"""Each board has 2.4 m2."""


@dataclass(frozen=True)
class Job:
    """A piece that was read and measured."""

    piece: Piece
    measured: Measured

    def plan(self, now: datetime = SATURDAY) -> Plan | list[Problem]:
        """Return its plan."""
        return make_plan(self.piece, self.measured, now)


def zone(name: str, *steps: str) -> str:
    """Return a zone of the board of that name; each step is given by its keys, one on a line."""
    head = f'[[zone]]\nname = "{name}"\nfaces = ["{name}"]\nsurface = "bare"\n'
    return head + "".join(f"[[zone.step]]\n{step}\n" for step in steps)


@pytest.fixture
def job() -> Callable[..., Job]:
    """Read the two boards with what is given for them."""

    def read(*texts: str) -> Job:
        found = measure(read_piece_text("\n".join((HEAD, *texts))))
        return Job(found.piece, found.measured)

    return read


@pytest.fixture
def plan(job: Callable[..., Job]) -> Callable[..., Plan]:
    """Plan the two boards with what is given for them, from Saturday 28 Nov 2026 09:00 on."""

    def make(*texts: str) -> Plan:
        found = job(*texts).plan()
        assert isinstance(found, Plan), found
        return found

    return make


@pytest.fixture(scope="session")
def step_zone() -> Callable[..., str]:
    """Return the function that writes a zone with its steps."""
    return zone
