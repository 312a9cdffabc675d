"""Every example in a docstring of the pictures runs and says what it says."""

import doctest
import importlib
import pkgutil

import pytest

import surfacecalc.pictures as pictures

NAMES = sorted(module.name for module in pkgutil.iter_modules(pictures.__path__))


@pytest.mark.parametrize("name", NAMES)
def test_examples_are_true(name):
    assert doctest.testmod(importlib.import_module(f"surfacecalc.pictures.{name}")).failed == 0


def test_there_are_examples():
    modules = [importlib.import_module(f"surfacecalc.pictures.{name}") for name in NAMES]
    assert sum(doctest.testmod(module).attempted for module in modules) >= 3
