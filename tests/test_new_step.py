"""A new step, or a new word for one, cannot be forgotten: the type checker asks for it."""

import ast
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path
from typing import get_args

import pytest

import surfacecalc
from surfacecalc.model import steps
from surfacecalc.model.steps import Step

PACKAGE = Path(surfacecalc.__file__).parent
ROOT = Path(__file__).parents[1]
"""The source beside these tests is checked, with its settings; what is installed is the same."""
STEPS = Path("surfacecalc/model/steps.py")
CLASSES = {kind.__name__ for kind in get_args(Step)}
WORDS = {word for part in get_args(steps.StepWord) for word in get_args(part)}
NEVER = "assert_never("
OWN_STEPS = PACKAGE / "starting"
"""The steps that `new` proposes are classes of its own."""


def modules() -> Iterator[tuple[Path, ast.Module]]:
    for path in sorted(PACKAGE.rglob("*.py")):
        if OWN_STEPS not in path.parents:
            yield path, ast.parse(path.read_text(encoding="utf-8"))


def place(path: Path, node: ast.stmt | ast.expr) -> str:
    return f"{path.relative_to(PACKAGE.parent)}:{node.lineno}"


def ends_with_never(match: ast.Match) -> bool:
    return "assert_never" in ast.unparse(match.cases[-1])


def test_every_match_ends_where_nothing_is_left() -> None:
    found = [
        place(path, node)
        for path, tree in modules()
        for node in ast.walk(tree)
        if isinstance(node, ast.Match) and not ends_with_never(node)
    ]
    assert [] == found


def test_no_step_is_told_by_isinstance() -> None:
    """What only one kind of step has is asked of `model/step_facts`, which decides for all."""
    found = [
        place(path, node)
        for path, tree in modules()
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and ast.unparse(node.func) == "isinstance"
        if CLASSES & {name.id for name in ast.walk(node.args[1]) if isinstance(name, ast.Name)}
    ]
    assert [] == found


def test_no_word_of_a_step_is_compared() -> None:
    found = [
        place(path, node)
        for path, tree in modules()
        for node in ast.walk(tree)
        if isinstance(node, ast.Compare) and re.search(r"(^|\.)do$", ast.unparse(node.left))
        if WORDS & {k.value for k in ast.walk(node) if isinstance(k, ast.Constant)}
    ]
    assert [] == found


def with_more(text: str) -> str:
    """Return the module of steps with one more step, and one more word of each sort."""
    for number, name in enumerate(("CoatWord", "SandWord", "HandWord", "OtherWord")):
        text, count = re.subn(
            rf"^({name} = Literal\[)", rf'\1"more {number}", ', text, flags=re.MULTILINE
        )
        assert 1 == count, name
    more = (
        "@dataclass(frozen=True)\nclass More:\n    line: int\n    product: str\n    do: CoatWord\n"
        "    work: Work = field(default_factory=Work)\n\n\nStep = More | "
    )
    text, count = re.subn(r"^Step = ", more, text, flags=re.MULTILINE)
    assert 1 == count
    return text


def decisions() -> set[str]:
    """Return every place that decides by a step or its word: they all end in assert_never."""
    found = set()
    for path, tree in modules():
        if any("model.steps" in ast.unparse(n) for n in tree.body if isinstance(n, ast.ImportFrom)):
            lines = path.read_text(encoding="utf-8").splitlines()
            name = path.relative_to(PACKAGE.parent)
            found |= {f"{name}:{k}" for k, line in enumerate(lines, start=1) if NEVER in line}
    return found


@pytest.mark.skipif(find_spec("mypy") is None, reason="mypy comes with the extra lint")
def test_type_checker_names_every_place_that_must_decide(tmp_path: Path) -> None:
    warm = ROOT / ".mypy_cache"
    if warm.is_dir():  # four times as fast; a copy, so that the real one stays true
        shutil.copytree(warm, tmp_path / "cache")
    more = tmp_path / "steps.py"
    more.write_text(with_more((ROOT / STEPS).read_text(encoding="utf-8")), encoding="utf-8")
    command = [
        sys.executable, "-m", "mypy", "--cache-dir", str(tmp_path / "cache"),
        "--shadow-file", str(STEPS), str(more), "surfacecalc",
    ]  # fmt: skip
    result = subprocess.run(
        command, cwd=ROOT, capture_output=True, text=True, check=False, timeout=300
    )
    named = set(
        re.findall(r'^(\S+:\d+): error: .*"assert_never"', result.stdout, flags=re.MULTILINE)
    )
    assert len(named) > 30, result.stdout + result.stderr
    assert decisions() == named
