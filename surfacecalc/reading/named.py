"""Lists of tables whose entries go by name: `[[abrasive]]`, `[[tape]]`, `[[hardware]]` ..."""

from collections.abc import Callable
from typing import Protocol, TypeVar

from surfacecalc.reading.tables import Table


class HasName(Protocol):
    """What goes by a name."""

    @property
    def name(self) -> str:
        """Its name."""
        ...


Named = TypeVar("Named", bound=HasName)


def read_named(
    document: Table, key: str, read: Callable[[Table, dict[str, int]], Named | None]
) -> tuple[dict[str, Named], dict[str, int]]:
    """Return what a list of tables holds by name, and the line of every name.

    Args:
        document: the whole file.
        key: the name of the tables.
        read: reads one of them, and adds its name to the lines also where it has a mistake.
    """
    found: dict[str, Named] = {}
    lines: dict[str, int] = {}
    for table in document.tables(key, f"[[{key}]]"):
        item = read(table, lines)
        if item is not None:
            found.setdefault(item.name, item)
    return found, lines
