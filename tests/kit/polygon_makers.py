"""Polygons without crossings at random, with closed forms of their area, and files of them."""

import struct

import numpy as np

COMB = [
    (0, 0),
    (7, 0),
    (7, 5),
    (6, 5),
    (6, 1),
    (4, 1),
    (4, 5),
    (3, 5),
    (3, 1),
    (1, 1),
    (1, 5),
    (0, 5),
]
"""Three teeth on a bar, as the back of a chair has; area 7 + 3 * 4 = 19."""
COMB_AREA, COMB_RIM = 19.0, 7 + 2 * 5 + 3 + 4 * 4 + 4


def shoelace(points):
    """Return the signed area of a polygon in the plane (Gauss)."""
    x, y = np.asarray(points, dtype=np.float64).T
    return float((x * np.roll(y, -1) - np.roll(x, -1) * y).sum() / 2)


def tangled(random, size):
    """Return a concave polygon of random corners, made simple by undoing its crossings."""
    points = random.uniform(-1, 1, (size, 2))
    while (pair := _crossing(points)) is not None:
        first, second = pair
        points[first + 1 : second + 1] = points[first + 1 : second + 1][::-1]
    return points if shoelace(points) > 0 else points[::-1]


def _crossing(points):
    ends = np.roll(points, -1, axis=0)
    for i in range(len(points)):
        for j in range(i + 2, len(points) - (i == 0)):
            if _cross(points[i], ends[i], points[j], ends[j]):
                return i, j
    return None


def _cross(a, b, c, d):
    return _side(a, b, c) != _side(a, b, d) and _side(c, d, a) != _side(c, d, b)


def _side(a, b, c):
    return (b[0] - a[0]) * (c[1] - a[1]) > (b[1] - a[1]) * (c[0] - a[0])


def in_space(random, points):
    """Return corners of the plane moved and turned at random into space, shape (n, 3)."""
    turn, _ = np.linalg.qr(random.normal(size=(3, 3)))
    flat = np.column_stack([points, np.zeros(len(points))])
    return flat @ turn.T + random.uniform(-1, 1, 3)


def prism(points, height):
    """Return corners and faces, outward, of a prism over a polygon that goes round to the left."""
    size = len(points)
    corners = [(x, y, z) for z in (0, height) for x, y in points]
    faces = [tuple(range(size))[::-1], tuple(range(size, 2 * size))]
    faces += [(k, (k + 1) % size, size + (k + 1) % size, size + k) for k in range(size)]
    return np.array(corners, dtype=np.float64), faces


def obj(corners, faces):
    lines = ["v {!r} {!r} {!r}".format(*row) for row in np.asarray(corners).tolist()]
    return "\n".join(lines + ["f " + " ".join(str(k + 1) for k in face) for face in faces]) + "\n"


def obj_relative(corners, faces):
    """Return an OBJ file in which each face follows corners of its own and counts back to them."""
    text = ""
    for face in faces:
        rows = np.asarray(corners)[list(face)].tolist()
        text += "".join("v {!r} {!r} {!r}\n".format(*row) for row in rows)
        text += "f " + " ".join(f"-{len(face) - k}/1/1" for k in range(len(face))) + "\n"
    return text


def off(corners, faces):
    lines = ["OFF # remark", f"{len(corners)} {len(faces)} 0", ""]
    lines += ["{!r} {!r} {!r}".format(*row) for row in np.asarray(corners).tolist()]
    return "\n".join(lines + [_counted(face) + " 200 10 10" for face in faces]) + "\n"


def ply(corners, faces, form="ascii", count="uchar"):
    """Return a PLY file with a colour before and a number after the list of each face."""
    head = (
        f"ply\nformat {form} 1.0\nelement vertex {len(corners)}\nproperty double x\n"
        f"property double y\nproperty double z\nelement face {len(faces)}\nproperty uchar red\n"
        f"property list {count} int vertex_indices\nproperty float weight\nend_header\n"
    )
    if form == "ascii":
        lines = ["{!r} {!r} {!r}".format(*row) for row in np.asarray(corners).tolist()]
        lines += [f"7 {_counted(face)} 0.5" for face in faces]
        return (head + "\n".join(lines) + "\n").encode()
    order, code = ">" if "big" in form else "<", {"uchar": "B", "int": "i"}[count]
    rows = [struct.pack(f"{order}B{code}{len(face)}if", 7, len(face), *face, 0.5) for face in faces]
    return head.encode() + np.asarray(corners, order + "f8").tobytes() + b"".join(rows)


def _counted(face):
    return f"{len(face)} " + " ".join(str(k) for k in face)


FILES = {
    "a.obj": obj,
    "back.obj": obj_relative,
    "a.off": off,
    "a.ply": ply,
    "little.ply": lambda corners, faces: ply(corners, faces, "binary_little_endian"),
    "big.ply": lambda corners, faces: ply(corners, faces, "binary_big_endian", "int"),
}
