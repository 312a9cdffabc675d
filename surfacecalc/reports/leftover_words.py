"""What leftover jars make of a mix, in sentences."""

from surfacecalc.model.shelf import Product
from surfacecalc.supplies.pack_words import bought_text
from surfacecalc.supplies.parts_on_hand import MixOnHand, PartJar
from surfacecalc.units.display import Units, format_amount
from surfacecalc.units.money import money_with_code


def unit_of(product: Product) -> str:
    """Return what a product is counted in."""
    return "kg" if product.basis == "weight" else "L"


def by_recipe_text(mix: MixOnHand, units: Units) -> str:
    """Return how much the jars make in the recipe's ratio, and which of them runs out first."""
    limit, unit = mix.limited_by, unit_of(mix.mix)
    if not mix.made:
        why = "is needed for other steps" if limit.on_hand else "is not on hand"
        if limit.on_hand and not _is_taken(mix, limit):
            why = "is too little"
        return f"By the recipe they make none of it: {limit.name} {why}."
    made = format_amount(mix.made, unit, units)
    first = f"By the recipe they make {made}; {limit.name} runs out first."
    if not mix.mix.on_hand:
        return first
    total = format_amount(mix.by_recipe.product.on_hand, unit, units)
    return f"{first} With the {_there(mix, units)}, that is {total}."


def poured_text(mix: MixOnHand, units: Units) -> str:
    """Return how much all jars make together, and that it is another colour."""
    whole = format_amount(mix.mix.on_hand + mix.poured, unit_of(mix.mix), units)
    mixed = f" with the {_there(mix, units)}" if mix.mix.on_hand else ""
    return f"All poured together{mixed}, that is {whole}, in a different colour than the recipe's."


def whole_batch_text(mix: MixOnHand, currency: str | None, units: Units) -> str:
    """Return what makes the whole batch: the jars, one tin more, or what the list buys."""
    batch = format_amount(mix.batch, unit_of(mix.mix), units)
    if mix.makes_whole_batch:
        return f"That is the whole batch of {batch}: there is nothing to buy for it."
    if mix.one_tin is None:
        bought = _bought(mix)
        end = f"buy {bought}" if bought else "see the supply list"
        return f"No single tin more makes the whole batch of {batch}: {end}."
    product, pack = mix.one_tin
    price = "no price" if pack.price is None else money_with_code(pack.price, currency)
    tin = bought_text(pack, 1, unit_of(product))
    text = f"One tin more makes the whole batch of {batch}: {tin} of {product.name} ({price})."
    if mix.short[0].buy == ((pack, 1),):
        return text
    return f"{text} The supply list buys {_bought(mix)} instead."


def _bought(mix: MixOnHand) -> str:
    """Return what the supply list buys for the parts that are short; empty if any has no pack."""
    if not all(part.buy for part in mix.short):
        return ""
    return " and ".join(f"{_packs(part)} of {part.product.name}" for part in mix.short)


def _packs(part: PartJar) -> str:
    unit = unit_of(part.product)
    return " and ".join(bought_text(pack, count, unit) for pack, count in part.buy)


def _there(mix: MixOnHand, units: Units) -> str:
    return f"{format_amount(mix.mix.on_hand, unit_of(mix.mix), units)} that is mixed already"


def _is_taken(mix: MixOnHand, product: Product) -> bool:
    """Whether other steps use all that is on hand of a part."""
    return any(part.product == product and part.free == 0 for part in mix.parts)
