"""The user's own files of products become what a piece file may name without defining it.

The file beside the piece file counts before the one in the user's configuration folder, and what
the piece file defines counts before both. A mistake in what a piece needs stops it; any other
mistake in such a file is a note.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any, TypeVar

from surfacecalc.catalogue.entries import ProductClass
from surfacecalc.catalogue.own import NOTHING_OWN, OwnCatalogue, own_files
from surfacecalc.model.shelf import Abrasive, Consumable, Product
from surfacecalc.problems import Problem, listing, nearest
from surfacecalc.reading.abrasive_tables import read_abrasive
from surfacecalc.reading.document import read_document
from surfacecalc.reading.hardware_tables import read_consumable
from surfacecalc.reading.own_classes import read_class
from surfacecalc.reading.product_tables import check_thinner, read_product
from surfacecalc.reading.tables import Context, Table, shown_key
from surfacecalc.reading.texts_named import texts_in

HEADERS = {
    "product": "[[product]]", "abrasive": "[[abrasive]]", "consumable": "[[consumable]]",
    "class": "[[class]]",
}  # fmt: skip
DEFINING = ("product", "mix", "abrasive", "consumable")
"""Tables of a piece file whose names are its own."""
NAMELESS = ("piece", "part", "workshop", "price")
"""Tables of a piece file that name no product."""
NO_NAMES = (
    "after", "against", "by", "change", "do", "faces", "family", "form", "kind", "leave", "name",
    "surface", "what",
)  # fmt: skip
"""Keys whose texts name nothing of the shelf."""

Found = TypeVar("Found", Product, Abrasive, Consumable)


@dataclass
class _File:
    """One file of products.

    Attributes:
        root: its tables.
        tables: those of each kind, by the name in each.
    """

    root: Table
    tables: dict[str, list[tuple[str, Table]]] = field(default_factory=dict)


def read_own_catalogue(
    tables: dict[str, Any], folder: Path, currency: str | None = None
) -> tuple[OwnCatalogue, list[Problem]]:
    """Return what the user's own files have for a piece, and what is wrong with them.

    Args:
        tables: the piece file.
        folder: where it lies.
        currency: the code that [piece] gives, in which the prices of these files are as well.
    """
    files: list[_File] = []
    problems: list[Problem] = []
    for path in own_files(folder):
        found = _opened(path, currency)
        if isinstance(found, Problem):
            problems.append(found)
        elif found is not None:
            files.append(found)
    own = _catalogue(tables, files) if files else NOTHING_OWN
    return own, [*problems, *(p for file in files for p in file.root.context.problems)]


def _opened(path: Path, currency: str | None) -> _File | Problem | None:
    """Return a file with its tables, the problem that stops the reading, or None for no text."""
    if path.is_file() and path.stat().st_size == 0:
        return None
    document = read_document(path)
    if isinstance(document, Problem):
        return replace(document, file=str(path))
    context = Context(document.lines, folder=path.parent, file=str(path), currency=currency)
    file = _File(Table(document.tables, (), "", context))
    for key in document.tables:
        if key not in HEADERS:
            near = nearest(key, HEADERS)
            hint = f"did you mean {HEADERS[near]}?" if near else f"use {listing(HEADERS.values())}"
            file.root.mend(f"{shown_key(key)} does not belong in a file of products; {hint}", key)
    for kind, header in HEADERS.items():
        file.tables[kind] = [
            (_text(table.values.get("name")), table) for table in file.root.tables(kind, header)
        ]
    return file


def _catalogue(tables: dict[str, Any], files: list[_File]) -> OwnCatalogue:
    classes = _classes(files)
    defined = {kind: _defined(tables, kind) for kind in DEFINING}
    taken = {
        "product": _taken(tables, files, "product", defined["product"] | defined["mix"]),
        "abrasive": _taken(tables, files, "abrasive", defined["abrasive"]),
        "consumable": _taken(tables, files, "consumable", defined["consumable"]),
    }
    products, product_lines = _read(
        files, "product", taken, lambda table, lines: read_product(table, lines, classes)
    )
    _check_thinners(files, taken["product"], products, product_lines, defined["product"])
    abrasives, abrasive_lines = _read(files, "abrasive", taken, read_abrasive)
    kept: dict[str, Consumable] = {}
    consumables, consumable_lines = _read(files, "consumable", taken, read_consumable, kept)
    for number, file in enumerate(files):
        _note_taken(file, number, taken)
    return OwnCatalogue(
        classes,
        products=products,
        product_lines=product_lines,
        abrasives=abrasives,
        abrasive_lines=abrasive_lines,
        consumables=consumables,
        consumable_lines=consumable_lines,
        kept={name: one for name, one in kept.items() if name not in defined["consumable"]},
    )


def _classes(files: list[_File]) -> tuple[ProductClass, ...]:
    """Return the classes of all files; of two with one name the one that counts before."""
    found: dict[str, ProductClass] = {}
    for file in files:
        lines: dict[str, int] = {}
        for _, table in file.tables["class"]:
            entry = read_class(table, lines)
            if entry is not None:
                found.setdefault(entry.name, entry)
    return tuple(found.values())


def _defined(tables: dict[str, Any], kind: str) -> set[str]:
    """Return the names that a piece file gives to its own."""
    entries = tables.get(kind)
    items = entries if isinstance(entries, list) else [entries]
    return {_text(item.get("name")) for item in items if isinstance(item, dict)}


def _taken(
    tables: dict[str, Any], files: list[_File], kind: str, defined: set[str]
) -> dict[str, int]:
    """Return the names that a piece needs from its user's files, and the number of the file."""
    homes: dict[str, tuple[int, Table]] = {}
    for number, file in enumerate(files):
        for name, table in file.tables[kind]:
            if name and name not in defined:
                homes.setdefault(name, (number, table))
    named = {key: value for key, value in tables.items() if key not in NAMELESS}
    taken: dict[str, int] = {}
    open_names = sorted(set(texts_in(named, NO_NAMES)) & homes.keys())
    while open_names:
        name = open_names.pop()
        number, table = homes[name]
        taken[name] = number
        open_names += sorted((set(texts_in(table.values, NO_NAMES)) & homes.keys()) - taken.keys())
    return taken


def _read(
    files: list[_File],
    kind: str,
    taken: dict[str, dict[str, int]],
    read: Callable[[Table, dict[str, int]], Found | None],
    kept: dict[str, Found] | None = None,
) -> tuple[dict[str, Found], dict[str, int]]:
    """Return what is taken of a kind, by name, and the line of each name, also with a mistake.

    Args:
        files: the files.
        kind: which of their tables.
        taken: what the piece file names, by kind.
        read: reads one table.
        kept: where what is sound and not named is put, None where it is not asked for.
    """
    found: dict[str, Found] = {}
    found_lines: dict[str, int] = {}
    for number, file in enumerate(files):
        lines: dict[str, int] = {}
        for name, table in file.tables[kind]:
            problems = file.root.context.problems
            before = len(problems)
            entry = read(table, lines)
            if entry is None and len(problems) == before:
                table.mend('has a length without a unit; write it with one, such as "30 um"')
            if taken[kind].get(name) != number:
                problems[before:] = [
                    replace(problem, level="note") for problem in problems[before:]
                ]
                if kept is not None and entry is not None:
                    kept.setdefault(name, entry)
                continue
            found_lines.setdefault(name, table.line)
            if entry is not None:
                found.setdefault(name, entry)
    return found, found_lines


def _check_thinners(
    files: list[_File],
    taken: dict[str, int],
    products: dict[str, Product],
    lines: dict[str, int],
    defined: set[str],
) -> None:
    known = {**dict.fromkeys(defined, 0), **lines}
    for number, file in enumerate(files):
        for name, table in file.tables["product"]:
            if taken.get(name) == number:
                check_thinner(table, products, known)


def _note_taken(file: _File, number: int, taken: dict[str, dict[str, int]]) -> None:
    names = [
        f'"{name}"' for kind in taken.values() for name, home in kind.items() if home == number
    ]
    if names:
        note = Problem(
            "note",
            None,
            "",
            f"your own record is used for {listing(names)}",
            file.root.context.file,
        )
        file.root.context.problems.append(note)


def _text(value: Any) -> str:
    return value if isinstance(value, str) else ""
