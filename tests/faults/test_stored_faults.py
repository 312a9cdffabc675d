"""What is stored of planted faults is about the source as it is, and little survives."""

import ast
from functools import cache

import pytest
from fault_places import ROOMS, ROOT, faults_in
from fault_results import (
    EQUIVALENT,
    KILLED,
    MOST_SURVIVE,
    NOT_YET,
    share_survived,
    stored,
    summary,
)

ROWS = [(room, *key, outcome) for room in ROOMS for key, outcome in stored(room).items()]


@cache
def functions(file: str) -> set[str]:
    """Return the names of all functions of a file, with that of their class before them."""
    return set(_named(ast.parse((ROOT / file).read_text(encoding="utf-8")), ""))


def _named(node: ast.AST, before: str) -> list[str]:
    found = []
    for inner in ast.iter_child_nodes(node):
        if isinstance(inner, ast.FunctionDef | ast.ClassDef):
            found += [before + inner.name, *_named(inner, f"{before}{inner.name}.")]
        else:
            found += _named(inner, before)
    return found


def test_faults_are_planted_in_each_room():
    assert [] == [room for room in ROOMS if not stored(room)]


@pytest.mark.parametrize("room", ROOMS)
def test_few_faults_survive_without_a_reason(room: str):
    outcomes = stored(room).values()
    most = NOT_YET.get(room, MOST_SURVIVE)
    assert share_survived(outcomes) <= most, summary(room, outcomes)


def test_a_room_that_is_good_enough_is_not_let_off():
    assert [] == [room for room in NOT_YET if share_survived(stored(room).values()) <= MOST_SURVIVE]


def test_the_files_and_functions_are_those_of_the_source():
    """Where one was renamed or taken away, `plant.py ROOM` plants anew what is missing."""
    gone = {
        (room, file, function)
        for room, file, function, _, _ in ROWS
        if not (ROOT / file).exists() or (function and function not in functions(file))
    }
    assert gone == set()


def test_the_tests_that_find_faults_are_there():
    named = {outcome.removeprefix(KILLED) for *_, outcome in ROWS if outcome.startswith(KILLED)}
    tests = {tuple(name.split("[")[0].split("::")) for name in named if "::" in name}
    assert [] == [test for test in sorted(tests) if not is_there(*test)]


def is_there(file: str, name: str) -> bool:
    """Tell whether a file has a test, or a function with an example in its docstring."""
    module = file.removesuffix(".py").replace("/", ".")
    own = name.removeprefix(module).removeprefix(".")
    return (ROOT / file).exists() and (own == "" or own in functions(file))


def test_a_reason_is_about_a_fault_that_can_still_be_planted():
    explained = [row for row in ROWS if row[-1].startswith(EQUIVALENT)]
    keys = {fault.key for file in {row[1] for row in explained} for fault in faults_in(file)}
    assert [] == [row for row in explained if row[1:4] not in keys]


def test_a_reason_is_given_in_words():
    reasons = [row[-1].removeprefix(EQUIVALENT) for row in ROWS if row[-1].startswith(EQUIVALENT)]
    assert [] == [reason for reason in reasons if len(reason.split()) < 4]
