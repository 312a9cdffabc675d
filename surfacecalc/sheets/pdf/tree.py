"""A page of ours as a tree, without what is left out on paper."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

VOID = frozenset(["br", "img", "input", "link", "meta"])
"""Elements that nothing stands in."""
FOR_SCREENS = frozenset(["button", "nav", "script"])
"""Elements that are never printed."""


@dataclass(frozen=True)
class Element:
    """An element of a page, with what stands in it.

    Attributes:
        tag: its name, such as "li".
        attributes: its attributes by name.
        children: texts and elements in the order of the page.
    """

    tag: str
    attributes: dict[str, str]
    children: list["Element | str"] = field(default_factory=list)

    @property
    def classes(self) -> list[str]:
        """Its classes, in the order in which they are written."""
        return self.attributes.get("class", "").split()

    @property
    def elements(self) -> list["Element"]:
        """The elements that stand in it, without the texts between them."""
        return [child for child in self.children if isinstance(child, Element)]

    @property
    def text(self) -> str:
        """All that is read in it."""
        return "".join(
            child.text if isinstance(child, Element) else child for child in self.children
        )

    def all(self, *tags: str) -> Iterator["Element"]:
        """Yield the elements under it that have one of some names, in the order of the page."""
        for child in self.elements:
            if child.tag in tags:
                yield child
            yield from child.all(*tags)


def tree_of(page: str) -> Element:
    """Return a whole page as a tree; its top element has no name."""
    reader = _Reader()
    reader.feed(page)
    reader.close()
    return reader.top


def on_paper(element: Element) -> Element:
    """Return an element without what is for screens: links, buttons, folded lines."""
    kept = [
        on_paper(child) if isinstance(child, Element) else child
        for child in element.children
        if not (isinstance(child, Element) and is_left_out(child))
    ]
    return Element(element.tag, element.attributes, kept)


def is_left_out(element: Element) -> bool:
    """Whether an element is not printed, as `@media print` in sheet.css has it."""
    is_folded = element.tag == "details" and "open" not in element.attributes
    return is_folded or element.tag in FOR_SCREENS or "screen" in element.classes


class _Reader(HTMLParser):
    """Builds the tree; our pages close every element that they open."""

    def __init__(self) -> None:
        super().__init__()
        self.top = Element("", {})
        self._open = [self.top]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {name: value or "" for name, value in attrs})
        self._open[-1].children.append(element)
        if tag not in VOID:
            self._open.append(element)

    def handle_endtag(self, tag: str) -> None:
        if tag not in VOID:
            self._open.pop()

    def handle_data(self, data: str) -> None:
        self._open[-1].children.append(data)
