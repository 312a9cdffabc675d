"""Sheets on paper: the right size, nothing missing, nothing cut in two, no page wasted."""

import io
import math
import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

import pytest
from pypdf import PageObject, PdfReader

SIZES_PT = {"a4": (595.28, 841.89), "letter": (612.0, 792.0)}
"""Source: ISO 216 (210 mm x 297 mm) and ANSI/ASME Y14.1 (8.5 in x 11 in), at 72 points an inch."""
MARGINS_MM = {"across": 28, "down": 31}
"""Both margins together, as sheet.css sets them."""
PX_PER_MM = 96 / 25.4
NEARLY_EMPTY = 0.15
"""Share of a page; a last page with less on it could have been spared, if the others had room."""
# What may stand on no two pages: the smallest parts that are read as one.
UNITS = """
await document.fonts.ready;
const parts = "h1, h2, h3, p, caption, tr, .day, li, .facts > div";
const units = [...document.querySelectorAll(`body :is(${parts})`)].filter((e) =>
  e.checkVisibility() && e.innerText.trim() && !e.parentElement.closest(parts));
return {
  units: units.map((e) => [/^H[1-6]$/.test(e.tagName), e.innerText]),
  all: document.body.innerText,
  height: document.body.getBoundingClientRect().height,
};
"""
REAL, HOSTILE = ("cupboard-shop", "cupboard-client", "trip"), ("shop", "client", "trip")
on_paper = pytest.mark.parametrize(
    ("sheet", "paper"),
    [(name, paper) for name in REAL for paper in SIZES_PT]
    + [(f"hostile-{k}", "a4") for k in HOSTILE],
)


@dataclass(frozen=True)
class Print:
    """A sheet on paper.

    Attributes:
        pages: of the PDF.
        texts: of each page, its signs only, without its number.
        units: whether it is a heading, and its signs, of each part that must stay whole, in order.
        signs: all that the sheet shows on paper.
        height_px: of all of it, when it is on one long page.
    """

    pages: list[PageObject]
    texts: list[str]
    units: list[tuple[bool, str]]
    signs: str
    height_px: float


@pytest.fixture(scope="module")
def printed(shared_browser, sheet_file) -> Callable[[str, str], Print]:
    """Print a sheet by its name, once for each paper."""
    found: dict[tuple[str, str], Print] = {}

    def run(name: str, paper: str) -> Print:
        if (name, paper) not in found:
            with shared_browser.open(sheet_file(name, paper)) as tab:
                reader = PdfReader(io.BytesIO(tab.printed()))
                tab.tell("Emulation.setEmulatedMedia", media="print")
                width_mm = SIZES_PT[paper][0] * 25.4 / 72 - MARGINS_MM["across"]
                tab.resize(round(width_mm * PX_PER_MM), 1000)
                found[name, paper] = _print(reader, tab.run(UNITS))
        return found[name, paper]

    return run


def _print(reader: PdfReader, seen: dict) -> Print:
    pages = list(reader.pages)
    numbers = [f"{number}/{len(pages)}" for number in range(1, len(pages) + 1)]
    texts = [signs(page.extract_text()) for page in pages]
    assert all(number in text for number, text in zip(numbers, texts, strict=True))
    texts = [
        text.replace(number, "", 1) if text.startswith(number) else "".join(text.rsplit(number, 1))
        for text, number in zip(texts, numbers, strict=True)
    ]
    units = [(is_heading, signs(text)) for is_heading, text in seen["units"]]
    return Print(pages, texts, units, signs(seen["all"]), seen["height"])


def signs(text: str) -> str:
    """Return what is printed of a text, for comparing.

    Left out: spaces, which a PDF does not keep, bullets, which are no text of the page, and Hebrew
    letters, which a PDF holds in the order of their places.
    """
    text = unicodedata.normalize("NFKC", text)  # two letters in one sign are two letters
    return re.sub(r"[\s\u2022\u25aa\u05d0-\u05ea\u200e\u200f\u202a-\u202e\u2066-\u2069]", "", text)


def pages_of_units(sheet: Print) -> list[int]:
    """Return on which page each unit stands whole, each sought behind the one before it."""
    found, page, place = [], 0, 0
    for _, text in sheet.units:
        at = sheet.texts[page].find(text, place)
        while at < 0:
            page, place = page + 1, 0
            assert page < len(sheet.texts), f"not whole on a page, or not in its order: {text}"
            at = sheet.texts[page].find(text)
        found.append(page)
        place = at + len(text)
    return found


@on_paper
def test_all_that_shows_is_printed_in_order_and_nothing_is_cut_in_two(printed, sheet, paper):
    of_sheet = printed(sheet, paper)
    assert len(of_sheet.units) > 20
    assert of_sheet.signs == "".join(text for _, text in of_sheet.units)
    pages = pages_of_units(of_sheet)
    assert set(range(len(of_sheet.pages))) == set(pages)  # none without a part of the sheet


@on_paper
def test_no_heading_stands_alone_at_the_foot_of_a_page(printed, sheet, paper):
    of_sheet = printed(sheet, paper)
    pages = pages_of_units(of_sheet)
    headings = [
        (text, here, after)
        for (is_heading, text), (here, after) in zip(of_sheet.units, pairwise(pages), strict=False)
        if is_heading and text != signs("The piece")  # a drawing follows, seen to below
    ]
    assert len(headings) >= 4
    assert [] == [text for text, here, after in headings if here != after]


@on_paper
def test_drawing_stands_under_its_heading(printed, sheet, paper):
    of_sheet = printed(sheet, paper)
    pages = zip(of_sheet.units, pages_of_units(of_sheet), strict=True)
    headings = [page for (_, text), page in pages if text == signs("The piece")]
    legend = signs("Finishes" if "client" in sheet else "Finish zones")
    drawn = [k for k, text in enumerate(of_sheet.texts) if legend in text]
    assert headings == drawn
    assert ("trip" in sheet) == (headings == [])


@on_paper
def test_paper_has_its_size_and_no_more_pages_than_the_content_asks_for(printed, sheet, paper):
    of_sheet = printed(sheet, paper)
    for page in of_sheet.pages:
        assert pytest.approx(SIZES_PT[paper], abs=1) == page.mediabox[2:]
    room_px = (SIZES_PT[paper][1] * 25.4 / 72 - MARGINS_MM["down"]) * PX_PER_MM
    least = math.ceil(of_sheet.height_px / room_px)
    # At the feet of pages room is lost to what must stay whole, in all no more than a page.
    assert least <= len(of_sheet.pages) <= least + 1
    if sheet in REAL and filled(of_sheet.pages[-1]) < NEARLY_EMPTY:
        assert least == len(of_sheet.pages)


def filled(page: PageObject) -> float:
    """Return how far down its text goes, without the page's number, as a share of the page."""
    heights_pt = []

    def note(text: str, user: list[float], place: list[float], *_: object) -> None:
        if text.strip():
            heights_pt.append(place[4] * user[1] + place[5] * user[3] + user[5])

    page.extract_text(visitor_text=note)
    top_pt, height_pt = max(heights_pt), float(page.mediabox.height)
    lowest_pt = sorted(set(heights_pt))[1]  # under it stands the number
    return (top_pt - lowest_pt) / height_pt
