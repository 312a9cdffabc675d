"""What kind of piece it is: `kind` in [piece], else a word of its name."""

import re

from surfacecalc.model.kind_names import KIND_NAMES
from surfacecalc.problems import suggestion
from surfacecalc.reading.tables import Table, shown_text

CHEST_OF_DRAWERS = re.compile(r"\bchests? of drawers\b")
"""A dresser, although its last word that is a kind says chest."""
_BESIDES = re.compile(r"\b(with|without|for|from|under|beside|beneath|above|and)\b")
"""What follows one of these is something besides the piece: "dresser with mirror"."""
_KIND_OF_WORD = {f"{kind}{ending}": kind for kind in KIND_NAMES for ending in ("", "s", "es")}


def read_kind(head: Table) -> str | None:
    """Return the kind that is written, else the one that the name tells, None for neither."""
    if "kind" not in head:
        return kind_in(shown_text(head.values.get("name")))
    value = head.values["kind"]
    if value in KIND_NAMES:
        return str(value)
    head.refuse("kind", f"is not known; {suggestion(shown_text(value), KIND_NAMES)}")
    return None


def kind_in(name: str) -> str | None:
    """Return the kind that the last word for one in a name tells, singular or plural.

    >>> kind_in("Grandmother's bedside tables"), kind_in("Dresser with mirror"), kind_in("Tabletop")
    ('table', 'dresser', None)
    """
    words = CHEST_OF_DRAWERS.sub("dresser", name.lower())
    own, *_ = _BESIDES.split(words, maxsplit=1)
    kinds = [_KIND_OF_WORD.get(word) for word in re.findall(r"\w+", own)]
    return next((kind for kind in reversed(kinds) if kind), None)
