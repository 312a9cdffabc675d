"""The drawing on a sheet: a picture in the file itself, with its content in words."""

import base64

from surfacecalc.model.pieces import Piece
from surfacecalc.pictures.beside import size_text
from surfacecalc.pictures.marks import safe
from surfacecalc.pictures.sheet import draw
from surfacecalc.units.display import Units
from surfacecalc.zones.areas import Measured


def figure(piece: Piece, measured: Measured, units: Units, *, has_areas: bool = True) -> str:
    """Return the drawing of a measured piece as HTML; it stays vectors when it is printed.

    Standing in the sheet as a picture of its own, none of its ids or styles meets the sheet's.
    """
    drawn = base64.b64encode(draw(piece, measured, units, has_areas=has_areas).encode()).decode()
    zones = ", ".join(zone.zone.name for zone in measured.zones)
    words = f"Drawing of {piece.settings.name} with its dimensions and finish zones: {zones}."
    return (
        '<figure tabindex="0" role="group" aria-label="Drawing">'
        f'<img alt="{safe(words)}" src="data:image/svg+xml;base64,{drawn}"></figure>'
        '<p class="screen aside">Wider than the screen: swipe it sideways.</p>'
    )


def size_words(measured: Measured, units: Units) -> str:
    """Return the size of the joined parts, or nothing where all are loose."""
    return size_text(measured.size_mm, units) if any(measured.size_mm) else ""
