"""What the reader of a shape gives back, and measures that several shapes read alike."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from shapes.solids import Solid
from surfacecalc.reading.tables import Table

SIZES = ("width", "depth", "height")


@dataclass(frozen=True)
class SolidPlan:
    """How a solid is built, once the table is known to have no mistake.

    Attributes:
        keys: what the shape reads.
        build: builds the solid; raises ShapeError where the measures do not go together.
    """

    keys: tuple[str, ...]
    build: Callable[[], Solid]


def nothing(table: Table) -> SolidPlan:
    """Return the plan of a table whose form is not known; that is recorded already."""

    def build() -> Solid:
        raise AssertionError("a table with a mistake is never built")

    return SolidPlan(tuple(table.values), build)


def sizes(table: Table) -> tuple[float, float, float]:
    """Return width, depth and height [mm]."""
    width, depth, height = (table.size_mm(key) for key in SIZES)
    return width, depth, height


def optional_size(table: Table, key: str) -> float | None:
    """Return a size [mm], None where it is left out."""
    return table.size_mm(key) if key in table else None


def length_or(table: Table, key: str, default: float) -> float:
    """Return a length that may be left out [mm]."""
    found = table.length_mm(table.values[key], key) if key in table else default
    return default if found is None else found


def rows_of_lengths(
    table: Table, key: str, counts: Sequence[int], what: str, example: str
) -> list[list[float]]:
    """Return a list of lists of lengths [mm] that must be there.

    Args:
        table: the table.
        key: the key.
        counts: how many lengths a row may have.
        what: what a row is, such as "points [height, diameter]".
        example: what it looks like, in mm.
    """
    example = table.context.example(example)
    if not table.has(key, example):
        return []
    value = table.values[key]
    if not _is_rows(value, counts):
        table.refuse(key, f"must be {what}, such as {key} = {example}")
        return []
    return [
        [table.length_mm(item, key, number, k) or 0.0 for k, item in enumerate(row)]
        for number, row in enumerate(value)
    ]


def _is_rows(value: Any, counts: Sequence[int]) -> bool:
    return (
        isinstance(value, list)
        and bool(value)
        and all(isinstance(row, list) and len(row) in counts for row in value)
    )


def words(table: Table, key: str, known: Sequence[str], default: Sequence[str]) -> list[str]:
    """Return a list of known words that may be left out."""
    from surfacecalc.problems import suggestion

    if key not in table:
        return list(default)
    value = table.values[key]
    if not isinstance(value, list) or not all(isinstance(word, str) for word in value):
        table.refuse(key, f'must be a list of words, such as {key} = ["{known[0]}"]')
        return list(default)
    for number, word in enumerate(value):
        if word not in known:
            table.refuse(key, f"is not known; {suggestion(word, known)}", number)
    return value


def flag(table: Table, key: str) -> bool:
    """Return true or false; false where it is left out."""
    value = table.values.get(key, False)
    if not isinstance(value, bool):
        table.refuse(key, "must be true or false")
    return value is True


def counts_of_two(table: Table, key: str, default: tuple[int, int]) -> tuple[int, int]:
    """Return two whole numbers above zero, across and up, that may be left out."""
    if key not in table:
        return default
    value = table.values[key]
    if (
        isinstance(value, list)
        and len(value) == 2
        and all(isinstance(n, int) and not isinstance(n, bool) and 1 <= n <= 50 for n in value)
    ):
        return value[0], value[1]
    table.refuse(key, f"must be two whole numbers, across and up, such as {key} = [2, 3]")
    return default
