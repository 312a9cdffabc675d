"""Files that are no piece file at all stop the reading with one problem."""

import os
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem, format_problem
from surfacecalc.reading.document import Document, parse_document, read_document
from surfacecalc.reading.piece_file import read_piece

Read = Callable[[str | bytes], tuple[Piece | None, list[Problem]]]
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
    assert "was not found" in found.message


def test_folder_is_named_as_a_folder(tmp_path: Path) -> None:
    assert "is a folder" in problem_at(tmp_path).message


def test_pipe_is_not_waited_for(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    assert "is not a regular file" in problem_at(pipe).message


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


def test_file_of_comments_only_has_no_piece_and_no_part(read: Read) -> None:
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
        assert "is not plain text" in found.message


def test_nul_sign_is_refused_on_its_line() -> None:
    assert problem_of(b'[piece]\nname = "a"\nunit = "\0mm"\n').line == 3


def test_byte_order_mark_is_accepted(good: str, read: Read) -> None:
    piece, problems = read(b"\xef\xbb\xbf" + good.encode())
    assert [] == problems
    assert piece is not None


def test_windows_line_ends_are_accepted(good: str, read: Read) -> None:
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
    read: Read,
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
    key: str, changed: Callable[..., str], read: Read
) -> None:
    """The parser accepts such a number; showing it in a message must not fail."""
    piece, problems = read(f"[piece]\n{key} = 0x{'f' * 5_000}\n")
    assert piece is None
    assert any(problem.line == 2 for problem in problems)


def test_syntax_mistake_hides_all_other_mistakes(read: Read) -> None:
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
