"""The frame of every sheet: head, style, script, and a policy that lets nothing be fetched."""

import base64
import hashlib
import os
import re
from collections.abc import Mapping
from dataclasses import dataclass
from importlib.resources import files
from typing import Literal

from surfacecalc.elements import Content, Element, Node, element, html_of, name, nodes
from surfacecalc.units.display import Units

Paper = Literal["a4", "letter"]
GENERATOR = "surfacecalc sheet"
"""By which a sheet is known, so that no other file is written over without a word."""
LETTER_COUNTRIES = frozenset(
    ["BZ", "CA", "CL", "CO", "CR", "GT", "MX", "NI", "PA", "PH", "PR", "SV", "US", "VE"]
)
"""Countries that print on Letter, as in the paper sizes of CLDR; assumed."""
LOCALE_VARIABLES = ("LC_ALL", "LC_PAPER", "LANG")
LONG_TITLE = 60
"""Above so many letters, a title is set smaller: two lines on paper are enough for a name."""
CLEAR_ALL = element(
    "p",
    element("button", "Clear all ticks", type="button", id="clear", hidden=True),
    look="screen",
)
"""A button for screens that takes every tick away."""
_AMOUNT = re.compile(r"(?<=\d) (?=\d+/\d|%|(?:fl oz|oz|ml|L|g|kg)\b)|(?<=\d fl) (?=oz\b)")
_UNBROKEN = "\N{NO-BREAK SPACE}"
_PAGE_SIZES = {"a4": "A4", "letter": "letter"}


@dataclass(frozen=True)
class SheetSection:
    """A part of a sheet.

    Attributes:
        key: its id, unlike any other in the sheet.
        title: its heading.
        body: its content.
    """

    key: str
    title: str
    body: Content


@dataclass(frozen=True)
class SheetPage:
    """A whole sheet, from which its HTML and its PDF are written.

    Attributes:
        title: what a browser and a reader of PDF call it.
        paper: what it is printed on.
        links: the ids of its parts with their headings, in order.
        header: its head.
        main: its parts.
    """

    title: str
    paper: Paper
    links: tuple[tuple[str, str], ...]
    header: Element
    main: Element

    def html(self) -> str:
        """Return the sheet as the text of an HTML file."""
        style = f"@page {{ size: {_PAGE_SIZES[self.paper]}; }}\n{_part('sheet.css')}"
        script = _part("ticks.js")
        links = (element("li", element("a", text, href=f"#{key}")) for key, text in self.links)
        nav = element("nav", element("ul", links), aria_label="Parts of this sheet")
        body = element("body", self.header, nav, self.main, element("script", script))
        page = element("html", _head(self.title, style, script), body, lang="en")
        return f"<!DOCTYPE html>\n{html_of(page)}\n"


def paper_for(units: Units, environment: Mapping[str, str] = os.environ) -> Paper:
    """Return the paper of the country that the locale names, else that which suits the units."""
    for variable in LOCALE_VARIABLES:
        named = environment.get(variable, "").partition(".")[0].partition("@")[0]
        country = named.partition("_")[2].upper()
        if country:
            return "letter" if country in LETTER_COUNTRIES else "a4"
        if named:  # "C", or a language alone: it goes before the variables that follow
            break
    return "letter" if units is Units.US else "a4"


def is_sheet(content: bytes) -> bool:
    """Whether the content of a file is a sheet."""
    return html_of(_generator()).strip().encode() in content[:2000]


def page(
    title: str, kind: str, lead: Content, sections: list[SheetSection], paper: Paper
) -> SheetPage:
    """Return a whole sheet.

    Args:
        title: name of the piece, as the user wrote it.
        kind: what the sheet is, such as "Shop sheet".
        lead: what is under the heading.
        sections: its parts in order; those without a body are not shown.
        paper: what it is printed on.
    """
    shown = [section for section in sections if any(True for _ in nodes(section.body))]
    heading = element("h1", name(title), data_long=len(title) > LONG_TITLE)
    return SheetPage(
        f"{title}: {kind.lower()}",
        paper,
        tuple((part.key, part.title) for part in shown),
        element("header", element("p", kind, look="kind"), heading, _unbroken(lead)),
        element("main", map(_section, shown)),
    )


def facts(pairs: list[tuple[str, Content]]) -> Element:
    """Return names and values side by side."""
    inner = (element("div", element("dt", title), element("dd", value)) for title, value in pairs)
    return element("dl", inner, look="facts")


def tick(key: str, count: int, words: Content) -> list[Element]:
    """Return a box to tick with its label.

    Args:
        key: by which the browser remembers it: the piece and the line.
        count: number of the box in the sheet.
        words: its label.
    """
    kept = hashlib.sha256(key.encode()).hexdigest()[:20]
    identity = f"tick-{count}"
    return [
        element("input", type="checkbox", id=identity, data_kept=kept),
        element("label", words, for_=identity),
    ]


def folded(title: Content, lines: list[Content]) -> Element | None:
    """Return lines that are shown when asked for. Nothing for no lines."""
    if not lines:
        return None
    items = element("ul", (element("li", line) for line in lines))
    return element("details", element("summary", title), items)


def table(caption: str | None, heads: list[Element], body: Content, foot: Content = None,
          **attributes: str) -> Element:  # fmt: skip
    """Return a table.

    Args:
        caption: what it shows, None where a heading says it.
        heads: the head of each column.
        body: its rows.
        foot: the row that ends it, if any.
        attributes: of the table itself.
    """
    return element(
        "table",
        element("caption", caption) if caption else None,
        element("thead", element("tr", heads)),
        element("tbody", body),
        element("tfoot", foot) if foot else None,
        **attributes,
    )


def column(title: Content, look: str = "") -> Element:
    """Return the head of a column."""
    return element("th", title, scope="col", look=look)


def row(title: Content, *cells: Element) -> Element:
    """Return a row of a table with its head."""
    return element("tr", element("th", title, scope="row"), cells)


def cell(content: Content) -> Element:
    """Return a cell of words."""
    return element("td", content)


def amount(content: Content) -> Element:
    """Return a cell of a number."""
    return element("td", content, look="number")


def _head(title: str, style: str, script: str) -> Element:
    policy = (
        "default-src 'none'; img-src data:;"
        f" script-src '{_digest(script)}'; style-src '{_digest(style)}'"
    )
    return element(
        "head",
        element("meta", charset="utf-8"),
        _generator(),
        element("meta", http_equiv="Content-Security-Policy", content=policy),
        element("meta", name="viewport", content="width=device-width, initial-scale=1"),
        element("link", rel="icon", href="data:,"),
        element("title", title),
        element("style", style),
    )


def _generator() -> Element:
    return element("meta", name="generator", content=GENERATOR)


def _section(part: SheetSection) -> Element:
    heading = element("h2", part.title, id=part.key)
    return element("section", heading, _unbroken(part.body), aria_labelledby=part.key)


def _unbroken(content: Content) -> list[Node]:
    """Return content in which no line ends within an amount: before its fraction or its unit."""
    return [_unbroken_node(node) for node in nodes(content)]


def _unbroken_node(node: Node) -> Node:
    if isinstance(node, str):
        return _AMOUNT.sub(_UNBROKEN, node)
    if isinstance(node, Element):
        inner = tuple(map(_unbroken_node, node.children))
        return Element(node.tag, node.classes, node.attributes, inner)
    return node


def _part(file: str) -> str:
    return files("surfacecalc.sheets").joinpath(file).read_text(encoding="utf-8")


def _digest(text: str) -> str:
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"
