"""Which step rubs out or waxes a coat: a film must be harder for that than for its next coat."""

from collections.abc import Mapping, Sequence

from surfacecalc.model.shelf import Product
from surfacecalc.model.step_facts import coat_left, coat_of, rubs_finish, sanding_of, takes_off
from surfacecalc.model.steps import Coat, Step


def polished_in(steps: Sequence[Step], number: int, products: Mapping[str, Product]) -> int | None:
    """Return the number of the step that rubs out or waxes what a step puts on, else None.

    Wax on spots is a decoration and not a polish; rubbing out that another coat follows is
    sanding between coats.

    Args:
        steps: of the zone.
        number: of the step that puts something on, from 0.
        products: by name.
    """
    for later in range(number + 1, len(steps)):
        coat, sanding = coat_of(steps[later]), sanding_of(steps[later])
        if coat is not None and (coat.hardware is not None or coat.spot is not None):
            continue
        if coat is not None:
            return later if _is_wax(coat, products) else None
        if sanding is not None:
            is_last = rubs_finish(sanding.do) and not _coated(steps[later:], products)
            return later if is_last else None
    return None


def _is_wax(coat: Coat, products: Mapping[str, Product]) -> bool:
    return products[coat.product].family == "wax"


def _coated(steps: Sequence[Step], products: Mapping[str, Product]) -> bool:
    """Whether any step puts on more than wax all over, or takes everything off."""
    coats = [coat for coat in map(coat_left, steps) if coat is not None]
    whole = [coat for coat in coats if coat.hardware is None and coat.spot is None]
    return any(not _is_wax(coat, products) for coat in whole) or any(map(takes_off, steps))
