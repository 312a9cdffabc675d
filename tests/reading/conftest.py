"""A whole piece file that is right, and how tests read a text as a piece file."""

import tomllib
from collections.abc import Callable
from typing import Any

import pytest
from toml_writer import toml_document

from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem
from surfacecalc.reading.piece_file import read_piece_text

Found = tuple[Piece | None, list[Problem]]

GOOD = """\
[piece]
name = "Side table"
unit = "mm"
gap = 1
buy_for = "80 %"
built = 1931
currency = "EUR"

[[part]]
name = "top"
shape = "board"
width = 500
depth = 400
height = 20
at = [0, 0, 480]

[[part]]
name = "box"
shape = "case"
width = 460
depth = 360
height = 150
board = 15
open = ["front"]
at = [20, 20, 330]

[[part]]
name = "leg"
shape = "leg"
form = "tapered"
width = 45
depth = 45
height = 330
foot = 30
corners = { of = "box", set_in = 5 }

[[part]]
name = "drawer"
shape = "drawer"
width = 400
depth = 300
height = 100
front = 18
board = 10
loose = true
row = { of = 2, apart = [450, 0, 0] }

[[part]]
name = "door"
shape = "panel"
width = 300
depth = 20
height = 110
frame = 30
recess = 5
loose = "doors"

[[part]]
name = "knob"
shape = "leg"
form = "turned"
profile = [[0, 12], [10, 12], [10, 25], [25, 0]]
loose = true

[[part]]
name = "foot"
shape = "leg"
form = "round"
width = "2 in"
height = "1 1/2 in"
loose = true

[[zone]]
name = "top"
faces = ["top"]
surface = "bare"

[[zone.step]]
do = "sand"
grits = [120, 180]
with = "disc"

[[zone.step]]
do = "coat"
product = "stain"
coats = 1
by = "cloth"
loss = "12 %"
allowance = "5 %"
first_coat = "90 %"

[[zone.step]]
do = "coat"
product = "wax"
coats = [1, 2, 3]
by = "cloth"

[[zone]]
name = "stand"
faces = ["*"]
surface = "painted"
schedule = "paint"

[[zone]]
name = "inside"
faces = ["box.inside"]
leave = true

[[schedule.paint]]
do = "sand"
grits = [150]
with = "sponge"

[[schedule.paint]]
do = "coat"
product = "paint"
coats = 2
by = "spray"
thin = "10 %"

[[product]]
name = "stain"
kind = "gel stain"
covers = ["8 m2/L", "10 m2/L", "14 m2/L"]
packs = [{ size = "250 ml", price = 9.50 }, { size = "1 L", price = 21 }]
on_hand = "30 ml"

[[product]]
name = "paint"
kind = "waterborne furniture paint"
solids = "38 %"
dry_film = "30 um"
packs = [{ size = "1 quart" }]
thinner = "water"

[[product]]
name = "wax"
kind = "paste wax"
covers = "50 m2/kg"
packs = [{ size = "8 oz", price = 12 }]

[[product]]
name = "water"
kind = "thinner"

[[abrasive]]
name = "disc"
form = "125 mm disc"
life = { 120 = "0.5 m2", 180 = "0.6 m2" }
packs = [{ count = 5, price = 6 }]
on_hand = { 120 = 3 }

[[abrasive]]
name = "sponge"
form = "sanding sponge"
"""


@pytest.fixture(scope="session")
def good() -> str:
    """Return a piece file without a mistake that uses every key there is."""
    return GOOD


@pytest.fixture(scope="session")
def read(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str | bytes], Found]:
    """Return a function that reads a text, or bytes, as a piece file is read."""
    folder = tmp_path_factory.mktemp("reading")

    def read_text(text: str | bytes) -> Found:
        return read_piece_text(text, folder)

    return read_text


@pytest.fixture(scope="session")
def piece_of(read: Callable[[str], Found]) -> Callable[[str], Piece]:
    """Return a function that reads a text without mistakes as a piece."""

    def read_text(text: str) -> Piece:
        piece, problems = read(text)
        assert [] == problems
        assert piece is not None
        return piece

    return read_text


@pytest.fixture(scope="session")
def changed(good: str) -> Callable[..., str]:
    """Return a function that changes texts, each of which must stand once, in the right file."""

    def change(*changes: tuple[str, str], text: str = good) -> str:
        for old, new in changes:
            assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
            text = text.replace(old, new)
        return text

    return change


@pytest.fixture(scope="session")
def as_toml() -> Callable[[dict[str, Any]], str]:
    """Return a function that writes a document as TOML, a line for each key of each table."""

    def write(document: dict[str, Any]) -> str:
        text = toml_document(document)
        assert tomllib.loads(text).keys() == document.keys()
        return text

    return write
