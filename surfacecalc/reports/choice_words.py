"""What else could be bought of a supply, in words: the larger tin, and the tin that can wait."""

from surfacecalc.closeness import whole_down
from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import SupplyKey
from surfacecalc.supplies.jumps import Jump, Purchase, jumps
from surfacecalc.supplies.larger_packs import LargerChoice, larger_choice
from surfacecalc.supplies.pack_words import bought_text
from surfacecalc.supplies.shopping import Supply
from surfacecalc.units.money import money_with_sign
from surfacecalc.units.number_words import ordinal

Choices = dict[SupplyKey, tuple[str, ...]]


def choices_of(piece: Piece, supplies: list[Supply]) -> Choices:
    """Return by supply what else could be bought of it, in sentences without a full stop.

    Args:
        piece: the piece, or pieces taken together.
        supplies: the supply list.
    """
    found: Choices = {one.supply.key: (jump_text(one),) for one in jumps(piece, supplies)}
    for supply in supplies:
        larger = larger_choice(piece, supply)
        if larger is not None:
            text = larger_text(supply, larger, piece.settings.currency)
            found[supply.key] = (*found.get(supply.key, ()), text)
    return found


def jump_text(jump: Jump) -> str:
    """Return what to buy for fewer coats, and what to buy later if one more proves needed."""
    unit, where = jump.supply.unit, f" on {' and '.join(jump.zones)}" if jump.zones else ""
    coats = f"{'1 coat' if jump.coats == 2 else f'{jump.coats - 1} coats'}{where}"
    later, case = _packs(jump.later, unit), f"only if a {ordinal(jump.coats - 1)} coat is needed"
    if not jump.fewer:
        return f"what you have is enough for {coats}; buy {later} later, {case}"
    both = ""
    if _counted(jump.more) != _counted(jump.fewer + jump.later):
        both = f"; {_packs(jump.more, unit)} bought at once would do for both"
    return f"buy {_packs(jump.fewer, unit)} for {coats} now and {later} more later, {case}{both}"


def larger_text(supply: Supply, larger: LargerChoice, currency: str | None) -> str:
    """Return what a larger choice costs more than what is bought, and how much more it holds."""
    is_one = [count for _, count in larger.buy] == [1]
    costs, holds = ("costs", "holds") if is_one else ("cost", "hold")
    more = f"{money_with_sign(larger.more, currency)} more" if larger.more else "no more"
    packs = _packs(larger.buy, supply.unit)
    return f"{packs} {costs} {more} and {holds} {_times(larger.times)} as much"


def _times(times: float) -> str:
    """Return how many times as much, never more than it is.

    >>> _times(2.0), _times(3.79), _times(1.5)
    ('twice', '3.7 times', '1.5 times')
    """
    tenths = whole_down(10 * times) / 10
    return "twice" if tenths == 2 else f"{tenths:g} times"


def _packs(purchase: Purchase, unit: str) -> str:
    return " and ".join(bought_text(pack, count, unit) for pack, count in purchase) or "nothing"


def _counted(purchase: Purchase) -> dict[tuple[float, str], int]:
    """Return how many of each size there are."""
    found: dict[tuple[float, str], int] = {}
    for pack, count in purchase:
        found[pack.size, pack.text] = found.get((pack.size, pack.text), 0) + count
    return found
