"""Meshes and scans from files of other programs."""

import importlib.util
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from shapes.errors import ShapeError
from shapes.solids import Solid
from surfacecalc.reading.shape_rules import obeying
from surfacecalc.reading.solids.cut_tables import read_box
from surfacecalc.reading.solids.mesh_notes import mesh_note
from surfacecalc.reading.solids.solid_plans import SolidPlan, flag, nothing
from surfacecalc.reading.tables import Table, shown
from surfacecalc.units.display import Units
from surfacecalc.units.known import EXAMPLES_OF_UNIT, factor

if TYPE_CHECKING:
    from shapes.meshes.imported import ImportedMesh

KEYS = ("file", "unit", "up", "named_by", "cuts", "scan")
NEEDED = ("trimesh", "embreex", "scipy")
CUTS_EXAMPLE = '[{ height = 100, below = "feet", above = "body" }]'
BOX_EXAMPLE = "[[0, 0, 0], [500, 400, 100]]"
FACINGS = ("front", "back", "left", "right", "up", "down")


def mesh_plan(table: Table) -> SolidPlan:
    """Read a mesh or a scan: closed bodies as a solid, anything else measured by rays."""
    if any(importlib.util.find_spec(name) is None for name in NEEDED):
        table.mend('needs more packages; run: pip install "surfacecalc[mesh]"', "shape")
        return nothing(table)
    name = table.text("file", '"scan.ply"')
    named_by = table.choice("named_by", ("materials", "nodes")) if "named_by" in table else ""
    up = table.choice("up", ("y", "z")) if "up" in table else None
    scan = flag(table, "scan")
    if not table.is_sound:
        return nothing(table)
    if "unit" not in table:
        _ask_for_unit(table, name)
        return nothing(table)
    unit = table.choice("unit", EXAMPLES_OF_UNIT)
    if not table.is_sound:
        return nothing(table)

    def build() -> Solid:
        mesh = _read(table, name, float(factor(unit)), named_by or "materials", up)
        for number, cut in enumerate(table.tables("cuts", table.context.example(CUTS_EXAMPLE))):
            mesh = _cut(table, mesh, cut, number)
        return _measured(table, mesh, name, scan=scan)

    return SolidPlan(KEYS, build)


def _read(table: Table, name: str, unit_mm: float, named_by: str, up: str | None) -> "ImportedMesh":
    from shapes.meshes.imported import MeshError
    from shapes.meshes.mesh_files import read_mesh

    folder = table.context.folder
    try:
        return read_mesh(folder / name, unit_mm, folder, named_by=named_by, up=up)  # type: ignore[arg-type]
    except MeshError as error:
        raise ShapeError("file", f"a mesh that can be read: {error.problem}") from error


def _ask_for_unit(table: Table, name: str) -> None:
    """Record that the unit is missing, with the size that each one would give."""
    mesh = obeying(table, lambda: _read(table, name, 1.0, "materials", None))
    if mesh is None:
        return
    sizes = " x ".join(f"{length:.6g}" for length in mesh.size_mm)
    table.mend(
        f"has no unit; the file says {sizes}, and mesh files often give no unit, or the wrong"
        ' one: add unit = "mm" (or cm, m, in, ft), whichever makes that the true size'
    )


def _cut(table: Table, mesh: "ImportedMesh", cut: Table, number: int) -> "ImportedMesh":
    """Return a mesh with its faces split below and above a height, by a box, or by facing."""
    from shapes.meshes.cuts import cut_at_height, cut_by_box, cut_by_facing

    cut.only(("height", "below", "above", "box", "inside", "outside", "facing", "name", "other"))
    before = mesh.regions
    if "height" in cut:
        height = cut.length_mm(cut.values["height"], "height") or 0.0
        names = cut.text("below", '"feet"'), cut.text("above", '"body"')
        cut_mesh = obeying(cut, lambda: cut_at_height(mesh, height, *names))
    elif "box" in cut:
        box = read_box(cut, BOX_EXAMPLE)
        names = cut.text("inside", '"seat"'), cut.text("outside", '"rest"')
        cut_mesh = None if box is None else obeying(cut, lambda: cut_by_box(mesh, *box, *names))
    elif "facing" in cut:
        way = cut.choice("facing", FACINGS)
        names = cut.text("name", '"top"'), cut.text("other", '"rest"')
        cut_mesh = obeying(cut, lambda: cut_by_facing(mesh, way, *names))
    else:
        cut.mend(
            f"must have height, box or facing, such as cuts = {cut.context.example(CUTS_EXAMPLE)}"
        )
        return mesh
    if cut_mesh is not None and len(cut_mesh.regions) == len(before):
        cut.mend("cuts nothing: all of the mesh is on one side of it")
    return cut_mesh or mesh


def _measured(table: Table, mesh: "ImportedMesh", name: str, *, scan: bool) -> Solid:
    """Return the solid of a mesh, and note its size and how it was measured."""
    from shapes.meshes.mesh_exposure import mesh_exposure
    from shapes.meshes.mesh_solids import closed_solid, open_surface
    from shapes.meshes.scans import scan_exposure

    measured = scan_exposure if scan else mesh_exposure
    gap = table.context.gap_mm
    with progress_bar(f"measuring {name}") as tell:
        seen = measured(mesh, gap=gap, progress=tell)
    table.note(mesh_note(seen, gap, Units.of(table.context.unit or "mm")), "file")
    if seen.way == "union" and not scan:
        return closed_solid(mesh, gap=gap)
    if table.values.get("loose") is not True:
        raise ShapeError(
            "loose",
            "true: a scan, or a surface that is open or crosses itself, cannot be joined to a part",
        )
    return open_surface(mesh, seen.areas_mm2)


@contextmanager
def progress_bar(what: str) -> Iterator[Callable[[float], None] | None]:
    """Give a function that shows the share that is done, on standard error of a terminal only."""
    import sys

    if not sys.stderr.isatty():
        yield None
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(shown(what), total=1.0)

        def tell(share: Any) -> None:
            bar.update(task, completed=float(share))

        yield tell
