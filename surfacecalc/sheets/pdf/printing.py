"""A page becomes a PDF: tagged for readers who hear it, the same bytes for the same page."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.resources import files
from typing import Final

from surfacecalc.elements import Element
from surfacecalc.sheets.pdf.markup import literal, markup_of
from surfacecalc.sheets.pdf.paper_only import on_paper
from surfacecalc.sheets.sheet_frame import SheetPage

MARK = b"/Keywords(surfacecalc sheet)"
"""By which a sheet is known; the style sets it, and the typesetter writes it as it is."""
_PAPERS = {"a4": "a4", "letter": "us-letter"}
_FOR_ALL: Final = "ua-1"
"""PDF/UA-1 (ISO 14289-1): tags, language, title, words for pictures; all letters are there."""
_NO_LETTER = re.compile(r"the text `\"(.+?)\"` could not be displayed")


@dataclass(frozen=True)
class Printed:
    """A page as PDF.

    Attributes:
        content: the file.
        missing: letters that no font on this computer has; an empty box is printed for each.
    """

    content: bytes
    missing: tuple[str, ...]


def can_print() -> bool:
    """Whether the typesetter is installed, and whole."""
    try:
        import typst
    except ImportError:
        return False
    return hasattr(typst, "compile")


def is_printed_sheet(content: bytes) -> bool:
    """Whether the content of a file is a sheet as PDF."""
    return content.startswith(b"%PDF-") and MARK in content


def printed(page: SheetPage) -> Printed:
    """Return a sheet as PDF.

    The fonts inside the typesetter come first, so that a page looks the same everywhere; those of
    the computer are asked only for letters that they lack.
    """
    import typst

    source = source_of(page).encode()
    missing: tuple[str, ...] = ()
    for ignore_system_fonts in (True, False):
        try:
            content = typst.compile(
                source, pdf_standards=[_FOR_ALL], ignore_system_fonts=ignore_system_fonts
            )
            return Printed(content, ())
        except typst.TypstError as error:
            missing = tuple(dict.fromkeys(_letters(error.diagnostic)))
    return Printed(typst.compile(source), missing)


def source_of(page: SheetPage) -> str:
    """Return what the typesetter is given: the style, then the page."""
    body = markup_of(on_paper(Element("body", children=(page.header, page.main))))
    style = files(__package__).joinpath("sheet.typ").read_text(encoding="utf-8")
    return f"{style}\n#sheet({literal(page.title)}, {literal(_PAPERS[page.paper])}, {body})\n"


def _letters(diagnostic: str) -> Iterator[str]:
    return (found[1] for found in _NO_LETTER.finditer(diagnostic))
