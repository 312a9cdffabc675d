"""The program as a group of commands; wrong usage says the command to run next."""

from pathlib import Path
from typing import Any

from typer.core import TyperGroup

from surfacecalc.commands.next_command import check_of, where_none_given
from surfacecalc.commands.wrong_usage import WrongUsage, in_plain_words


class Program(TyperGroup):
    """All commands; types stay open, as those of the library differ between its versions."""

    def invoke(self, ctx: Any) -> Any:
        """Run a command; where its file is missing, say what to type."""
        try:
            return super().invoke(ctx)
        except WrongUsage as error:
            if not error.message:  # nothing was wrong but that an argument is missing
                error.message = where_none_given(str(ctx.invoked_subcommand))
            raise in_plain_words(error) from None

    def make_context(self, *words: Any, **more: Any) -> Any:
        """Read the words that come before a command."""
        try:
            return super().make_context(*words, **more)
        except WrongUsage as error:
            raise in_plain_words(error) from None

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """Find a command; where a file is given in its place, say what to do with it."""
        name = args[0]
        if self.get_command(ctx, name) is None and Path(name).suffix.lower() == ".toml":
            ctx.fail(f'"{name}" is a file, not a command. To check it: {check_of(Path(name))}')
        return super().resolve_command(ctx, args)
