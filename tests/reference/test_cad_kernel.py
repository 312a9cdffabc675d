"""Exposed areas against an independent CAD kernel.

Source: Open CASCADE Technology, https://dev.opencascade.org , through the package
cadquery-ocp-novtk 8. It knows no triangles: boxes, cylinders and cones are exact surfaces, joined
by its own general fuse. Faces are followed through the fuse by its history, so areas are compared
face by face. Left out there as here: shells of sealed voids, and bodies inside them.

Where faces of two parts lie in one plane and overlap, either may claim the patch: such faces are
compared by their sum.
"""

from collections import defaultdict
from typing import Any

import numpy as np
import pytest
from cad_kernel import (
    FLAT,
    Same,
    area_and_middle,
    faces_of,
    fuse,
    images_of,
    moved,
    normal_of,
    together,
)
from cad_parts import CAD, Piece, solid_of

from shapes.exposure import exposure
from shapes.placement import place

pytest.importorskip("OCP")

from OCP.BRep import BRep_Tool
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeSolid,
)
from OCP.BRepClass3d import BRepClass3d, BRepClass3d_SolidClassifier
from OCP.TopAbs import (
    TopAbs_IN,
    TopAbs_SOLID,
    TopAbs_VERTEX,
)
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS

CUT_TURNED = 1e-4
"""Of the area of turned faces that other parts cut: `shapes` cuts a polygon of 256 sides."""

Areas = defaultdict[Any, float]


def explored(shape, kind):
    explorer = TopExp_Explorer(shape, kind)
    while explorer.More():
        yield explorer.Current()
        explorer.Next()


def flat_normal(face):
    """Return the outward normal of a flat face, zeros for a curved one."""
    normal, is_flat = normal_of(face)
    return normal if is_flat else np.zeros(3)


def exposed_faces(shape):
    """Return the faces of the outer shells of the solids that stand in no void of another."""
    solids = [TopoDS.Solid(solid) for solid in explored(shape, TopAbs_SOLID)]
    shells = [BRepClass3d.OuterShell_s(solid) for solid in solids]
    filled = [BRepBuilderAPI_MakeSolid(shell).Solid() for shell in shells]
    faces = set()
    for number, shell in enumerate(shells):
        others = filled[:number] + filled[number + 1 :]
        if not any(stands_in(shell, other) for other in others):
            faces |= {Same(face) for face in faces_of(shell)}
    return [face.shape for face in faces]


def stands_in(shell, solid):
    corner = BRep_Tool.Pnt_s(TopoDS.Vertex(next(explored(shell, TopAbs_VERTEX))))
    # 1e-6 mm: points on the boundary, of bodies that touch along an edge, are not inside
    return BRepClass3d_SolidClassifier(solid, corner, 1e-6).State() == TopAbs_IN


def cad_areas(pieces):
    """Return every face and its whole area, and what is exposed, by the faces that may claim it.

    Returns:
        Whole area [mm2] by (part number, face); exposed area [mm2] by frozenset of such faces.
    """
    shapes: list[Any] = []
    named: list[Any] = []
    whole: Areas = defaultdict(float)
    for number, piece in enumerate(pieces):
        shape, name = CAD[piece.kind](*piece.measures)
        shapes.append(moved(shape, piece.at))
        for face in faces_of(shapes[-1]):
            area, middle = area_and_middle(face)
            key = number, name(np.subtract(middle, piece.at), flat_normal(face))
            named.append((face, key))
            whole[key] += area
    claims = defaultdict(set)
    operation = fuse(shapes) if len(shapes) > 1 else None
    for face, key in named:
        for image in images_of(face, operation):
            claims[Same(image)].add(key)
    shown: Areas = defaultdict(float)
    for face in exposed_faces(operation.Shape() if operation else shapes[0]):
        assert claims[Same(face)]  # every face of the result is the image of a part's face
        shown[frozenset(claims[Same(face)])] += area_and_middle(face)[0]
    return whole, shown


# ---- assemblies

VASE = ((0, 30), (10, 30), (10, 44), (60, 50), (120, 24), (300, 40), (300, 56), (360, 56))
BALUSTER = ((0, 20), (50, 41), (110, 24), (110, 33), (200, 28))
SPINDLE = ((0, 0), (80, 30), (200, 0))
OPEN_FRONT = ("front",)


def legs_under(kind, measures, width, depth, size, inset):
    """Return four legs under the corners of a body that stands at the origin, below z = 0."""
    height = measures[0] if kind != "turned" else measures[-1][0]
    return [
        Piece(kind, measures, (x, y, -height))
        for x in (inset, width - inset - size)
        for y in (inset, depth - inset - size)
    ]


BODY = Piece("case", (600, 400, 300, 18, OPEN_FRONT), (0, 0, 0))
CLOSED = Piece("case", (600, 400, 300, 18, ()), (0, 0, 0))
ONE_OF_EACH = {
    "board": (300, 200, 20),
    "case": (300, 200, 250, 18, ()),
    "open case": (300, 200, 250, 18, ("front", "top")),
    "slabs": (300, 200, 250, 18, ("front", "back", "left", "right")),
    "drawer": (300, 250, 120, 20, 12),
    "panel": (300, 20, 400, 50, 6),
    "square": (200, 60, 45),
    "tapered": (200, 50, 40, 30),
    "tapered upwards": (200, 30, 45, 60),
    "round": (200, 60),
    "turned": VASE,
    "cone": SPINDLE,
}
KIND_OF = {"open case": "case", "slabs": "case", "tapered upwards": "tapered", "cone": "turned"}


def hand_made():
    """Return assemblies by name."""
    made = {
        f"{name} alone": [Piece(KIND_OF.get(name, name), measures, (5, -7, 11))]
        for name, measures in ONE_OF_EACH.items()
    }
    made |= {
        f"{kind} legs {how}": [body, *legs_under(kind, measures, 600, 400, size, inset)]
        for kind, measures, size in (
            ("square", (200, 60, 60), 60),
            ("tapered", (200, 50, 50, 30), 50),
            ("round", (200, 60), 60),
            ("turned", BALUSTER, 41),
        )
        for how, inset, body in (("flush", 0, BODY), ("set in", 25, CLOSED))
    }
    made |= {
        "six boards": [
            Piece("board", (100, 50, 5), (0, 0, 0)),
            Piece("board", (100, 50, 5), (0, 0, 55)),
            Piece("board", (5, 50, 50), (0, 0, 5)),
            Piece("board", (5, 50, 50), (95, 0, 5)),
            Piece("board", (90, 5, 50), (5, 0, 5)),
            Piece("board", (90, 5, 50), (5, 45, 5)),
        ],
        "bodies in voids": [
            CLOSED,
            Piece("case", (200, 100, 100, 10, ()), (100, 100, 100)),
            Piece("round", (30, 20), (150, 130, 130)),
            Piece("board", (30, 20, 10), (400, 130, 130)),
            Piece("board", (30, 20, 10), (700, 0, 0)),
        ],
        "covered bay": [BODY, Piece("panel", (600, 20, 300, 60, 5), (0, -20, 0))],
        "half covered bay": [BODY, Piece("panel", (300, 20, 300, 60, 5), (0, -20, 0))],
        "drawer in a bay": [BODY, Piece("drawer", (564, 380, 264, 20, 12), (18, 2, 18))],
        "shelves": [BODY, *[Piece("board", (564, 382, 18), (18, 0, z)) for z in (90, 180)]],
        "post through a shelf": [
            Piece("round", (400, 50), (0, 0, 0)),
            Piece("board", (301, 203, 18), (-120, -70, 200)),
        ],
        "cone sunk into a block": [
            Piece("turned", SPINDLE, (0, 0, 0)),
            Piece("board", (91, 83, 50), (-30, -27, -17)),
        ],
        "rail into round legs": [
            Piece("round", (400, 51), (0, 0, 0)),
            Piece("round", (400, 51), (500, 0, 0)),
            Piece("board", (500, 18, 80), (25, 14, 250)),
        ],
        "rail into turned legs": [
            Piece("turned", VASE, (0, 0, 0)),
            Piece("turned", VASE, (400, 0, 0)),
            Piece("board", (400, 18, 80), (28, 17, 180)),
        ],
        "rail into tapered legs": [
            Piece("tapered", (400, 50, 50, 30), (0, 0, 0)),
            Piece("tapered", (400, 50, 50, 30), (500, 0, 0)),
            Piece("board", (500, 18, 80), (25, 14, 280)),
        ],
        "crossed round rungs": [
            Piece("round", (400, 40), (0, 0, 0)),
            Piece("turned", ((0, 60), (25, 60)), (-9, -11, 100)),
        ],
        "dowel in a board, flush": [
            Piece("board", (200, 100, 30), (0, 0, 0)),
            Piece("round", (30, 20), (50, 40, 0)),
        ],
    }
    return made


HAND_MADE = hand_made()
FLAT_KINDS = ["board", "case", "drawer", "panel", "square", "tapered"]
ROUND_KINDS = ["round", "turned"]


def random_piece(rng, kinds, unit):
    """Return a part with measures of whole units, some 10 to 40 of them."""
    kind = str(rng.choice(kinds))
    w, d, h = (int(n) * unit for n in rng.integers(10, 41, 3))
    thin, wide = (int(n) * unit for n in rng.integers(1, 5, 2))
    sides = ["left", "right", "front", "back", "bottom", "top"]
    opened = tuple(str(side) for side in rng.permutation(sides)[: rng.integers(0, 4)])
    step = int(rng.integers(2, 9)) * unit
    measures = {
        "board": (w, d, h),
        "case": (w, d, h, thin, opened),
        "drawer": (w, d, h, wide, thin),
        "panel": (w, 5 * wide, h, wide, wide),
        "square": (h, w, d),
        "tapered": (h, w, d, w / 2),
        "round": (h, w),
        "turned": ((0, w), (step, d), (step, d / 2), (h, w / 2)),
    }
    at = tuple(int(n) * unit for n in rng.integers(-25, 26, 3))
    return Piece(kind, measures[kind], at)


def random_assembly(seed, kinds, unit):
    rng = np.random.default_rng(seed)
    return [random_piece(rng, kinds, unit) for _ in range(rng.integers(2, 7))]


# ---- the comparison


def compare(pieces, worst_errors):
    """Assert that both kernels agree, and note the worst relative error by shape."""
    whole, shown = cad_areas(pieces)
    parts = [place(str(k), solid_of(piece), piece.at) for k, piece in enumerate(pieces)]
    areas = exposure(parts, gap=0).areas_mm2
    assert {(str(k), face) for k, face in whole} == set(areas)
    for (number, face), area in whole.items():
        # FLAT also here: both are closed forms
        assert area == pytest.approx(parts[number].solid.area_mm2_of[face], rel=FLAT)
    cut_area = area_of_cut_turned_faces(pieces, whole, shown)
    for keys in together(whole, shown):
        expected = sum(area for claim, area in shown.items() if claim <= keys)
        actual = sum(areas[str(number), face] for number, face in keys)
        size = sum(whole[key] for key in keys)
        # what a cut turned part hides of a flat face is off by as much as its own face
        assert expected == pytest.approx(actual, abs=FLAT * size + CUT_TURNED * cut_area), (
            f"{sorted(keys)} of {pieces}"
        )
        for number, face in keys:
            what = "side" if face == "side" else "flat"
            kind = f"{pieces[number].kind} {what}{', cut' if cut_area else ''}"
            worst_errors[kind] = max(worst_errors[kind], abs(expected - actual) / size)


def area_of_cut_turned_faces(pieces, whole, shown):
    """Return the area of the turned faces of which a part is exposed and a part is not."""
    total = 0.0
    for number, piece in enumerate(pieces):
        if piece.kind in ROUND_KINDS:
            mine = [key for key in whole if key[0] == number]
            # top and bottom may be hidden or claimed whole without any cut: look at the side
            side = (number, "side")
            seen = sum(area for claim, area in shown.items() if claim == {side})
            if FLAT < seen / whole[side] < 1 - FLAT:
                total += sum(whole[key] for key in mine)
    return total


@pytest.mark.parametrize("name", HAND_MADE)
def test_a_made_assembly_shows_what_the_cad_kernel_says(name, worst_errors):
    compare(HAND_MADE[name], worst_errors)


@pytest.mark.parametrize("unit", [1.0, 25.4 / 16], ids=["mm", "sixteenths"])
@pytest.mark.parametrize("seed", range(40))
def test_random_flat_parts_show_what_the_cad_kernel_says(seed, unit, worst_errors):
    compare(random_assembly(seed, FLAT_KINDS, unit), worst_errors)


@pytest.mark.parametrize("unit", [1.0, 25.4 / 16], ids=["mm", "sixteenths"])
@pytest.mark.parametrize("seed", range(100, 130))
def test_random_parts_with_turned_ones_show_what_the_cad_kernel_says(seed, unit, worst_errors):
    pieces = random_assembly(seed, [*FLAT_KINDS, *ROUND_KINDS * 3], unit)
    compare(pieces, worst_errors)
