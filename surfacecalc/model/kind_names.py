"""The kinds of piece that a file may name; `starting` knows how each is measured."""

KIND_NAMES = (
    "chest",
    "dresser",
    "nightstand",
    "table",
    "desk",
    "bookcase",
    "cabinet",
    "chair",
    "bench",
    "headboard",
    "mirror",
    "doors",
)


def with_article(kind: str) -> str:
    """Return a kind as one piece of it is called.

    >>> with_article("chair"), with_article("doors")
    ('a chair', 'a set of doors')
    """
    return f"a set of {kind}" if kind.endswith("s") else f"a {kind}"
