"""How far what is on hand goes, on the screen: coat by coat, and the verdict in a sentence."""

from rich.console import Console

from surfacecalc.model.pieces import Piece
from surfacecalc.needs.hand import as_figure
from surfacecalc.needs.jars import Jar
from surfacecalc.problems import printable
from surfacecalc.reports.assumed_screen import print_assumed
from surfacecalc.reports.leftover_words import (
    by_recipe_text,
    poured_text,
    whole_batch_text,
)
from surfacecalc.reports.leftover_words import unit_of as _unit
from surfacecalc.reports.table_style import Column, plain_table
from surfacecalc.supplies.parts_on_hand import MixOnHand
from surfacecalc.units.display import Units, format_amount, format_share

MOST_SAID = 0.99


def print_jars(
    out: Console, piece: Piece, found: list[Jar], mixes: list[MixOnHand], units: Units
) -> None:
    """Print how far what is on hand goes, and what leftovers make of the mixes they belong to."""
    out.print(printable(f"{piece.settings.title}: what you have"), style="bold")
    if not found and not mixes:
        out.print("No product that a coat uses has on_hand in this file.")
        _print_others(out, piece, set(), units)
        return
    for jar in found:
        out.print()
        _print_jar(out, jar, units)
    for mix in mixes:
        out.print()
        _print_mix(out, mix, piece.settings.currency, units)
    asked = [*found, *(mix.by_recipe for mix in mixes)]
    figures = {as_figure(factor): None for jar in asked for factor in jar.assumed}
    if figures:
        out.print()
    print_assumed(out, list(figures), units, mark="* ", more="")
    shown = {jar.product.name for jar in found}
    shown |= {part.product.name for mix in mixes for part in mix.parts}
    _print_others(out, piece, shown, units)


def _print_others(out: Console, piece: Piece, shown: set[str], units: Units) -> None:
    """Print what else is on hand, and why no table is shown of it."""
    others = [
        f"{one.name}, {format_amount(one.on_hand, _unit(one), units)}"
        for one in piece.shelf.products.values()
        if one.on_hand > 0 and one.name not in shown
    ]
    if others:
        texts = "; ".join(others)
        out.print(printable(f"Not used in a coat, so the supply list counts it: {texts}."))


def _print_jar(out: Console, jar: Jar, units: Units) -> None:
    mark = "*" if jar.assumed else ""
    amount = format_amount(jar.product.on_hand, _unit(jar.product), units)
    out.print(printable(f"{jar.product.name}{mark}, {amount}"), style="bold")
    _print_reaches(out, jar, units)


def _print_mix(out: Console, mix: MixOnHand, currency: str | None, units: Units) -> None:
    """Print what leftovers make of a mix: by its recipe, all poured together, and with a tin."""
    mark = "*" if mix.by_recipe.assumed else ""
    out.print(printable(f"{mix.mix.name}{mark}, mixed from what you have"), style="bold")
    _print_parts(out, mix, units)
    out.print(printable(by_recipe_text(mix, units)))
    if mix.made:
        _print_reaches(out, mix.by_recipe, units)
    if mix.together is not None:
        out.print(printable(poured_text(mix, units)))
        _print_reaches(out, mix.together, units)
    out.print(printable(whole_batch_text(mix, currency, units)))


def _print_parts(out: Console, mix: MixOnHand, units: Units) -> None:
    """Print each jar, what other steps use of it, and what the whole batch needs of it."""
    uses = any(part.elsewhere for part in mix.parts)
    columns: list[Column] = [("Part", "left"), ("On hand", "right")]
    columns += [("Other steps use", "right")] if uses else []
    table = plain_table(*columns, ("Whole batch needs", "right"))
    for part in mix.parts:
        amounts = [part.product.on_hand, *([part.elsewhere] if uses else []), part.needed]
        texts = (format_amount(one, _unit(part.product), units) for one in amounts)
        table.add_row(printable(part.product.name), *texts)
    out.print(table)


def _print_reaches(out: Console, jar: Jar, units: Units) -> None:
    """Print how far a jar goes, coat by coat, and whether that is enough."""
    unit, share = _unit(jar.product), format_share(jar.confidence)
    columns: list[Column] = [("Coats", "left"), ("Need", "right")]
    if not jar.is_exact:
        columns = [columns[0], ("Likely", "right"), (f"{share} sure", "right")]
        columns.append(("Chance it lasts", "right"))
    table = plain_table(*columns)
    for reach in jar.reaches:
        amounts = [format_amount(v, unit, units) for v in (reach.likely, reach.buy_for)]
        cells = [_coats(reach.coats), *amounts, _percent(reach.chance)]
        table.add_row(*cells[: len(columns)])
    out.print(table)
    out.print(_verdict(jar, share))


def _coats(coats: int) -> str:
    return "1 coat" if coats == 1 else f"{coats} coats"


def _through(coats: int) -> str:
    return "first" if coats == 1 else f"first {coats}"


def _percent(chance: float) -> str:
    """Return a chance in whole per cent; all or none is never said of what varies."""
    if chance > MOST_SAID:
        return "over 99 %"
    return "under 1 %" if chance < 1 - MOST_SAID else f"{100 * chance:.0f} %"


def _verdict(jar: Jar, share: str) -> str:
    """Return whether the jar is enough, and what to do where it is not.

    Only a mix is hard to match once it has run out; anything else is the same from every can.
    """
    is_fixed = jar.is_exact
    if jar.will_do and is_fixed:
        return "Enough for every coat, if your numbers are exact."
    if jar.will_do:
        return f"Enough for every coat ({_percent(jar.reaches[-1].chance)} sure)."
    match = ": a mixed colour is hard to match" if jar.product.recipe else ""
    if not jar.sure_coats:
        least = "for the first coat" if is_fixed else f"to be {share} sure of the first coat"
        return f"Not enough {least}. Top up and stir first{match}."
    lasts = f"the {_through(jar.sure_coats)} coats" if jar.sure_coats > 1 else "the first coat only"
    sure = "Enough for" if is_fixed else f"{share} sure to last for"
    return (
        f"{sure} {lasts}. Top up and stir before you start coat"
        f" {jar.sure_coats + 1}, not halfway through it{match}."
    )
