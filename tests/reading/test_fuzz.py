"""Whatever stands in a file: a piece, or what to mend on a line of the file; never a crash."""

import tomllib
from collections.abc import Callable, Iterator
from datetime import date, datetime, time
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem
from surfacecalc.reading.piece_file import read_piece

Read = Callable[[str | bytes], tuple[Piece | None, list[Problem]]]
AsToml = Callable[[dict[str, Any]], str]

# Built once and only read, so that examples may share them.
SHARED = settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
    deadline=None,
    max_examples=150,
)

WORDS = st.sampled_from(
    ["", " ", "a", "top", "*", "top.front", "*.*", "3", "3 mm", "-3 mm", "0 in", "44 1/2 in",
     "1/0 in",
     "3,5 cm", "10 m2/L", "-1 m2/L", "50 m2/kg", "1 L", "8 oz", "1 m2", "10 %", "-10 %", "100 %",
     "paint", "stain", "wax", "disc", "board", "case", "leg", "turned", "sand", "coat", "brush",
     "bare", "unknown", "EUR", "nan", "\u00bd in", "\u202e", "\x00", "=1+1", "x" * 500]
)  # fmt: skip
SCALARS = st.one_of(
    st.booleans(),
    st.integers(-5, 5),
    st.integers(),
    st.sampled_from([10**9, -(10**18), 2**63, 10**400]),
    st.floats(),
    st.sampled_from([0.0, -0.0, 1e-300, 5e-324, 1e308, float("nan"), float("inf"), 0.1, 1.5]),
    WORDS,
    st.text(max_size=20),
    st.dates(date(1900, 1, 1), date(2100, 1, 1)),
    st.times(time(0), time(23)),
    st.datetimes(datetime(1900, 1, 1), datetime(2100, 1, 1)),
)
KEYS = st.one_of(
    st.sampled_from(
        ["of", "apart", "set_in", "size", "price", "count", "do", "product", "name", "80", "P120",
         "depth", "diameter", "width", "weight", "empty", "density", "low"]
    ),
    st.text(max_size=5),
)  # fmt: skip
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(KEYS, inner, max_size=3)),
    max_leaves=8,
)


def places(value: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """Yield the path of every value in a document, tables and lists included."""
    if path:
        yield path
    inner = value.items() if isinstance(value, dict) else enumerate(value)
    for key, item in inner if isinstance(value, dict | list) else ():
        yield from places(item, (*path, key)) if isinstance(item, dict | list) else [(*path, key)]


def put(document: dict[str, Any], path: tuple[str | int, ...], value: Any) -> None:
    *outer, last = path
    table: Any = document
    for key in outer:
        table = table[key]
    table[last] = value


def check_sound(text: str, read: Read) -> None:
    """Check that a text is a piece, or has something to mend, each on a line of the text."""
    piece, problems = read(text)
    mends = [found for found in problems if found.level == "mend"]
    assert (piece is None) == bool(mends)
    last = len(text.splitlines())
    assert [] == [found for found in mends if found.line is None or not 1 <= found.line <= last]
    assert [] == [found for found in mends if not found.message.strip()]


@SHARED
@given(data=st.data())
def test_any_value_of_any_key_is_read_or_told(
    data: st.DataObject, good: str, as_toml: AsToml, read: Read
) -> None:
    document = tomllib.loads(good)
    path = data.draw(st.sampled_from(list(places(document))))
    put(document, path, data.draw(VALUES))
    check_sound(as_toml(document), read)


def test_number_too_long_to_be_shown_is_told_for_every_key(
    good: str, as_toml: AsToml, read: Read
) -> None:
    """Written in hexadecimal it passes the parser, which refuses so many digits otherwise."""
    for path in places(tomllib.loads(good)):
        if isinstance(path[-1], str):
            document = tomllib.loads(good)
            put(document, path, 16**4500)
            check_sound(as_toml(document), read)


@SHARED
@given(data=st.data())
def test_any_three_values_of_any_keys_are_read_or_told(
    data: st.DataObject, good: str, as_toml: AsToml, read: Read
) -> None:
    document = tomllib.loads(good)
    for _ in range(3):
        path = data.draw(st.sampled_from(list(places(document))))
        put(document, path, data.draw(SCALARS))
    check_sound(as_toml(document), read)


@SHARED
@given(
    st.dictionaries(
        st.sampled_from(["piece", "part", "zone", "schedule", "product", "abrasive", "x"]), VALUES
    )
)
def test_any_document_is_read_or_told(
    as_toml: AsToml, read: Read, document: dict[str, Any]
) -> None:
    if document:
        check_sound(as_toml(document), read)


@SHARED
@given(data=st.data())
def test_any_piece_of_the_right_file_is_read_or_told(
    data: st.DataObject, good: str, read: Read
) -> None:
    """A file that was cut off, or lost a stretch in the middle."""
    start = data.draw(st.integers(0, len(good)))
    stop = data.draw(st.integers(start, min(len(good), start + 200)))
    check_sound(good[:start] + good[stop:], read)
    check_sound(good[:start] or "\n", read)


@SHARED
@given(content=st.binary(max_size=200))
def test_any_bytes_are_read_or_told(content: bytes, read: Read) -> None:
    piece, problems = read(content)
    assert piece is None
    assert any(found.level == "mend" for found in problems)


@pytest.mark.parametrize("path", [Path(), Path("/dev/null"), Path("/dev/zero"), Path("/proc/self")])
def test_paths_that_are_no_files_are_told(path: Path) -> None:
    piece, problems = read_piece(path)
    assert piece is None
    assert ["mend"] == [found.level for found in problems]
