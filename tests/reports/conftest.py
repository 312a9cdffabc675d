"""How tests run the commands on 80 columns."""

from collections.abc import Callable

import pytest
from typer.testing import CliRunner, Result

from surfacecalc.commands import app


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch) -> Callable[..., Result]:
    """Run a command in 80 columns; a crash is raised."""
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("NO_COLOR", "1")

    def run_command(*words: object) -> Result:
        return CliRunner().invoke(app, [str(word) for word in words], catch_exceptions=False)

    return run_command
