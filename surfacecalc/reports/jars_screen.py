"""How far what is on hand goes, on the screen: coat by coat, and the verdict in a sentence."""

from rich.console import Console

from surfacecalc.model.pieces import Piece
from surfacecalc.needs.jars import Jar
from surfacecalc.problems import printable
from surfacecalc.reports.assumed_screen import print_assumed
from surfacecalc.reports.table_style import plain_table
from surfacecalc.units.display import Units, format_amount, format_share


def print_jars(out: Console, piece: Piece, found: list[Jar], units: Units) -> None:
    """Print how far what is on hand goes."""
    out.print(printable(f"{piece.settings.name}: what you have"), style="bold")
    if not found:
        out.print("No product that a coat uses has on_hand in this file.")
        return
    share = format_share(piece.settings.buy_for)
    for jar in found:
        out.print()
        _print_jar(out, jar, share, units)
    figures = {factor.draw_key: factor for jar in found for factor in jar.assumed}
    if figures:
        out.print()
    print_assumed(out, list(figures.values()), units, mark="* ", more="")


def _print_jar(out: Console, jar: Jar, share: str, units: Units) -> None:
    unit = "kg" if jar.product.basis == "weight" else "L"
    mark = "*" if jar.assumed else ""
    name = f"{jar.product.name}{mark}, {format_amount(jar.product.on_hand, unit, units)}"
    out.print(printable(name), style="bold")
    table = plain_table(
        ("Coats", "left"), ("Likely", "right"), (f"{share} sure", "right"),
        ("Chance it lasts", "right"),
    )  # fmt: skip
    for reach in jar.reaches:
        amounts = (format_amount(v, unit, units) for v in (reach.likely, reach.buy_for))
        table.add_row(_through(reach.coats), *amounts, _percent(reach.chance))
    out.print(table)
    out.print(_verdict(jar, share))


def _through(coats: int) -> str:
    return "first" if coats == 1 else f"first {coats}"


def _percent(chance: float) -> str:
    return f"{100 * chance:.0f} %"


def _verdict(jar: Jar, share: str) -> str:
    """Return whether the jar is enough, and what to do where it is not.

    Only a mix is hard to match once it has run out; anything else is the same from every can.
    """
    if jar.will_do:
        return f"Enough for every coat ({_percent(jar.reaches[-1].chance)} sure)."
    match = ": a mixed colour is hard to match" if jar.product.recipe else ""
    if not jar.sure_coats:
        return f"Not enough to be {share} sure of the first coat. Top up and stir first{match}."
    lasts = f"the {_through(jar.sure_coats)} coats" if jar.sure_coats > 1 else "the first coat only"
    return (
        f"{share} sure to last for {lasts}. Top up and stir before you start coat"
        f" {jar.sure_coats + 1}, not halfway through it{match}."
    )
