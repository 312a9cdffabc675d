"""Whether a coat is light in colour, as far as its names and its step tell."""

from surfacecalc.catalogue.bases import says
from surfacecalc.checks.layers import Layer

LIGHT = ("white", "cream", "ivory", "pale", "light", "off white", "pastel")
NOT_LIGHT = ("white wax", "light oak", "light walnut", "light brown")


def is_light(layer: Layer) -> bool:
    """Whether a paint is light: its name or kind says so, or it goes over a dark colour."""
    more = layer.step.more_coats
    if more is not None and more.what.by == "dark to light":
        return True
    product = layer.product
    return says(product, *LIGHT, by_name=True) and not says(product, *NOT_LIGHT, by_name=True)
