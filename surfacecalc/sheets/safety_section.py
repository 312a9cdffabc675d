"""Safety: the cautions, each with what it applies to and its sources; and the notes of `check`."""

from collections.abc import Iterable

from surfacecalc.cautions import CLOSING, CLOSING_FOR_OWNER, Caution
from surfacecalc.elements import Content, Element, element, name
from surfacecalc.problems import Problem


def cautions_body(found: Iterable[Caution]) -> Content:
    """Return the cautions; above them, so never alone on a page, that local codes come first."""
    return _list(CLOSING, [_caution(caution) for caution in found])


def cautions_for_owner(found: Iterable[Caution]) -> Content:
    """Return what the owner of the finished piece should know."""
    items = [_item(caution.headline, caution.in_use) for caution in found if caution.in_use]
    return _list(CLOSING_FOR_OWNER, items)


def notes_body(notes: Iterable[Problem]) -> Content:
    """Return what `check` notes on a file, each with its line."""
    items = [element("li", name(_note(note)), _line(note)) for note in notes]
    return element("ul", items, look="plain") if items else None


def _list(closing: str, items: list[Element]) -> Content:
    if not items:
        return None
    return [element("p", closing, look="soft"), element("ul", items, look="cautions")]


def _caution(caution: Caution) -> Element:
    here = element("small", "Here: ", name(caution.applies_to), ".") if caution.applies_to else None
    sources = element("small", f"[{'; '.join(caution.sources)}]")
    return _item(caution.headline, caution.details, here and [" ", here], " ", sources)


def _item(headline: str, text: str, *more: Content) -> Element:
    return element("li", element("strong", headline), " ", text, more)


def _note(note: Problem) -> str:
    end = "" if note.message.endswith("?") else "."
    return f"{note.where}: {note.message}{end}" if note.where else f"{note.message}{end}"


def _line(note: Problem) -> Content:
    return [" ", element("small", f"line {note.line}")] if note.line else None
