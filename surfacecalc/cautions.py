"""The usual cautions, those that apply to a job, each with its source.

They tell what is commonly done; local codes and licensed practice come first.
"""

from collections.abc import Callable
from dataclasses import dataclass

from surfacecalc.pieces import Coat, Piece, Product, Sand
from surfacecalc.zones.areas import Measured

LEAD_YEAR = 1978
"""Lead paint was banned for goods made after 27 Feb 1978 (16 CFR 1303; the date from memory)."""
TIP_OVER_MM = 685.8
"""27 in, from which 16 CFR 1261 (ASTM F2057-23) counts a clothing storage unit."""
SOLVENT_FAMILIES = ("varnish", "lacquer", "shellac", "thinner", "oil")
CLOSING = "Local codes and licensed practice come first."


@dataclass(frozen=True)
class Caution:
    """What to mind.

    Attributes:
        text: what and why.
        source: where the rule stands.
    """

    text: str
    source: str


def cautions(piece: Piece, measured: Measured) -> list[Caution]:
    """Return the cautions that apply to a job."""
    return [caution for applies, caution in _RULES if applies(piece, measured)]


def _may_hold_lead(piece: Piece, measured: Measured) -> bool:
    built = piece.settings.built
    is_old = not isinstance(built, int) or built < LEAD_YEAR
    coated = [zone for zone in piece.zones if zone.surface in ("painted", "varnished")]
    return is_old and any(isinstance(step, Sand) for zone in coated for step in zone.steps)


def _is_sanded(piece: Piece, measured: Measured) -> bool:
    return any(isinstance(step, Sand) for zone in piece.zones for step in zone.steps)


def _has_drying_oil(piece: Piece, measured: Measured) -> bool:
    return any(_is_oily(product) for product in _used(piece))


def _is_oily(product: Product) -> bool:
    """Whether a product holds a drying oil: an oil, or oil-based by its kind."""
    words = product.kind.lower().replace("-", " ").split()
    return product.family == "oil" or "oil" in words or "linseed" in words


def _has_solvent(piece: Piece, measured: Measured) -> bool:
    return any(
        (product.family in SOLVENT_FAMILIES or _is_oily(product)) and not _is_waterborne(product)
        for product in _used(piece)
    )


def _is_waterborne(product: Product) -> bool:
    kind = product.kind.lower()
    return any(word in kind for word in ("waterborne", "water-based", "water based", "water"))


def _is_sprayed(piece: Piece, measured: Measured) -> bool:
    return any(step.by == "spray" for step in _coats(piece))


def _has_lid(piece: Piece, measured: Measured) -> bool:
    return any("lid" in f"{part.name} {part.loose}".lower().split() for part in piece.parts)


def _may_tip(piece: Piece, measured: Measured) -> bool:
    has_drawer = any("inside" in part.solid.faces and part.loose for part in piece.parts)
    has_drawer |= any("drawer" in part.name.lower() for part in piece.parts)
    return has_drawer and measured.size_mm[2] >= TIP_OVER_MM


def _coats(piece: Piece) -> list[Coat]:
    return [step for zone in piece.zones for step in zone.steps if isinstance(step, Coat)]


def _used(piece: Piece) -> list[Product]:
    """Return the products that steps use, and what they are thinned with."""
    used = [piece.products[step.product] for step in _coats(piece)]
    thinners = [product.thinner for product in used if product.thinner]
    return [*used, *[piece.products[name] for name in thinners]]


_RULES: tuple[tuple[Callable[[Piece, Measured], bool], Caution], ...] = (
    (
        _may_hold_lead,
        Caution(
            "Old coatings may hold lead. Test before sanding. Until lead is ruled out: no dry"
            " sanding, no flame, no heat gun above 1100 F (593 C); work wet, clean up with a HEPA"
            " vacuum, keep children and pregnant women away.",
            "16 CFR 1303; 40 CFR 745.85; EPA 740-F-08-001",
        ),
    ),
    (
        _is_sanded,
        Caution(
            "Wood dust can cause cancer. Collect it at the tool and wear a particle respirator"
            " (N95 or better).",
            "IARC Monographs vol. 100C; 42 CFR 84",
        ),
    ),
    (
        _has_drying_oil,
        Caution(
            "Rags with drying oil can catch fire by themselves within hours. Never in a pile:"
            " spread them outdoors to dry, then keep them in a closed metal can with water.",
            "NFPA tip sheet on oily rags; 29 CFR 1910.106",
        ),
    ),
    (
        _has_solvent,
        Caution(
            "Solvent vapour burns and harms. Air the room, no flame or spark, and an"
            " organic-vapour cartridge: a dust mask does not hold vapour back.",
            "42 CFR 84; the product's safety data sheet",
        ),
    ),
    (
        _is_sprayed,
        Caution(
            "Spray mist is breathed in and can burn. Spray with extraction, and with cartridges"
            " for mist and vapour (P95 or better where the product holds oil).",
            "NIOSH 96-101, appendix B",
        ),
    ),
    (
        _has_lid,
        Caution(
            "A lid that latches by itself can trap a child. Take such a latch off or fit one that"
            " opens from inside, and a support that holds the lid in every position.",
            "CPSC statements of 2014 and 2020; ASTM F2598",
        ),
    ),
    (
        _may_tip,
        Caution(
            "A tall piece with drawers can tip over on a child. Anchor it to the wall.",
            "16 CFR 1261 (ASTM F2057-23)",
        ),
    ),
)
