"""How to mix what a zone is washed with, for the bench: parts, amounts, and the rinse."""

from fractions import Fraction

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import likely
from surfacecalc.model.steps import Wash
from surfacecalc.needs.washing import rinse_l, solution_l
from surfacecalc.units.display import Units, format_amount
from surfacecalc.units.number_words import mixed_number


def mix_text(piece: Piece, wash: Wash, area_m2: float, units: Units) -> str:
    """Return how to mix what is washed with once, such as "mix 1 part with 32 parts water".

    Args:
        piece: the piece.
        wash: the step.
        area_m2: what is washed [m2].
        units: which units are shown.
    """
    strength = float(likely(wash.strength))
    solution = float(solution_l(area_m2, wash, likely)) / wash.times
    product = piece.shelf.products[wash.product]
    cleaner, unit = solution * strength, "L"
    if product.basis == "weight":
        cleaner, unit = cleaner * (product.density_kg_per_l or 1.0), "kg"
    amount = format_amount(cleaner, unit, units)
    text = f"use {amount} undiluted"
    if strength < 1:
        water = format_amount(solution * (1 - strength), "L", units)
        text = f"mix {_parts(strength)}: {amount} in {water} water"
    rinse = float(rinse_l(area_m2, wash, likely)) / wash.times
    return f"{text}; rinse with {format_amount(rinse, 'L', units)} water" if rinse else text


def _parts(strength: float) -> str:
    """Return a strength as parts.

    >>> _parts(0.03), _parts(0.4)
    ('1 part with 32 parts water', '1 part with 1 1/2 parts water')
    """
    ratio = (1 - strength) / strength
    parts = Fraction(round(ratio)) if ratio >= 10 else Fraction(round(ratio * 2), 2)
    parts = max(parts, Fraction(1, 2))
    return f"1 part with {mixed_number(parts)} part{'' if parts <= 1 else 's'} water"
