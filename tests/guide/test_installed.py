"""What is not Python in the package is named in pyproject.toml, and so is in an installed copy."""

import subprocess
import tomllib
from fnmatch import fnmatch
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_files_of_the_package_are_installed() -> None:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text())
    named = settings["tool"]["setuptools"]["package-data"]["surfacecalc"]
    tracked = subprocess.run(
        ["git", "ls-files", "surfacecalc"],  # noqa: S607
        cwd=ROOT, capture_output=True, text=True, check=True,
    ).stdout.split()  # fmt: skip
    files = [Path(file).relative_to("surfacecalc").as_posix() for file in tracked]
    files = [file for file in files if not file.endswith(".py")]
    assert "guide/parts.md" in files
    assert [] == [file for file in files if not any(fnmatch(file, name) for name in named)]
