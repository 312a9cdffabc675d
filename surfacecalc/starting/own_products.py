"""The user's own file of products: what of it fits a new piece, and which the user wants.

A supply of the user's own is named in the steps and not written into the piece file, so its price
and what its label says stay in one place.
"""

from collections.abc import Collection, Iterator, Mapping
from functools import cache
from pathlib import Path

from surfacecalc.catalogue.kind_lookup import find_class
from surfacecalc.catalogue.own import own_files
from surfacecalc.problems import Problem
from surfacecalc.reading.document import read_document
from surfacecalc.starting.answers import Question
from surfacecalc.starting.choices import choice_reader
from surfacecalc.starting.finishes import PRODUCTS, SHEET_FORMS
from surfacecalc.starting.wordings import WORDINGS

NEW = "new"
OWN_FILE_CHOICES = {NEW: "none of these: write a new one into the file"}
NOT_BY_ITSELF = ("two-part", "two part", "2k", "conversion", "catalysed", "spray")
"""Words of kinds that need more than the steps of a new file have: a hardener or a gun."""
MOST_OFFERED_PRODUCTS = 20


def fitting_products(folder: Path) -> dict[str, dict[str, str]]:
    """Return the user's own products that can be each supply of a new piece.

    Args:
        folder: where the piece file will be.

    Returns:
        For each supply the names that fit with their kinds, those of the very kind that a new file
        proposes first.
    """
    own = dict(_own_tables(folder, "product"))
    found: dict[str, dict[str, str]] = {}
    for supply, proposed in PRODUCTS.items():
        usual = find_class(proposed.kind)
        alike = {name: find_class(kind) for name, kind in own.items() if _works_alone(kind)}
        fits = [
            name
            for name, entry in alike.items()
            if entry is not None and usual is not None and entry.family == usual.family
        ]
        fits.sort(key=lambda name: alike[name] != usual)
        if fits:
            found[supply] = {name: own[name] for name in fits[:MOST_OFFERED_PRODUCTS]}
    return found


def fitting_sheet(folder: Path, system: str) -> str:
    """Return the name of the user's own abrasive paper of the usual size, empty for none."""
    form = SHEET_FORMS[system]
    return next((name for name, own in _own_tables(folder, "abrasive", "form") if own == form), "")


def _works_alone(kind: str) -> bool:
    return not any(word in kind.lower() for word in NOT_BY_ITSELF)


def _own_tables(folder: Path, header: str, key: str = "kind") -> Iterator[tuple[str, str]]:
    """Yield name and another text of the tables under a header; of two names the first counts."""
    seen: set[str] = set()
    for path in own_files(folder):
        for name, text in _tables_in(path, path.stat().st_mtime_ns, header, key):
            if name not in seen:
                seen.add(name)
                yield name, text


@cache
def _tables_in(path: Path, changed_ns: int, header: str, key: str) -> tuple[tuple[str, str], ...]:
    """Return the same of one file; a file with a mistake has nothing to offer here."""
    document = read_document(path)
    if isinstance(document, Problem):
        return ()
    entries = document.tables.get(header)
    listed = entries if isinstance(entries, list) else []
    tables = [entry for entry in listed if isinstance(entry, dict)]
    texts = [(table.get("name"), table.get(key)) for table in tables]
    return tuple((n, t) for n, t in texts if isinstance(n, str) and n and isinstance(t, str))


def product_key(supply: str) -> str:
    """Return the key of which product a supply is."""
    return f"product {supply}"


def product_questions(folder: Path, supplies: Collection[str]) -> Iterator[Question]:
    """Yield which of the user's own products to use, for each supply that some of them fit."""
    fitting = fitting_products(folder)
    for supply in PRODUCTS:
        if supply in supplies and supply in fitting:
            yield _question(supply, fitting[supply])


def _question(supply: str, fits: Mapping[str, str]) -> Question:
    said = WORDINGS["product"]
    choices = {**fits, **OWN_FILE_CHOICES}
    return Question(
        product_key(supply), f"the {supply}", "--product", next(iter(fits)),
        (said.before.format(supply=supply),), said.prompt.format(supply=supply), next(iter(fits)),
        choice_reader(choices), said.help, choices, is_listed=True,
    )  # fmt: skip
