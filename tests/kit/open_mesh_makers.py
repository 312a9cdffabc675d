"""Cabinets as triangles: cracks of a known width, areas known in closed form."""

import numpy as np

from shapes.meshes.imported import ImportedMesh

CORNERS = np.array([[x, y, z] for x in (0, 1) for y in (0, 1) for z in (0, 1)], dtype=np.float64)
QUADS = ((0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3))
"""left, right, front, back, bottom, top; outward"""


def block(low, high):
    """Return corners and triangles of a box between two corners."""
    low, high = np.asarray(low, dtype=np.float64), np.asarray(high, dtype=np.float64)
    faces = [[quad[k] for k in three] for quad in QUADS for three in ((0, 1, 2), (0, 2, 3))]
    return CORNERS * (high - low) + low, np.array(faces)


def mesh_of(pieces):
    """Return one mesh of pieces by region: (region name, (corners, triangles))."""
    names = tuple(dict.fromkeys(name for name, _ in pieces))
    starts = np.cumsum([0, *[len(corners) for _, (corners, _) in pieces]])
    faces = [part + start for (_, (_, part)), start in zip(pieces, starts, strict=False)]
    region = np.repeat([names.index(name) for name, _ in pieces], [len(part) for part in faces])
    return ImportedMesh(
        np.concatenate([corners for _, (corners, _) in pieces]),
        np.concatenate(faces),
        region,
        names,
    )


def cabinet(size, wall, crack, shelves=0):
    """Return a cabinet with its door shut, as bodies that cross each other, and its areas.

    Args:
        size: width, depth, height outside [mm].
        wall: how thick its boards are [mm].
        crack: air around the door, on all four sides [mm].
        shelves: how many shelves are inside.

    Returns:
        The mesh; the area outside with the door's front and the rim around it; the area inside
        with the door's back, the shelves and the rest of the walls of the crack [mm2].
    """
    width, depth, height = size
    pieces = [
        ("case", block((0, 0, 0), (wall, depth, height))),
        ("case", block((width - wall, 0, 0), (width, depth, height))),
        ("case", block((0, 0, 0), (width, depth, wall))),
        ("case", block((0, 0, height - wall), (width, depth, height))),
        ("case", block((0, depth - wall, 0), (width, depth, height))),
        (
            "door",
            block(
                (wall + crack, 0, wall + crack),
                (width - wall - crack, wall, height - wall - crack),
            ),
        ),
    ]
    wide, high, deep = width - 2 * wall, height - 2 * wall, depth - wall
    for number in range(shelves):
        z = wall + high * (number + 1) / (shelves + 1)
        pieces.append(
            (
                "shelf",
                block((wall / 2, 2 * wall, z), (width - wall / 2, depth - wall / 2, z + wall)),
            )
        )
    door_wide, door_high = wide - 2 * crack, high - 2 * crack
    outside = 2 * (width + height) * depth + width * height
    outside += width * height - wide * high + door_wide * door_high
    inside = 2 * (wide + high) * deep + wide * high
    inside += door_wide * door_high + 2 * (door_wide + door_high) * wall
    shelf_deep = deep - 2 * wall
    # both sides and the front edge, less what its edges take of the walls
    inside += shelves * (2 * wide * shelf_deep + wide * wall - wall * (2 * shelf_deep + wide))
    return mesh_of(pieces), outside, inside
