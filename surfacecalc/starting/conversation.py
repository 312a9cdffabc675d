"""Plain lines to and from the person who answers, 80 columns wide."""

import re
import shlex
import sys
import textwrap
from pathlib import Path

import typer

from surfacecalc.invocation import program
from surfacecalc.problems import printable

WIDTH = 79
INDENT = "  "
_IN_QUOTES = re.compile(r'"[^"]{1,40}"')
_KEPT_SPACE = "\0"
"""Stands in for a space that no line is broken at; no printable text has one."""
QUIT = "quit"
"""What stops as Ctrl-C does."""


class StoppedError(Exception):
    """No more answers come: Ctrl-C, the word for it, or the end of the input.

    Attributes:
        kept_in: where the answers are kept, None where there are none.
        is_earlier: whether they are those of an earlier start.
    """

    def __init__(self, kept_in: Path | None = None, *, is_earlier: bool = False) -> None:
        super().__init__()
        self.kept_in = kept_in
        self.is_earlier = is_earlier

    def say_how_to_continue(self) -> None:
        """Print the command that takes up the answers again."""
        typer.echo()
        if self.kept_in is None:
            say("Stopped. There were no answers to save.")
            return
        still = "still " if self.is_earlier else ""
        say(f"Stopped. Your answers are {still}saved in {self.kept_in}. To continue, run:")
        target = shlex.quote(str(self.kept_in.with_suffix("")))
        typer.echo(f"{INDENT}{program()} new --out {target}")


def is_terminal() -> bool:
    """Whether somebody can be asked."""
    return sys.stdin is not None and sys.stdin.isatty()


def say(text: str = "", *, indent: str = "") -> None:
    """Print a paragraph, wrapped; what is in quotes, to be typed as it is, stays on one line."""
    kept = _IN_QUOTES.sub(lambda found: found[0].replace(" ", _KEPT_SPACE), printable(text))
    wrapped = textwrap.wrap(
        kept, WIDTH, initial_indent=indent, subsequent_indent=indent,
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip
    typer.echo("\n".join(wrapped).replace(_KEPT_SPACE, " "))


def say_table(rows: list[tuple[str, str]]) -> None:
    """Print words and what they mean, in two columns."""
    wide = max((len(word) for word, _ in rows), default=0)
    for word, meaning in rows:
        first = f"{INDENT}{word:<{wide}}  "
        typer.echo(
            "\n".join(
                textwrap.wrap(
                    meaning, WIDTH, initial_indent=first, subsequent_indent=" " * len(first)
                )
                or [first.rstrip()]
            )
        )


def hear(prompt: str) -> str:
    """Return a line that was typed, without spaces around it.

    Raises:
        StoppedError: there is none, or it says to stop.
    """
    try:
        text = typer.prompt(f"{INDENT}{prompt}", default="", show_default=False, prompt_suffix=": ")
    except (typer.Abort, EOFError, KeyboardInterrupt):
        raise StoppedError from None
    text = str(text).strip()
    if text.lower() == QUIT:
        raise StoppedError
    return text


def is_confirmed(question: str, *, proposed: bool) -> bool:
    """Ask a question that is answered by yes or no.

    Raises:
        StoppedError: there is no answer.
    """
    choices = "Y/n" if proposed else "y/N"
    while True:
        text = hear(f"{question} [{choices}]").lower()
        if text in ("", "y", "yes", "n", "no"):
            return proposed if not text else text.startswith("y")
        say('Type "yes" or "no".', indent=INDENT)
