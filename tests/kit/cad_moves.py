"""Shapes turned, leaned and mirrored, here and in the CAD kernel."""

import math

import numpy as np
from cad_kernel import moved, transformed
from cad_twins import Piece
from OCP.gp import gp_Ax1, gp_Ax2, gp_Dir, gp_Pnt, gp_Trsf

from shapes.transforms import lean, mirror, turn


def repositioned(piece, solid, trsf, swap=None, at=(0, 0, 0)):
    """Return a piece that the CAD kernel has turned or mirrored, its box moved to the origin."""
    corners = piece.solid.vertices / 80_000
    low = np.min([place_of(trsf, corner) for corner in corners], axis=0)
    back = trsf.Inverted()

    def name(middle, normal, is_flat):
        origin = place_of(back, (0, 0, 0))
        looked = place_of(back, normal) - origin
        named = piece.name(place_of(back, middle + low), looked, is_flat)
        return (swap or {}).get(named, named)

    return Piece(solid, moved(transformed(piece.shape, trsf), -low), name, at)


def place_of(trsf, point):
    placed = gp_Pnt(*map(float, point)).Transformed(trsf)
    return np.array([placed.X(), placed.Y(), placed.Z()])


def rotation(direction, degrees):
    trsf = gp_Trsf()
    trsf.SetRotation(gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(*direction)), math.radians(degrees))
    return trsf


def turned_piece(piece, degrees, at=(0, 0, 0)):
    return repositioned(piece, turn(piece.solid, degrees), rotation((0, 0, 1), degrees), at=at)


def leaned(piece, degrees, towards, at=(0, 0, 0)):
    axes = {"left": (0, -1, 0), "right": (0, 1, 0), "front": (1, 0, 0), "back": (-1, 0, 0)}
    trsf = rotation(axes[towards], degrees)
    return repositioned(piece, lean(piece.solid, degrees, towards=towards), trsf, at=at)


def mirrored(piece, across, at=(0, 0, 0)):
    normal = {"left-right": (1, 0, 0), "front-back": (0, 1, 0)}[across]
    trsf = gp_Trsf()
    trsf.SetMirror(gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*normal)))
    a, b = across.split("-")
    return repositioned(piece, mirror(piece.solid, across), trsf, {a: b, b: a}, at)
