"""The program that the guide shows runs, and prints what the guide says."""

import contextlib
import io
import re
from pathlib import Path

import pytest

BLOCK = re.compile(r"```python\n(.*?)```.*?```text\n(.*?)```", re.DOTALL)
FIRST_PIECE = re.compile(r"<!-- first piece -->\n```toml\n(.*?)```", re.DOTALL)


@pytest.fixture
def shown(pages: dict[str, str]) -> tuple[str, str]:
    """The program and its output as the guide shows them."""
    found = BLOCK.search(pages["for-programs"])
    assert found
    return found[1], found[2]


def test_program_prints_what_is_shown(
    shown: tuple[str, str], pages: dict[str, str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    piece = FIRST_PIECE.search(pages["a-piece-file-by-hand"])
    assert piece
    (tmp_path / "my-shelf.toml").write_text(piece[1])
    monkeypatch.chdir(tmp_path)
    program, expected = shown
    output = io.StringIO()
    with contextlib.redirect_stdout(output):
        exec(compile(program, "for-programs.md", "exec"), {})  # noqa: S102 - the guide's own text
    assert expected == output.getvalue()


def test_program_is_short(shown: tuple[str, str]) -> None:
    assert 20 >= len(shown[0].splitlines())
