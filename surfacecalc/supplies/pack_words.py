"""A purchase in the words of a store's counter: the one place that words it."""

from surfacecalc.model.shelf import Pack

HALF_PINTS = ("8 fl oz", "1/2 pint")
PLURALS = {"half-pint": "half-pints", "pint": "pints", "quart": "quarts", "gallon": "gallons"}
"""Cans that are asked for by their size alone, one and many."""


def bought_text(pack: Pack, count: int, unit: str) -> str:
    """Return how many of a pack to buy.

    Args:
        pack: the pack.
        count: how many.
        unit: what the supply is counted in: "L", "kg", "each", "m" or "m2".

    >>> bought_text(Pack(0.95, "1 quart", None), 2, "L")
    '2 quarts'
    >>> bought_text(Pack(10.0, "", None), 1, "each")
    '1 pack of 10'
    """
    if not pack.text:
        return _counted_pack(round(pack.size), count)
    number, _, name = ("1", "", "half-pint") if pack.text in HALF_PINTS else _parts(pack.text)
    if number == "1" and name in PLURALS:
        return f"{count} {PLURALS[name] if count > 1 else name}"
    sort = "roll" if unit in ("m", "m2") else "pack"
    return f"{count} {sort}{'s' if count > 1 else ''} of {pack.text}"


def _parts(text: str) -> tuple[str, str, str]:
    return text.partition(" ")


def _counted_pack(size: int, count: int) -> str:
    if size == 1:
        return f"{count} single {'piece' if count == 1 else 'pieces'}"
    return f"{count} {'pack' if count == 1 else 'packs'} of {size}"
