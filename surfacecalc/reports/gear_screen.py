"""What is needed too, on the screen: a line each under the supply list."""

from collections.abc import Sequence

from rich.console import Console
from rich.padding import Padding

from surfacecalc.gear.needed_too import NeededToo
from surfacecalc.problems import listing, printable
from surfacecalc.units.money import money_with_sign

TITLE = "Needed too, unless you have it"
MOST_USES = 3


def print_needed_too(
    out: Console, found: Sequence[NeededToo], currency: str | None, *, why: bool
) -> None:
    """Print what the work needs and no step lists.

    Args:
        out: where to print.
        found: what is needed.
        currency: its code, None where it is not given.
        why: whether each thing has a line with what it is for; else only tools are named, since
            the cautions beside the list say what to wear.
    """
    if not found:
        return
    if not why:
        names = [one.name for one in found if not one.is_worn]
        names += ["what to wear"] * any(one.is_worn for one in found)
        out.print(printable(f"Needed too (--why): {', '.join(names)}."))
        return
    out.print(TITLE, style="bold")
    for one in found:
        text = f"{one.name}: {about(one, currency)}"
        out.print(Padding(printable(text), (0, 0, 0, 4), expand=False))


def about(one: NeededToo, currency: str | None) -> str:
    """Return what a thing is for, and what a record says of its price and of the stock."""
    texts = [f"for {listing(one.uses, MOST_USES)}"]
    if one.on_hand:
        texts.append(f"{one.on_hand} on hand")
    elif one.pack is not None and one.pack.price is not None:
        count = f"{one.pack.size:g} for " if one.pack.size > 1 else ""
        texts.append(f"{count}{money_with_sign(one.pack.price, currency)}")
    return "; ".join(texts)
