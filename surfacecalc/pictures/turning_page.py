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
from surfacecalc.elements import Element, element, html_of, name
from surfacecalc.model.pieces import Piece
from surfacecalc.pictures.beside import set_beside
from surfacecalc.pictures.layout import INK
from surfacecalc.pictures.legend import LegendEntry, legend, sizes
from surfacecalc.pictures.marks import PATTERN_LINE, filled, number, pattern_mark
from surfacecalc.pictures.palette import ZoneLook, looks
from surfacecalc.pictures.zone_meshes import edges, meshes
from surfacecalc.units.display import Units
from surfacecalc.zones.area_words import exposed_text
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

NO_SCRIPTS = (
    "Turning the piece needs scripts, which are switched off here. The areas are in the table; the"
    " drawing shows the piece without scripts."
)
HELP = (
    "Drag to turn. With the keyboard: arrow keys turn, + and - change the size, Home goes back to"
    " the start."
)


def page(piece: Piece, measured: Measured, units: Units) -> str:
    """Return the page of a measured piece as the text of an HTML file.

    Args:
        piece: the piece; loose parts are set beside it.
        measured: its measures.
        units: which units sizes and areas are shown in.
    """
    style, script = _part("page.css"), _part("page.js")
    title = piece.settings.title
    policy = (
        "default-src 'none'; img-src data:;"
        f" script-src '{_digest(script)}'; style-src '{_digest(style)}'"
    )
    head = element(
        "head",
        element("meta", charset="utf-8"),
        element("meta", http_equiv="Content-Security-Policy", content=policy),
        element("meta", name="viewport", content="width=device-width, initial-scale=1"),
        element("link", rel="icon", href="data:,"),
        element("title", f"{title}: finish zones"),
        element("style", style),
    )
    first, *more = sizes(measured, units)
    lines = element("p", first, ([element("br"), line] for line in more))
    header = element("header", element("h1", name(title)), lines)
    zones = element("section", _table(measured, units), aria_label="Finish zones")
    model = element("script", _json(_model(piece, measured)), type="application/json", id="model")
    body = element(
        "body", header, element("main", _viewer(title), zones), model, element("script", script)
    )
    return f"<!DOCTYPE html>\n{html_of(element('html', head, body, lang='en'))}\n"


def _part(name: str) -> str:
    return files("surfacecalc.pictures").joinpath(name).read_text(encoding="utf-8")


def _viewer(title: str) -> Element:
    """Return the canvas with its buttons."""
    words = f"{title}, coloured by finish zone. Arrow keys turn it, plus and minus change its size."
    sides = [
        element("button", text, type="button", data_turn=turn, data_tilt=tilt, id=key)
        for key, text, turn, tilt in TURNS
    ]
    sizes_ = [
        element("button", text, type="button", id=key)
        for key, text in (("smaller", "Smaller"), ("larger", "Larger"))
    ]
    return element(
        "section",
        element("canvas", id="piece", tabindex=0, role="img", aria_label=words,
                aria_describedby="seen help"),
        element("noscript", element("p", NO_SCRIPTS, look="notice")),
        element("p", id="seen", role="status"),
        element("div", sides, look="buttons", role="group", aria_label="Seen from"),
        element("div", sizes_, look="buttons", role="group", aria_label="Size"),
        element("p", HELP, id="help"),
        aria_label="The piece",
    )  # fmt: skip


def _digest(text: str) -> str:
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"


def _json(tables: dict[str, Any]) -> str:
    """Return JSON that cannot end the script it is in."""
    text = json.dumps(tables, separators=(",", ":"))
    return text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")


def _table(measured: Measured, units: Units) -> Element:
    heads = [element("th", text, scope="col") for text in ("Look", "Zone", "Area")]
    rows = [_row(k, entry) for k, entry in enumerate(legend(measured, units))]
    total = element("td", exposed_text(measured.one, units))
    foot = element("tr", element("td"), element("th", "Total exposed", scope="row"), total)
    return element(
        "table",
        element("caption", "Finish zones"),
        element("thead", element("tr", heads)),
        element("tbody", rows),
        element("tfoot", foot),
    )


def _row(k: int, entry: LegendEntry) -> Element:
    note = element("small", entry.note) if entry.note else None
    return element(
        "tr",
        element("td", _swatch(entry.look, f"look-{k}")),
        element("th", name(entry.name), note, scope="row"),
        element("td", entry.area),
    )


def _swatch(look: ZoneLook, identity: str) -> Element:
    wide, high = SWATCH
    box = f"0 0 {number(wide / PX_IN_MM)} {number(high / PX_IN_MM)}"
    return element(
        "svg",
        element("defs", pattern_mark(look, identity)),
        filled("rect", look, identity, width="100%", height="100%"),
        width=wide, height=high, viewBox=box, aria_hidden="true",
    )  # fmt: skip


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
