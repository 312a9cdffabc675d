"""A sheet as PDF: nothing of the page is lost, nothing is cut, and every reader is served."""

import re
import unicodedata
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace
from io import BytesIO
from typing import Any

import pypdf
import pytest

from surfacecalc.elements import Element, Node, Picture
from surfacecalc.problems import printable
from surfacecalc.sheets.pdf.markup import strangers
from surfacecalc.sheets.pdf.paper_only import on_paper
from surfacecalc.sheets.pdf.printing import is_printed_sheet, printed
from surfacecalc.sheets.sheet_frame import SheetPage, SheetSection, page

MakePage = Callable[[str], SheetPage]
SmallPage = Callable[..., SheetPage]
TEXTS = (
    '#panic("run") #include "sheet.typ"',
    "*heavy* _leaning_ $x^2$ `raw` <label> @reference // gone /* gone */",
    '"quoted" \\" \\u{41} \\n \\',
    "<script>alert(1)</script> &amp; {a} [b] (c); d",
    "Комод из сосны, žluťoučký kůň, ½ \u00d7 ² ° \u2013",
    "\u05e9\u05d9\u05d3\u05d4 \u200f12",
    "n" * 300,
    "= Heading\n- item\n+ item\n/ term: text",
)


def letters(text: str) -> Counter[str]:
    """Count the letters of a text, without space and marks of direction."""
    return Counter(re.sub(r"[\s\u2068\u2069]", "", text))


def body(sheet: SheetPage) -> Element:
    """Return what of a sheet is printed."""
    return on_paper(Element("body", children=(sheet.header, sheet.main)))


def pictures(element: Element) -> Iterator[Picture]:
    for child in element.children:
        if isinstance(child, Picture):
            yield child
        elif isinstance(child, Element):
            yield from pictures(child)


def drawn(element: Element) -> str:
    """Return the lettering of the drawings."""
    drawings = [one.drawing for one in pictures(element)]
    return "".join(text.text for one in drawings for text in one.all("text"))


def is_turned(text: str) -> bool:
    """Whether a text has letters that are read from the right; a reader of PDF may turn them."""
    return any(unicodedata.bidirectional(sign) == "R" for sign in text)


def text_nodes(element: Element) -> list[str]:
    found = []
    for child in element.children:
        if isinstance(child, Element):
            found += text_nodes(child)
        elif isinstance(child, str):
            found.append(printable(child))
    return found


def pages_of(content: bytes) -> list[str]:
    """Return the text of each page, without the marks by which long names break."""
    pages = pypdf.PdfReader(BytesIO(content)).pages
    return [one.extract_text().replace("\u200b", "") for one in pages]


@pytest.fixture
def small_page(elements_of) -> SmallPage:
    """Return a page with some HTML on it; each @TEXT@ in it becomes a text."""

    def make(inner: str, title: str = "Box", text: str = "") -> SheetPage:
        content = [_with_text(one, text) for one in elements_of(inner)]
        return page(title, "Shop sheet", None, [SheetSection("a", "A", content)], "a4")

    return make


def _with_text(node: Node, text: str) -> Node:
    if isinstance(node, str):
        return node.replace("@TEXT@", text)
    if isinstance(node, Picture):
        return node
    inner = tuple(_with_text(child, text) for child in node.children)
    return Element(node.tag, node.classes, node.attributes, inner)


def assert_nothing_lost(sheet: SheetPage, content: bytes) -> None:
    """Every text of the page is in one piece in the PDF, and no letter is there that was not."""
    told, pages = body(sheet), pages_of(content)
    count = len(pages)
    inner = [
        re.sub(rf"{number}\s*/\s*{count}\s*$", "", text) for number, text in enumerate(pages, 1)
    ]
    without_space = re.sub(r"[\s\u2068\u2069]", "", "".join(inner))
    nodes = [re.sub(r"\s", "", text) for text in text_nodes(told) if not is_turned(text)]
    assert [] == [text for text in nodes if text not in without_space and len(text) < 40]
    found = letters("".join(inner)) - Counter({"•": 10_000})  # before the items of a list
    found.subtract(letters(printable(told.text)) + letters(drawn(told)))
    for head in [letters(printable(one.text)) for one in told.all("thead")] * count:
        if head <= found:  # it is said again on the next page
            found.subtract(head)
    assert {} == {letter: number for letter, number in found.items() if number}


def test_nothing_of_the_page_is_lost_and_nothing_added(sheet: str, sheet_page: MakePage) -> None:
    assert_nothing_lost(sheet_page(sheet), printed(sheet_page(sheet)).content)


def test_every_element_and_class_of_a_sheet_is_known(sheet: str, sheet_page: MakePage) -> None:
    assert set() == set(strangers(body(sheet_page(sheet))))


def test_the_unknown_is_found_and_its_text_is_printed_anyway(small_page: SmallPage) -> None:
    sheet = small_page('<blockquote>first</blockquote><p class="odd">second <u>third</u></p>')
    assert {"<blockquote>", "<p class=odd>", "<u>"} == set(strangers(body(sheet)))
    assert_nothing_lost(sheet, printed(sheet).content)


@pytest.mark.parametrize("text", TEXTS)
@pytest.mark.parametrize(
    "around",
    ["<h3>{}</h3><p>a</p>", "<p>{}</p>", '<ul class="lines"><li><b><bdi>{}</bdi></b></li></ul>',
     "<table><tbody><tr><th>{}</th><td>b</td></tr></tbody></table>",
     '<div class="day"><h3>{}</h3><ol><li><span>1</span><span>{}</span></li></ol></div>'],
    ids=["heading", "paragraph", "list", "table", "day"],
)  # fmt: skip
def test_any_text_is_text_and_nothing_else(text: str, around: str, small_page: SmallPage) -> None:
    sheet = small_page(around.replace("{}", "@TEXT@"), title=text, text=text)
    made = printed(sheet)
    assert () == made.missing
    assert_nothing_lost(sheet, made.content)


@pytest.mark.parametrize(
    "empty",
    ['<ul class="lines"></ul>', '<ul class="cautions"></ul>', '<ul class="plain"></ul>',
     '<dl class="facts"></dl>', "<table></table>", "<p></p>", "<h3></h3>"],
)  # fmt: skip
def test_what_is_empty_does_no_harm(empty: str, small_page: SmallPage) -> None:
    sheet = small_page(f"<p>before</p>{empty}<p>after</p>")
    assert_nothing_lost(sheet, printed(sheet).content)


def test_what_is_for_screens_is_not_printed(small_page: SmallPage) -> None:
    sheet = small_page(
        '<details><summary>folded</summary></details><p class="screen">hidden</p><p>kept</p>'
        "<details open><summary>unfolded</summary></details>"
    )
    assert ["folded", "hidden"] == [word for word in ("folded", "hidden") if word in sheet.html()]
    words = " ".join(pages_of(printed(sheet).content)).split()
    assert {"kept", "unfolded"} == {"kept", "unfolded", "folded", "hidden"} & set(words)


def test_same_page_gives_same_bytes_without_a_date(sheet_page: MakePage) -> None:
    first = printed(sheet_page("cupboard-shop")).content
    assert first == printed(sheet_page("cupboard-shop")).content
    assert b"Date(D:" not in first


@pytest.mark.parametrize(("paper", "size"), [("a4", (595, 842)), ("letter", (612, 792))])
def test_page_is_as_large_as_its_paper(
    paper: Any, size: tuple[int, int], small_page: SmallPage
) -> None:
    made = printed(replace(small_page("<p>a</p>"), paper=paper))
    box = pypdf.PdfReader(BytesIO(made.content)).pages[0].mediabox
    assert size == (round(box.width), round(box.height))


def test_readers_who_hear_it_find_title_language_tags_and_words_for_the_drawing(
    sheet: str, sheet_page: MakePage
) -> None:
    made = sheet_page(sheet)
    reader = pypdf.PdfReader(BytesIO(printed(made).content))
    root: Any = reader.root_object
    assert printable(made.title) == reader.metadata.title
    assert "en" == root["/Lang"]
    assert root["/MarkInfo"]["/Marked"]
    assert b"<pdfuaid:part>1</pdfuaid:part>" in root["/Metadata"].get_data()
    told = [printable(one.words) for one in pictures(body(made))]
    assert told == [str(tag["/Alt"]) for tag in _tags(root["/StructTreeRoot"]) if "/Alt" in tag]


def _tags(tag: Any) -> list[Any]:
    found: list[Any] = []
    inner = tag.get("/K", [])
    kids = inner if isinstance(inner, list) else [inner]
    for child in (kid.get_object() for kid in kids):
        if isinstance(child, dict) and child.get("/S"):
            found += [child, *_tags(child)]
    return found


def test_drawing_stays_lines_and_its_patterns_are_there(sheet_page: MakePage) -> None:
    content = printed(sheet_page("cupboard-shop")).content
    assert b"/Subtype/Image" not in content
    assert content.count(b"/PatternType 1") >= 2  # body and feet; what is left as it is has none


def test_only_a_sheet_is_known_as_one(small_page: SmallPage) -> None:
    title = "Keywords(surfacecalc sheet)"
    assert is_printed_sheet(printed(small_page("<p>a</p>")).content)
    writer = pypdf.PdfWriter()
    writer.add_blank_page(100, 100)
    writer.add_metadata({"/Title": title})
    other = BytesIO()
    writer.write(other)
    assert not is_printed_sheet(other.getvalue())
    assert not is_printed_sheet(small_page("<p>a</p>").html().encode())


@pytest.mark.parametrize(
    ("around", "most"),
    [("<p>{}</p>", 78), ("<h3>{}</h3>", 98), ('<ul class="lines"><li>{}</li></ul>', 45),
     ('<ul class="lines"><li><span class="buy"><b>{}</b><span>{}</span></span></li></ul>', 45),
     ("<table><tr><td>{}</td><td>{}</td><td>c</td></tr></table>", 36),
     ('<dl class="facts"><div><dt>{}</dt><dd>{}</dd></div></dl>', 36)],
    ids=["paragraph", "heading", "list", "buy", "table", "facts"],
)  # fmt: skip
def test_a_name_without_spaces_breaks_where_its_room_ends(
    around: str, most: int, small_page: SmallPage
) -> None:
    """An n is half as wide as it is high, about 1.9 mm; the page has 182 mm."""
    sheet = small_page(around.replace("{}", "n" * 200))
    (text,) = pages_of(printed(sheet).content)
    runs = [len(run) for run in re.findall("n+", text)]
    assert most / 2 < max(runs) < most


# Page ends


def many(count: int, item: str, *, before: str = "", after: str = "") -> str:
    """Return items that each hold their number three times, as a0a, b0b, c0c."""
    return before + "".join(item.replace("@", str(k)) for k in range(count)) + after


LISTS = {
    "ticks": many(
        150, '<li><label><span class="task">a@a</span><span class="then">b@b</span></label>'
        '<div class="more">c@c</div></li>', before='<ol class="lines">', after="</ol>",
    ),
    "cautions": many(
        70, f"<li><strong>a@a</strong> b@b {'word ' * 20} c@c</li>",
        before='<ul class="cautions">', after="</ul>",
    ),
    "days": many(
        60, '<div class="day"><h3>a@a</h3><ol><li><span class="clock">1</span><span>b@b</span></li>'
        '<li><span class="clock">2</span><span>c@c</span></li></ol></div>',
    ),
    "rows": many(
        90, "<tr><th>a@a</th><td>b@b<br>and<br>c@c</td></tr>",
        before="<table><thead><tr><th>HEAD</th><th>x</th></tr></thead><tbody>",
        after="</tbody></table>",
    ),
}  # fmt: skip


@pytest.mark.parametrize("kind", LISTS)
def test_no_line_row_day_or_caution_is_cut_by_a_page_end(kind: str, small_page: SmallPage) -> None:
    pages = pages_of(printed(small_page(LISTS[kind])).content)
    assert len(pages) > 2
    for text in pages:
        found = [set(re.findall(rf"{sign}(\d+){sign}", text)) for sign in "abc"]
        assert found[0] == found[1] == found[2] != set()


def test_head_of_a_table_is_repeated_on_every_page(small_page: SmallPage) -> None:
    pages = pages_of(printed(small_page(LISTS["rows"])).content)
    assert {1} == {text.count("HEAD") for text in pages}


@pytest.mark.parametrize("lines", range(0, 60, 3))
def test_no_heading_is_alone_at_the_foot_of_a_page(lines: int, small_page: SmallPage) -> None:
    inner = "<p>line</p>" * lines + "<h3>TITLE</h3><p class='soft'>WAITS</p>" + LISTS["ticks"]
    for text in pages_of(printed(small_page(inner)).content):
        last = [line for line in text.splitlines() if line.strip()][-2:]
        assert not {"TITLE", "WAITS"} & set(last)


@pytest.mark.parametrize(
    "around",
    ['<ul class="lines"><li>{}</li></ul>', '<ul class="cautions"><li>{}</li></ul>',
     '<div class="day"><h3>a</h3><ol><li><span>1</span><span>{}</span></li></ol></div>',
     "<table><tbody><tr><td>{}</td><td>b</td></tr></tbody></table>",
     '<ul class="plain"><li>{}</li></ul>', '<p class="notice">{}</p>'],
)  # fmt: skip
def test_what_is_longer_than_a_page_continues_on_the_next(
    around: str, small_page: SmallPage
) -> None:
    words = " ".join(f"w{k}w" for k in range(4000))
    pages = pages_of(printed(small_page(around.replace("{}", words))).content)
    found = [int(word) for text in pages for word in re.findall(r"w(\d+)w", text)]
    assert list(range(4000)) == sorted(found)


def test_pages_are_numbered(sheet_page: MakePage) -> None:
    pages = pages_of(printed(sheet_page("cupboard-shop")).content)
    expected = [f"{number}/{len(pages)}" for number in range(1, len(pages) + 1)]
    assert all(
        re.sub(r"\s", "", text).endswith(end) for text, end in zip(pages, expected, strict=True)
    )


def test_letters_that_no_font_has_are_listed(small_page: SmallPage) -> None:
    made = printed(small_page("<p>a \U0001f9e1 b</p><p>c \U00012000</p>"))
    assert "\U00012000" in made.missing
    assert is_printed_sheet(made.content)
