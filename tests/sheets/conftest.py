"""Sheets of a small piece, of examples and of hostile names, and what a reader finds in them."""

import functools
import json
from collections.abc import Callable
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

from surfacecalc.api import MeasuredPiece, measure, read_piece, read_piece_text
from surfacecalc.elements import Element
from surfacecalc.model.pieces import Piece
from surfacecalc.sheets.make import combined_sheet, sheet_of
from surfacecalc.sheets.sheet_frame import Paper, SheetPage
from surfacecalc.units.display import Units
from surfacecalc.zones.areas import Measured

VOID = {"meta", "link", "input", "br", "img"}
BOX = """\
[piece]
name = "NAME"
unit = "in"
built = "unknown"
currency = "USD"

[workshop]
start = 2026-11-30
hours = ["mon-fri 18:00-21:00"]

[price]
piece = 61.37
rate = 43.19
overhead = "10 %"
margin = "15 %"
deposit = "40 %"

[[part]]
name = "body"
shape = "board"
width = 36
depth = 18
height = 30

[[zone]]
name = "outside"
faces = ["*"]
surface = "varnished"

[[zone.step]]
do = "sand"
grits = [120, 180]
with = "disc"

[[zone.step]]
do = "coat"
product = "moss green"
coats = 2
by = "brush"

[[zone.step]]
do = "top coat"
product = "clear"
coats = 1
by = "brush"

[[product]]
name = "moss green"
kind = "waterborne furniture paint"
packs = [{ size = "8 fl oz", price = 14.71 }, { size = "1 quart", price = 33.83 }]

[[product]]
name = "clear"
kind = "satin waterborne varnish"
packs = [{ size = "1 quart", price = 28.47 }]

[[abrasive]]
name = "disc"
form = "5 in disc"
packs = [{ count = 5, price = 8.53 }]
"""


@dataclass
class Found(HTMLParser):
    """What stands in a sheet: tags that must match, their attributes, and the text."""

    tags: list[tuple[str, dict[str, str | None]]] = field(default_factory=list)
    texts: list[str] = field(default_factory=list)
    open_tags: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open_tags.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open_tags.pop() == tag, f"</{tag}> ends nothing"

    def handle_data(self, data: str) -> None:
        if self.open_tags and self.open_tags[-1] not in ("style", "script"):
            self.texts.append(data)

    @property
    def text(self) -> str:
        """All that is read, on one line."""
        return " ".join(" ".join(self.texts).split())

    def all(self, tag: str) -> list[dict[str, str | None]]:
        """Return the attributes of every such tag."""
        return [attributes for name, attributes in self.tags if name == tag]


@pytest.fixture(scope="session")
def parse() -> Callable[[str], Found]:
    """Parse a sheet; a tag that is not closed, or closed out of turn, fails."""

    def run(html: str) -> Found:
        found = Found()
        found.feed(html)
        found.close()
        assert [] == found.open_tags
        return found

    return run


Read = tuple[Piece, Measured]


@pytest.fixture
def read() -> Callable[[str], Read]:
    """Read and measure a piece file's text."""

    def run(text: str) -> Read:
        job = measure(read_piece_text(text))
        return job.piece, job.measured

    return run


@pytest.fixture
def box(read: Callable[[str], Read]) -> Callable[..., str]:
    """Return the sheet of a small piece under a name, with texts of its file replaced."""

    def make(name: str = "Box", *, for_client: bool = False, **replaced: str) -> str:
        text = BOX
        for old, new in replaced.items():
            text = text.replace(old.replace("_", " "), new)
        return sheet_of(
            MeasuredPiece(Path("box.toml"), *read(text.replace("NAME", name))),
            Units.US,
            "letter",
            for_client=for_client,
        ).html()

    return make


@pytest.fixture
def box_text() -> str:
    """The text of the small piece's file."""
    return BOX


EXAMPLES = Path(__file__).parents[2] / "examples"
HOSTILE = (
    "<script>alert(1)</script> \"><img src=x onerror='alert(2)'> & &amp; 'quoted'"
    " \u202egnp\u202c \u200f\u05d0\u05d1\u05d2 " + "n" * 90
)
"""Tags, quotes, ampersands, turned and right-to-left text, and nowhere to break at the end."""
SHEETS = (
    "cupboard-shop",
    "cupboard-client",
    "trip",
    "hostile-shop",
    "hostile-client",
    "hostile-trip",
)
"""Sheets by name: what they are about, and their kind."""


@pytest.fixture(params=SHEETS)
def sheet(request: pytest.FixtureRequest) -> str:
    """The name of a sheet, each in turn."""
    return str(request.param)


@pytest.fixture(scope="session")
def hostile_text() -> str:
    """What stands in every name of a hostile file."""
    return HOSTILE


@pytest.fixture(scope="session")
def sheet_page(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str, Paper], SheetPage]:
    """Make a sheet by its name, once for each paper."""
    files = _piece_files(tmp_path_factory.mktemp("pieces"))

    @functools.cache
    def make(name: str, paper: Paper = "letter") -> SheetPage:
        subject, _, kind = name.partition("-")
        jobs = [
            MeasuredPiece(file, *_measured(file))
            for file in files[name if "trip" in name else subject]
        ]
        if len(jobs) > 1:
            content = combined_sheet(jobs, Units.US, paper)
        else:
            content = sheet_of(jobs[0], Units.US, paper, for_client=kind == "client")
        return content

    return make


@pytest.fixture(scope="session")
def sheet_file(
    tmp_path_factory: pytest.TempPathFactory, sheet_page: Callable[[str, Paper], SheetPage]
) -> Callable[[str, Paper], Path]:
    """Write a sheet by its name, once for each paper, and return its file."""
    folder = tmp_path_factory.mktemp("sheets")

    @functools.cache
    def write(name: str, paper: Paper = "letter") -> Path:
        path = folder / f"{name}-{paper}.html"
        path.write_text(sheet_page(name, paper).html(), encoding="utf-8")
        return path

    return write


class _Builder(HTMLParser):
    """Builds elements from HTML, so that tests can write what they put on a page."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[tuple[str, dict[str, str], list[Any]]] = [("", {}, [])]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.open.append((tag, {name: value or "" for name, value in attrs}, []))
        if tag in VOID:
            self.handle_endtag(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open[-1][0] == tag
        _, attributes, children = self.open.pop()
        classes = tuple(attributes.pop("class", "").split())
        self.open[-1][2].append(Element(tag, classes, attributes, tuple(children)))

    def handle_data(self, data: str) -> None:
        self.open[-1][2].append(data)


@pytest.fixture(scope="session")
def elements_of() -> Callable[[str], tuple[Element | str, ...]]:
    """Return the elements that a piece of HTML is."""

    def build(html: str) -> tuple[Element | str, ...]:
        builder = _Builder()
        builder.feed(html)
        builder.close()
        return tuple(builder.open[0][2])

    return build


def _piece_files(folder: Path) -> dict[str, list[Path]]:
    """Return the piece files of each sheet, or of both sheets of a piece."""
    hostile, table = folder / "hostile.toml", folder / "oak-table.toml"
    names = json.dumps(HOSTILE)[1:-1]  # as a text of TOML is written, too
    source = Path(__file__).with_name("hostile.toml").read_text(encoding="utf-8")
    hostile.write_text(source.replace("HOSTILE", names), encoding="utf-8")
    oak = (EXAMPLES / "oak-table.toml").read_text(encoding="utf-8")
    table.write_text(oak.replace('"EUR"', '"USD"'), encoding="utf-8")  # a trip has one currency
    chair = EXAMPLES / "chair-set.toml"
    return {
        "cupboard": [EXAMPLES / "school-cupboard.toml"],
        "trip": [chair, table],
        "hostile": [hostile],
        "hostile-trip": [hostile, chair],
    }


@functools.cache
def _measured(file: Path) -> tuple[Piece, Measured]:
    job = measure(read_piece(file))
    return job.piece, job.measured
