"""Numbers from the words of a text file, many at a time."""

import numpy as np

from shapes.meshes.imported import MeshError
from shapes.solids import Floats, Ints


def whole_numbers(words: list[bytes]) -> Ints:
    """Return the whole numbers that words are.

    Raises:
        MeshError: a word is none.
    """
    try:
        return np.array(words or [b"0"]).astype(np.int64)[: len(words)]
    except (ValueError, OverflowError):
        raise MeshError(
            "mesh", f"{_first_wrong(words, int)} is not a whole number, which a face needs"
        ) from None


def real_numbers(words: list[bytes]) -> Floats:
    """Return the numbers that words are.

    Raises:
        MeshError: a word is none.
    """
    try:
        return np.array(words or [b"0"]).astype(np.float64)[: len(words)]
    except ValueError:
        raise MeshError(
            "mesh", f"{_first_wrong(words, float)} is not a number, which a corner needs"
        ) from None


def _first_wrong(words: list[bytes], number: type[int] | type[float]) -> str:
    for word in words:
        try:
            np.array([word]).astype(np.int64 if number is int else np.float64)
        except (ValueError, OverflowError):
            return f'"{word[:40].decode("utf-8", "replace")}"'
    return "a word"
