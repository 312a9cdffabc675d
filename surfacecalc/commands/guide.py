"""The command that shows the guide."""

import shutil
from typing import Annotated

import typer


def _names() -> list[str]:
    """Return what a shell offers for TOPIC."""
    from surfacecalc.guide import topics

    return [topic.name for topic in topics()]


def guide(
    topic: Annotated[
        str | None,
        typer.Argument(
            metavar="TOPIC",
            help="The page to read, or a word to look up; leave it off to see all topics.",
            autocompletion=_names,
        ),
    ] = None,
) -> None:
    """Show the guide, page by page: shapes, steps, keys and commands.

    Example: surfacecalc guide parts
    """
    from surfacecalc.guide import page, topic_meant, topics
    from surfacecalc.guide.terminal import plain_text
    from surfacecalc.guide.word_search import topic_with

    known = topics()
    found = None
    if topic is not None:
        found = topic_meant(topic, known) or topic_with(topic, known)
        if found is None:
            raise typer.BadParameter(_no_page(topic))
    width = shutil.get_terminal_size().columns - 1
    typer.echo(plain_text(page(found.name if found else "index"), width), nl=False)


def _no_page(word: str) -> str:
    """Return that no page explains a word, with the page it may have meant, or all pages."""
    from surfacecalc.guide import topic_meant, topics, words
    from surfacecalc.problems import is_close, listing, nearest, printable

    known = topics()
    near = nearest(word, words(known))
    meant = topic_meant(near, known) if near and is_close(word.lower(), near) else None
    hint = f'did you mean "{meant.name}"?' if meant else f"the topics are {listing(_names())}."
    return f'The guide has no page about "{printable(word)}"; {hint}'
