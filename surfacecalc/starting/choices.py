"""Questions that are answered with one word of a list."""

import re
from collections.abc import Callable, Iterator, Mapping, Sequence

from surfacecalc.problems import is_close, nearest
from surfacecalc.starting.answers import Answer, AnswerError

SHORTEST_BEGINNING = 3
"""Letters of another word for a choice that are enough; of a choice itself one may be."""
_JOINED = {"&": " and ", "+": " and ", "/": " and "}
_HYPHEN = re.compile(r"(?<=[a-z])-(?=[a-z])")


def choice(
    text: str,
    words: Mapping[str, str],
    also: Mapping[str, Sequence[str]] | None = None,
    *,
    is_last_word_enough: bool = False,
) -> str:
    """Return the word that was meant: itself, its number, its meaning or its beginning.

    Args:
        text: what was typed.
        words: the words to choose from, each with its meaning.
        also: what else people call each of them.
        is_last_word_enough: whether words before those may be dropped, as in "old oak table".

    Raises:
        AnswerError: none was meant, or several.
    """
    keys = list(words)
    plain = _plain(text)
    if plain.isascii() and plain.isdigit() and 1 <= int(plain[:3]) <= len(keys):
        return keys[int(plain[:3]) - 1]
    others = {_plain(name): key for key, names in (also or {}).items() for name in names}
    known = {**others, **{_plain(text): key for key in keys for text in (key, words[key])}}
    tails = _tails(plain) if is_last_word_enough else [plain]
    whole = [known[tail] for tail in tails if tail in known]
    begun = _begun(plain, keys, others)
    if whole or len(begun) == 1:
        return (whole or begun)[0]
    near = nearest(plain, [*keys, *others])
    is_near = near is not None and is_close(plain, near)
    every = f"use one of {', '.join(keys)}"
    hint = f'did you mean "{near}"? Otherwise {every}' if is_near else every
    raise AnswerError(f'"{text}" is not on the list; {hint}')


def choice_reader(
    words: Mapping[str, str],
    also: Mapping[str, Sequence[str]] | None = None,
    *,
    is_last_word_enough: bool = False,
) -> Callable[[str], Answer]:
    """Return what reads an answer that is one word of a list; see `choice`.

    An answer in another word for it is said back with its meaning.
    """

    def read(text: str) -> Answer:
        key = choice(text, words, also, is_last_word_enough=is_last_word_enough)
        plain = _plain(text)
        is_other = not plain.isdigit() and not key.startswith(plain) and plain != _plain(words[key])
        return Answer(key, key, taken_as=f"{key}: {words[key]}" if is_other else "")

    return read


def _plain(text: str) -> str:
    """Return words as they are compared: small letters, single spaces, signs spelled out."""
    for sign, word in _JOINED.items():
        text = text.replace(sign, word)
    return " ".join(_HYPHEN.sub(" ", text.lower()).split())


def _tails(text: str) -> Iterator[str]:
    """Yield a text, then what is left of it without its first word, without two, ..."""
    words = text.split()
    return (" ".join(words[start:]) for start in range(max(len(words), 1)))


def _begun(plain: str, keys: Sequence[str], others: Mapping[str, str]) -> list[str]:
    """Return the keys that a text begins; else those that it begins another word for."""
    own = [key for key in keys if plain and key.startswith(plain)]
    if own or len(plain) < SHORTEST_BEGINNING:
        return own
    return list(dict.fromkeys(key for name, key in others.items() if name.startswith(plain)))
