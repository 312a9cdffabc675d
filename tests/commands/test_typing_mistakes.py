"""A slip of the finger in any line of an example: an answer, or what to mend; never a crash."""

import random
import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import tomli

Run = Callable[..., Any]

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
MOST_SLIPS = 12
"""Some are drawn, always the same; each that is no mistake runs the whole estimate."""
LETTER_FOR_DIGIT = dict(zip("0123456789", "olzeasbtbg", strict=True))


def slips(line: str) -> Iterator[str]:
    """Yield a line with a slip: a lost letter or quote, a letter for a digit, a doubled sign."""
    key, equals, _ = line.partition("=")
    if equals and len(key.strip()) > 1:
        middle = len(key.strip()) // 2
        yield line[:middle] + line[middle + 1 :]
    for quote in {line.find('"'), line.rfind('"')} - {-1}:
        yield line[:quote] + line[quote + 1 :]
    digits = [at for at, sign in enumerate(line) if sign.isdigit()]
    for at in dict.fromkeys((*digits[:1], *digits[-1:])):
        yield f"{line[:at]}{LETTER_FOR_DIGIT[line[at]]}{line[at + 1 :]}"
        yield line[:at] + line[at] + line[at:]
    signs = [at for at, sign in enumerate(line) if sign in '[]{}=,."%/-']
    for at in dict.fromkeys((*signs[:1], *signs[-1:])):
        yield line[: at + 1] + line[at:]


def test_slips_are_of_all_kinds() -> None:
    assert set(slips('at = "10 mm"')) == {
        'a = "10 mm"', 'at = 10 mm"', 'at = "10 mm', 'at = "l0 mm"',
        'at = "1o mm"', 'at = "110 mm"', 'at = "100 mm"', 'at == "10 mm"', 'at = "10 mm""',
    }  # fmt: skip


def changed_files(text: str) -> Iterator[tuple[str, str]]:
    """Yield a text with one slip in it, and the line.

    Left out are slips that change no value, and lines that stood further up word for word.
    """
    lines = text.splitlines()
    right = tomli.loads(text)
    for number, line in enumerate(lines):
        for slip in slips(line) if line not in lines[:number] else ():
            changed = "\n".join([*lines[:number], slip, *lines[number + 1 :], ""])
            if not is_the_same(changed, right):
                yield changed, f"line {number + 1}: {slip}"


def is_the_same(text: str, right: dict[str, Any]) -> bool:
    try:
        return tomli.loads(text) == right
    except tomli.TOMLDecodeError:
        return False


@pytest.mark.parametrize("example", EXAMPLES, ids=[path.stem for path in EXAMPLES])
def test_any_slip_is_an_answer_or_told_with_its_line(
    example: Path, tmp_path: Path, run: Run
) -> None:
    path = tmp_path / "piece.toml"
    counts = {0: 0, 1: 0}
    for mesh in example.parent.glob("*.obj"):
        shutil.copy(mesh, tmp_path)
    found = list(changed_files(example.read_text("utf-8")))
    drawn = random.Random(example.stem).sample(found, min(MOST_SLIPS, len(found)))  # noqa: S311
    for text, slip in drawn:
        path.write_text(text, "utf-8")
        result = run("supplies", path)
        assert result.exit_code in counts, slip
        counts[result.exit_code] += 1
        assert "Traceback" not in result.output, slip
        if result.exit_code == 1:
            assert result.stdout == "", slip
            first, *_ = result.stderr.splitlines()
            place = re.match(r":(\d+): ", first.removeprefix(str(path)))
            assert place, slip
            assert 1 <= int(place[1]) <= text.count("\n"), slip
        else:
            assert result.stderr == "", slip
    assert counts[1] > 0
