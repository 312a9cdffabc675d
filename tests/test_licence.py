"""The licence comes with the package: in its folder, and in what is built from it."""

import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[1]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def test_the_licence_that_is_declared_is_the_text_that_is_carried() -> None:
    project = PROJECT["project"]
    files = [path for pattern in project["license-files"] for path in ROOT.glob(pattern)]
    assert [ROOT / "surfacecalc" / "LICENSE"] == files
    (text,) = [path.read_text(encoding="utf-8") for path in files]
    assert text.startswith(f"{project['license']} License\n")
    assert f"Copyright (c) 2026 {project['authors'][0]['name']}\n" in text


def test_the_licence_is_installed_with_the_modules() -> None:
    assert "LICENSE" in PROJECT["tool"]["setuptools"]["package-data"]["surfacecalc"]
