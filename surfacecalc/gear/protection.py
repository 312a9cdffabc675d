"""What the cautions on a job ask to wear or to keep at hand.

Which respirator goes with which hazard stands in the cautions, each with its source; this module
only lists it.
"""

from collections.abc import Iterator, Mapping

from surfacecalc.cautions import Caution, caution_texts
from surfacecalc.cautions.lead_tests import untested_zones
from surfacecalc.gear.gear import Gear
from surfacecalc.model.pieces import Piece

_FULL = ("n100", "p100", "ffp3")
_MIST = ("mist", "a2p3")
_ORGANIC = ("organic vapour", "organic vapor", "organic-vapour", "organic-vapor", "vapour cart",
            "vapor cart", "respirator cart", *_MIST)  # fmt: skip


def _worn(name: str, *words: str, instead_of: tuple[str, ...] = ()) -> Gear:
    return Gear(name, words, instead_of, is_worn=True)


PARTICLES = _worn(
    "particle respirator (N95 or better)", "n95", "p95", "ffp2", "particle respirator", *_FULL
)
LEAD_PARTICLES = _worn("particle respirator (N100)", *_FULL, instead_of=(PARTICLES.name,))
VAPOUR = _worn("organic-vapour respirator cartridges", *_ORGANIC)
MIST = _worn(
    "respirator cartridges for mist and vapour",
    "respirator cart",
    *_MIST,
    instead_of=(VAPOUR.name,),
)
FORMALDEHYDE = _worn("respirator cartridges marked for formaldehyde", "formaldehyde")
SUPPLIED_AIR = _worn("respirator with supplied air", "supplied air", "supplied-air")
GLOVES = _worn("gloves that the label calls for", "glove")
GOGGLES = _worn("goggles", "goggle", "face shield")
LEAD_TEST = Gear("lead test", ("lead",))
VACUUM = Gear("HEPA vacuum", ("hepa",))
METAL_CAN = Gear("metal can with a lid, for oily rags", ("metal can", "rag can"))

ASKED_FOR: Mapping[str, tuple[Gear, ...]] = {
    caution.headline: asked
    for caution, asked in (
        (caution_texts.LEAD, (LEAD_PARTICLES, VACUUM)),
        (caution_texts.LEAD_FOUND, (LEAD_PARTICLES, VACUUM)),
        (caution_texts.WOOD_DUST, (PARTICLES,)),
        (caution_texts.WOOD_DUST_WITH_LEAD, (LEAD_PARTICLES, VACUUM)),
        (caution_texts.SILICA, (PARTICLES,)),
        (caution_texts.SOLVENT, (VAPOUR,)),
        (caution_texts.PEROXIDE, (VAPOUR, GLOVES, GOGGLES)),
        (caution_texts.EPOXY, (GLOVES, GOGGLES)),
        (caution_texts.ISOCYANATES, (GLOVES, GOGGLES)),
        (caution_texts.ACID_CURED, (FORMALDEHYDE, GLOVES, GOGGLES)),
        (caution_texts.OILY_RAGS, (METAL_CAN,)),
        (caution_texts.STRIPPER, (GLOVES, GOGGLES)),
        (caution_texts.ALKALINE, (GLOVES, GOGGLES)),
        (caution_texts.BLEACH, (GLOVES, GOGGLES)),
        (caution_texts.CLEANER, (GLOVES,)),
        (caution_texts.SPRAY, (MIST,)),
    )
}
"""By the headline of a caution, what its text asks for."""
OLD_FINISH = "the old finish"
IN_SHORT: Mapping[str, str] = {
    caution_texts.LEAD.headline: OLD_FINISH,
    caution_texts.LEAD_FOUND.headline: OLD_FINISH,
    caution_texts.WOOD_DUST_WITH_LEAD.headline: OLD_FINISH,
    caution_texts.SILICA.headline: "sanding filler",
}
"""What the gear of a caution is for, where the caution itself says it in a sentence."""


def protection(piece: Piece, found: list[Caution]) -> Iterator[tuple[Gear, str]]:
    """Yield what to wear or to keep at hand, and what for.

    Args:
        piece: the piece.
        found: the cautions that apply to the job.
    """
    if untested_zones(piece):
        yield LEAD_TEST, OLD_FINISH
    for caution in found:
        asked = list(ASKED_FOR.get(caution.headline, ()))
        if caution_texts.SUPPLIED_AIR in caution.details:
            asked.append(SUPPLIED_AIR)
        for use in _uses(caution):
            yield from ((gear, use) for gear in asked)


def _uses(caution: Caution) -> tuple[str, ...]:
    """Return what the gear of a caution is for, so that cautions on one product say it once."""
    in_short = IN_SHORT.get(caution.headline)
    return (in_short,) if in_short else caution.things or (caution.applies_to,)
