"""Lengths, amounts, shares and ranges of a table: read exactly, or told what is wrong.

Where a text is no amount but nearly one, the message offers what it may have meant.
"""

import math
import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from shapes.tolerances import MAX_LENGTH_MM
from surfacecalc.model.ranges import Range
from surfacecalc.reading.examples import amount_example, in_unit, size_example
from surfacecalc.reading.shown import shown, shown_at
from surfacecalc.units.grammar import EXAMPLES, AmountError, parse_amount, parse_share
from surfacecalc.units.known import Dimension, factor
from surfacecalc.units.spans import two_ends

if TYPE_CHECKING:
    from surfacecalc.reading.tables import Table

LARGEST_NUMBER = 10**9
"""No measure, count or price of a piece is larger; keeps huge numbers out of exact arithmetic."""
_LETTERS = re.compile(r"(?:(?<=[\d./\s-])|^)[OolI]+(?=[\d./\s-]|$)|(?<=\d)[OolI]+(?=[^\W\d_])")
"""Letters that stand where a figure belongs: beside figures, or alone."""
_FIGURES = str.maketrans("OolI", "0011")
_PLAIN_NUMBER = re.compile(r"\d+(?:\.\d+)?")


def number(table: "Table", value: Any, *keys: str | int) -> Fraction | None:
    """Return a bare number as an exact fraction, or None after recording what is wrong."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        table.mend(f"{shown_at(keys, value)} must be a number", *keys)
    elif isinstance(value, float) and not math.isfinite(value):
        table.mend(f"{shown_at(keys, value)} must be an ordinary number, not inf or nan", *keys)
    elif abs(value) > LARGEST_NUMBER:
        table.mend(f"{shown_at(keys, value)} is far too large; check the number", *keys)
    else:
        return Fraction(str(value))
    return None


def length_mm(table: "Table", value: Any, *keys: str | int) -> float | None:
    """Return a length [mm], or None after recording what is wrong."""
    if isinstance(value, str):
        return _parsed(table, value, "length", *keys)
    found = number(table, value, *keys)
    if table.context.unit is None:
        table.spoil()  # that the unit is missing is recorded once, at [piece]
        return None
    return None if found is None else float(found * factor(table.context.unit))


def size_mm(table: "Table", key: str) -> float:
    """Return a length above zero and at most 10 m that must be there [mm]."""
    if not table.has(key, size_example(key, table.kind, table.context.unit)):
        return 1.0
    length = length_mm(table, table.values[key], key)
    if length is not None and length <= 0:
        table.refuse(key, "must be more than zero")
    elif length is not None and length > MAX_LENGTH_MM:
        table.refuse(key, "is over 10 m; check the number and the unit")
    return length or 1.0


def place_mm(table: "Table", key: str, example: str) -> tuple[float, float, float]:
    """Return three lengths that must be there [mm]; the example is in mm."""
    value = table.values[key]
    if not isinstance(value, list) or len(value) != 3:
        right = in_unit(example, table.context.unit)
        table.refuse(key, f"must be three lengths x, y, z, such as {key} = {right}")
        return 0.0, 0.0, 0.0
    x, y, z = (_coordinate(table, item, key, axis) for axis, item in enumerate(value))
    return x, y, z


def _coordinate(table: "Table", value: Any, key: str, axis: int) -> float:
    length = length_mm(table, value, key, axis)
    if length is not None and abs(length) > MAX_LENGTH_MM:
        where = f"{key}: {'xyz'[axis]}"
        table.mend(f"{where} = {shown(value)} is over 10 m away; check the unit", key, axis)
    return length or 0.0


def amount(table: "Table", value: Any, dimension: Dimension, *keys: str | int) -> float | None:
    """Return an amount in its base unit, or None after recording what is wrong."""
    if isinstance(value, str):
        return _parsed(table, value, dimension, *keys)
    right = EXAMPLES[dimension]
    if isinstance(value, int | float) and not isinstance(value, bool):
        right = amount_example(shown(value), dimension, table.context.unit)
    table.mend(f"{shown_at(keys, value)} has no unit; write {_with_key(keys, right)}", *keys)
    return None


def share(table: "Table", value: Any, *keys: str | int) -> float | None:
    """Return a share as a fraction of one, or None after recording what is wrong."""
    try:
        if not isinstance(value, str):
            raise AmountError('is not a percentage; write it like "10 %"')
        return float(parse_share(value))
    except AmountError as error:
        table.mend(f"{shown_at(keys, value)} {error}", *keys)
        return None


def value_range(
    table: "Table",
    key: str,
    read: Callable[..., float | None],
    check: Callable[[float], str | None],
) -> Range | None:
    """Return a value or a range, or None after recording what is wrong.

    A range is three values in a list, [low, likely, high], or its two ends: in a list, or in one
    text as a label prints them, "75 to 100 ft2/quart". The middle of two ends is then the likely
    value.

    Args:
        table: the table.
        key: the key, which must be there.
        read: reads one value: (value, *keys).
        check: says what is wrong with a value, or None.
    """
    value = table.values[key]
    ends = two_ends(value) if isinstance(value, str) else None
    if ends is not None:
        before = len(table.context.problems)
        known = _between(table, key, [_plain(end) for end in ends], (), read, check)
        _quote_whole(table, key, ends, before)
        return known
    if not isinstance(value, list):
        found = _checked(table, value, read, check, key)
        return None if found is None else Range.fixed(found)
    if len(value) == 2:
        return _between(table, key, value, (0, 1), read, check)
    if len(value) != 3:
        table.refuse(
            key,
            "must be one value, or a list of two or three: [low, high] or [low, likely, high]",
        )
        return None
    low, likely, high = (
        _checked(table, item, read, check, key, place) for place, item in enumerate(value)
    )
    if low is None or likely is None or high is None:
        return None
    if not low <= likely <= high:
        table.refuse(key, "must go up in the order [low, likely, high]")
        return None
    return Range(low, likely, high)


def _between(
    table: "Table",
    key: str,
    ends: Sequence[Any],
    places: Sequence[int],
    read: Callable[..., float | None],
    check: Callable[[float], str | None],
) -> Range | None:
    """Return the range between two ends, the middle likely; places are those of a list."""
    known: list[float] = []
    for number, end in enumerate(ends):
        found = _checked(table, end, read, check, key, *places[number : number + 1])
        if found is None:
            return None  # the other end often has the same mistake
        known.append(found)
    low, high = known
    if low > high:
        table.refuse(key, "must have the lower end first")
        return None
    middle = (low + high) / 2
    is_possible = check(middle) is None  # there is no half of a coat: then the next whole number
    return Range(low, middle if is_possible else float(math.ceil(middle)), high)


def _quote_whole(table: "Table", key: str, ends: Iterable[str], before: int) -> None:
    """Let what is wrong with an end of a range in one text quote all that is written.

    Args:
        table: the table.
        key: what has the range.
        ends: as each was read by itself.
        before: how many problems there were before that.
    """
    problems, written = table.context.problems, str(table.values[key])
    for number, problem in enumerate(problems[before:], before):
        for end in ends:
            said, quoted, right = problem.message.partition(f"{shown_at((key,), _plain(end))} ")
            if quoted:
                # what to write instead is a range as well: "2 to 4 h", not "2 h"
                right = re.sub(rf'"{re.escape(end)} ([^"]+)"', rf'"{written} \1"', right)
                message = f"{said}{shown_at((key,), written)} {right}"
                problems[number] = replace(problem, message=message)
                break


def _plain(end: str) -> str | int | float:
    """Return the end of a range as a number where it has no unit."""
    if not _PLAIN_NUMBER.fullmatch(end):
        return end
    return float(end) if "." in end else int(end)


def _checked(
    table: "Table",
    value: Any,
    read: Callable[..., float | None],
    check: Callable[[float], str | None],
    *keys: str | int,
) -> float | None:
    found = read(value, *keys)
    wrong = None if found is None else check(found)
    if wrong is None:
        return found
    table.mend(f"{shown_at(keys[:1], value)} {wrong}", *keys)
    return None


def _parsed(table: "Table", value: str, dimension: Dimension, *keys: str | int) -> float | None:
    try:
        return float(parse_amount(value, dimension))
    except AmountError as error:
        said = _nearly(value, dimension, table.context.unit, keys) or str(error)
        table.mend(f"{shown_at(keys, value)} {said}", *keys)
        return None


def _nearly(
    value: str, dimension: Dimension, unit: str | None, keys: tuple[str | int, ...]
) -> str | None:
    """Return what is wrong with a text that a unit, or figures for letters, make an amount."""
    figures = _LETTERS.sub(lambda letters: letters[0].translate(_FIGURES), value)
    if figures != value and _is_amount(figures, dimension):
        return f'has a letter where a digit belongs; did you mean "{figures}"?'
    bare = (figures if re.search(r"\d", value) else value).strip()
    if dimension == "length":
        if unit is not None and _is_amount(f"{bare} {unit}", dimension):
            return f'has no unit; did you mean "{bare} {unit}"?'
    elif _is_amount(f"{bare} {_ANY_UNIT[dimension]}", dimension):
        right = amount_example(bare, dimension, unit)
        return f"has no unit; write {_with_key(keys, right)}"
    return None


def _with_key(keys: tuple[str | int, ...], right: str) -> str:
    return f"{keys[-1]} = {right}" if isinstance(keys[-1], str) else right


def _is_amount(text: str, dimension: Dimension) -> bool:
    try:
        parse_amount(text, dimension)
    except AmountError:
        return False
    return True


_ANY_UNIT: dict[Dimension, str] = {"area": "m2", "volume": "L", "weight": "kg", "time": "h"}
