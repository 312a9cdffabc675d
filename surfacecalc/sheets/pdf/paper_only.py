"""What of a page is printed: all but what is for screens."""

from surfacecalc.elements import Element

FOR_SCREENS = frozenset(["button", "nav", "script"])
"""Elements that are never printed."""


def on_paper(element: Element) -> Element:
    """Return an element without what is for screens: links, buttons, folded lines."""
    kept = tuple(
        on_paper(child) if isinstance(child, Element) else child
        for child in element.children
        if not (isinstance(child, Element) and is_for_screens(child))
    )
    return Element(element.tag, element.classes, element.attributes, kept)


def is_for_screens(element: Element) -> bool:
    """Whether an element is not printed, as `@media print` in sheet.css has it."""
    is_folded = element.tag == "details" and "open" not in element.attributes
    return is_folded or element.tag in FOR_SCREENS or "screen" in element.classes
