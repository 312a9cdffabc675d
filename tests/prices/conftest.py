"""Jobs with one supply or none, and how tests run the quote of a piece file."""

from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from piece_texts import exact
from typer.testing import CliRunner

from surfacecalc.commands import app
from surfacecalc.model.pricing import Pricing
from surfacecalc.prices.statements import JobCosts

CENT = Decimal("0.01")

PIECE = """\
[piece]
name = "Shelf"
unit = "m"
CURRENCY
[[part]]
name = "board"
shape = "board"
width = 1
depth = 0.5
height = 0.02

[[zone]]
name = "all"
faces = ["*"]
surface = "sealed"

[[zone.step]]
do = "sand"
grits = [120]
with = "disc"

[[zone.step]]
do = "coat"
product = "paint"
coats = 2
by = "brush"
loss = "0 %"
allowance = "0 %"

[[product]]
name = "paint"
kind = "paint"
covers = "10.6 m2/L"
PAINT

[[abrasive]]
name = "disc"
form = "125 mm disc"
life = "0.4 m2"
DISC
"""
"""1.06 m2: 0.2 L of paint in two coats, and three discs (2.65)."""

PAINT = 'packs = [{ size = "250 ml", price = 11 }, { size = "1 L", price = 36 }]'
DISC = "packs = [{ count = 10, price = 8 }]"


@pytest.fixture(scope="session")
def job() -> Callable[..., JobCosts]:
    """Make a job from plain numbers."""

    def make(supplies: Any = 0, hours: Any = 4, coin: Decimal = CENT, **terms: Any) -> JobCosts:
        numbers: dict[str, Any] = {key: Decimal(str(value)) for key, value in terms.items()}
        return JobCosts(Pricing(1, **numbers), Decimal(str(supplies)), Decimal(str(hours)), coin)

    return make


@pytest.fixture(scope="session")
def written() -> Callable[..., str]:
    """Write a piece file of one board, with a [price] or without."""

    def text(price: str = "", paint: str = PAINT, disc: str = DISC, currency: str = "EUR") -> str:
        filled = PIECE.replace("PAINT", paint).replace("DISC", disc)
        filled = filled.replace("CURRENCY", f'currency = "{currency}"' if currency else "")
        return exact(filled + (f"\n[price]\n{price}\n" if price else ""))

    return text


@pytest.fixture
def shown(tmp_path: Path) -> Callable[..., Any]:
    """Run the quote of a piece file's text on 80 columns."""

    def run(text: str, *options: str) -> Any:
        path = tmp_path / "shelf.toml"
        path.write_text(text)
        plain = {"COLUMNS": "80", "NO_COLOR": "1"}
        return CliRunner().invoke(
            app, ["quote", str(path), *options], env=plain, catch_exceptions=False
        )

    return run
