"""The page of the guide that explains a word: by its headings, its keys, and what these mean."""

import re
from collections import Counter
from collections.abc import Iterable

from surfacecalc.guide import Topic, page

ABOUT, HEADING, TERM, MEANING = 5, 4, 2, 1
"""How much a word counts: in the line about a page, in its headings, and in its tables."""
SHORTEST = 3
TOO_COMMON = ("and", "the", "for", "with", "from", "that", "this", "what", "which", "how", "you")
_WORD = re.compile(r"[^\W_]+(?:_[^\W_]+)*")


def topic_with(word: str, known: Iterable[Topic]) -> Topic | None:
    """Return the page on which a word counts most, the first of several, None for no page."""
    wanted = _plain(word)
    if len(wanted) < SHORTEST or wanted in TOO_COMMON:
        return None
    counts = {topic: _index(topic)[wanted] for topic in known}
    best = max(counts.values(), default=0)
    return next((topic for topic, count in counts.items() if count == best), None) if best else None


def _index(topic: Topic) -> Counter[str]:
    """Return how much each word counts on a page; each once in a line."""
    index: Counter[str] = Counter()
    _count(index, topic.about, ABOUT)
    for line in page(topic.name).splitlines():
        if line.startswith("#"):
            _count(index, line, HEADING)
        elif line.startswith("|"):
            term, _, meaning = line.strip("|").partition("|")
            _count(index, term, TERM)
            _count(index, meaning, MEANING)
    return index


def _count(index: Counter[str], text: str, weight: int) -> None:
    for word in {_plain(found) for found in _WORD.findall(text)}:
        index[word] += weight


def _plain(word: str) -> str:
    """Return a word in lower case and in the singular, so that "jars" finds "jar"."""
    lower = word.lower().strip("[]")
    return lower[:-1] if len(lower) > 3 and lower.endswith("s") else lower
