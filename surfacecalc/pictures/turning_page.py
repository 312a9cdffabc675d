"""The page: one HTML file that shows the piece and turns it, and needs no network.

Its content security policy lets only its own script and style run, and nothing be fetched.
"""

import base64
import hashlib
import json
from collections.abc import Sequence
from importlib.resources import files
from typing import Any

import numpy as np
import numpy.typing as npt

from shapes.solids import Floats
from shapes.surfaces import surfaces
from surfacecalc.model.pieces import Piece
from surfacecalc.pictures.beside import set_beside
from surfacecalc.pictures.layout import INK
from surfacecalc.pictures.legend import LegendEntry, legend, sizes
from surfacecalc.pictures.marks import PATTERN_LINE, number, pattern_mark, safe
from surfacecalc.pictures.palette import looks
from surfacecalc.pictures.zone_meshes import edges, meshes
from surfacecalc.units.display import Units, format_area
from surfacecalc.zones.areas import Measured

SWATCH = (40, 24)
"""Width and height of a swatch in the legend [px]."""
PX_IN_MM = 96 / 25.4
"""CSS pixels in a millimetre."""
TURNS = (
    ("front", "Front", 0, 0),
    ("right", "Right", 90, 0),
    ("back", "Back", 180, 0),
    ("left", "Left", -90, 0),
    ("top", "Top", 0, 90),
    ("underside", "Underside", 0, -90),
    ("corner", "Corner", 35, 28),
)
"""Buttons: id, text, angle about the upright axis and angle above the floor [degrees]."""


def page(piece: Piece, measured: Measured, units: Units) -> str:
    """Return the page of a measured piece as the text of an HTML file.

    Args:
        piece: the piece; loose parts are set beside it.
        measured: its measures.
        units: which units sizes and areas are shown in.
    """
    style, script = _part("page.css"), _part("page.js")
    name = safe(piece.settings.name)
    return f"""<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; \
script-src '{_digest(script)}'; style-src '{_digest(style)}'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="icon" href="data:,">
<title>{name}: finish zones</title>
<style>{style}</style>
</head>
<body>
<header>
<h1><bdi>{name}</bdi></h1>
<p>{"<br>".join(sizes(measured, units))}</p>
</header>
<main>
{_viewer(name)}
<section aria-label="Finish zones">
{_table(measured, units)}
</section>
</main>
<script type="application/json" id="model">{_json(_model(piece, measured))}</script>
<script>{script}</script>
</body>
</html>
"""


def _part(name: str) -> str:
    return files("surfacecalc.pictures").joinpath(name).read_text(encoding="utf-8")


def _viewer(name: str) -> str:
    """Return the canvas with its buttons; the name is safe already."""
    buttons = "".join(
        f'<button type="button" data-turn="{turn}" data-tilt="{tilt}" id="{key}">{text}</button>'
        for key, text, turn, tilt in TURNS
    )
    return f"""<section aria-label="The piece">
<canvas id="piece" tabindex="0" role="img" aria-label="{name}, coloured by finish zone. Arrow keys \
turn it, plus and minus change its size." aria-describedby="seen help"></canvas>
<noscript><p class="notice">Turning the piece needs scripts, which are switched off here. The \
areas are in the table; the drawing shows the piece without scripts.</p></noscript>
<p id="seen" role="status"></p>
<div class="buttons" role="group" aria-label="Seen from">{buttons}</div>
<div class="buttons" role="group" aria-label="Size"><button type="button" id="smaller">Smaller\
</button><button type="button" id="larger">Larger</button></div>
<p id="help">Drag to turn. With the keyboard: arrow keys turn, + and - change the size, Home goes \
back to the start.</p>
</section>"""


def _digest(text: str) -> str:
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"


def _json(tables: dict[str, Any]) -> str:
    """Return JSON that cannot end the script it stands in."""
    text = json.dumps(tables, separators=(",", ":"))
    return text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")


def _table(measured: Measured, units: Units) -> str:
    rows = "\n".join(_row(k, entry) for k, entry in enumerate(legend(measured, units)))
    total = format_area(measured.exposed_m2, units)
    return f"""<table>
<caption>Finish zones</caption>
<thead><tr><th scope="col">Look</th><th scope="col">Zone</th><th scope="col">Area</th></tr></thead>
<tbody>
{rows}
</tbody>
<tfoot><tr><td></td><th scope="row">all that is exposed</th><td>{total}</td></tr></tfoot>
</table>"""


def _row(k: int, entry: LegendEntry) -> str:
    wide, high = SWATCH
    box = f"{number(wide / PX_IN_MM)} {number(high / PX_IN_MM)}"
    note = f"<small>{entry.note}</small>" if entry.note else ""
    swatch = (
        f'<svg width="{wide}" height="{high}" viewBox="0 0 {box}" aria-hidden="true">'
        f"<defs>{pattern_mark(entry.look, f'look-{k}')}</defs>"
        f'<rect width="100%" height="100%" fill="url(#look-{k})"/></svg>'
    )
    return (
        f'<tr><td>{swatch}</td><th scope="row"><bdi>{safe(entry.name)}</bdi>{note}</th>'
        f"<td>{entry.area}</td></tr>"
    )


def _model(piece: Piece, measured: Measured) -> dict[str, Any]:
    """Return points [mm], normals, triangles, their looks and edges as the script reads them."""
    found = surfaces(piece.parts, gap=piece.settings.gap_mm)
    shown = looks(measured)
    number_of = {look.name: k for k, look in enumerate(shown)}
    points: list[Floats] = []
    normals: list[Floats] = []
    triangles, zones, lines = [], [], []
    count = 0
    for surface, move in zip(found, set_beside(found), strict=True):
        at = move + surface.box_mm[0]
        lines.append(edges(surface).reshape(-1, 3) + at)
        for mesh in meshes(surface, piece.zone_of):
            points.append(mesh.points + at)
            normals.append(mesh.normals)
            triangles.append(mesh.triangles.ravel() + count)
            zones.append(np.full(len(mesh.triangles), number_of[mesh.zone]))
            count += len(mesh.points)
    return {
        "points": _packed(points, np.float32),
        "normals": _packed(normals, np.float32),
        "triangles": _packed(triangles, np.uint32),
        "zones": _packed(zones, np.uint16),
        "edges": _packed(lines, np.float32),
        "line": PATTERN_LINE,
        "ink": INK,
        "looks": [
            {
                "tint": look.tint,
                "ink": look.ink,
                "size": look.pattern.size,
                "strokes": look.pattern.strokes,
                "dots": look.pattern.dots,
            }
            for look in shown
        ],
    }


def _packed(arrays: Sequence[npt.NDArray[Any]], kind: type[np.generic]) -> str:
    """Return arrays one after another, little-endian, in base64."""
    together = np.concatenate([array.ravel() for array in arrays]) if arrays else np.zeros(0)
    return base64.b64encode(together.astype(np.dtype(kind).newbyteorder("<")).tobytes()).decode()
