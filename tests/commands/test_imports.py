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
print(json.dumps(sorted({name.partition(".")[0] for name in sys.modules})))
"""


def imported(words: list[str], environment: dict[str, str]) -> set[str]:
    """Return the packages that a command has imported by its end, in a fresh process."""
    result = subprocess.run(
        [sys.executable, "-c", PROGRAM, json.dumps(words)],
        capture_output=True, text=True, timeout=60, check=True, env=environment,
    )  # fmt: skip
    return set(json.loads(result.stdout.splitlines()[-1]))


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
    assert {"trimesh", "scipy", "shapely"} & found == set()
    assert "manifold3d" in found


def test_importing_the_package_imports_nothing_heavy(environment: dict[str, str]) -> None:
    program = 'import sys, surfacecalc; print(*{name.partition(".")[0] for name in sys.modules})'
    result = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True, text=True, timeout=60, check=True, env=environment,
    )  # fmt: skip
    assert HEAVY & set(result.stdout.split()) == set()
