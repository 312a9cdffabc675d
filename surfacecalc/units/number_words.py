"""Numbers as they are written and said: fractions, and which one of several."""

from fractions import Fraction

_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth")

CARDINALS = (
    "none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve",
)  # fmt: skip
"""Numbers in words from 0 on, as things are counted."""
_BY_WORD = {word: number for number, word in enumerate(CARDINALS) if number}


def spelled_out(text: str) -> int | None:
    """Return a number from one to twelve that is written in words, None for anything else.

    >>> spelled_out("Two"), spelled_out("thirteen"), spelled_out("none")
    (2, None, None)
    """
    return _BY_WORD.get(text.lower())


def mixed_number(value: Fraction) -> str:
    """Return a number with its fraction.

    >>> mixed_number(Fraction(11, 4)), mixed_number(Fraction(1, 2)), mixed_number(Fraction(-5, 4))
    ('2 3/4', '1/2', '-1 1/4')
    """
    whole, rest = divmod(abs(value), 1)
    text = " ".join(str(part) for part in (whole, rest) if part) or "0"
    return f"-{text}" if value < 0 else text


def ordinal(number: int) -> str:
    """Return which one it is, counted from 0.

    >>> ordinal(1), ordinal(10), ordinal(20)
    ('second', '11th', '21st')
    """
    return _ORDINALS[number] if number < len(_ORDINALS) else short_ordinal(number + 1)


def short_ordinal(number: int) -> str:
    """Return a number with the ending of its place.

    >>> short_ordinal(61), short_ordinal(112)
    ('61st', '112th')
    """
    is_teen = number % 100 in (11, 12, 13)
    return f"{number}{'th' if is_teen else {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th')}"
