"""Faults are what they are called, and a planted one is really in what runs."""

import ast
from collections import Counter
from fractions import Fraction

import pytest
from fault_operators import OPERATORS, KeywordsWithDefaults, Operator, Source, defaults_in
from fault_places import ROOMS, ROOT, Fault, chosen, faults_in
from fault_results import SURVIVED, killed_by, share_survived, store, stored
from fault_trials import TOO_LONG, FaultyImport, functions_in_memory, in_a_fork, swap_code

from surfacecalc.units.number_words import mixed_number


def edited(text: str) -> list[str]:
    """Return a text with each fault that can be in it."""
    source = Source(text)
    keywords = KeywordsWithDefaults(frozenset(defaults_in(source.tree)))
    operators: list[Operator] = [*OPERATORS, keywords]
    nodes = ast.walk(source.tree)
    edits = [edit for node in nodes for one in operators for edit in one(node, source)]
    parts = [(source.data[:start], new.encode(), source.data[end:]) for start, end, new in edits]
    return sorted(b"".join(row).decode() for row in parts)


@pytest.mark.parametrize(
    ("text", "faulty"),
    [
        ("a <= b", ["a < b"]),
        ("a < b == c", ["a < b != c", "a <= b == c"]),
        ("a is  not b", ["a is b"]),
        ("(a) + (b)", ["(a) - (b)"]),
        ("a // b", ["a / b"]),
        ("a + 'x'", []),
        ("a and b or c", ["a and b and c", "a or b or c"]),
        ("not a", ["a"]),
        ("a = min(a, b)", ["a = max(a, b)"]),
        ("a = math.floor(a)", ["a = math.ceil(a)"]),
        ("a = any(a)", ["a = all(a)"]),
        ("a = sorted(a)", ["a = list(a)"]),
        ("a = sorted(a, reverse=b)", ["a = sorted(a)"]),
        ("True", ["False"]),
        ("a = 3", ["a = 0", "a = 4", "a = 6"]),
        ("a = 0.5", ["a = 0.0", "a = 1.0", "a = 1.5"]),
        ("'text'", []),
        ("a[b[-1]]", ["a[b[-0]]", "a[b[-2]]", "a[b[0]]", "a[b[1]]"]),
        ("a if b else c", ["a if False else c", "a if True else c"]),
        ("[a for a in b if a]", ["[a for a in b if True]"]),
        ("a += b", ["a -= b", "pass"]),
        ("a.append(b)", ["pass"]),
        ("a('é', b < c)", ["a('é', b <= c)", "pass"]),
        ("if (a\n or b):\n pass", ["if ((True\n)):\n pass", "if ((False\n)):\n pass"]),
        ("def f(a, *, b=c): pass\nd = f(e, b=g)", ["def f(a, *, b=c): pass\nd = f(e)"]),
        ("def f(a=b): pass\nd = f(a=e, c=g)", ["def f(a=b): pass\nd = f( c=g)"]),
    ],
)
def test_a_fault_is_one_small_change_at_its_place(text: str, faulty: list[str]):
    found = edited(text)
    assert set(faulty) <= set(found)
    if "\n" not in text:
        assert sorted(faulty) == found


def test_every_fault_can_be_compiled_and_no_two_are_called_the_same():
    faults = faults_in("surfacecalc/units/number_words.py")
    assert len(faults) == len({fault.key for fault in faults}) > 20
    for fault in faults:
        assert ast.dump(ast.parse(fault.planted())) != ast.dump(
            ast.parse((ROOT / fault.file).read_text(encoding="utf-8"))
        )


def fault_of(text: str) -> Fault:
    (found,) = [one for one in faults_in("surfacecalc/units/number_words.py") if text in one.text]
    return found


def test_a_planted_fault_changes_what_all_importers_run_and_only_in_the_fork():
    """2 1/2 is written "0 1/2" where the whole part is always left out."""
    fault = fault_of("[part -> True]")

    functions = functions_in_memory()

    def asked() -> list[object]:
        return [swap_code(fault, functions), mixed_number(Fraction(2))]

    right = mixed_number(Fraction(2))
    assert in_a_fork(asked, 20) == [1, "2 0"]
    assert right == mixed_number(Fraction(2)) == "2"


def test_a_fault_outside_of_functions_is_in_the_module_that_is_imported():
    fault = next(one for one in faults_in("surfacecalc/units/number_words.py") if not one.is_inside)
    spec = FaultyImport(fault).find_spec("surfacecalc.units.number_words")
    assert spec is not None
    assert spec.loader.get_source(spec.name) != fault.planted()
    code = spec.loader.get_code(spec.name)
    assert code == compile(fault.planted(), str(ROOT / fault.file), "exec", dont_inherit=True)
    assert FaultyImport(fault).find_spec("surfacecalc.units.coins") is None


def test_what_never_ends_is_stopped():
    def endless() -> None:
        while True:
            pass

    assert TOO_LONG == in_a_fork(endless, 0.2)


def test_the_choice_is_the_same_each_time_and_has_some_of_each_function():
    room = ROOMS["zones"]
    faults = chosen(room)
    assert faults == chosen(room)
    counts = Counter((fault.file, fault.function) for fault in faults)
    assert len(counts) > 10
    assert room.each == max(counts.values())


def test_what_is_stored_is_read_again(tmp_path, monkeypatch):
    monkeypatch.setattr("fault_results.FOLDER", tmp_path)
    outcomes = {
        ("a.py", "f", "x [< -> <=] y"): killed_by("tests/a/test_a.py::test_x[\n]"),
        ("a.py", "f", "[1 -> 2]"): SURVIVED,
        ("a.py", "", "[1 -> 0]"): "equivalent: nothing reads it again",
        ("b.py", "C.g", "[1 -> 0]"): SURVIVED,
    }
    store("room", outcomes)
    assert outcomes == stored("room")
    assert share_survived(outcomes.values()) == 0.5
    assert "4 faults planted, 1 killed, 1 equivalent, 2 survived (50.0 %)" in (
        tmp_path / "room.txt"
    ).read_text(encoding="utf-8")
