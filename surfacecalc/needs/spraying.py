"""What goes through a spray gun for each coat, and how often its cup is filled."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from surfacecalc.closeness import whole_up
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor, likely
from surfacecalc.model.step_facts import coat_of, likely_coats
from surfacecalc.model.steps import Coat
from surfacecalc.needs.coating import coat_amount
from surfacecalc.zones.areas import Measured, ZoneArea
from surfacecalc.zones.worked_surfaces import (
    coated_m2,
    share_of_session,
    slender_share,
    takes_first_coat,
    thirsty_m2,
)


@dataclass(frozen=True)
class SprayLoad:
    """What one coat, or one side of it, takes of the gun.

    Attributes:
        litres: what is sprayed, with all that is stirred in [L].
        cup: what the gun's cup holds [L], None where nothing is filled or nobody knows.
    """

    litres: float
    cup: Factor | None

    @property
    def fillings(self) -> int | None:
        """How often the cup is filled, None where nothing is filled or nobody knows."""
        return None if self.cup is None else whole_up(self.litres / self.cup.range.likely)

    def beside(self, other: "SprayLoad") -> "SprayLoad":
        """Return what two zones take that are sprayed in one session."""
        return replace(self, litres=self.litres + other.litres)

    def on_one_side(self, sides: int) -> "SprayLoad":
        """Return what one of several sides takes, where the piece is turned over."""
        return replace(self, litres=self.litres / sides)


def loads_of(coat: Coat, first_coats: Callable[[int], float]) -> tuple[SprayLoad, ...]:
    """Return what each coat of a sprayed step takes of the gun.

    Args:
        coat: the step.
        first_coats: works out what so many first coats take of the product [L].
    """
    stirred_in = [coat.thin, coat.tint.share if coat.tint else None]
    whole = 1 + sum(share.range.likely for share in stirred_in if share is not None)
    taken = [first_coats(number) for number in range(likely_coats(coat) + 1)]
    return tuple(
        SprayLoad((taken[k + 1] - taken[k]) * whole, coat.cup) for k in range(likely_coats(coat))
    )


def zone_loads(
    piece: Piece, measured: Measured, zone: ZoneArea, number: int
) -> tuple[SprayLoad, ...]:
    """Return what each coat of a step in a zone takes of the gun; nothing for what is not sprayed.

    Args:
        piece: the piece.
        measured: its areas.
        zone: the zone.
        number: of the step among its steps, from 0.
    """
    step = zone.zone.steps[number]
    coat = coat_of(step)
    product = piece.shelf.products[coat.product] if coat is not None else None
    if coat is None or product is None or coat.by != "spray" or product.basis == "weight":
        return ()
    share = share_of_session(zone, step, measured.zones)
    is_once = coat.hardware is not None

    def first_coats(coats: int) -> float:
        taken = coat_amount(
            coated_m2(zone, coat, product, piece),
            coat,
            product,
            likely,
            bare=takes_first_coat(zone.zone.steps, number, zone.zone.surface),
            at_most=coats,
            extra_m2=thirsty_m2(zone, coat, product),
            kept_by=1.0 if is_once else share,
            slender=slender_share(zone, coat, product),
        )
        return float(taken) * (share if is_once else 1.0) if coats else 0.0

    return loads_of(coat, first_coats)
