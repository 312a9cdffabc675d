"""Pages and drawings as trees of elements, and the one place that writes them as HTML or SVG.

Every text and every value of an attribute is escaped where it is written, and what could hide
itself or turn the direction of what follows is spelled out: no caller has to think of it.
"""

import base64
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from surfacecalc.problems import printable

VOID = frozenset(["br", "img", "input", "link", "meta"])
"""Elements of HTML that have no content and no end tag."""
RAW = frozenset(["script", "style"])
"""Elements of HTML in which nothing is escaped; only text of this program may be in them."""
ON_LINES = frozenset(
    [
        "body", "dl", "figure", "h1", "h2", "h3", "head", "header", "link", "main", "meta", "nav",
        "ol", "p", "script", "section", "style", "table", "tbody", "tfoot", "thead", "title", "tr",
        "ul",
    ]
)  # fmt: skip
"""Elements of HTML after which the text of the file goes to a new line, for whoever reads it."""


@dataclass(frozen=True)
class Element:
    """An element of a page or of a drawing.

    Attributes:
        tag: what it is, such as "li".
        classes: which looks it has.
        attributes: its other attributes by name.
        children: texts, elements and pictures in the order in which they are read.
    """

    tag: str
    classes: tuple[str, ...] = ()
    attributes: Mapping[str, str] = field(default_factory=dict)
    children: tuple["Node", ...] = ()

    @property
    def elements(self) -> tuple["Element", ...]:
        """The elements in it, without the texts and pictures between them."""
        return tuple(child for child in self.children if isinstance(child, Element))

    @property
    def text(self) -> str:
        """All that is read in it."""
        return "".join(
            child.text if isinstance(child, Element) else child
            for child in self.children
            if not isinstance(child, Picture)
        )

    def all(self, *tags: str) -> Iterator["Element"]:
        """Yield the elements under it that have one of some tags, in the order of the page."""
        for child in self.elements:
            if child.tag in tags:
                yield child
            yield from child.all(*tags)


@dataclass(frozen=True)
class Picture:
    """A drawing on a page.

    Attributes:
        drawing: the element <svg> with all that is drawn.
        words: what it shows, for whoever does not see it.
    """

    drawing: Element
    words: str


Node = Element | Picture | str
Content = Node | Iterable["Content"] | None
"""What may be put into an element: one thing, several, or none."""


def element(
    tag: str, *content: Content, look: str = "", **attributes: str | float | bool | None
) -> Element:
    """Return an element.

    Args:
        tag: what it is.
        content: what is in it; None is nothing.
        look: its classes, a space between.
        attributes: by name; `aria_label` is aria-label and `for_` is for. True writes the name
            alone, None and False nothing.

    >>> element("p", "a ", element("b", "b"), look="soft", aria_label="x", hidden=True).attributes
    {'aria-label': 'x', 'hidden': ''}
    """
    given = {
        name.rstrip("_").replace("_", "-"): "" if value is True else str(value)
        for name, value in attributes.items()
        if value is not None and value is not False
    }
    return Element(tag, tuple(look.split()), given, tuple(nodes(content)))


def nodes(content: Content) -> Iterator[Node]:
    """Yield each thing in some content."""
    if isinstance(content, Element | Picture | str):
        yield content
    elif content is not None:
        for one in content:
            yield from nodes(one)


def name(text: str) -> Element:
    """Return words of the user, which may run from right to left, apart from what is around."""
    return element("bdi", text)


def html_of(node: Node) -> str:
    r"""Return an element as HTML.

    >>> html_of(element("p", 'a < "b"', element("br"), title="<>"))
    '<p title="&lt;&gt;">a &lt; &quot;b&quot;<br></p>\n'
    """
    if isinstance(node, str):
        return _escaped(node)
    if isinstance(node, Picture):
        return html_of(element("img", alt=node.words, src=_data_address(node.drawing)))
    end = "\n" if node.tag in ON_LINES else ""
    if node.tag in VOID:
        return f"<{node.tag}{_attributes(node)}>{end}"
    inner = _raw(node) if node.tag in RAW else "".join(map(html_of, node.children))
    return f"<{node.tag}{_attributes(node)}>{inner}</{node.tag}>{end}"


def svg_of(drawing: Element) -> str:
    """Return a drawing as the text of an SVG file."""
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{_xml(drawing)}\n'


def _xml(node: Node) -> str:
    if isinstance(node, str):
        return _escaped(node)
    if isinstance(node, Picture):
        raise TypeError("a drawing has no other drawing in it")
    start = f"<{node.tag}{_attributes(node)}"
    if not node.children:
        return f"{start}/>"
    lines = "\n" if node.tag in ("svg", "g") else ""
    inner = lines.join(map(_xml, node.children))
    return f"{start}>{lines}{inner}{lines}</{node.tag}>"


def _raw(node: Element) -> str:
    """Return a script, a style or data as they are.

    Raises:
        ValueError: it would end the element that it is in.
    """
    text = node.text
    if "</" in text or "<!--" in text:
        raise ValueError(f"<{node.tag}> must not hold </ or <!--")
    return text


def _attributes(node: Element) -> str:
    given = {**({"class": " ".join(node.classes)} if node.classes else {}), **node.attributes}
    return "".join(f' {key}="{_escaped(value)}"' for key, value in given.items())


def _escaped(text: str) -> str:
    """Return a text for use between tags, or in an attribute between double quotes."""
    shown = printable(text)
    for sign, entity in (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"), ('"', "&quot;")):
        shown = shown.replace(sign, entity)
    return shown


def _data_address(drawing: Element) -> str:
    return f"data:image/svg+xml;base64,{base64.b64encode(svg_of(drawing).encode()).decode()}"
