"""Every example in a docstring of `shapes` runs and says what it says."""

import doctest
import importlib
import pkgutil

import pytest

import shapes

MODULES = sorted(module.name for module in pkgutil.iter_modules(shapes.__path__, "shapes."))
WITH_EXAMPLES = {
    "boards", "cases", "drawers", "exposure", "legs", "lofts", "mesh_cuts", "mesh_exposure",
    "mesh_repair", "mesh_solids", "meshes", "mouldings", "outline_boards", "outlines", "panels",
    "profiles", "raised_panels", "reach", "relations", "relief", "scan_noise", "scans",
    "spindles", "surfaces", "transforms",
}  # fmt: skip


@pytest.mark.parametrize("name", ["shapes", *MODULES])
def test_examples_are_true(name):
    assert doctest.testmod(importlib.import_module(name)).failed == 0


def test_every_shape_and_exposure_has_an_example():
    found = {
        name.removeprefix("shapes.")
        for name in MODULES
        if doctest.testmod(importlib.import_module(name)).attempted
    }
    assert set() == WITH_EXAMPLES - found
