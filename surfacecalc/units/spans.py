"""Two ends of a range in one text, as labels print them: "75 to 100 ft2/quart", "2-4 h".

Only takes the text apart; each end is then read like any other amount.
"""

import re

_NUMBER = r"\d+(?:\.\d+)?"
_DASHED = re.compile(
    rf"\s*(?P<low>{_NUMBER})\s*[-\u2013\u2014]\s*(?P<high>{_NUMBER}(?![\d.]|\s*/\s*\d).*)$"
)
"""A dash between plain numbers; before a fraction it is that of 44-1/2."""
_IN_WORDS = re.compile(r"\s*(?P<low>\S.*?)\s+to\s+(?P<high>\S.*)$", re.IGNORECASE)
_LEADING = re.compile(r"[-\d\s./\u00bc-\u00be\u2044\u2150-\u215e]*")
"""A number at the start of a text, with its fraction."""


def two_ends(text: str) -> tuple[str, str] | None:
    """Return the low and the high end that a text names, each with its unit, else None.

    A unit that only one end has counts for both.

    >>> two_ends("75 to 100 ft2/quart")
    ('75 ft2/quart', '100 ft2/quart')
    >>> two_ends("20 min to 1 h"), two_ends("44-1/2 in")
    (('20 min', '1 h'), None)
    """
    found = _DASHED.match(text) or _IN_WORDS.match(text)
    if found is None:
        return None
    low, high = found["low"].strip(), found["high"].strip()
    of_low, of_high = _unit(low), _unit(high)
    return _with(low, of_low, of_high), _with(high, of_high, of_low)


def _unit(end: str) -> str:
    """Return what follows the number of an end."""
    return _LEADING.sub("", end, count=1)


def _with(end: str, own: str, other: str) -> str:
    return end if own or not other else f"{end} {other}"
