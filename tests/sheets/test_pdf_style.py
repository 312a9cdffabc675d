"""What the style for paper and the code that calls it must agree on, and the style of screens."""

import re
from importlib.resources import files

import pytest

from surfacecalc.elements import Element
from surfacecalc.sheets.pdf.markup import WITH_LOOKS, literal, markup_of
from surfacecalc.sheets.pdf.paper_only import on_paper
from surfacecalc.sheets.pdf.pdf_table import table_of
from surfacecalc.sheets.pdf.printing import source_of
from surfacecalc.sheets.sheet_frame import page

STYLE = files("surfacecalc.sheets.pdf").joinpath("sheet.typ").read_text(encoding="utf-8")
CSS = files("surfacecalc.sheets").joinpath("sheet.css").read_text(encoding="utf-8")


def test_every_function_that_may_be_called_is_in_the_style() -> None:
    defined = set(re.findall(r"^#let ([a-z0-9-]+)\(", STYLE, re.MULTILINE))
    assert {"strong"} == WITH_LOOKS - defined  # which the typesetter has


def test_style_asks_for_no_file_and_no_package() -> None:
    assert [] == re.findall(r"\b(?:import|include|read\(|plugin|@preview)", STYLE)


def test_colours_are_those_of_the_screen() -> None:
    on_screen = dict(re.findall(r"--(\w+): (#[0-9a-f]{6})", CSS))
    on_paper_ = dict(re.findall(r"#let (\w+) = rgb\(\"(#[0-9a-f]{6})\"\)", STYLE))
    assert on_paper_.items() <= on_screen.items()
    assert len(on_paper_) == STYLE.count("rgb(")


@pytest.mark.parametrize(
    ("html", "code"),
    [
        ("<p>a <b>b</b> c</p>", 'p({ "a"; [ ]; b({ "b" }); [ ]; "c" })'),
        ('<p class="soft">a</p>', 'p-soft({ "a" })'),
        ('<div class="day"><ol><li><b>a</b>b</li></ol></div>',
         'div-day(day-ol(day-li(b({ "a" }), "b")))'),
        ("<ul>\n<li>a</li>\n</ul>", 'ul(li({ "a" }))'),
        ("<h3>a</h3><p>b</p><p>c</p>", 'h3({ "a" }); with-next(p({ "b" })); p({ "c" })'),
        ("<bdi>\u05d0</bdi>", '{ "\u2068"; { "\u05d0" }; "\u2069" }'),
        ("<p></p>", "p([])"),
    ],
    ids=["line", "class", "context", "space", "heading", "from the right", "empty"],
)  # fmt: skip
def test_page_becomes_calls(html: str, code: str, elements_of) -> None:
    body = Element("body", children=elements_of(html))
    assert f"plain({{ {code} }})" == markup_of(body)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ('a"b', '"a\\"b"'),
        ("a\\", '"a\\\\"'),
        ("#a\\u{41}", '"#a\\\\u{41}"'),
        ("a\u202eb", '"a\\\\u202eb"'),
    ],
)
def test_literal_escapes_quotes_and_backslashes(text: str, expected: str) -> None:
    assert expected == literal(text)


def test_page_stays_as_it_is_on_screen(elements_of) -> None:
    html = "<nav>a</nav><details><summary>b</summary></details><p>c</p>"
    body = Element("body", children=elements_of(html))
    assert "c" == on_paper(body).text
    assert "abc" == body.text


def test_columns_of_numbers_are_counted_after_wide_cells(elements_of) -> None:
    html = '<table><tr><td colspan="2">a</td><td class="number">1</td></tr></table>'
    table = table_of(elements_of(html)[0])
    assert (3, {2}) == (table.columns, table.number_columns)


def test_paper_is_named_as_the_typesetter_names_it() -> None:
    sheet = page("t", "Shop sheet", None, [], "letter")
    assert '#sheet("t: shop sheet", "us-letter", ' in source_of(sheet)
