"""A command imports only what it works with: help comes at once."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

HEAVY = {"manifold3d", "numpy", "pint", "scipy", "shapely", "trimesh", "typst"}

PROGRAM = """\
import contextlib, io, json, sys
sys.argv = ["surfacecalc", *json.loads(sys.argv[1])]
from surfacecalc.__main__ import main
with contextlib.redirect_stdout(io.StringIO()):
    try:
        main()
    except SystemExit as end:
        assert not end.code, end.code
print(json.dumps(sorted(sys.modules)))
"""
OF_OTHER_WORK = {
    "numpy.ma",
    "shapes.mouldings",
    "surfacecalc.needs.jars",
    "surfacecalc.plans.plan",
    "iso4217",
    "surfacecalc.reading.syntax.explain",
    "surfacecalc.supplies.together",
    "surfacecalc.units.rare",
    "surfacecalc.units.registry",
}
"""Modules that the supply list of an ordinary piece has no use for."""


COUNTER = """
[piece]
name = "Counter"
unit = "mm"
[[part]]
name = "top"
shape = "board"
width = "1 rod"
depth = 100
height = 20
[[zone]]
name = "top"
faces = ["top.top"]
surface = "bare"
leave = true
"""


def printed(arguments: list[str], environment: dict[str, str]) -> str:
    """Return what a fresh Python process prints."""
    return subprocess.run(
        [sys.executable, *arguments],
        capture_output=True, text=True, timeout=60, check=True, env=environment,
    ).stdout  # fmt: skip


def imported(words: list[str], environment: dict[str, str]) -> set[str]:
    """Return the modules that a command has imported by its end, in a fresh process."""
    shown = printed(["-c", PROGRAM, json.dumps(words)], environment)
    return set(json.loads(shown.splitlines()[-1]))


def test_supply_list_imports_nothing_of_other_work(
    files: Path, environment: dict[str, str]
) -> None:
    found = imported(["supplies", str(files / "bench.toml")], environment)
    assert set() == OF_OTHER_WORK & found
    assert "surfacecalc.supplies.shopping" in found


@pytest.mark.parametrize(
    "words",
    [["--help"], ["check", "--help"], ["areas", "--help"], ["supplies", "--help"],
     ["jars", "--help"], ["plan", "--help"], ["quote", "--help"], ["kinds", "--help"],
     ["--version"], ["guide"], ["guide", "parts"]],
    ids=" ".join,
)  # fmt: skip
def test_help_and_version_import_nothing_heavy(
    words: list[str], environment: dict[str, str]
) -> None:
    assert set() == HEAVY & imported(words, environment)


@pytest.mark.parametrize("command", ["check", "areas", "supplies", "jars", "plan", "quote"])
def test_piece_of_touching_parts_needs_no_mesh_library_and_no_plane_geometry(
    command: str, files: Path, environment: dict[str, str]
) -> None:
    found = imported([command, str(files / "bench.toml")], environment)
    assert {"trimesh", "scipy", "shapely", "pint"} & found == set()
    assert "manifold3d" in found


def test_only_a_unit_outside_the_table_imports_pint_and_it_is_read_exactly(
    tmp_path: Path, environment: dict[str, str]
) -> None:
    """One rod is 16.5 feet; pint takes the survey foot of 1200/3937 m (NIST SP 811, B.6)."""
    counter = tmp_path / "counter.toml"
    counter.write_text(COUNTER, encoding="utf-8")
    words = ["areas", "--json", str(counter)]
    assert "pint" in imported(words, environment)
    shown = json.loads(printed(["-m", "surfacecalc", *words], environment))
    assert round(16.5 * 1200 / 3937 * 0.1, 6) == round(shown["zones"][0]["area_m2"], 6)
    counter.write_text(COUNTER.replace("1 rod", "16 1/2 ft"), encoding="utf-8")
    assert "pint" not in imported(words, environment)


@pytest.mark.parametrize(("currency", "is_looked_up"), [("EUR", False), ("KWD", True)])
def test_only_a_rarer_currency_is_looked_up(
    currency: str, is_looked_up: bool, tmp_path: Path, environment: dict[str, str]
) -> None:
    counter = tmp_path / "counter.toml"
    priced = COUNTER.replace('unit = "mm"', f'unit = "mm"\ncurrency = "{currency}"')
    counter.write_text(priced.replace("1 rod", "2 m"), encoding="utf-8")
    assert is_looked_up == ("iso4217" in imported(["supplies", str(counter)], environment))


def test_importing_the_package_imports_nothing_heavy(environment: dict[str, str]) -> None:
    program = 'import sys, surfacecalc; print(*{name.partition(".")[0] for name in sys.modules})'
    assert HEAVY & set(printed(["-c", program], environment).split()) == set()
