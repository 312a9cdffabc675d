"""The drawing on a sheet: a picture in the file itself, with its content in words."""

from surfacecalc.elements import Element, Picture, element
from surfacecalc.model.pieces import Piece
from surfacecalc.pictures.beside import size_text
from surfacecalc.pictures.sheet import drawing
from surfacecalc.units.display import Units
from surfacecalc.zones.areas import Measured


def figure(
    piece: Piece, measured: Measured, units: Units, *, for_owner: bool = False
) -> list[Element]:
    """Return the drawing of a measured piece for a sheet; it stays vectors when it is printed.

    It has a bar for its scale but not the scale itself, which changes with the size it is printed
    at. As a picture of its own in the sheet, none of its ids or styles meets the sheet's.
    """
    zones = ", ".join(zone.zone.name for zone in measured.zones)
    parts = "finishes" if for_owner else "finish zones"
    words = f"Drawing of {piece.settings.name} with its dimensions and {parts}: {zones}."
    shown = drawing(piece, measured, units, for_owner=for_owner, says_scale=False)
    return [
        element(
            "p", "The drawing is wider than the screen: swipe it sideways.", look="screen aside"
        ),
        element("figure", Picture(shown, words), tabindex=0, role="group", aria_label="Drawing"),
    ]


def size_words(measured: Measured, units: Units) -> str:
    """Return the size of the joined parts, or nothing where all are loose."""
    return size_text(measured.size_mm, units) if any(measured.size_mm) else ""
