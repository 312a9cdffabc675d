"""A small piece with one zone, written in a few words, and the remarks on it."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

import pytest

from surfacecalc.api import read_piece_text
from surfacecalc.checks import notes_on_file, notes_on_measures
from surfacecalc.checks.coats_together import TOGETHER_CHECKS
from surfacecalc.checks.hidden_insides import check_hidden_inside
from surfacecalc.checks.old_finish import OLD_FINISH_CHECKS
from surfacecalc.checks.preparation import PREPARATION_CHECKS
from surfacecalc.checks.rub_waits import WAIT_CHECKS
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.problems import Problem
from surfacecalc.zones.areas import measure

Check = Callable[[Piece, Zone], Iterator[Problem]]
EYE_CHECKS = (
    *OLD_FINISH_CHECKS,
    *TOGETHER_CHECKS,
    *PREPARATION_CHECKS,
    *WAIT_CHECKS,
    check_hidden_inside,
)
BOARD = 'name = "top"; shape = "board"; width = 500; depth = 400; height = 20'
PRODUCTS = {
    "paint": "waterborne paint",
    "furniture paint": "waterborne furniture paint",
    "primer": "waterborne primer",
    "varnish": "waterborne varnish",
    "oil varnish": "oil varnish",
    "shellac": "shellac",
    "lacquer": "lacquer",
    "stain": "oil-based stain",
    "water stain": "waterborne stain",
    "gel stain": "oil-based gel stain",
    "dye": "dye",
    "glaze": "waterborne glaze",
    "oil": "drying oil",
    "wax": "paste wax",
    "metallic wax": "metallic wax",
    "white wax": "liming wax",
    "conditioner": "waterborne conditioner",
    "stripper": "stripper",
    "cleaner": "cleaner",
    "filler": "wood filler; density = '1.5 kg/L'",
    "wax stick": "wax filler; density = '1 kg/L'",
}


def _table(head: str, keys: str) -> str:
    """Write a table of which the keys stand side by side, a semicolon between."""
    return f"{head}\n" + "\n".join(key.strip() for key in keys.split(";")) + "\n"


def _text(
    steps: Iterable[str],
    *,
    surface: str = "bare",
    knots: bool = False,
    products: Mapping[str, str] = PRODUCTS,
    parts: Iterable[str] = (BOARD,),
    more: str = "",
    head: str = "",
    zone: str = "",
) -> str:
    text = f'[piece]\nname = "Top"\nunit = "mm"\n{head}'
    text += "".join(_table("[[part]]", part) for part in parts)
    text += f'[[zone]]\nname = "all"\nfaces = ["*"]\nsurface = "{surface}"\n'
    text += "knots = true\n" if knots else ""
    text += zone
    text += "".join(_table("[[zone.step]]", step) for step in steps)
    for name, words in products.items():
        kind, _, keys = words.partition(";")
        text += f'[[product]]\nname = "{name}"\nkind = "{kind}"\n{keys.strip()}\n'
    return text + _table("[[abrasive]]", 'name = "disc"; form = "125 mm disc"') + more


@pytest.fixture(scope="session")
def notes() -> Callable[..., list[Problem]]:
    """Return a function that gives the remarks on a piece; see `_text` for what it takes."""

    def run(steps: Iterable[str] = (), **given: Any) -> list[Problem]:
        piece = read_piece_text(_text(steps or ['do = "dust off"'], **given)).piece
        assert piece is not None
        found = [*notes_on_file(piece), *notes_on_measures(piece, measure(piece))]
        assert {"note"} >= {problem.level for problem in found}
        return found

    return run


@pytest.fixture(scope="session")
def on_steps(notes: Callable[..., list[Problem]]) -> Callable[..., list[tuple[str, str]]]:
    """Return a function that gives the remarks on steps alone: where, and message."""

    def run(*steps: str, **given: Any) -> list[tuple[str, str]]:
        found = notes(steps, **given)
        return [
            (p.where, p.message)
            for p in found
            if p.message != "not used by any step"
            and p not in _by_eye(steps, given)
            and "lead" not in p.message
        ]

    return run


@pytest.fixture(scope="session")
def by_eye() -> Callable[..., list[Problem]]:
    """Return a function that gives what a practised eye would remark on the steps."""

    def run(*steps: str, **given: Any) -> list[Problem]:
        return _by_eye(steps, given)

    return run


@pytest.fixture(scope="session")
def by_check() -> Callable[..., list[Problem]]:
    """Return a function that gives the remarks of one check on the steps."""

    def run(check: Check, *steps: str, **given: Any) -> list[Problem]:
        piece = read_piece_text(_text(steps, **given)).piece
        assert piece is not None
        return [note for zone in piece.zones for note in check(piece, zone)]

    return run


def _by_eye(steps: Iterable[str], given: Mapping[str, Any]) -> list[Problem]:
    piece = read_piece_text(_text(steps, **given)).piece
    assert piece is not None
    zones = piece.zones
    return [note for zone in zones for check in EYE_CHECKS for note in check(piece, zone)]
