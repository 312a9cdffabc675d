"""Every solid can be imported from `shapes`, typed, and nothing is imported before it is used."""

import ast
import subprocess
import sys
from importlib import import_module
from pathlib import Path
from typing import get_type_hints

import pytest

import shapes
from shapes.solids import Solid

ROOT = Path(__file__).parents[2]
MODULES = {file.stem for file in (ROOT / "shapes").rglob("*.py")}
READERS = sorted((ROOT / "surfacecalc" / "reading" / "solids").glob("*.py"))


def imported(file: Path, package: str) -> list[tuple[str, str]]:
    """Return the modules of a package, and the names, that a file imports wherever it does so."""
    return [
        (node.module, alias.name)
        for node in ast.walk(ast.parse(file.read_text("utf-8")))
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith(package)
        for alias in node.names
    ]


def is_solid(module: str, name: str) -> bool:
    """Whether a name is a function that makes a solid."""
    thing = getattr(import_module(module), name)
    return callable(thing) and not isinstance(thing, type) and returns(thing) is Solid


def returns(function: object) -> object:
    return get_type_hints(function).get("return")


def test_every_solid_that_a_piece_file_may_have_is_exported() -> None:
    named = {pair for file in READERS for pair in imported(file, "shapes.")}
    solids = {name for module, name in named if is_solid(module, name)}
    assert {"board", "spindle", "moulding"} <= solids
    from_meshes = {name for module, name in named if module.startswith("shapes.meshes")}
    assert set() == solids - set(shapes.__all__) - from_meshes - MODULES


def test_names_for_type_checkers_are_those_that_are_found() -> None:
    """Type checkers read the imports, programs get what `__getattr__` finds."""
    typed = imported(ROOT / "shapes" / "__init__.py", "shapes.")
    assert sorted(shapes.__all__) == sorted(name for _, name in typed)
    for module, name in typed:
        assert getattr(shapes, name) is getattr(import_module(module), name)
        assert getattr(shapes, name).__doc__


def test_no_name_is_that_of_a_module() -> None:
    """A module takes its name in the package as soon as it is imported."""
    assert set() == MODULES & set(shapes.__all__)


def test_unknown_name_is_refused() -> None:
    with pytest.raises(ImportError, match="bord"):
        exec("from shapes import bord")  # noqa: S102


def test_importing_the_package_imports_nothing() -> None:
    command = [sys.executable, "-c", "import sys, shapes; print(*sys.modules)"]
    shown = subprocess.run(command, capture_output=True, text=True, check=True).stdout.split()
    assert ["shapes"] == [name for name in shown if name.partition(".")[0] == "shapes"]
    assert "numpy" not in shown
