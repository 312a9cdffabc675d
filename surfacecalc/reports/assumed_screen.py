"""What is assumed: the few figures that matter most in a line, and all of them where asked for."""

from collections.abc import Sequence

from rich.console import Console
from rich.padding import Padding

from surfacecalc.model.ranges import Factor
from surfacecalc.problems import printable
from surfacecalc.reports.input_words import input_text
from surfacecalc.units.display import Units

SHOWN = 4
_COUNTS = ("", "one", "two", "three", "four")


def _is_nothing(factor: Factor) -> bool:
    """Whether a figure is none of something, such as 0 % more for touch-ups: it moves nothing."""
    return factor.range.is_fixed and not factor.range.likely


def _those(count: int) -> str:
    """Return what is said before so many figures of a longer list."""
    return "the one that matters" if count == 1 else f"the {_COUNTS[count]} that matter most"


def print_assumed(
    out: Console,
    figures: Sequence[Factor],
    units: Units,
    *,
    mark: str = "",
    more: str = "--why",
    beside: str = "",
) -> None:
    """Print how many figures are assumed, and those that matter most.

    Args:
        out: where to print.
        figures: the one that matters most first.
        units: which units are shown.
        mark: what marks the lines that use them.
        more: the option that lists all of them; empty where all are shown.
        beside: what else is assumed, such as "the working hours".
    """
    if not figures:
        if beside:
            out.print(f"Assumed: {beside}{f' ({more})' if more else ''}.")
        return
    moving = [factor for factor in figures if not _is_nothing(factor)]
    shown = moving[:SHOWN] if more else figures
    count = f"{len(figures)} figure{'s' if len(figures) > 1 else ''}"
    count += f" and {beside} assumed" if beside else " assumed"
    if len(shown) < len(figures):
        count += f"; {_those(len(shown))}"
    texts = "; ".join(input_text(factor, units, short=True) for factor in shown)
    end = f" (all of them: {more})" if len(shown) < len(figures) else ""
    out.print(printable(f"{mark}{count}: {texts}{end}."))


def print_all_assumed(out: Console, figures: Sequence[Factor], units: Units) -> None:
    """Print every assumed figure on a line of its own, the one that matters most first."""
    if not figures:
        return
    out.print()
    out.print("Assumed figures, the one that matters most first", style="bold")
    for factor in figures:
        out.print(Padding(printable(input_text(factor, units)), (0, 0, 0, 4), expand=False))
    out.print(Padding("Put your own in the piece file.", (0, 0, 0, 4), expand=False))
    out.print()
