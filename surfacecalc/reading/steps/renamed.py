"""A name that somebody changed in one place: its table has the new one, its steps the old one."""

from collections.abc import Mapping
from typing import Any

from surfacecalc.problems import is_close, nearest
from surfacecalc.reading.texts_named import texts_in

NOT_REFERENCES = ("name", "kind", "form", "surface")
"""Keys whose words may happen to be a name, and do not use what has it."""


def renamed(name: str, what: str, document: Mapping[str, Any]) -> str | None:
    """Return the one entry of a file that nothing uses, which an unknown name may have meant.

    A name that is spelled nearly like that of another entry is a typing mistake, and means that.

    Args:
        name: the name that no entry has.
        what: the name of the tables, such as "product".
        document: the whole file as it is written.

    >>> renamed("paint", "product", {"product": [{"name": "slate blue"}]})
    'slate blue'
    """
    entries = document.get(what)
    tables = entries if isinstance(entries, list) else []
    found = [table.get("name") for table in tables if isinstance(table, dict)]
    names = [own for own in found if isinstance(own, str)]
    near = nearest(name, names)
    if near is not None and is_close(name.lower(), near.lower()):
        return None
    used = set(texts_in(document, NOT_REFERENCES))
    unused = [own for own in names if own not in used]
    return unused[0] if len(unused) == 1 else None
