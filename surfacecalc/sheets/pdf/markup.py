"""A page as calls in the language of the typesetter, one for each element.

The functions that are called are in `sheet.typ` under the names of elements and classes:
`p-soft` is `<p class="soft">`, `day-li` an `<li>` somewhere in `<div class="day">`. Every text goes
in as the literal of a string, so that nothing of it is ever run.
"""

import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from surfacecalc.elements import Element, Node, Picture, svg_of
from surfacecalc.problems import printable
from surfacecalc.sheets.pdf.pdf_table import Cell, table_of

CONTEXTS = frozenset(["cautions", "day", "facts", "lines", "plain", "signs"])
"""Classes that change what the elements in them look like."""
TOGETHER = frozenset(
    [
        "b", "cautions-li", "cautions-strong", "day-h3", "div-more", "div-zone", "h1", "h2", "h3",
        "header", "li", "lines-li", "p", "p-kind", "p-soft", "section-price",
        "signs-p", "small", "span-amounts", "span-assumed", "span-clock", "span-then", "strong",
    ]
)  # fmt: skip
"""Functions that take what is in the element as one."""
APART = frozenset(
    [
        "day-li", "day-ol", "div-day", "div-signs", "dl-facts", "facts-div", "ol", "ol-lines",
        "p-total", "span-buy", "ul", "ul-cautions", "ul-lines", "ul-plain",
    ]
)  # fmt: skip
"""Functions that take each thing in the element by itself."""
ALONE = frozenset(["br", "span-fill-in"])
"""Functions that take nothing."""
PART_BY_PART = frozenset(["section-work"])
"""Functions that take what is under each heading by itself, first what is above them."""
WITH_LOOKS = TOGETHER | APART | PART_BY_PART | ALONE
INLINE = frozenset(["a", "bdi", "dd", "dt", "em", "label", "span"])
"""Elements that only hold what is in them, in the line."""
BLOCKS = frozenset(["body", "div", "figure", "main", "section"])
"""Elements that only hold what is in them, on lines of their own."""
OF_THEIR_OWN = frozenset(["input", "table"])
"""Elements with a function here."""
IN_TABLES = frozenset(["caption", "tbody", "td", "tfoot", "th", "thead", "tr"])
PLAIN_CLASSES = frozenset(["number", "task", "wide"])
"""Classes without a look of their own on paper, or with one that their table gives them."""
_SPACE = re.compile(r"[ \t\n\r\f]+")
_HEADINGS = frozenset(["h2", "h3"])
_BEFORE_A_WORD = frozenset(["div-day", "p-total", "ul-plain"])
"""What stays on the page of a paragraph that follows it."""
_ISOLATED = "\N{FIRST STRONG ISOLATE}", "\N{POP DIRECTIONAL ISOLATE}"
_FROM_THE_RIGHT = frozenset(["R", "AL"])


def markup_of(element: Element, within: tuple[str, ...] = ()) -> str:
    """Return an element as code of the typesetter.

    Args:
        element: what is left of the page on paper.
        within: the classes that it is in, the innermost first.
    """
    name = name_of(element, within)
    inner = (*(one for one in element.classes if one in CONTEXTS), *within)
    if name == "table":
        return _table(element, inner)
    if name == "input":
        return "tick()"
    if name in ALONE:
        return f"{name}()"
    if name in PART_BY_PART:
        return f"{name}({', '.join(_joined(part, inner) for part in _parts(element))})"
    if name in APART:
        return f"{name}({', '.join(_each(element, inner))})"
    together = _together(element, inner)
    if name in TOGETHER:
        return f"{name}({together})"
    if name == "bdi" and _has_letters_from_the_right(element.text):
        return f"{{ {_quoted(_ISOLATED[0])}; {together}; {_quoted(_ISOLATED[1])} }}"
    return together if name in INLINE else f"plain({together})"


def name_of(element: Element, within: tuple[str, ...]) -> str:
    """Return by which name an element is known: the most particular one, else its tag."""
    tag = element.tag
    own = [*element.classes, element.attributes.get("aria-labelledby", "")]
    names = [*(f"{one}-{tag}" for one in within), *(f"{tag}-{one}" for one in own)]
    return next((name for name in names if name in WITH_LOOKS), tag)


def strangers(element: Element) -> Iterator[str]:
    """Yield the tags and classes that nothing is known of; their text is set all the same."""
    tags = {name.partition("-")[0] for name in WITH_LOOKS}
    tags |= INLINE | BLOCKS | OF_THEIR_OWN | IN_TABLES
    for child in element.elements:
        if child.tag not in tags:
            yield f"<{child.tag}>"
        for one in child.classes:
            if f"{child.tag}-{one}" not in WITH_LOOKS and one not in CONTEXTS | PLAIN_CLASSES:
                yield f"<{child.tag} class={one}>"
        yield from strangers(child)


def literal(text: str) -> str:
    r"""Return a text as the literal of a string: nothing in it is code, is markup or is hidden.

    >>> literal('#panic("x") \\ *')
    '"#panic(\\"x\\") \\\\ *"'
    """
    return _quoted(printable(text))


def _quoted(text: str) -> str:
    """Return text of this program as the literal of a string."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def _together(element: Element, within: tuple[str, ...]) -> str:
    return _joined(element.children, within)


def _joined(nodes: Sequence[Node], within: tuple[str, ...]) -> str:
    """Return things of a page as one block of code; it may be empty."""
    elements = [node for node in nodes if isinstance(node, Element)]
    kept = set()
    for one, after in pairwise(elements):
        if after.tag == "p" and one.tag in _HEADINGS:
            kept.add(id(after))
        if after.tag == "p" and name_of(one, within) in _BEFORE_A_WORD:
            kept.add(id(one))
    parts: list[str] = []
    for node in nodes:
        if isinstance(node, str):
            parts += _text(node)
        elif isinstance(node, Picture):
            parts.append(_picture(node))
        else:
            code = markup_of(node, within)
            parts.append(f"with-next({code})" if id(node) in kept else code)
    return f"{{ {'; '.join(parts)} }}" if parts else "[]"


def _parts(element: Element) -> list[list[Node]]:
    """Return what is above the first inner heading, then what is under each."""
    parts: list[list[Node]] = [[]]
    for child in element.children:
        if isinstance(child, Element) and child.tag == "h3":
            parts.append([])
        parts[-1].append(child)
    return parts


def _each(element: Element, within: tuple[str, ...]) -> Iterator[str]:
    """Yield each thing in an element; the space between them means nothing."""
    for child in element.children:
        if isinstance(child, Element):
            yield markup_of(child, within)
        elif isinstance(child, Picture):
            yield _picture(child)
        elif child.strip():
            yield literal(_shown(child).strip(" "))


def _text(text: str) -> Iterable[str]:
    """Yield a text with the space around it, which the typesetter drops where a line ends."""
    inner = _shown(text)
    words = inner.strip(" ")
    if inner.startswith(" "):
        yield "[ ]"
    if words:
        yield literal(words)
    if words and inner.endswith(" "):
        yield "[ ]"


def _shown(text: str) -> str:
    """Return a text as it is read: nothing hidden in it, and one space where there are several."""
    return _SPACE.sub(" ", printable(text))


def _table(element: Element, within: tuple[str, ...]) -> str:
    table = table_of(element)

    def cells(rows: list[list[Cell]]) -> str:
        return "".join(f"{_cell(cell, within)}, " for row in rows for cell in row)

    caption = "".join(_together(one, within) for one in table.captions)
    numbers = "".join(f"{number}, " for number in sorted(table.number_columns))
    return (
        f"sheet-table({table.columns}, ({numbers}), {caption or 'none'}, "
        f"({cells(table.head)}), ({cells(table.body)}), ({cells(table.foot)}))"
    )


def _cell(cell: Cell, within: tuple[str, ...]) -> str:
    heads = str(cell.is_head).lower()
    return f"cell({heads}, {cell.columns}, {_together(cell.element, within)})"


def _picture(picture: Picture) -> str:
    return f"drawing(bytes({_quoted(svg_of(picture.drawing))}), {literal(picture.words)})"


def _has_letters_from_the_right(text: str) -> bool:
    return any(unicodedata.bidirectional(sign) in _FROM_THE_RIGHT for sign in text)
