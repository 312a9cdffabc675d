"""Finding what the catalogue says of an abrasive."""

import difflib
import itertools
import re

from surfacecalc.catalogue.entries import abrasive_forms, grades
from surfacecalc.model.ranges import Range

WIDEST_STEP = 1.7
"""Largest ratio of particle sizes from one grit to the next that removes the scratches of the last
in reasonable time: in the coarse half of the FEPA scale the same as skipping one grade at most
(common practice; worked out from the sizes of ISO 6344)."""

NEARLY_ALIKE = 0.85
"""Share of letters in common from which a form is taken for a slip: one letter of a word or two."""


def find_life(form: str, grit: int) -> Range | None:
    """Return the assumed life [m2] of an abrasive of a form at a grit, or None if unknown."""
    known = {_words(name): life for name, life in abrasive_forms().items()}
    life = known.get(_words(form))
    if life is None:
        return None
    return life[max(start for start in life if start <= grit)]


def nearest_form(form: str) -> str | None:
    """Return the known form that an unknown one is nearly spelled like, or None.

    Other figures are another size, not a slip: a 115 mm disc is no 125 mm disc.

    >>> nearest_form("125 mm dsic")
    '125 mm disc'
    """
    known = {_words(name).strip(): name for name in abrasive_forms()}
    text = _words(form).strip()
    if text in known:
        return None
    figures = re.findall(r"\d+", text)
    alike = [name for name in known if re.findall(r"\d+", name) == figures]
    near = difflib.get_close_matches(text, alike, n=1, cutoff=NEARLY_ALIKE)
    return known[near[0]] if near else None


def steps_too_wide(grits: tuple[int, ...]) -> list[tuple[int, int, float]]:
    """Return the steps from one grit to the next that skip too much: (from, to, size ratio).

    Source: particle sizes of ISO 6344, see catalogue/abrasives.toml.
    """
    found = []
    for coarse, fine in itertools.pairwise(grits):
        sizes = grades()[coarse], grades()[fine]
        if sizes[0] and sizes[1] and sizes[0] / sizes[1] > WIDEST_STEP:
            found.append((coarse, fine, sizes[0] / sizes[1]))
    return found


def _words(text: str) -> str:
    """Return the words of a text, lower case, a space around each."""
    plain = re.sub(r"[-_/,;()]+", " ", text.lower())
    return f" {' '.join(plain.split())} "
