"""The house: rooms are imported one way, and each file and each class has a name of its own."""

import ast
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import surfacecalc

PACKAGE = Path(surfacecalc.__file__).parent
SHAPES = PACKAGE.parent / "shapes"
TESTS = Path(__file__).parent
MOST_LINES = 400
ROOMS = (
    "closeness", "problems", "elements", "clock", "writing", "invocation", "guide", "units",
    "model", "catalogue", "reading", "starting", "zones", "work", "needs", "plans", "supplies",
    "prices", "cautions", "gear", "checks", "api", "pictures", "reports", "sheets", "commands",
    "__main__",
)  # fmt: skip
"""Each room may import from those before it. This is the one place that names the order."""
OPEN_TO_ALL = ("__init__",)
"""The version, which any room may ask for."""


def modules(folder: Path) -> Iterator[Path]:
    """Yield the modules of a package."""
    yield from sorted(folder.rglob("*.py"))


def imported(path: Path) -> Iterator[str]:
    """Yield the dotted names that a module imports, wherever it does so."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def room_of(path: Path) -> str:
    """Return the room that a module is in."""
    return path.relative_to(PACKAGE).with_suffix("").parts[0]


def rooms_entered(path: Path) -> set[str]:
    """Return the other rooms that a module imports from."""
    names = [name.split(".") for name in imported(path) if name.startswith("surfacecalc.")]
    return {name[1] for name in names if not name[1].startswith("__version")} - {room_of(path)}


def test_every_room_has_its_place_in_the_order():
    assert {room_of(path) for path in modules(PACKAGE)} - set(OPEN_TO_ALL) == set(ROOMS)


def test_rooms_are_imported_one_way():
    wrong = [
        f"{path.relative_to(PACKAGE)} imports {room}"
        for path in modules(PACKAGE)
        if room_of(path) in ROOMS
        for room in rooms_entered(path)
        if ROOMS.index(room) > ROOMS.index(room_of(path))
    ]
    assert wrong == []


def test_the_geometry_knows_nothing_of_the_estimate():
    assert [] == [
        str(path) for path in modules(SHAPES) for name in imported(path) if "surfacecalc" in name
    ]


def test_solids_do_without_meshes():
    inside = SHAPES / "meshes"
    wrong = [
        str(path.relative_to(SHAPES))
        for path in modules(SHAPES)
        if inside not in path.parents
        for name in imported(path)
        if name.startswith("shapes.meshes")
    ]
    assert wrong == []


def test_no_two_files_share_a_name():
    names = Counter(path.name for folder in (PACKAGE, SHAPES) for path in modules(folder))
    assert [] == [name for name, count in names.items() if count > 1 and name != "__init__.py"]


def test_no_two_public_classes_share_a_name():
    names = Counter(
        node.name
        for folder in (PACKAGE, SHAPES)
        for path in modules(folder)
        for node in ast.parse(path.read_text(encoding="utf-8")).body
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_")
    )
    assert [] == [name for name, count in names.items() if count > 1]


def test_no_file_is_too_long_to_be_read_at_one_sitting():
    files = [path for folder in (PACKAGE, SHAPES, TESTS) for path in modules(folder)]
    lines = {path.name: len(path.read_text(encoding="utf-8").splitlines()) for path in files}
    assert [] == [name for name, count in lines.items() if count > MOST_LINES]
