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
            help="The page to read; leave it off to see all topics.",
            autocompletion=_names,
        ),
    ] = None,
) -> None:
    """Show the guide, page by page: shapes, steps, keys and commands.

    Example: surfacecalc guide parts
    """
    from surfacecalc.guide import page, topic_meant, topics, words
    from surfacecalc.guide.terminal import plain_text
    from surfacecalc.problems import listing, nearest

    known = topics()
    found = None if topic is None else topic_meant(topic, known)
    if topic is not None and found is None:
        near = nearest(topic, words(known))
        meant = topic_meant(near, known) if near else None
        hint = f'did you mean "{meant.name}"?' if meant else f"the topics are {listing(_names())}"
        raise typer.BadParameter(f'the guide has no topic "{topic}"; {hint}')
    width = shutil.get_terminal_size().columns - 1
    typer.echo(plain_text(page(found.name if found else "index"), width), nl=False)
