"""How much tape and film masking takes."""

from collections.abc import Iterator

from surfacecalc.needs.uses import Place, Supplied, Taken
from surfacecalc.pieces import Piece
from surfacecalc.ranges import Evaluate, Number
from surfacecalc.steps import Mask
from surfacecalc.zones.areas import ZoneArea

SHORTEST_M = 0.001
"""A shorter line is the rounding of a corner, and nothing that is taped [m]."""


def tape_m(zone: ZoneArea, mask: Mask, evaluate: Evaluate) -> Number:
    """Return the tape that a zone takes along the lines where it meets others [m].

    The tape lies on the other zone's side of each line, once around.
    """
    return masked_m(zone, mask) * (1 + evaluate(mask.overlap))


def masked_m(zone: ZoneArea, mask: Mask) -> float:
    """Return how far a zone meets those that are masked [m]."""
    return sum(zone.meets_m[name] for name in masked_zones(zone, mask))


def masked_zones(zone: ZoneArea, mask: Mask) -> list[str]:
    """Return the zones that tape is put on: those that are named, or all, that the zone meets."""
    against = mask.against or tuple(zone.meets_m)
    return [name for name in against if zone.meets_m.get(name, 0.0) >= SHORTEST_M]


def mask_uses(piece: Piece, zone: ZoneArea, mask: Mask, place: Place) -> Iterator[Taken]:
    """Yield what masking takes: tape by length, film or paper by area."""
    tape = piece.tapes[mask.tape]
    yield (
        Supplied("tape", tape.name),
        place.use(lambda evaluate: tape_m(zone, mask, evaluate), [mask.overlap]),
    )
    if mask.film is not None:
        film = piece.tapes[mask.film]
        yield (
            Supplied("tape", film.name),
            place.use(lambda _: mask.film_m2, [], once=True),
        )
