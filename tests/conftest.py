"""What all tests share: none reads the products that whoever runs them has on record."""

import os
import shutil
import tempfile

import pytest

from surfacecalc.catalogue.own import FOLDER_VARIABLE

EMPTY_FOLDER = pytest.StashKey[str]()


def pytest_configure(config: pytest.Config) -> None:
    """Put an empty folder in the place of the user's configuration folder.

    Workers that share the tests inherit the environment, and with it the folder.
    """
    if not hasattr(config, "workerinput"):
        config.stash[EMPTY_FOLDER] = tempfile.mkdtemp(prefix="surfacecalc-tests-")
        os.environ[FOLDER_VARIABLE] = config.stash[EMPTY_FOLDER]


def pytest_unconfigure(config: pytest.Config) -> None:
    """Take the empty folder away."""
    if EMPTY_FOLDER in config.stash:
        shutil.rmtree(config.stash[EMPTY_FOLDER], ignore_errors=True)
