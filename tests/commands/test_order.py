"""The order of tables in a file changes nothing but the order of what is listed."""

import random
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Run = Callable[..., Any]

FIGURES = 11
"""Sums of floats in another order differ in the last of their 16 figures; these must agree."""


def blocks(text: str) -> list[str]:
    """Return the tables of a file; steps stay with their zone, and a schedule's in their order."""
    found = [block.strip() + "\n" for block in re.split(r"\n(?=\[)", text) if block.strip()]
    merged: list[str] = []
    for block in found:
        inner = block.startswith("[[zone.step]]")
        same = block.startswith("[[schedule") and merged[-1].startswith("[[schedule")
        if inner or same:
            merged[-1] += f"\n{block}"
        else:
            merged.append(block)
    return merged


def in_one_order(value: Any) -> Any:
    """Return a JSON value with lists sorted and numbers rounded, so that only order is lost."""
    if isinstance(value, dict):
        return {key: in_one_order(item) for key, item in value.items()}
    if isinstance(value, list):
        return sorted((in_one_order(item) for item in value), key=repr)
    return float(f"{value:.{FIGURES}g}") if isinstance(value, float) else value


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("piece", ["chest", "bench"])
def test_any_order_of_tables_gives_the_same_json(
    piece: str, seed: int, files: Path, run_json: Run
) -> None:
    path = files / f"{piece}.toml"
    before = [in_one_order(run_json(command, path)) for command in ("areas", "supplies")]
    tables = blocks(path.read_text())
    random.Random(seed).shuffle(tables)  # noqa: S311 - any order will do
    path.write_text("\n".join(tables))
    after = [in_one_order(run_json(command, path)) for command in ("areas", "supplies")]
    assert before == after


@pytest.mark.parametrize("seed", range(3))
def test_order_of_all_but_zones_and_parts_changes_not_a_letter(
    seed: int, files: Path, run: Run
) -> None:
    """Zones and faces are listed in the file's order; with that kept, the output is the same."""
    path = files / "bench.toml"
    before = [run(command, path, "--json").stdout for command in ("areas", "supplies")]
    tables = blocks(path.read_text())
    random.Random(seed).shuffle(tables)  # noqa: S311 - any order will do
    for kind in ("[[part]]", "[[zone]]"):
        kept = iter([table for table in blocks(path.read_text()) if table.startswith(kind)])
        tables = [next(kept) if table.startswith(kind) else table for table in tables]
    path.write_text("\n".join(tables))
    assert before == [run(command, path, "--json").stdout for command in ("areas", "supplies")]


def test_zones_in_another_order_are_listed_in_it(files: Path, run_json: Run) -> None:
    path = files / "chest.toml"
    tables = blocks(path.read_text())
    path.write_text("\n".join(reversed(tables)))
    assert [zone["zone"] for zone in run_json("areas", path)["zones"]] == ["legs", "body"]
