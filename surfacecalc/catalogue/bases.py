"""What a product is based on: from the words of its kind, and from its class in the catalogue.

A kind that says it is waterborne, oil-based and so on is believed. Shellac, lacquer, a drying oil
say it by what they are. Where a stain or a varnish does not say, the catalogue takes it to be
oil-based; the answer is then "unknown", and whoever asks says how it was decided. Which words mean
what is common practice, but where one is named.
"""

import re
from typing import Literal

from surfacecalc.model.shelf import Chemistry, Product

Base = Literal["water", "drying oil", "solvent", "other", "unknown"]

_WATER = re.compile(
    r"\bwater[ -]?(borne|based|soluble|reducible|thinned)\b|\bwater (stain|dye|colou?r)\b|\bwater$"
    r"|\b(acrylic|latex|emulsion|milk|casein|chalk|distemper|lime(?! wax))\b"
)
_CLEAR_AS_WATER = re.compile(r"\bwater[ -]?(white|clear)\b")
_NEVER_DRIES = re.compile(r"\b(mineral|paraffin|lemon|orange) oil\b|\boil soap\b|\boil[ -]?free\b")
_OIL = re.compile(r"\b(oil|oils|alkyd|linseed|tung|danish|penetrating|putty)\b")
"""A penetrating stain is oil-based: so the Wood Handbook, USDA FPL-GTR-190, ch. 16, means it."""
_IN_A_NAME = re.compile(r"\b(water|oil)[ -]?(borne|based)\b")
_OF_CHEMISTRY: dict[Chemistry, Base] = {
    "waterborne": "water", "evaporating solvent": "solvent", "two-part": "other", "wax": "other",
}  # fmt: skip
_WORST_FIRST: tuple[Base, ...] = ("drying oil", "unknown", "solvent", "other", "water")


def base_of(product: Product) -> Base:
    """Return what a product is based on; of a mix, the base of its parts that asks most care.

    "other" is what holds neither a drying oil nor much solvent, as far as its kind tells. "unknown"
    is what the catalogue takes to be oil-based although its kind does not say so.
    """
    if product.recipe:
        bases = {base_of(component.product) for component in product.recipe}
        return next(base for base in _WORST_FIRST if base in bases)
    kind = product.kind.lower()
    if _NEVER_DRIES.search(kind):
        return "other"
    if _CLEAR_AS_WATER.search(kind):
        return "solvent"
    if product.nature is None or _WATER.search(kind):
        return "water" if _WATER.search(kind) else "other"
    if product.nature.chemistry != "drying oil":
        return _OF_CHEMISTRY[product.nature.chemistry]
    if product.family == "oil" or _OIL.search(kind):
        return "drying oil"
    named = _IN_A_NAME.search(product.name.lower())
    if named is None:
        return "unknown"
    return "water" if named[1] == "water" else "drying oil"


def is_said_waterborne(product: Product) -> bool:
    """Whether a product's kind says that it is waterborne; the catalogue's guess does not count."""
    return bool(_WATER.search(product.kind.lower())) and base_of(product) == "water"


def says(product: Product, *words: str, by_name: bool = False) -> bool:
    """Whether a product's kind, or the family it belongs to, holds any of some words.

    Args:
        product: the product.
        words: words or phrases, lower case.
        by_name: whether its name may say it as well.

    >>> filler = Product("knots", "two-part filler", "filler", "weight", (), (), 0.0, None, 1)
    >>> says(filler, "two part"), says(filler, "part filler knots")
    (True, False)
    """
    name = product.name.replace(".", " ") if by_name else ""
    text = _plain(f"{product.family} . {product.kind} . {name}")
    return any(_plain(word) in text for word in words)


def is_caustic(product: Product) -> bool:
    """Whether a stripper or cleaner is a lye."""
    return says(product, "caustic", "lye", "alkaline")


def taken_off_with(stripper: Product) -> str:
    """Return how what is left of a stripper is taken off the wood, by its kind: common practice."""
    if is_caustic(stripper):
        return "neutralise it with vinegar in water, then rinse with water"
    if is_said_waterborne(stripper) or says(stripper, "citrus", "water rinse", "water wash"):
        return "rinse it off with water"
    return "wash it off with mineral spirits or water, as its label says"


def _plain(text: str) -> str:
    """Return the words of a text, lower case, a space around each; a point ends a phrase."""
    return f" {' '.join(re.sub(r'[^a-z0-9.]+', ' ', text.lower()).split())} "
