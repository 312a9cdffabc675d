"""What a piece is made for, where that asks more of its finish: `for` in [piece]."""

from typing import get_args

from surfacecalc.model.pieces import MadeFor
from surfacecalc.problems import suggestion
from surfacecalc.reading.tables import Table, shown, shown_text

WORDS: tuple[MadeFor, ...] = get_args(MadeFor)


def read_made_for(head: Table) -> tuple[MadeFor, ...]:
    """Return what a piece is made for, one word or a list of them; nothing where it is not said."""
    value = head.values.get("for", [])
    words = value if isinstance(value, list) else [value]
    if "for" in head and not words:
        head.refuse("for", 'is empty; write for = "nursery" or take the line out')
    for word in words:
        if word not in WORDS:
            known = suggestion(shown_text(word) if isinstance(word, str) else "", WORDS)
            head.mend(f"for = {shown(word)} is not known; {known}", "for")
    return tuple(word for word in WORDS if word in words)
