"""Files that are no piece file at all stop the reading with one problem."""

import os
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from surfacecalc.problems import Problem, format_problem
from surfacecalc.reading.document import Document, parse_document, read_document
from surfacecalc.reading.piece_file import read_piece

MOST_SECONDS = 1.0
"""For a file that is refused by its size; reading 50 MB and parsing them takes many times that."""


def problem_of(content: bytes) -> Problem:
    """Return the one problem that stops the reading of a file with this content."""
    found = parse_document(content)
    assert isinstance(found, Problem)
    assert found.level == "mend"
    return found


def problem_at(path: Path) -> Problem:
    """Return the one problem that stops the reading of a file."""
    piece, problems = read_piece(path)
    assert piece is None
    assert len(problems) == 1
    assert problems[0].level == "mend"
    return problems[0]


def test_missing_file_is_named_as_missing(tmp_path: Path) -> None:
    found = problem_at(tmp_path / "none.toml")
    assert found.line is None
    assert "no such file" in found.message


def test_folder_is_named_as_a_folder(tmp_path: Path) -> None:
    assert "is a folder" in problem_at(tmp_path).message


def test_pipe_is_not_waited_for(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    assert "no ordinary file" in problem_at(pipe).message


def test_name_that_no_file_can_have_is_told() -> None:
    assert problem_at(Path("a\0b")).message
    assert problem_at(Path("a" * 5_000)).message


def test_file_that_may_not_be_read_is_told_with_the_reason(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The refusal is staged, because the superuser may read everything."""

    def refuse(path: Path) -> bytes:
        raise PermissionError(13, "Permission denied", str(path))

    path = tmp_path / "locked.toml"
    path.write_text("[piece]")
    monkeypatch.setattr(Path, "read_bytes", refuse)
    assert problem_at(path).message == "cannot be read: Permission denied"


@pytest.mark.parametrize("content", [b"", b" \n\t\n", b"\r\n", b"\xef\xbb\xbf", b"\xef\xbb\xbf \n"])
def test_empty_file_is_told_how_a_piece_file_starts(content: bytes) -> None:
    found = problem_of(content)
    assert found.line == 1
    assert "is empty" in found.message
    assert "[piece]" in found.message


def test_file_of_comments_only_has_no_piece_and_no_part(read: Callable[[str], object]) -> None:
    piece, problems = read("# nothing yet\n")
    assert piece is None
    assert len(problems) == 2
    assert "[piece]" in problems[0].message
    assert "[[part]]" in problems[1].message


@pytest.mark.parametrize(
    ("content", "line"),
    [
        (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", 1),
        (b"\x7fELF\x02\x01\x01\xff", 1),
        (b'[piece]\nname = "caf\xe9"\n', 2),
        ("[piece]\n".encode("utf-16"), 1),
        (b"\xfe\xff\x00[\x00p", 1),
    ],
    ids=["picture", "program", "latin-1", "utf-16 little end first", "utf-16 big end first"],
)
def test_what_is_not_utf8_is_refused_on_its_line(content: bytes, line: int) -> None:
    found = problem_of(content)
    assert line == found.line
    assert "UTF-8" in found.message


def test_utf16_without_a_mark_and_nul_signs_are_refused_as_no_text() -> None:
    for content in ("[piece]\n".encode("utf-16-le"), b"[piece]\0"):
        found = problem_of(content)
        assert found.line == 1
        assert "is not text" in found.message


def test_nul_sign_is_refused_on_its_line() -> None:
    assert problem_of(b'[piece]\nname = "a"\nunit = "\0mm"\n').line == 3


def test_byte_order_mark_is_accepted(good: str, read: Callable[[bytes], object]) -> None:
    piece, problems = read(b"\xef\xbb\xbf" + good.encode())
    assert [] == problems
    assert piece is not None


def test_windows_line_ends_are_accepted(good: str, read: Callable[[bytes], object]) -> None:
    piece, problems = read(good.replace("\n", "\r\n").encode())
    assert [] == problems
    assert piece is not None


def test_file_of_more_than_a_megabyte_is_refused_with_its_size(tmp_path: Path) -> None:
    path = tmp_path / "long.toml"
    path.write_text("# a comment\n" * 100_000)
    found = problem_at(path)
    assert "1,200,000 bytes" in found.message


def test_file_of_just_a_megabyte_is_read(tmp_path: Path) -> None:
    path = tmp_path / "long.toml"
    path.write_text("#" * 999_999 + "\n")
    assert isinstance(read_document(path), Document)


def test_file_of_fifty_megabytes_is_refused_at_once(tmp_path: Path) -> None:
    path = tmp_path / "huge.toml"
    with path.open("wb") as file:
        file.truncate(50_000_000)
    start = time.perf_counter()
    assert "50,000,000 bytes" in problem_at(path).message
    assert time.perf_counter() - start < MOST_SECONDS


@pytest.mark.parametrize("signs", ["[]", "{}"])
def test_brackets_nested_too_deep_are_refused(signs: str) -> None:
    deep = f"a = {signs[0] * 100_000}{signs[1] * 100_000}"
    assert problem_of(deep.encode()).line == 1


def test_brackets_nested_just_not_too_deep_for_the_parser_are_reported_like_any_value(
    read: Callable[[str], object],
) -> None:
    """Between what the parser can hold and what the reader can show there must be no crash."""
    for depth in range(20, 600):
        nested = "[" * depth + "]" * depth
        piece, problems = read(f'[piece]\nname = "a"\nunit = {nested}\n[[part]]\nwidth = {nested}')
        assert piece is None
        assert problems


@pytest.mark.parametrize("number", ["9" * 5_000, "1" + "0" * 9_000])
def test_number_of_thousands_of_digits_is_refused(number: str) -> None:
    found = problem_of(f'[piece]\nname = "a"\nunit = "mm"\nbuilt = {number}\n'.encode())
    assert "huge number" in found.message


def test_number_of_thousands_of_digits_is_refused_on_its_line() -> None:
    assert problem_of(f'[piece]\nname = "a"\nbuilt = {"9" * 5_000}\n'.encode()).line == 3


@pytest.mark.parametrize("key", ["built", "name", "unit", "gap", "buy_for", "currency"])
def test_hexadecimal_number_of_thousands_of_digits_is_refused(
    key: str, changed: Callable[..., str], read: Callable[[str], object]
) -> None:
    """The parser accepts such a number; showing it in a message must not fail."""
    piece, problems = read(f"[piece]\n{key} = 0x{'f' * 5_000}\n")
    assert piece is None
    assert any(problem.line == 2 for problem in problems)


SYNTAX = {
    "a text without its last quote": ('name = "Chest', 2, 'no closing quote: name = "Chest"'),
    "a text in a list without its last quote": ('faces = ["top", "leg]', 2, "no closing quote"),
    "a text without its last single quote": ("name = 'Chest", 2, "needs a second ' at its end"),
    "a text without its first quote": ('name = Chest"', 2, 'name = "Chest"'),
    "a text without quotes": ("name = Chest", 2, 'name = "Chest"'),
    "a text in typographic quotes": ("name = \u201cChest\u201d", 2, 'plain quotes: name = "Chest"'),
    "texts in a list without quotes": ("faces = [top, leg]", 2, '["top", "leg"]'),
    "a backslash": (r'file = "C:\Users\me.ply"', 2, r"in single quotes, 'C:\Users\me.ply'"),
    "a backslash with a sign that needs none": (r'name = "a\-b"', 2, "each backslash twice"),
    "a measure with a unit, without quotes": ("width = 44 in", 2, 'width = "44 in"'),
    "a measure with a fraction, without quotes": ("width = 44 1/2", 2, 'width = "44 1/2 mm"'),
    "a fraction without quotes": ("width = 1/2", 2, 'width = "1/2 mm"'),
    "a measure with a typographic fraction": ("width = 44\u00bd", 2, 'width = "44\u00bd mm"'),
    "a measure with an inch mark": ('width = 44"', 2, 'width = "44 in"'),
    "an inch mark inside a text": ('width = "44-1/2""', 2, "width = '44-1/2\"'"),
    "feet and inches": ("width = 5 ft 2 in  # wide", 2, 'width = "5 ft 2 in"'),
    "a measure in a list": ("at = [0, 17 3/8, 0]", 2, 'in quotes: "17 3/8 mm"'),
    "a coverage without quotes": ("covers = 10 m2/L", 2, 'covers = "10 m2/L"'),
    "no value": ("name =", 2, "after name = stands no value"),
    "no key": ('= "Chest"', 2, "before the = stands no key"),
    "no sign between key and value": ('name "Chest"', 2, "an = is missing"),
    "a colon between key and value": ('name: "Chest"', 2, 'name = "Chest"'),
    "a blank in a key": ("on hand = 3", 2, "on_hand ="),
    "a remark of another language": ("// wide", 2, "a remark starts with a #"),
    "a key twice": ('name = "a"\nname = "b"', 3, "name stands twice in one table, first on line 2"),
    "a key twice in one line": ("a = { of = 1, of = 2 }", 2, "of stands twice between { and }"),
    "a header with a bracket too few": ("[[part]", 2, "[[part]], with two brackets"),
    "a header with a bracket too few before": ("[part]]", 2, "[[part]], with two brackets"),
    "a header with a bracket too many": ("[[part]]]", 2, "[[part]], with two brackets"),
    "a header that is not closed": ("[[zone.step", 2, "[[zone.step]], with two brackets"),
    "a header with something behind it": ('[[part]] name = "a"', 2, "stands alone on a line"),
    "a table twice": ("[piece]", 2, "[piece] stands twice"),
    "parts with one bracket": ("[part]\na = 1\n[part]\nb = 1", 2, "every [[part]] is written"),
    "steps with one bracket": (
        "[[zone]]\n[zone.step]\n[zone.step]", 3, "every [[zone.step]] is written with two"),
    "a step above its zone": ("[[zone.step]]\n[[zone]]", 3, "above the first [[zone]]"),
    "a number that starts with nought": ("width = 044", 2, "width = 44"),
    "a number that starts with a point": ("width = .5", 2, "width = 0.5"),
    "a number that ends in a point": ("width = 5.", 2, "width = 5"),
    "a decimal comma": ("width = 3,5", 2, "width = 3.5"),
    "a list that is not closed": ("at = [0, 0", 2, "a list is opened with [ and not closed"),
    "a list that is not closed, and more": ("at = [0, 0\n[[part]]\na = 1", 2, "not closed with ]"),
    "a list without a comma": ('faces = ["a" "b"]', 2, "a comma is missing"),
    "an inner table without a comma": ("row = { of = 2 apart = 3 }", 2, "a comma is missing"),
    "an inner table that is not closed": ("row = { of = 2", 2, "not closed with } on the same"),
    "an inner table on two lines": ("row = { of = 2,\n apart = 3 }", 2, "not closed with } on"),
    "a decimal comma in an inner table": (
        'packs = [{ size = "1 L", price = 11,50 }]', 2, "a point, not a comma: 11.50"),
    "money with its sign": ("price = $11", 2, "a plain number, 11;"),
    "money with its sign in an inner table": (
        'packs = [{ size = "1 L", price = $11.50 }]', 2, "a plain number, 11.50;"),
    "a comma too many": ('packs = [{ count = 1 },, { count = 2 }]', 2, "one comma, not two"),
    "a comma too many at the end": ('packs = [{ count = 1 },, ]', 2, "one comma, not two"),
    "a number in words": ("coats = two", 2, "coats = 2"),
    "a year with a comma": ("built = 19,20", 2, "built = 1920"),
    "a day that is none": ("built = 2023-02-31", 2, "built = 2023"),
    "yes for true": ("leave = yes", 2, "leave = true"),
    "True for true": ("leave = True", 2, "leave = true"),
    "two keys on a line": ("width = 1 depth = 2", 2, "each key has a line of its own"),
    "a sign that cannot be seen": ('name = "a\x01"', 2, "a sign that cannot be seen"),
}  # fmt: skip

PARSERS_WORDS = (
    "TOML", "statement", "declare", "Expected", "expected", "declaration", "illegal", "Illegal",
    "unescaped", "mutate", "namespace", "overwrite", "document", "hex", "array", "character",
    "string",
)  # fmt: skip
"""Words of the standard parser that a person with a tape measure has no use for."""


@pytest.mark.parametrize(("source", "line", "said"), SYNTAX.values(), ids=list(SYNTAX))
def test_slip_in_writing_is_told_alone_on_its_line_in_plain_words(
    source: str, line: int, said: str
) -> None:
    header = "" if source == "[piece]" else "# my table"
    found = problem_of(f'{header or "[piece]"}\n{source}\nunit = "mm"\n'.encode())
    assert line == found.line
    assert said in found.message
    assert [] == [word for word in PARSERS_WORDS if word in found.message]


@given(
    st.lists(
        st.sampled_from(["[", "]", "{", "}", "=", '"', "'", ",", ".", "\\", "#", " ", "\n", "a",
                         "[[part]]", "part", "1", "1/2", "in", ":", "true", "\u201c", "\x07"]),
        max_size=15,
    )
)  # fmt: skip
def test_no_slip_in_writing_shows_the_words_of_the_parser(signs: list[str]) -> None:
    text = "".join(signs)
    found = parse_document(text.encode())
    if isinstance(found, Problem):
        assert found.line is not None
        assert 1 <= found.line <= max(1, len(text.splitlines()))
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
    found = problem_of(text.encode())
    assert line == found.line
    assert f"is a {header} line missing above line {line}?" in found.message


def test_syntax_mistake_hides_all_other_mistakes(read: Callable[[str], object]) -> None:
    piece, problems = read('[piece]\nname = ""\nunit = "acre"\nwidth = 3 in\n')
    assert piece is None
    assert [4] == [problem.line for problem in problems]


def test_problem_is_one_printed_line_with_file_and_line() -> None:
    problem = Problem("mend", 7, 'part "leg"', "has no height")
    assert format_problem(problem, "a.toml") == 'a.toml:7: part "leg": has no height'
    problem = Problem("note", None, "faces", "two lines\nand \x1b[31mred")
    assert format_problem(problem, "a.toml") == (
        "a.toml: note: faces: two lines\\nand \\x1b[31mred"
    )
