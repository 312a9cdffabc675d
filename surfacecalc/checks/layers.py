"""What the coats of a zone are, in the words of the trade, for the notes on their order."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal, assert_never

from surfacecalc.catalogue.bases import says
from surfacecalc.model.pieces import NOT_SEALED, Zone
from surfacecalc.model.shelf import Product
from surfacecalc.model.step_facts import coat_nature, coat_of, sanding_of, takes_off
from surfacecalc.model.steps import Coat
from surfacecalc.problems import Problem

Role = Literal[
    "strip", "condition", "colour", "glaze", "seal", "prime", "paint", "clear", "oil", "wax",
    "grain", "metallic", "other",
]  # fmt: skip
FILM: tuple[Role, ...] = ("paint", "prime", "clear")
"""Coats that lie on the wood and hide it or shut it off."""
BARE_FROM_GRIT = 120
"""Sanding that starts with this grit or a coarser one may go down to bare wood: common practice."""

HOLD_BACK = ("shellac", "blocking", "blocker")
"""Words in the kind of a product that keeps resin, tannin and old stain in."""

_BY_FAMILY: Mapping[str, Role] = {
    "paint": "paint", "casein paint": "paint", "varnish": "clear", "lacquer": "clear",
    "shellac": "seal", "stain": "colour",
    "dye": "colour", "glaze": "glaze", "oil": "oil", "wax": "wax", "filler": "grain",
    "conditioner": "condition", "stripper": "strip", "primer": "prime",
}  # fmt: skip


@dataclass(frozen=True)
class Layer:
    """A coating step of a zone.

    Attributes:
        place: its number among the zone's steps, from 0.
        step: the step.
        product: what is put on.
        role: what it is on the wood.
    """

    place: int
    step: Coat
    product: Product
    role: Role

    @property
    def is_whole(self) -> bool:
        """Whether it goes all over the zone."""
        return self.step.spot is None


def layers(zone: Zone, products: Mapping[str, Product]) -> list[Layer]:
    """Return the coats of a zone in order, without those that go on hardware."""
    return [
        Layer(place, coat, products[coat.product], _role(coat, products[coat.product]))
        for place, coat in enumerate(map(coat_of, zone.steps))
        if coat is not None and coat.hardware is None and coat.product in products
    ]


def holds_back(layer: Layer) -> bool:
    """Whether a coat keeps resin, tannin and old stain in, all over or on spots."""
    return coat_nature(layer.step.do) == "blocker" or says(layer.product, *HOLD_BACK)


def is_stripped(zone: Zone, after: int, before: int) -> bool:
    """Whether the zone is stripped between two of its steps."""
    return any(map(takes_off, zone.steps[after + 1 : before]))


def whole_coats(zone: Zone, products: Mapping[str, Product]) -> list[Layer]:
    """Return the coats that stay and go all over a zone, in order."""
    return [layer for layer in layers(zone, products) if layer.role != "strip" and layer.is_whole]


def on_old_film(zone: Zone, place: int) -> bool:
    """Whether the old finish is still under a step: not stripped off, nor cut through in sanding.

    A coarse grit may go down to bare wood, and the file does not say whether it did.
    """
    if zone.surface in (*NOT_SEALED, None):
        return False
    before = zone.steps[:place]
    cut = (sanding for sanding in map(sanding_of, before) if sanding)
    return not any(map(takes_off, before)) and all(
        min(sanding.grits) > BARE_FROM_GRIT for sanding in cut
    )


def pairs(
    zone: Zone, found: list[Layer], first: tuple[Role, ...], then: tuple[Role, ...]
) -> Iterator[tuple[Layer, Layer]]:
    """Yield a coat of one role and the first later one of another, with no stripping between."""
    for under in found:
        if under.role not in first or not under.is_whole:
            continue
        over = (layer for layer in found if layer.place > under.place and layer.role in then)
        upper = next(over, None)
        if upper is not None and not is_stripped(zone, under.place, upper.place):
            yield under, upper


def note(layer: Layer, message: str) -> Problem:
    """Return a note on a coat."""
    where = f'{layer.step.do} "{layer.product.name}"'
    return Problem("note", layer.step.line, where, message)


def _role(step: Coat, product: Product) -> Role:
    match step.do:
        case "strip" | "condition" | "glaze" | "seal" | "prime" | "wax":
            return step.do
        case "wax hardware":
            return "metallic"
        case "dye" | "stain":
            return "colour"
        case "block":
            return "seal"
        case "fill grain":
            return "grain"
        case "lime wax":
            return "wax"
        case "top coat":
            role = _role_of_product(product)
            return "clear" if product.family == "shellac" and role == "seal" else role
        case "coat":
            return _role_of_product(product)
        case _:
            assert_never(step.do)


def _role_of_product(product: Product) -> Role:
    """Return what a product is on the wood where the step's word does not tell."""
    if says(product, "glaze"):
        return "glaze"
    role = _BY_FAMILY.get(product.family, "other")
    return "seal" if role == "prime" and says(product, "sealer") else role
