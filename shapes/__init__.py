"""Geometry of furniture: millimetres in, square millimetres out.

Knows no paint, no money and no piece files. Read in this order:

    boards, cases, drawers, legs, panels   solids with named faces
    outlines, profiles                     closed lines and profiles, with true lengths
    outline_boards, worked_edges, mouldings, raised_panels, lofts, spindles   more solids
    chamfered_legs                         posts with their corners taken off
    arched_panels                          panels and doors under an arch
    dished_seats                           boards with a bowl in their top
    rods                                   round stock, bent along a path
    splayed_legs                           legs that lean, sawn level at both ends
    part_cuts                              faces told apart by a line or a box
    transforms, relief                     a solid turned, leaned, mirrored; faces with a ratio
    parts, placement                       where each stands, and what is joined to what
    relations                              where parts stand by what they stand on or against
    exposure                               the area of each face that is left to see

Every solid can be imported from here, and what places it: `from shapes import board, place`. The
functions `exposure` and `relief` are in the modules of their names. Importing this package imports
nothing yet.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from shapes.arched_panels import arched_frame, arched_panel
    from shapes.boards import board
    from shapes.cases import case
    from shapes.chamfered_legs import chamfered_leg, octagonal_leg
    from shapes.dished_seats import dished
    from shapes.drawers import drawer
    from shapes.errors import ShapeError
    from shapes.legs import round_leg, square_leg, tapered_leg, turned_leg
    from shapes.lofts import shaped_leg, shaped_round_leg
    from shapes.mouldings import (
        mitred_moulding,
        moulding,
        moulding_along,
        moulding_around,
    )
    from shapes.outline_boards import outline_board
    from shapes.outlines import circle, oval, polygon, rounded_rectangle
    from shapes.panels import panel
    from shapes.part_cuts import cut_at, cut_by_box
    from shapes.parts import Part
    from shapes.placement import corners, place, row
    from shapes.profiles import bead, chamfer, cove, ogee, quarter_round
    from shapes.raised_panels import open_panel, panelled_door, raised_panel
    from shapes.rods import rod
    from shapes.solids import Solid, area_mm2
    from shapes.spindles import bun_foot, spindle
    from shapes.splayed_legs import splayed_leg, splayed_round_leg, splayed_turned_leg
    from shapes.transforms import lean, mirror, turn
    from shapes.volumes import volume_mm3
    from shapes.worked_edges import profiled_board, worked_outline

__all__ = [
    "Part",
    "ShapeError",
    "Solid",
    "arched_frame",
    "arched_panel",
    "area_mm2",
    "bead",
    "board",
    "bun_foot",
    "case",
    "chamfer",
    "chamfered_leg",
    "circle",
    "corners",
    "cove",
    "cut_at",
    "cut_by_box",
    "dished",
    "drawer",
    "lean",
    "mirror",
    "mitred_moulding",
    "moulding",
    "moulding_along",
    "moulding_around",
    "octagonal_leg",
    "ogee",
    "open_panel",
    "outline_board",
    "oval",
    "panel",
    "panelled_door",
    "place",
    "polygon",
    "profiled_board",
    "quarter_round",
    "raised_panel",
    "rod",
    "round_leg",
    "rounded_rectangle",
    "row",
    "shaped_leg",
    "shaped_round_leg",
    "spindle",
    "splayed_leg",
    "splayed_round_leg",
    "splayed_turned_leg",
    "square_leg",
    "tapered_leg",
    "turn",
    "turned_leg",
    "volume_mm3",
    "worked_outline",
]

_HOMES = {
    "boards": ("board",),
    "cases": ("case",),
    "drawers": ("drawer",),
    "panels": ("panel",),
    "legs": (
        "square_leg",
        "tapered_leg",
        "round_leg",
        "turned_leg",
    ),
    "lofts": (
        "shaped_leg",
        "shaped_round_leg",
    ),
    "spindles": (
        "spindle",
        "bun_foot",
    ),
    "chamfered_legs": (
        "chamfered_leg",
        "octagonal_leg",
    ),
    "arched_panels": (
        "arched_frame",
        "arched_panel",
    ),
    "dished_seats": ("dished",),
    "rods": ("rod",),
    "splayed_legs": (
        "splayed_leg",
        "splayed_round_leg",
        "splayed_turned_leg",
    ),
    "outline_boards": ("outline_board",),
    "mouldings": (
        "moulding",
        "mitred_moulding",
        "moulding_around",
        "moulding_along",
    ),
    "worked_edges": (
        "profiled_board",
        "worked_outline",
    ),
    "raised_panels": (
        "raised_panel",
        "open_panel",
        "panelled_door",
    ),
    "outlines": (
        "polygon",
        "oval",
        "circle",
        "rounded_rectangle",
    ),
    "profiles": (
        "chamfer",
        "quarter_round",
        "cove",
        "bead",
        "ogee",
    ),
    "transforms": (
        "turn",
        "lean",
        "mirror",
    ),
    "part_cuts": (
        "cut_at",
        "cut_by_box",
    ),
    "parts": ("Part",),
    "placement": (
        "place",
        "row",
        "corners",
    ),
    "solids": (
        "Solid",
        "area_mm2",
    ),
    "volumes": ("volume_mm3",),
    "errors": ("ShapeError",),
}
"""The names of each module; they are imported when they are asked for."""


def __getattr__(name: str) -> Any:
    for home, names in _HOMES.items():
        if name in names:
            return getattr(import_module(f"shapes.{home}"), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
