"""Wrong usage in plain sentences: what is wrong, and the command that shows what is possible."""

import shutil
import sys
import textwrap
from typing import Any

import typer

WrongUsage: Any = typer.BadParameter.__mro__[1]
"""What the library raises for wrong usage of any kind; its own name differs between versions."""


def in_plain_words(error: Any) -> Any:
    """Return wrong usage that shows its sentence alone, without the words of programmers."""
    text = sentence_of(error)
    error.show = lambda file=None: say_wrong(text)
    return error


def sentence_of(error: Any) -> str:
    """Return what is wrong, as the last sentence a person reads before typing again."""
    param: Any = getattr(error, "param", None)
    message = str(error.message or "")
    if type(error) is typer.BadParameter and param is None:
        return _sentence(message)
    if type(error) is typer.BadParameter:
        text = _sentence(f"{param.opts[0]}: {message}")
    elif param is not None:  # an argument is missing; the message says what to type
        return f"No piece file is given. {message}".rstrip()
    else:
        text = _sentence(error.format_message())
    if error.ctx is None or _says_what_to_type(text):
        return text
    return f"{text}\nTo see what is possible: {error.ctx.command_path} --help"


def say_wrong(text: str) -> None:
    """Print a sentence on the error stream; on a screen no word of it is broken."""
    lines = text.splitlines()
    if sys.stderr.isatty():
        width = shutil.get_terminal_size().columns - 1
        wrapper = textwrap.TextWrapper(width, break_long_words=False, break_on_hyphens=False)
        lines = [part for line in lines for part in wrapper.wrap(line)]
    typer.echo("\n".join(lines), err=True)


def _sentence(text: str) -> str:
    """Return words as a sentence; no full stop after a command or another mark."""
    end = "" if text.endswith((".", "?", "!", ".toml", ")")) or _says_what_to_type(text) else "."
    return f"{text[:1].upper()}{text[1:]}{end}"


def _says_what_to_type(text: str) -> bool:
    return "To check it: " in text or "Did you mean" in text
