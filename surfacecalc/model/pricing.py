"""What [price] says, with every default filled in."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

Basis = Literal["used", "bought"]


@dataclass(frozen=True)
class Pricing:
    """What [price] says. Money is in the piece's currency, shares are fractions of one.

    Attributes:
        line: where it stands.
        piece: what was paid for the piece.
        rate: what an hour shall bring, None where it is not said.
        asked: what the customer pays in all, tax and delivery in it; None where it is not said.
        hours: hands-on time [h], None where it is left to the plan.
        supplies: whether what is used of a pack is charged, or the whole pack.
        overhead: share of supplies and hours that rent, tools and light take.
        margin: share of the price before delivery and tax; 0 or more, less than 1.
        tax: share of the price with delivery that is put on top.
        deposit: share of the total that is paid before the work.
        delivery: what delivery costs, passed on as it is.
    """

    line: int
    piece: Decimal = Decimal(0)
    rate: Decimal | None = None
    asked: Decimal | None = None
    hours: Decimal | None = None
    supplies: Basis = "used"
    overhead: Decimal = Decimal(0)
    margin: Decimal = Decimal(0)
    tax: Decimal = Decimal(0)
    deposit: Decimal = Decimal(0)
    delivery: Decimal = Decimal(0)
