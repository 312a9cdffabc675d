"""`cuts` of a part: lines around it, so that its faces on one side can be in another zone."""

from functools import partial

from shapes.errors import ShapeError
from shapes.solids import Solid
from surfacecalc.reading.shape_rules import obeying
from surfacecalc.reading.tables import Table

LINES = {
    "height": ("z", "below", "above"),
    "across": ("x", "left", "right"),
    "depth": ("y", "front", "back"),
}
"""For each line the axis it is square to, and what its two sides are called in the file."""
BOX_KEYS = ("box", "inside", "outside")
KEYS = (*(key for key, (_, *sides) in LINES.items() for key in (key, *sides)), *BOX_KEYS)
EXAMPLE = '[{ height = 100, below = "dip" }]'
BOX_EXAMPLE = "[[0, 0, 0], [200, 20, 300]]"
Corner = tuple[float, float, float]


def with_cuts(table: Table, solid: Solid) -> Solid:
    """Return a solid whose faces are cut as its table says; mistakes are recorded.

    Lengths are from the left, the front and the foot of the part as it is before it is turned or
    leans, since that is how a line is marked on it.
    """
    for cut in table.tables("cuts", table.context.example(EXAMPLE)):
        cut.only(KEYS)
        solid = obeying(cut, partial(_cut, cut, solid)) or solid
    return solid


def _cut(cut: Table, solid: Solid) -> Solid:
    """Return a solid with one cut.

    Raises:
        ShapeError: the cut breaks a rule of `shapes`.
    """
    given = [key for key in (*LINES, "box") if key in cut]
    if len(given) != 1:
        right = f"cuts = {cut.context.example(EXAMPLE)}"
        cut.mend(f"must have one of height, across, depth and box, such as {right}")
        return solid
    if given == ["box"]:
        return _by_box(cut, solid)
    return _by_line(cut, solid, given[0])


def _by_line(cut: Table, solid: Solid, key: str) -> Solid:
    from shapes.part_cuts import AXES, cut_at

    axis, low, high = LINES[key]
    words = _words(cut, low, high)
    level = cut.length_mm(cut.values[key], key)
    if level is None or words is None:
        return solid
    length_mm = solid.size_mm[AXES.index(axis)]
    if not 0 < level < length_mm:
        raise ShapeError(key, "more than 0 and less than the part", level, length_mm)
    return cut_at(solid, axis, level, *words)


def _by_box(cut: Table, solid: Solid) -> Solid:
    from shapes.part_cuts import cut_by_box

    words, corners = _words(cut, "inside", "outside"), read_box(cut, BOX_EXAMPLE)
    return solid if words is None or corners is None else cut_by_box(solid, *corners, *words)


def _words(cut: Table, low: str, high: str) -> tuple[str, str] | None:
    """Return what is added to the faces on each side; one of the two may be left off."""
    if low not in cut and high not in cut:
        cut.mend(f'has no name for either side; add {low} = "dip" (or {high})')
        return None
    words = [cut.text(side, '"dip"') if side in cut else "" for side in (low, high)]
    return (words[0], words[1]) if cut.is_sound else None


def read_box(cut: Table, example: str) -> tuple[Corner, Corner] | None:
    """Return the two corners of a box [mm], or None after recording that they are none."""
    value = cut.values["box"]
    if (
        not isinstance(value, list)
        or len(value) != 2
        or not all(isinstance(corner, list) and len(corner) == 3 for corner in value)
    ):
        cut.refuse("box", f"must be two corners, such as box = {cut.context.example(example)}")
        return None
    corners = [
        [cut.length_mm(item, "box", number, k) or 0.0 for k, item in enumerate(corner)]
        for number, corner in enumerate(value)
    ]
    low, high = ((x, y, z) for x, y, z in corners)
    return low, high
