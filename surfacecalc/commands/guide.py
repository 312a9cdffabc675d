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
            metavar="TOPIC", help="The page to read; leave it off to see all topics.",
            autocompletion=_names,
        ),
    ] = None,
) -> None:
    """Show the guide: how to write a piece file, every key, every command.

    Example: surfacecalc guide parts
    """
    from surfacecalc.guide import page, topic_meant, topics
    from surfacecalc.guide.terminal import plain_text

    known = topics()
    found = None if topic is None else topic_meant(topic, known)
    if topic is not None and found is None:
        raise typer.BadParameter(_unknown(topic, [one.name for one in known]))
    width = shutil.get_terminal_size().columns - 1
    typer.echo(plain_text(page(found.name if found else "index"), width), nl=False)


def _unknown(topic: str, names: list[str]) -> str:
    from surfacecalc.problems import nearest

    near = nearest(topic, names)
    hint = f'did you mean "{near}"?' if near else f"the topics are {', '.join(names)}"
    return f'the guide has no topic "{topic}"; {hint}'
