"""What is needed too, on the screen: a line each under the supply list."""

from collections.abc import Sequence

from rich.console import Console
from rich.padding import Padding

from surfacecalc.gear.needed_too import NeededToo
from surfacecalc.problems import listing, printable
from surfacecalc.units.money import money_with_sign

TITLE = "Needed too, unless you have it"
MOST_USES = 3


def print_needed_too(out: Console, found: Sequence[NeededToo], currency: str | None) -> None:
    """Print what the work needs and no step lists."""
    if not found:
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
