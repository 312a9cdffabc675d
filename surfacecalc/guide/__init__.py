"""The guide: pages in Markdown that are installed with the program.

index.md lists the pages, one line each, in the order to read them; `terminal` makes plain text of
a page. Nothing here is fetched: the pages are files of this package.
"""

import re
from dataclasses import dataclass
from importlib import resources

LISTED = re.compile(
    r"^\| \[(?P<name>[a-z-]+)\]\((?P=name)\.md\) \| (?P<about>.+) \|$", re.MULTILINE
)
"""How the index lists a page."""


@dataclass(frozen=True)
class Topic:
    """A page of the guide.

    Attributes:
        name: what is typed to read it.
        about: what it is about, in one line.
    """

    name: str
    about: str


def topics() -> tuple[Topic, ...]:
    """Return the pages in the order of the index."""
    return tuple(Topic(found["name"], found["about"]) for found in LISTED.finditer(page("index")))


def page(name: str) -> str:
    """Return a page as Markdown."""
    return (resources.files(__name__) / f"{name}.md").read_text("utf-8")


def topic_meant(word: str, known: tuple[Topic, ...]) -> Topic | None:
    """Return the page with a name, or else the only one whose name has the word in it.

    >>> known = (Topic("parts", ""), Topic("zones-and-steps", ""))
    >>> topic_meant("steps", known).name
    'zones-and-steps'
    """
    return _by_word(known).get(word.lower())


def words(known: tuple[Topic, ...]) -> list[str]:
    """Return every word that is enough to name a page."""
    return list(_by_word(known))


def _by_word(known: tuple[Topic, ...]) -> dict[str, Topic]:
    """Return the pages by their names, and by each word that is in one name only."""
    found = {topic.name: topic for topic in known}
    parts = [(word, topic) for topic in known for word in topic.name.split("-")]
    for word, topic in parts:
        if len(word) > 2 and sum(word == other for other, _ in parts) == 1:
            found.setdefault(word, topic)
    return found
