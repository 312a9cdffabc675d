"""How long things dry in the air of the workshop."""

from collections.abc import Iterator
from dataclasses import dataclass

from surfacecalc.model.ranges import Factor
from surfacecalc.model.shelf import Drying, Product
from surfacecalc.model.workshop import Workshop

REFERENCE_C = 20.0
"""Temperature at which drying times count as they are written [degrees Celsius]."""
DOUBLES_EACH_C = 10.0
"""Drying takes twice as long for each 10 degrees less (Q10 = 2).

Assumed: common practice for coatings that cure by a reaction. ASTM D1640/D1640M-14 says
that paint dries slowly in the cold, and gives no factor.
"""
DAMP, VERY_DAMP = 0.7, 0.9
"""Relative humidity above which things dry slowly, and very slowly.

Assumed: common practice. US Army technical manual TM 43-0139 wants 45 to 50 % in a painting room;
no standard or handbook that was read turns humidity into hours.
"""


@dataclass(frozen=True)
class Lasting:
    """How long something takes without hands.

    Attributes:
        factor: the hours, as they are written [h].
        times: how many times as long it takes in the air of this workshop.
    """

    factor: Factor
    times: float = 1.0

    @property
    def likely_h(self) -> float:
        """How long it likely takes [h]."""
        return self.factor.range.likely * self.times


@dataclass(frozen=True)
class Dries:
    """How a product dries in this workshop.

    Attributes:
        dry: until it can be touched and turned over.
        recoat: until the next coat.
        cure: until it can be used.
        rub_out: until its film is rubbed out or waxed, None where that waits for the recoat.
    """

    dry: Lasting
    recoat: Lasting
    cure: Lasting
    rub_out: Lasting | None = None

    @property
    def rests(self) -> tuple[Factor, ...]:
        """What that rests on."""
        return self.dry.factor, self.recoat.factor, self.cure.factor


def temperature_factor(temperature_c: float) -> float:
    """Return how many times as long things dry as at 20 degrees Celsius.

    >>> temperature_factor(10), temperature_factor(20), temperature_factor(30)
    (2.0, 1.0, 0.5)
    """
    return float(2 ** ((REFERENCE_C - temperature_c) / DOUBLES_EACH_C))


def workshop_factor(workshop: Workshop) -> float:
    """Return how many times as long things dry in a workshop; 1 where it says no temperature."""
    return 1.0 if workshop.temperature_c is None else temperature_factor(workshop.temperature_c)


def drying_of(product: Product, workshop: Workshop) -> Dries | None:
    """Return how a product dries in a workshop, None where nothing is known."""
    drying: Drying | None = product.drying
    if drying is None:
        return None
    slower = workshop_factor(workshop)
    return Dries(
        dry=Lasting(drying.dry_h, slower),
        recoat=Lasting(drying.recoat_h, slower),
        cure=Lasting(drying.cure_h, slower),
        rub_out=None if drying.rub_out_h is None else Lasting(drying.rub_out_h, slower),
    )


def remarks_on_air(workshop: Workshop, products: list[Product]) -> Iterator[str]:
    """Yield what to watch in the workshop's air, for the products that are put on."""
    if workshop.temperature_c is None:
        yield f"Drying times are for {_degrees(REFERENCE_C)}."
    else:
        yield from _remarks_on_temperature(workshop.temperature_c, products)
    humidity = workshop.humidity
    if humidity is not None and humidity > DAMP:
        slow = "very slowly" if humidity > VERY_DAMP else "slowly"
        limit = VERY_DAMP if humidity > VERY_DAMP else DAMP
        yield (
            f"The air is damp, {100 * humidity:.3g} %: above {100 * limit:g} % finishes dry {slow}"
            " (common practice), and the waits here do not include that. Touch-test"
            " before the next coat."
        )


def _remarks_on_temperature(temperature_c: float, products: list[Product]) -> Iterator[str]:
    for product in products:
        coldest = product.drying.coldest_c if product.drying else None
        if coldest is not None and temperature_c < coldest.range.likely:
            mark = f" ({coldest.source})" if coldest.source in ("assumed", "published") else ""
            yield (
                f"{_degrees(temperature_c)} is too cold for {product.name}: it needs"
                f" {_degrees(coldest.range.likely)} or more{mark}."
            )
    if temperature_c == REFERENCE_C or not products:
        return
    yield (
        f"At {_degrees(temperature_c)} drying takes {temperature_factor(temperature_c):.3g} times"
        f" as long as at {_degrees(REFERENCE_C)} (assumed: twice as long for each"
        f" {DOUBLES_EACH_C:.0f} C less)."
    )


def _degrees(temperature_c: float) -> str:
    return f"{temperature_c:.3g} C ({temperature_c * 9 / 5 + 32:.3g} F)"
