"""How much tape and film masking takes."""

from collections.abc import Iterator

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Evaluate, Number
from surfacecalc.model.shelf import SupplyKey
from surfacecalc.model.steps import Mask
from surfacecalc.needs.uses import StepSite, Taken
from surfacecalc.zones.areas import ZoneArea
from surfacecalc.zones.masked_lines import masked_m


def tape_m(zone: ZoneArea, mask: Mask, evaluate: Evaluate) -> Number:
    """Return the tape that a zone takes along the lines where it meets others [m].

    The tape lies on the other zone's side of each line, once around.
    """
    return masked_m(zone, mask) * (1 + evaluate(mask.overlap))


def mask_uses(piece: Piece, zone: ZoneArea, mask: Mask, place: StepSite) -> Iterator[Taken]:
    """Yield what masking takes: tape by length, film or paper by area."""
    tape = piece.shelf.tapes[mask.tape]
    yield (
        SupplyKey("tape", tape.name),
        place.use(lambda evaluate: tape_m(zone, mask, evaluate), [mask.overlap]),
    )
    if mask.film is not None:
        film = piece.shelf.tapes[mask.film]
        yield (
            SupplyKey("tape", film.name),
            place.use(lambda _: mask.film_m2, [], once=True),
        )
