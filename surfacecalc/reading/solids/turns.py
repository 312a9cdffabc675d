"""What is done to a solid before it stands: relief, mirrored, cut faces, turned, leaning."""

from shapes.solids import Solid
from shapes.transforms import ACROSS, TOWARDS, lean, mirror, turn
from surfacecalc.problems import suggestion
from surfacecalc.reading.solids.cut_tables import with_cuts
from surfacecalc.reading.tables import Table

KEYS = ("relief", "mirror", "cuts", "turn", "lean")
LEAN_EXAMPLE = '{ degrees = 5, towards = "back" }'


def changed(table: Table, solid: Solid) -> Solid:
    """Return a solid changed as its table says; mistakes are recorded.

    Raises:
        ShapeError: a change that breaks a rule of `shapes`.
    """
    for face, ratio in _reliefs(table, solid):
        solid = _with_relief(solid, face, ratio)
    if "mirror" in table:
        across = table.choice("mirror", ACROSS)
        solid = mirror(solid, across)
    if table.values.get("shape") != "mesh":  # it cuts its own, where its file has them
        solid = with_cuts(table, solid)
    if "lean" in table:
        solid = _leaning(table, solid)
    if "turn" in table:
        degrees = table.number(table.values["turn"], "turn")
        solid = turn(solid, float(degrees or 0))
    return solid


def _reliefs(table: Table, solid: Solid) -> list[tuple[str, float | str]]:
    inner = (
        table.table("relief", '{ front = 1.5 } or { front = "carved" }')
        if ("relief" in table)
        else None
    )
    found: list[tuple[str, float | str]] = []
    for face, ratio in inner.values.items() if inner else ():
        if inner and face not in solid.faces:
            inner.mend(
                f'"{face}" is not a face of this part; {suggestion(face, solid.faces)}', face
            )
        elif inner and not isinstance(ratio, str):
            number = inner.number(ratio, face)
            found += [(face, float(number))] if number is not None else []
        else:
            found.append((face, ratio))
    return found


def _with_relief(solid: Solid, face: str, ratio: float | str) -> Solid:
    from shapes.relief import relief

    return relief(solid, [face], ratio)


def _leaning(table: Table, solid: Solid) -> Solid:
    inner = table.table("lean", LEAN_EXAMPLE)
    if inner is None:
        return solid
    inner.only(("degrees", "towards"))
    towards = inner.choice("towards", TOWARDS)
    degrees = (
        inner.number(inner.values["degrees"], "degrees") if inner.has("degrees", "5") else None
    )
    return lean(solid, float(degrees), towards=towards) if degrees is not None else solid
