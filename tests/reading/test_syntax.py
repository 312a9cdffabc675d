"""Mistakes in how a file is written are said on their line, in words of the workshop."""

import re
import time
from pathlib import Path
from typing import Any

import pytest
import tomli
from hypothesis import given, settings
from hypothesis import strategies as st

from surfacecalc.problems import Problem
from surfacecalc.reading.document import Document, parse_document
from surfacecalc.reading.syntax.explain import explain

MISTAKES = Path(__file__).with_name("syntax_mistakes.txt").read_text("utf-8")
SYNTAX = [
    pytest.param(source, int(line), said, id=kind)
    for kind, source, line, said in re.findall(
        r"^\n([^\n]+):\n(.+?)\n--> (\d+): ([^\n]+)$", MISTAKES, re.DOTALL | re.MULTILINE
    )
] + [
    pytest.param(
        'name = "a\x01"', 2, "there is an invisible character at column 10; type the line again",
        id="an invisible character",
    ),
    pytest.param(
        "name \xa0= 1", 2, "there is an invisible character at column 6; type the line again",
        id="a space that is not one",
    ),
    pytest.param(
        "[piece]", 2, "the heading [piece] is given twice; keep one of them", id="a table twice"
    ),
]  # fmt: skip

PARSERS_WORDS = (
    "TOML", "statement", "declare", "Expected", "expected", "declaration", "illegal", "Illegal",
    "unescaped", "mutate", "namespace", "overwrite", "document", "hex", "array", "string",
)  # fmt: skip
"""Words of the parser that a person with a tape measure has no use for."""


def test_all_kinds_of_mistakes_are_read() -> None:
    assert MISTAKES.count("\n--> ") + 3 == len(SYNTAX)
    assert len({case.id for case in SYNTAX}) == len(SYNTAX)


def problem_of(text: str) -> Problem:
    """Return the one problem that stops the reading of a text."""
    found = parse_document(text.encode())
    assert isinstance(found, Problem)
    return found


def in_a_file(source: str) -> str:
    """Return a file with a source from its second line on."""
    header = "[piece]" if source == "[piece]" else "# my table"
    return f'{header}\n{source}\nunit = "mm"\n'


@pytest.mark.parametrize(("source", "line", "said"), SYNTAX)
@pytest.mark.parametrize("end", ["\n", "\r\n"], ids=["unix", "windows"])
def test_mistake_in_writing_is_said_on_its_line_in_plain_words(
    source: str, line: int, said: str, end: str
) -> None:
    found = problem_of(in_a_file(source).replace("\n", end))
    assert (line, f"cannot be read: {said}") == (found.line, found.message)
    assert [] == [word for word in PARSERS_WORDS if word in found.message]


@pytest.mark.parametrize(("source", "line", "said"), SYNTAX)
def test_words_of_the_parser_are_not_read(source: str, line: int, said: str) -> None:
    """Another version of the parser may say the same with other words."""
    with pytest.raises(tomli.TOMLDecodeError) as caught:
        tomli.loads(in_a_file(source))
    other = tomli.TOMLDecodeError("something else", caught.value.doc, caught.value.pos)
    assert (line, said) == explain(other)


@given(
    st.lists(
        st.sampled_from(["[", "]", "{", "}", "=", '"', "'", ",", ".", "\\", "#", " ", "\n", "a",
                         "[[part]]", "part", "1", "1/2", "in", ":", "true", "\u201c", "\x07"]),
        max_size=15,
    )
)  # fmt: skip
def test_no_mistake_in_writing_shows_the_words_of_the_parser(signs: list[str]) -> None:
    text = "".join(signs)
    found = parse_document(text.encode())
    if isinstance(found, Problem):
        assert found.line is not None
        assert 1 <= found.line <= max(1, len(text.split("\n")))
        assert [] == [word for word in PARSERS_WORDS if word in found.message]


@pytest.mark.parametrize(
    ("text", "line", "header"),
    [
        ('[piece]\nname = "a"\nunit = "in"\n\nname = "top"\nshape = "board"\n', 5, "[[part]]"),
        ('[[part]]\nname = "a"\nshape = "leg"\nname = "b"\nshape = "leg"\n', 4, "[[part]]"),
        ('[[zone]]\nname = "a"\nname = "b"\nfaces = ["top"]\n', 3, "[[zone]]"),
        ('[[zone.step]]\ndo = "sand"\ndo = "coat"\n', 3, "[[zone.step]]"),
        ('[[product]]\nname = "a"\nname = "b"\nkind = "paint"\n', 3, "[[product]]"),
        ('[[abrasive]]\nname = "a"\nname = "b"\nform = "sheet"\n', 3, "[[abrasive]]"),
    ],
)
def test_second_name_in_a_table_asks_for_the_header_that_is_missing(
    text: str, line: int, header: str
) -> None:
    found = problem_of(text)
    assert line == found.line
    assert f"is a {header} line missing above line {line}?" in found.message


READ_OVER_LINES = """[mix.recipe]
of = {
  # the base
  product = "base", parts = 4,
  tint = { name = "green",
    parts = 1 }, # the last
}
"""


def test_inner_table_over_several_lines_with_a_comma_at_its_end_is_read() -> None:
    found = parse_document(READ_OVER_LINES.encode())
    assert isinstance(found, Document)
    inner = {"product": "base", "parts": 4, "tint": {"name": "green", "parts": 1}}
    assert {"mix": {"recipe": {"of": inner}}} == found.tables
    assert 6 == found.lines["mix", "recipe", "of", "tint", "parts"]


@pytest.mark.parametrize("sign", ["\u2028", "\x85"])
def test_signs_that_end_a_line_elsewhere_do_not_move_the_line(sign: str) -> None:
    """Python's splitlines ends a line there, the parser and every editor of plain text do not."""
    assert 3 == problem_of(f'[piece]\nname = "a{sign}b"\nwidth = 3 in\n').line


MOST_SECONDS = 2.0
"""For one file; a rule that tries every way through a long line takes minutes."""


@pytest.mark.parametrize(
    "text",
    [
        "a = { b c" + " aa" * 100_000,
        "a = { b c" + " aa" * 1_200,
        "[a" + " a" * 1_900,
        "a" + " a" * 1_900,
        "a = " + "1 " * 1_900 + "?",
        "a = " + "1," * 1_900,
        'a = "' + "x" * 900_000,
        'a = """' + '"" ' * 300_000,
        "a = {b=" * 100_000,
    ],
    ids=lambda text: text[:12],
)
def test_long_line_is_explained_at_once_and_in_few_words(text: str) -> None:
    start = time.perf_counter()
    found = problem_of(text)
    assert time.perf_counter() - start < MOST_SECONDS
    assert len(found.message) < 350


EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))


@pytest.mark.parametrize("example", EXAMPLES, ids=[path.stem for path in EXAMPLES])
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_one_character_more_or_less_is_read_or_said_with_its_line(
    example: Path, data: st.DataObject
) -> None:
    text = example.read_text("utf-8")
    at = data.draw(st.integers(0, len(text) - 1))
    more = data.draw(st.sampled_from(["", *"[]{}=\"',.#:; \n\\a1-\u201c\x07"]))
    check_changed(text[:at] + more + text[at + (not more) :])


def check_changed(text: str) -> None:
    """Check that a text with one mistake is read with every line, or its mistake said."""
    found = parse_document(text.encode())
    if isinstance(found, Document):
        assert paths(found.tables) == set(found.lines)
    else:
        assert found.line is not None
        assert 1 <= found.line <= text.count("\n") + 1
        assert len(found.message) > 30
        assert [] == [word for word in PARSERS_WORDS if word in found.message]


def paths(value: Any, path: tuple[str | int, ...] = ()) -> set[tuple[str | int, ...]]:
    """Return the path of everything in a document."""
    if isinstance(value, dict):
        return {path}.union(*(paths(item, (*path, key)) for key, item in value.items()))
    if isinstance(value, list):
        return {path}.union(*(paths(item, (*path, key)) for key, item in enumerate(value)))
    return {path}
