"""Questions that are answered with one word of a list."""

from collections.abc import Callable, Mapping

from surfacecalc.problems import nearest
from surfacecalc.starting.answers import Answer, AnswerError


def choice(text: str, words: Mapping[str, str]) -> str:
    """Return the word that was meant: itself, its number, its meaning or its beginning.

    Raises:
        AnswerError: none was meant, or several.
    """
    plain = " ".join(text.lower().split())
    keys = list(words)
    if plain.isascii() and plain.isdigit() and 1 <= int(plain[:3]) <= len(keys):
        return keys[int(plain[:3]) - 1]
    exact = [key for key in keys if plain in (key, words[key].lower())]
    begun = [key for key in keys if plain and key.startswith(plain)]
    if len(exact or begun) == 1:
        return (exact or begun)[0]
    near = nearest(plain, keys)
    hint = f'did you mean "{near}"?' if near else f"use one of {', '.join(keys)}"
    raise AnswerError(f'"{text}" is not on the list; {hint}')


def choice_reader(words: Mapping[str, str]) -> Callable[[str], Answer]:
    """Return what reads an answer that is one word of a list."""

    def read(text: str) -> Answer:
        key = choice(text, words)
        return Answer(key, key)

    return read
