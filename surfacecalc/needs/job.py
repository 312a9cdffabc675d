"""What the whole job needs, summed by supply over all zones and steps."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Literal

from surfacecalc.needs.coating import coat_amount, takes_first_coat
from surfacecalc.needs.draws import Draws
from surfacecalc.needs.sanding import sanding_count
from surfacecalc.pieces import Coat, Piece, Product, Sand
from surfacecalc.ranges import Evaluate, Factor, Number, likely
from surfacecalc.zones.areas import Measured, ZoneArea

What = Literal["product", "abrasive", "thinner"]


@dataclass(frozen=True)
class Use:
    """What one step in one zone takes of a supply.

    Attributes:
        zone: the zone.
        area_m2: its area.
        step: the step.
        bare: whether its first coat goes on a bare surface.
        thin: share of the product that this use of its thinner is, None for all other uses.
        likely: the amount with every factor at its likely value.
        drawn: the amount, one number or one for each draw.
    """

    zone: str
    area_m2: float
    step: Sand | Coat
    bare: bool
    thin: Factor | None
    likely: float
    drawn: Number


@dataclass
class Need:
    """What all zones take of one supply.

    Attributes:
        what: whether it is a product, an abrasive or a product's thinner.
        name: of the supply.
        source: name of the product or abrasive it belongs to.
        grit: of an abrasive, else None.
        uses: step by step.
    """

    what: What
    name: str
    source: str
    grit: int | None
    uses: list[Use] = field(default_factory=list)

    @property
    def likely(self) -> float:
        """The amount with every factor at its likely value."""
        return sum(use.likely for use in self.uses)

    @property
    def drawn(self) -> Number:
        """The amount, one number or one for each draw."""
        total: Number = 0.0
        for use in self.uses:
            total = total + use.drawn
        return total


def job_needs(piece: Piece, measured: Measured, draws: Draws) -> list[Need]:
    """Return what a job needs: supplies by first use, abrasives by grit, coarse first."""
    found: dict[tuple[What, str, int], Need] = {}
    for zone in measured.zones:
        for number, step in enumerate(zone.zone.steps):
            if isinstance(step, Sand):
                _add_sanding(found, piece, zone, step, draws)
            else:
                bare = takes_first_coat(zone.zone.steps, number, zone.zone.surface)
                _add_coats(found, piece, zone, step, draws, bare=bare)
    return list(_in_order(list(found.values())))


def thinner_name(product: Product) -> str:
    """Return what the thinner of a product is called on the list."""
    return product.thinner or f"thinner for {product.name}"


def _add_sanding(
    found: dict[tuple[What, str, int], Need],
    piece: Piece,
    zone: ZoneArea,
    step: Sand,
    draws: Evaluate,
) -> None:
    abrasive = piece.abrasives[step.abrasive]
    for grit in step.grits:
        need = found.setdefault(
            ("abrasive", abrasive.name, grit),
            Need("abrasive", abrasive.name, abrasive.name, grit),
        )
        sure = float(sanding_count(zone.area_m2, abrasive, grit, likely))
        drawn = sanding_count(zone.area_m2, abrasive, grit, draws)
        need.uses.append(Use(zone.zone.name, zone.area_m2, step, False, None, sure, drawn))


def _add_coats(
    found: dict[tuple[What, str, int], Need],
    piece: Piece,
    zone: ZoneArea,
    step: Coat,
    draws: Evaluate,
    *,
    bare: bool,
) -> None:
    product = piece.products[step.product]
    name = product.name
    sure = float(coat_amount(zone.area_m2, step, product, likely, bare=bare))
    drawn = coat_amount(zone.area_m2, step, product, draws, bare=bare)
    need = found.setdefault(("product", name, 0), Need("product", name, name, None))
    need.uses.append(Use(zone.zone.name, zone.area_m2, step, bare, None, sure, drawn))
    if step.thin is not None:
        thinner = thinner_name(product)
        what: What = "product" if product.thinner else "thinner"
        need = found.setdefault((what, thinner, 0), Need(what, thinner, name, None))
        sure, drawn = sure * float(likely(step.thin)), drawn * draws(step.thin)
        need.uses.append(Use(zone.zone.name, zone.area_m2, step, bare, step.thin, sure, drawn))


def _in_order(needs: list[Need]) -> Iterator[Need]:
    """Yield needs by first use, all grits of an abrasive where its first one stands."""
    done: set[str] = set()
    for need in needs:
        if need.grit is None:
            yield need
        elif need.name not in done:
            done.add(need.name)
            grits = [other for other in needs if other.grit and other.name == need.name]
            yield from sorted(grits, key=lambda other: other.grit or 0)
