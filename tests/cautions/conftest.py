"""A small piece, written in a few words, and the cautions that apply to it."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

import pytest

from surfacecalc.api import measure, read_piece_text
from surfacecalc.cautions import Caution, caution_texts, cautions
from surfacecalc.model.pieces import Piece
from surfacecalc.zones.areas import Measured

BOARD = 'name = "top"; shape = "board"; width = 500; depth = 400; height = 20'


def _table(head: str, keys: str) -> str:
    """Write a table of which the keys stand side by side, a semicolon between."""
    return f"{head}\n" + "\n".join(key.strip() for key in keys.split(";")) + "\n"


def _text(
    steps: Iterable[str],
    *,
    surface: str = "bare",
    products: Mapping[str, str] | None = None,
    parts: Iterable[str] = (BOARD,),
    head: str = "built = 2000",
    more: str = "",
) -> str:
    text = _table("[piece]", f'name = "Top"; unit = "mm"; {head}')
    text += "".join(_table("[[part]]", part) for part in parts)
    text += f'[[zone]]\nname = "all"\nfaces = ["*"]\nsurface = "{surface}"\n'
    text += "".join(_table("[[zone.step]]", step) for step in steps)
    for name, words in (products or {}).items():
        kind, _, keys = words.partition(";")
        text += f'[[product]]\nname = "{name}"\nkind = "{kind}"\n{keys.strip()}\n'
    return text + _table("[[abrasive]]", 'name = "disc"; form = "125 mm disc"') + more


Job = Callable[..., tuple[Piece, Measured]]


@pytest.fixture(scope="session")
def job() -> Job:
    """Return a function that reads and measures a piece."""

    def run(*steps: str, **given: Any) -> tuple[Piece, Measured]:
        found = measure(read_piece_text(_text(steps or ['do = "dust off"'], **given)))
        return found.piece, found.measured

    return run


@pytest.fixture(scope="session")
def found(job: Job) -> Callable[..., dict[str, Caution]]:
    """Return a function that gives the cautions on a piece, by the name of their text."""
    names = {
        caution.headline: name
        for name, caution in vars(caution_texts).items()
        if isinstance(caution, Caution)
    }

    def run(*steps: str, **given: Any) -> dict[str, Caution]:
        told = cautions(*job(*steps, **given))
        return {names[caution.headline]: caution for caution in told}

    return run
