"""Finding the catalogue's entry for what a piece file names."""

import itertools
import re

from surfacecalc.catalogue.entries import (
    ProductClass,
    abrasive_forms,
    family_words,
    grades,
    product_classes,
)
from surfacecalc.problems import nearest
from surfacecalc.ranges import Range

WIDEST_STEP = 1.7
"""Largest ratio of particle sizes from one grit to the next that removes the scratches of the last
in reasonable time: in the coarse half of the FEPA scale the same as skipping one grade at most
(common practice; worked out from the sizes of ISO 6344)."""


def find_class(kind: str) -> ProductClass | None:
    """Return the class that a kind names, or the first class of its family, or None.

    A kind names a class when the class's words occur in it; the longest such class counts.

    >>> find_class("water-based gel stain").name
    'gel stain'
    """
    text = _words(kind)
    named = [entry for entry in product_classes() if f" {_words(entry.name).strip()} " in text]
    family = _family(text)
    of_family = [entry for entry in named if entry.family == family]
    if of_family:
        return max(of_family, key=lambda entry: len(entry.name))
    return next((entry for entry in product_classes() if entry.family == family), None)


def nearest_kind(kind: str) -> str | None:
    """Return a class or family word that is spelled like a kind or its last word, or None."""
    names = [entry.name for entry in product_classes()]
    words = [word for group in family_words().values() for word in group]
    last = kind.rsplit(maxsplit=1)[-1] if kind.split() else kind
    return nearest(kind, names) or nearest(last, words)


def find_life(form: str, grit: int) -> Range | None:
    """Return the assumed life [m2] of an abrasive of a form at a grit, or None if unknown."""
    known = {_words(name): life for name, life in abrasive_forms().items()}
    life = known.get(_words(form))
    if life is None:
        return None
    return life[max(start for start in life if start <= grit)]


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


def _family(text: str) -> str | None:
    """Return the family whose word stands last in a text."""
    places = [
        (text.rfind(f" {word} ") + len(word), family)
        for family, words in family_words().items()
        for word in words
        if f" {word} " in text
    ]
    return max(places)[1] if places else None


def _words(text: str) -> str:
    """Return the words of a text, lower case, a space around each, without what it is based on."""
    plain = re.sub(r"[-_/,;()]+", " ", text.lower())
    spaced = f" {' '.join(plain.split())} "
    return re.sub(r" \w+ (based|borne) ", " ", spaced)
