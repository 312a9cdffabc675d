"""Tolerances are in one place, each with its reason, and rounding up forgives the last digits."""

import ast
from pathlib import Path

import pytest

import surfacecalc
from surfacecalc import closeness
from surfacecalc.closeness import whole_up

PACKAGE = Path(surfacecalc.__file__).parent
SMALL = 1e-3
"""No number of the trade is written so small; what is, says how close counts as equal."""


@pytest.mark.parametrize(("value", "expected"), [(0.0, 0), (6.0, 6), (6 * (1 + 5e-10), 6),
                                                 (6 * (1 + 2e-9), 7), (0.1 + 0.2, 1)])  # fmt: skip
def test_only_rounding_is_not_rounded_up(value: float, expected: int) -> None:
    assert expected == whole_up(value)


def test_no_other_module_has_a_tolerance_of_its_own() -> None:
    found = [
        f"{path.relative_to(PACKAGE)}:{node.lineno} {node.value}"
        for path in sorted(PACKAGE.rglob("*.py"))
        if path.name != "closeness.py"
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, float)
        if 0 < abs(node.value) < SMALL
    ]
    assert [] == found


def test_every_tolerance_has_its_reason() -> None:
    body = ast.parse(Path(closeness.__file__).read_text(encoding="utf-8")).body
    for node, after in zip(body, [*body[1:], None], strict=True):
        if isinstance(node, ast.Assign):
            assert isinstance(after, ast.Expr), ast.unparse(node)
            assert isinstance(after.value, ast.Constant), ast.unparse(node)
