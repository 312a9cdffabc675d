"""The line of everything in documents written at random, whatever their layout."""

import random
from typing import Any

import pytest
import tomli
from hypothesis import given, settings
from hypothesis import strategies as st

from surfacecalc.reading.positions import Lines, Path
from surfacecalc.reading.syntax.scan import Scan, line_index

KEYS = st.sampled_from(
    ["a", "b", "of", "set-in", "1", "", "two words", "d.t", "it's", 'quo"te', "# no", "]", "{", "="]
)
PLAIN = st.one_of(
    st.integers(-5, 10**6),
    st.booleans(),
    st.sampled_from(
        [
            "",
            "x",
            "# no comment",
            "a ] } , = [[b]]",
            "it's",
            'a"b',
            "\\",
            "two\nlines",
            'end"',
            'end""',
            "end''",
        ]
    ),
)  # fmt: skip
VALUES = st.recursive(
    PLAIN,
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(KEYS, inner, max_size=3)),
    max_leaves=10,
)
TABLES = st.dictionaries(KEYS, VALUES, max_size=4)


class Writer:
    """A document written with a layout at random; it notes the line of everything it writes."""

    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)  # noqa: S311
        self.text = ""
        self.lines: Lines = {(): 1}

    def put(self, *choices: str) -> None:
        self.text += self.chance.choice(choices)

    def note(self, path: Path) -> None:
        self.lines[path] = self.text.count("\n") + 1

    def between(self) -> None:
        """Write what may be between two items."""
        for _ in range(self.chance.randrange(3)):
            self.put("", " ", "\t", "\n", ' # a ] and a } and a " \n', "# [[x]]\n\n")

    def key(self, key: str) -> None:
        is_bare = key.replace("-", "").isalnum()
        literal = f"'{key}'" if "'" not in key else basic(key)
        self.put(basic(key), literal, key if is_bare else basic(key))

    def value(self, value: Any, path: Path) -> None:
        if isinstance(value, dict):
            self.inside("{}", list(value.items()), path)
        elif isinstance(value, list):
            self.inside("[]", list(enumerate(value)), path)
        elif isinstance(value, bool):
            self.put("true" if value else "false")
        elif isinstance(value, int):
            self.put(f"{value}", f"{value:+}")
        else:
            self.words(value)

    def words(self, words: str) -> None:
        forms = [basic(words), f'"""\n{words}"""'.replace("\\", "\\\\")]
        forms.append(f"'''\n{words}'''")
        if "'" not in words and "\n" not in words:
            forms.append(f"'{words}'")
        self.put(*forms)

    def inside(self, marks: str, items: Any, path: Path) -> None:
        self.put(marks[0])
        self.between()
        for number, (key, item) in enumerate(items):
            if number:
                self.put(",")
                self.between()
            self.note((*path, key))
            if marks == "{}":
                self.key(key)
                self.put("=", " = ", "\t=  ")
            self.value(item, (*path, key))
            self.between()
        if items and self.chance.random() < 0.3:
            self.put(",")
            self.between()
        self.put(marks[1])

    def table(self, table: dict[str, Any], path: Path) -> None:
        for key, value in table.items():
            self.note((*path, key))
            self.put("", "  ")
            self.key(key)
            self.put("=", " = ", " =\t")
            self.value(value, (*path, key))
            self.put("\n", " \n", " # done = [\n", "\n\n# = {\n")

    def header(self, keys: list[str], path: Path, mark: str) -> None:
        self.note(path)
        for length in range(1, len(path)):
            self.lines.setdefault(path[:length], self.lines[path])
        self.put("", " ")
        self.text += mark
        for number, key in enumerate(keys):
            if number:
                self.put(".", " . ")
            self.key(key)
        self.text += "]" * len(mark)
        self.put("\n", " # a header\n")


def basic(words: str) -> str:
    """Return words in double quotes, some of their characters escaped."""
    escaped = words.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    coded = escaped.replace("x", "\\u0078")
    return f'"{coded}"'


@settings(max_examples=300, deadline=None)
@given(
    TABLES,
    st.dictionaries(KEYS.map(lambda key: f"table {key}"), TABLES, max_size=2),
    st.dictionaries(
        KEYS.map(lambda key: f"list {key}"),
        st.lists(st.tuples(TABLES, st.lists(TABLES, max_size=2)), min_size=1, max_size=3),
        max_size=2,
    ),
    st.integers(0, 10**9),
    st.booleans(),
)
def test_line_of_everything_is_the_line_where_it_was_written(
    top: dict[str, Any],
    tables: dict[str, dict[str, Any]],
    lists: dict[str, list[tuple[dict[str, Any], list[dict[str, Any]]]]],
    seed: int,
    windows: bool,
) -> None:
    writer = Writer(seed)
    writer.table(top, ())
    for name, table in tables.items():
        writer.header([name, "in"], (name, "in"), "[")
        writer.table(table, (name, "in"))
    for name, items in lists.items():
        for number, (table, steps) in enumerate(items):
            path: Path = (name, number)
            writer.lines.setdefault((name,), writer.text.count("\n") + 1)
            writer.header([name], path, "[[")
            writer.table(table, path)
            for count, step in enumerate(steps):
                step_path = (*path, "the steps", count)
                writer.lines.setdefault(step_path[:-1], writer.text.count("\n") + 1)
                writer.header([name, "the steps"], step_path, "[[")
                writer.table(step, step_path)
    written = {
        **top,
        **{name: {"in": table} for name, table in tables.items()},
        **{
            name: [{**table, **({"the steps": steps} if steps else {})} for table, steps in items]
            for name, items in lists.items()
        },
    }
    assert written == tomli.loads(writer.text)
    text = writer.text.replace("\n", "\r\n") if windows else writer.text
    assert writer.lines == line_index(text)
    end = Scan(writer.text)
    assert ([], None, "") == (end.opened, end.twice, end.awaits)


@pytest.mark.parametrize(
    ("text", "marks", "awaits"),
    [
        ("a = [1, {b = ", "[{", "value"),
        ("a = [1, {b = 2", "[{", ","),
        ("a = [1, {b = 2, # end\n", "[{", "key"),
        ("a = [1, {b", "[{", "="),
        ("a = [", "[", "value"),
        ("a = [1 # one\n", "[", ","),
        ("a = [1]\nb", "", "="),
        ("a = [1]\n[b", "", ""),
        ('a = ["x]', '["', ""),
        ('a = """x]" ', '"""', ""),
        ("a = '''x", "'''", ""),
        ("a = 'x", "'", ""),
        ('"a = 1', '"', ""),
    ],
)
def test_what_is_open_where_a_text_ends(text: str, marks: str, awaits: str) -> None:
    end = Scan(text)
    assert (marks, awaits) == ("".join(found.mark for found in end.opened), end.awaits)


def test_key_that_is_given_twice_is_found_with_both_lines() -> None:
    twice = Scan('[[part]]\na = { b = 1,\n "c" = 2,\n c = 3').twice
    assert twice is not None
    assert (("part", 0, "a", "c"), 4, 3) == (twice.path, twice.line, twice.first)


def test_deep_brackets_are_followed_without_a_deep_stack() -> None:
    deep = f"a = {'[' * 5_000}{']' * 5_000}\nb = 1\n"
    assert 2 == line_index(deep)["b",]
