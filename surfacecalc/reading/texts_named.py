"""The texts of a document that may name an entry: which of its words refer to something."""

from collections.abc import Container, Iterator
from typing import Any


def texts_in(value: Any, without: Container[str]) -> Iterator[str]:
    """Yield every text in a value, in its lists and in its tables.

    Args:
        value: a value of the document, or the document.
        without: keys whose texts name nothing.

    >>> list(texts_in({"product": "paint", "kind": "oil paint", "uses": ["rag"]}, ("kind",)))
    ['paint', 'rag']
    """
    if isinstance(value, str):
        yield value
    elif isinstance(value, list):
        for item in value:
            yield from texts_in(item, without)
    elif isinstance(value, dict):
        for key, item in value.items():
            if key not in without:
                yield from texts_in(item, without)
