"""More forms of parts, each with its twin in the CAD kernel and the rule that names its faces."""

import numpy as np
from cad_kernel import box, fuse, side_of
from cad_twins import NEAR, Piece

from shapes.drawers import LIPS, drawer


def boxed_drawer(size, thick, lip=None, heights=(None, None), lip_thickness=None, at=(0, 0, 0)):
    """Return a drawer built there of a front, two sides, a back and a bottom.

    Args:
        size: width, depth, height.
        thick: of the front and of the boards.
        lip: by side.
        heights: of the sides and of the back.
        lip_thickness: of a front that is rebated.
        at: where it stands.
    """
    (width, depth, height), (front, wall) = size, thick
    solid = drawer(
        *size, front=front, board=wall, lip=lip, lip_thickness=lip_thickness,
        side_height=heights[0], back_height=heights[1],
    )  # fmt: skip
    left, right, top, bottom = ((lip or {}).get(side, 0) for side in LIPS)
    right, top = width - right, height - top
    sides = bottom + (heights[0] or top - bottom)
    back = bottom + (heights[1] or sides - bottom)
    thin = lip_thickness or front
    strips = [
        ((0, 0, 0), (left, thin, height)),
        ((right, 0, 0), (width, thin, height)),
        ((left, 0, top), (right, thin, height)),
        ((left, 0, 0), (right, thin, bottom)),
    ]
    boards = [
        *[box(*strip) for strip in strips if np.less(*strip).all()],
        box((left, 0, bottom), (right, front, top)),
        box((left, front, bottom), (left + wall, depth, sides)),
        box((right - wall, front, bottom), (right, depth, sides)),
        box((left + wall, depth - wall, bottom), (right - wall, depth, back)),
        box((left + wall, front, bottom), (right - wall, depth - wall, bottom + wall)),
    ]

    def name(middle, normal, _):
        side = side_of(normal)
        x, y, z = middle
        planes = {"left": x - left, "right": x - right, "back": y - depth, "bottom": z - bottom}
        if y < front + NEAR and side == "back":
            in_box = left < x < right and bottom < z < top
            return "inside" if in_box else "edge"
        if y < front:
            return "front" if side == "front" else "edge"
        if abs(planes.get(side, 1)) < NEAR:
            return side
        return "edge" if side == "top" and z > bottom + wall + NEAR else "inside"

    return Piece(solid, fuse(boards).Shape(), name, at)
