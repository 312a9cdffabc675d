"""`[[class]]` tables in a user's own file of products: generic classes of their own.

What such a class leaves out comes from the built-in class of that name, or of its family.
"""

from dataclasses import replace
from typing import get_args

from surfacecalc.catalogue.entries import ProductClass, family_words, product_classes
from surfacecalc.catalogue.kind_lookup import family_of
from surfacecalc.model.shelf import Chemistry, Cleanup, Nature
from surfacecalc.problems import suggestion
from surfacecalc.reading.coverage_keys import read_covers
from surfacecalc.reading.drying_times import KEYS as DRYING_KEYS
from surfacecalc.reading.drying_times import read_drying
from surfacecalc.reading.part_tables import read_name
from surfacecalc.reading.tables import Table, shown_text

KEYS = ("name", "family", "covers", "chemistry", "cleanup", "film", *DRYING_KEYS)
CHEMISTRIES: tuple[Chemistry, ...] = get_args(Chemistry)
CLEANUPS: tuple[Cleanup, ...] = get_args(Cleanup)


def read_class(table: Table, lines: dict[str, int]) -> ProductClass | None:
    """Return the class that a table describes, None where it has a mistake.

    Args:
        table: its table.
        lines: the line of each name that is taken; its own is added.
    """
    name = read_name(table, "class", lines)
    table.only(KEYS)
    usual = _usual(table, name)
    if usual is None:
        return None
    found = replace(
        usual,
        name=name,
        nature=_nature(table, usual.nature),
        drying=read_drying(table, name, usual.drying),
        spellings=usual.spellings if usual.name == name else (),
    )
    if "covers" in table:
        coverage, basis = read_covers(table)
        found = replace(
            found, coverage=coverage, basis=basis or usual.basis, source=table.context.label,
            reference="", is_practical=False, is_band_assumed=False,
        )  # fmt: skip
    return found if table.is_sound else None


def _usual(table: Table, name: str) -> ProductClass | None:
    """Return the built-in class that fills in what a class leaves out."""
    same = next((entry for entry in product_classes() if entry.name == name), None)
    family = table.values.get("family", same.family if same else family_of(name))
    if family is None:
        table.has("family", '"paint"')
        return None
    if family not in family_words():
        table.refuse(
            "family",
            f"is not a family of products; {suggestion(shown_text(family), family_words())}",
        )
        return None
    if same is not None and same.family == family:
        return same
    return next(entry for entry in product_classes() if entry.family == family)


def _nature(table: Table, usual: Nature) -> Nature:
    chemistry, cleanup, film = usual.chemistry, usual.cleanup, usual.forms_film
    if "chemistry" in table:
        word = table.choice("chemistry", CHEMISTRIES)
        chemistry = next(known for known in CHEMISTRIES if known == word)
    if "cleanup" in table:
        word = table.choice("cleanup", CLEANUPS)
        cleanup = next(known for known in CLEANUPS if known == word)
    if "film" in table:
        film = table.values["film"]
        if not isinstance(film, bool):
            table.refuse("film", "must be true or false")
    return Nature(chemistry, cleanup, film is True)
