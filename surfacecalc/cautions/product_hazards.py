"""Cautions on what comes out of the tin, found from the kinds of the products in use."""

from collections.abc import Iterable

from surfacecalc.catalogue.bases import base_of, says
from surfacecalc.cautions import caution_texts
from surfacecalc.cautions.caution import Caution
from surfacecalc.cautions.hardening import sprayed, with_isocyanate
from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import Product
from surfacecalc.model.step_facts import any_washing_of, coat_nature, coats_of, filling_of
from surfacecalc.model.step_supplies import products_in, steps_of
from surfacecalc.problems import listing
from surfacecalc.zones.areas import Measured

METHYLENE_CHLORIDE = ("methylene chloride", "dichloromethane", "dcm")
NOT_CAUSTIC = (*METHYLENE_CHLORIDE, "solvent", "gel")
CAUSTIC = ("caustic", "lye", "potash", "sodium hydroxide", "alkaline")
ALKALINE = ("trisodium", "phosphate", "tsp", "sugar soap", "washing soda", "soda", "ammonia",
            "alkaline", "degreaser", "caustic")  # fmt: skip
BLEACHING = ("bleach", "chlorine", "hypochlorite", "oxalic", "acid", "peroxide")
MILD = ("soap", "dish soap", "detergent", "vinegar")
EPOXY = ("epoxy",)
TWO_PART = ("two part", "2 part", "two component", "2 component", "polyester", "2k")


def stripper(piece: Piece, measured: Measured) -> Caution | None:
    """Apply where a chemical stripper is used."""
    found = _strippers(piece)
    if not found:
        return None
    banned = [product for product in found if says(product, *METHYLENE_CHLORIDE, by_name=True)]
    caution = caution_texts.STRIPPER.applied_to(found)
    if banned:
        caution = caution.adding(caution_texts.BANNED.format(name=banned[0].name))
    if any(not says(product, *NOT_CAUSTIC, by_name=True) for product in found):
        caution = caution.adding(caution_texts.CAUSTIC, caution_texts.CAUSTIC_SOURCE)
    return caution


def alkaline_cleaner(piece: Piece, measured: Measured) -> Caution | None:
    """Apply where a cleaner like trisodium phosphate is used."""
    return _applied(
        caution_texts.ALKALINE, [p for p in _cleaners(piece) if says(p, *ALKALINE, by_name=True)]
    )


def bleach(piece: Piece, measured: Measured) -> Caution | None:
    """Apply where bleach or an acid is washed with."""
    return _applied(
        caution_texts.BLEACH, [p for p in _cleaners(piece) if says(p, *BLEACHING, by_name=True)]
    )


def unnamed_cleaner(piece: Piece, measured: Measured) -> Caution | None:
    """Apply where a kind does not say what is in a cleaner; soap, water and spirits do."""
    known = (*ALKALINE, *BLEACHING, *MILD)
    named = [p for p in _cleaners(piece) if says(p, *known, by_name=True) or p.family == "thinner"]
    found = [p for p in _cleaners(piece) if p not in named and base_of(p) != "solvent"]
    return _applied(caution_texts.CLEANER, found)


def peroxide(piece: Piece, measured: Measured) -> Caution | None:
    """Apply to two-part fillers, but for epoxy: their hardener is a peroxide."""
    return _applied(
        caution_texts.PEROXIDE, [p for p in _two_part(piece) if not says(p, *EPOXY, by_name=True)]
    )


def epoxy(piece: Piece, measured: Measured) -> Caution | None:
    """Apply to epoxy, filler or glue."""
    return _applied(
        caution_texts.EPOXY,
        [p for p in products_in(piece).values() if says(p, *EPOXY, by_name=True)],
    )


def oily_rags(piece: Piece, measured: Measured) -> Caution | None:
    """Apply to drying oils and what is oil-based; not to waterborne, shellac or lacquer.

    A stain, varnish or glaze that does not say what it is based on counts as oil-based: the
    mistake on that side costs a can of water. The text says so.
    """
    found = [p for p in products_in(piece).values() if base_of(p) in ("drying oil", "unknown")]
    caution = _applied(caution_texts.OILY_RAGS, found)
    unknown = [product for product in found if base_of(product) == "unknown"]
    return caution.adding(_counted_as_oil(unknown)) if caution and unknown else caution


def solvent(piece: Piece, measured: Measured) -> Caution | None:
    """Apply to what is not waterborne and gives off solvent, strippers included.

    What does not say its base counts as oil-based here as well; `oily_rags` says so.
    """
    bases = ("drying oil", "solvent", "unknown")
    strippers = _strippers(piece)
    caustic = [p for p in strippers if says(p, *CAUSTIC, by_name=True)]
    found = [
        product
        for product in products_in(piece).values()
        if (base_of(product) in bases or product in strippers or _is_canned(product))
        and product not in caustic
        and product not in with_isocyanate(piece)
    ]
    return _applied(caution_texts.SOLVENT, found)


def spray(piece: Piece, measured: Measured) -> Caution | None:
    """Apply where anything is sprayed, but for isocyanates, which no cartridge stops."""
    found = sprayed(piece, piece.shelf.products.values())
    return _applied(caution_texts.SPRAY, [p for p in found if p not in with_isocyanate(piece)])


def _is_canned(product: Product) -> bool:
    """Whether a product comes in a spray can, whose propellant burns whatever is in it."""
    return says(product, "spray can", "aerosol", "in a can", by_name=True)


def _applied(caution: Caution, found: list[Product]) -> Caution | None:
    return caution.applied_to(found) if found else None


def _counted_as_oil(unknown: Iterable[Product]) -> str:
    """Return a sentence on products whose kind does not say what they are based on."""
    names = listing(sorted(f'"{product.name}"' for product in unknown), 3)
    return (
        f"The kind of {names} does not say what it is based on, so it counts as oil-based; if it"
        " is waterborne, write waterborne in its kind."
    )


def _strippers(piece: Piece) -> list[Product]:
    names = {
        coat.product for coat in coats_of(steps_of(piece)) if coat_nature(coat.do) == "stripper"
    }
    return [
        product
        for name, product in products_in(piece).items()
        if name in names or says(product, "stripper", "paint remover", "varnish remover")
    ]


def _cleaners(piece: Piece) -> list[Product]:
    names = {wash.product for wash in map(any_washing_of, steps_of(piece)) if wash}
    return [product for name, product in products_in(piece).items() if name in names]


def _two_part(piece: Piece) -> list[Product]:
    """Return the fillers that a hardener is mixed into, or whose kind says two-part."""
    fillings = (fill for fill in map(filling_of, steps_of(piece)) if fill)
    names = {fill.product for fill in fillings if fill.hardener is not None}
    return [
        product
        for name, product in products_in(piece).items()
        if name in names or (product.family == "filler" and says(product, *TWO_PART, by_name=True))
    ]
