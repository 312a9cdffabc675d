"""How sure a supply list is, in sentences: each line, everything together, and other choices."""

from collections.abc import Iterator

from surfacecalc.closeness import whole_down
from surfacecalc.model.pieces import Piece
from surfacecalc.reports.chances import times_out_of
from surfacecalc.reports.choice_words import choices_of
from surfacecalc.supplies.all_enough import chance_all_lasts
from surfacecalc.supplies.shopping import Supply

SURE_ENOUGH = 0.9
"""A list that lasts less often than this is told how to become surer."""


def certainty_lines(piece: Piece, supplies: list[Supply]) -> Iterator[str]:
    """Yield what the columns Need and Range mean, and how sure everything together is."""
    ranged = [supply for supply in supplies if not supply.is_exact]
    if ranged:
        yield (
            f"Need: enough {times_out_of(ranged[0].need.bought_at)}. Range: 9 jobs in 10"
            " fall between these."
        )
    choices = choices_of(piece, supplies)
    if any(supply.is_exact for supply in supplies):
        yield 'Lines marked "counted" or "exact" have no range: you need just that much.'
    if ranged:
        yield all_lasts(piece, supplies)
    for supply in supplies:
        yield from (f"{supply.title}: {text}." for text in choices.get(supply.key, ()))


def exact_word(supply: Supply) -> str:
    """Return what is written in place of a range where there is none."""
    return "counted" if supply.unit == "each" else "exact"


def all_lasts(piece: Piece, supplies: list[Supply]) -> str:
    """Return how often everything on a list lasts to the end, and how to be surer."""
    chance, wanted = chance_all_lasts(supplies), piece.settings.buy_for_all
    often = _jobs_of_100(chance)
    text = f"Everything on this list lasts to the end in {often} jobs out of 100"
    if any(_has_no_pack(supply) for supply in supplies):
        text += ", if you get what you need of the lines without a pack too"
    if wanted is not None and chance < wanted:
        return f"{text}. No amount makes that {100 * wanted:g} out of 100."
    if wanted is None and chance < SURE_ENOUGH:
        return f'{text}. To make that 90, set buy_for_all = "90 %" in [piece].'
    return f"{text}."


def _jobs_of_100(chance: float) -> str:
    """Return a chance in whole jobs out of 100, never rounded up to all of them."""
    return str(whole_down(100 * chance)) if chance < 1 else "more than 99"


def _has_no_pack(supply: Supply) -> bool:
    is_bought = supply.what != "water" and supply.missing > 0
    return is_bought and not supply.buy and not supply.mixed
