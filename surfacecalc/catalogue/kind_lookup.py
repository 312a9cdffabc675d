"""Finding the class that the kind of a product names.

A kind is matched on whole words. Its last word of a family decides the family ("oil paint" is a
paint); of the classes of that family whose words all stand in the kind, side by side, the longest
counts; and the family's first class where there is none. What a product is based on ("water-based",
"alkyd") is told apart first, wherever it stands: it chooses between classes that differ in it.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cache

from surfacecalc.catalogue.entries import (
    ProductClass,
    base_words,
    family_words,
    product_classes,
)
from surfacecalc.model.shelf import Nature
from surfacecalc.problems import is_slip, nearest

LONGEST_KIND = 60
"""Letters in a kind that is repeated to the user with a slip mended."""
_BASED = re.compile(r" \w+ (based|borne) ")


@dataclass(frozen=True)
class _Words:
    """A kind, or a name of a class, taken apart.

    Attributes:
        text: its words, a space around each, without those that only say what it is based on.
        family: the family whose word stands last, None where there is none.
        base: what it is based on, None where it does not say.
    """

    text: str
    family: str | None
    base: str | None


def find_class(kind: str, own: tuple[ProductClass, ...] = ()) -> ProductClass | None:
    """Return the class that a kind names, or the first class of its family, or None.

    Args:
        kind: what a product is.
        own: classes of the user's own; one with the name of a built-in class takes its place.

    >>> find_class("polyurethane, water-based").name
    'waterborne varnish'
    """
    words = _taken_apart(kind)
    classes = known_classes(own)
    entry = _named(words, classes, own) or _general(words.family, words.base, classes)
    return None if entry is None else _as_based(entry, words, classes)


def known_classes(own: tuple[ProductClass, ...] = ()) -> tuple[ProductClass, ...]:
    """Return the built-in classes, those of the user's own in their place or after them."""
    by_name = {entry.name: entry for entry in (*product_classes(), *own)}
    return tuple(by_name.values())


def nearest_kind(kind: str, own: tuple[ProductClass, ...] = ()) -> str | None:
    """Return what a kind that names no class may have meant, or None.

    A slip in its last word is mended; else it is a name or a word of a family that is spelled like
    it.

    >>> nearest_kind("wood gleu")
    'wood glue'
    """
    names = [name for entry in known_classes(own) for name in (entry.name, *entry.spellings)]
    words = [word for group in family_words().values() for word in group]
    *before, last = kind.split() or [""]
    meant = next((word for word in words if is_slip(last.lower(), word)), None)
    if meant is not None and len(kind) <= LONGEST_KIND:
        return " ".join([*before, meant])
    return nearest(kind, names) or nearest(last, words)


def family_of(kind: str) -> str | None:
    """Return the family that a kind belongs to by its words, or None."""
    return _taken_apart(kind).family


def _named(
    words: _Words, classes: Iterable[ProductClass], own: tuple[ProductClass, ...]
) -> ProductClass | None:
    """Return the class with the longest name in a kind; rather one that says its base."""
    found = [
        (len(name.text), name.base is not None, entry)
        for entry in classes
        if entry.family == words.family or entry in own
        for name in _names(entry)
        if name.text.strip() and name.text in words.text and name.base in (None, words.base)
    ]
    return max(found, key=lambda match: match[:2])[2] if found else None


def _general(
    family: str | None, base: str | None, classes: tuple[ProductClass, ...]
) -> ProductClass | None:
    """Return the first class of a family, or the one that differs from it only in its base."""
    first = next((entry for entry in classes if entry.family == family), None)
    if first is None or base is None:
        return first
    text = _taken_apart(first.name).text
    alike = (e for e in classes if (e.family, _taken_apart(e.name).text) == (family, text))
    return next((entry for entry in alike if _taken_apart(entry.name).base == base), first)


def _as_based(
    entry: ProductClass, words: _Words, classes: tuple[ProductClass, ...]
) -> ProductClass:
    """Return a class as what its kind is based on makes it, where the class itself does not say."""
    says = any(name.base == words.base for name in _names(entry))
    if words.base is None or says or not _follows_base(entry, words.base):
        return entry
    base = base_words()[words.base]
    general = _general(entry.family, words.base, classes)
    alike = general is not None and general.nature.chemistry == base.chemistry
    return replace(
        entry,
        nature=Nature(base.chemistry, base.cleanup, entry.nature.forms_film),
        drying=general.drying if general is not None and alike else entry.drying,
    )


def _follows_base(entry: ProductClass, base: str) -> bool:
    """Whether what a kind is based on changes how a class hardens.

    "Oil-based" often means only that it is not waterborne; lacquer stays what it is.
    """
    changing = ("waterborne",) if base == "oil" else ("waterborne", "drying oil")
    if base == "waterborne":
        changing = ("drying oil", "evaporating solvent")
    return entry.coverage is not None and entry.nature.chemistry in changing


def _names(entry: ProductClass) -> Iterator[_Words]:
    for name in (entry.name, *entry.spellings):
        yield _taken_apart(name)


@cache
def _taken_apart(kind: str) -> _Words:
    plain = re.sub(r"[-_/,;()]+", " ", kind.lower())
    whole = f" {' '.join(plain.split())} "
    text = whole
    for words in base_words().values():
        for word in words.said:
            text = text.replace(f" {word} ", " ")
    text = _BASED.sub(" ", text)
    family = _family(text)
    return _Words(text, family, _base(whole, family))


def _base(text: str, family: str | None) -> str | None:
    own = family_words().get(family or "", ())
    for base, words in base_words().items():
        meant = [word for word in words.meant if word not in own]
        if any(f" {word} " in text for word in (*words.said, *meant)):
            return base
    return None


def _family(text: str) -> str | None:
    """Return the family whose word stands last in a text; of two words there, the longer one."""
    places = [
        (text.rfind(f" {word} ") + len(word), len(word), family)
        for family, words in family_words().items()
        for word in words
        if f" {word} " in text
    ]
    return max(places)[2] if places else None
