"""Cautions on what finishes harden with, or are made of: isocyanates, acid, nitrocellulose."""

from collections.abc import Iterable, Iterator

from surfacecalc.catalogue.bases import says
from surfacecalc.cautions import caution_texts
from surfacecalc.cautions.caution import Caution
from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import Product
from surfacecalc.model.step_facts import coats_of
from surfacecalc.model.step_supplies import products_in, steps_of
from surfacecalc.zones.areas import Measured

TWO_PART = ("two part", "2 part", "two component", "2 component", "2k")
ISOCYANATE = ("isocyanate", "polyisocyanate", "crosslinker", "cross linker")
ACID = (
    "conversion varnish", "conversion lacquer", "acid catalysed", "acid catalyzed", "precatalysed",
    "precatalyzed", "pre catalysed", "pre catalyzed", "catalysed", "catalyzed", "acid cured",
)  # fmt: skip
NOT_URETHANE = ("epoxy", "polyester")
OTHER_HARDENERS = (*NOT_URETHANE, "acid", "peroxide")
NOT_NITROCELLULOSE = ("acrylic", "cab", "waterborne", "water based")
FILMS = ("paint", "primer", "varnish", "lacquer", "hardener")
"""Families of which a two-part product hardens with isocyanate unless its kind says epoxy."""


def isocyanates(piece: Piece, measured: Measured) -> Caution | None:
    """Apply to every two-part urethane and to crosslinkers; sprayed ones ask for supplied air."""
    found = with_isocyanate(piece)
    if not found:
        return None
    caution = _with_cup(caution_texts.ISOCYANATES.applied_to(found), piece, found)
    if sprayed(piece, found):
        caution = caution.adding(caution_texts.SUPPLIED_AIR, caution_texts.SUPPLIED_AIR_SOURCE)
    return caution


def acid_cured(piece: Piece, measured: Measured) -> Caution | None:
    """Apply to conversion finishes, which harden with an acid, and to the acid."""
    acids = {
        hardener.name
        for base, hardener in _hardened(piece)
        if says(base, *ACID, by_name=True) or says(hardener, "acid", by_name=True)
    }
    found = [
        product
        for name, product in products_in(piece).items()
        if name in acids or says(product, *ACID, by_name=True)
    ]
    caution = caution_texts.ACID_CURED.applied_to(found) if found else None
    return _with_cup(caution, piece, found) if caution else None


def nitrocellulose(piece: Piece, measured: Measured) -> Caution | None:
    """Apply to lacquer that does not say it is anything else."""
    found = [
        product
        for product in products_in(piece).values()
        if says(product, "nitrocellulose", by_name=True)
        or (
            product.family == "lacquer"
            and product.nature is not None
            and product.nature.chemistry == "evaporating solvent"
            and not says(product, *NOT_NITROCELLULOSE, *ACID, *TWO_PART, by_name=True)
        )
    ]
    if not found:
        return None
    caution = caution_texts.NITROCELLULOSE.applied_to(found)
    if sprayed(piece, found):
        caution = caution.adding(caution_texts.SPRAY_LIMIT, caution_texts.SPRAY_LIMIT_SOURCE)
    return caution


def with_isocyanate(piece: Piece) -> list[Product]:
    """Return the products in use that harden with isocyanate, and what such a hardener goes into.

    A hardener for a coat counts as one unless it, or what it goes into, says what else it is: the
    mistake on that side costs a pair of gloves.
    """
    pairs = [
        pair for pair in _hardened(piece)
        if not any(says(one, *OTHER_HARDENERS, *ACID, by_name=True) for one in pair)
    ]  # fmt: skip
    names = {product.name for pair in pairs for product in pair}
    return [
        product
        for name, product in products_in(piece).items()
        if name in names or has_isocyanate(product)
    ]


def _with_cup(caution: Caution, piece: Piece, found: Iterable[Product]) -> Caution:
    """Return a caution with what to do with the rest, where one of some products is mixed."""
    names = {product.name for product in found}
    if not any(coat.hardener and coat.product in names for coat in coats_of(steps_of(piece))):
        return caution
    return caution.adding(caution_texts.LEFT_IN_CUP, caution_texts.LEFT_IN_CUP_SOURCE)


def _hardened(piece: Piece) -> Iterator[tuple[Product, Product]]:
    """Yield what a coat puts on, with the hardener that the file names for it."""
    for coat in coats_of(steps_of(piece)):
        if coat.hardener is not None and coat.hardener.product is not None:
            products = piece.shelf.products
            yield products[coat.product], products[coat.hardener.product]


def has_isocyanate(product: Product) -> bool:
    """Whether a product hardens with isocyanate, as far as its kind and its name tell."""
    if says(product, *ISOCYANATE, by_name=True):
        return True
    is_two_part = product.family in FILMS and says(product, *TWO_PART, by_name=True)
    return is_two_part and not says(product, *NOT_URETHANE, *ACID, by_name=True)


def sprayed(piece: Piece, products: Iterable[Product]) -> list[Product]:
    """Return those of some products that a step sprays, the hardener in them too."""
    coats = [coat for coat in coats_of(steps_of(piece)) if coat.by == "spray"]
    names = {coat.product for coat in coats}
    names |= {coat.hardener.product for coat in coats if coat.hardener and coat.hardener.product}
    return [product for product in products if product.name in names]
