"""Rules of `shapes` that a piece file breaks, told in the words and the unit of the file."""

from collections.abc import Callable
from typing import TypeVar

from shapes.errors import ShapeError
from surfacecalc.reading.tables import Table

T = TypeVar("T")


def obeying(table: Table, build: Callable[[], T]) -> T | None:
    """Return what is built of a table, or None where it has a mistake or breaks a rule.

    A broken rule is recorded at the key that `shapes` names, or at the table.
    """
    if not table.is_sound:
        return None
    try:
        return build()
    except ShapeError as error:
        _record(table, error)
        return None


def _record(table: Table, error: ShapeError) -> None:
    limit = "" if error.limit_mm is None else f" ({table.context.length_text(error.limit_mm)})"
    key = error.argument.split()[0]
    if error.argument in table:
        table.refuse(key, f"must be {error.rule}{limit}")
    elif key in table:
        table.mend(f"{error.argument} must be {error.rule}{limit}", key)
    else:
        table.mend(f"{error.argument} must be {error.rule}{limit}")
