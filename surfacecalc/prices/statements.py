"""From a rate to a price, and from a price to the rate it pays.

    cost  = piece + supplies + work + overhead        overhead = share x (supplies + work)
    price = cost + margin                             margin   = share x price
    net   = price + delivery
    total = net + tax                                 tax      = share x net

The margin is a share of the price, so the price is cost / (1 - share). A mark-up, which is a share
of the cost, is not used: a margin of 20 % is a mark-up of 25 %. The amounts are exact until they
are written down as a statement, in whole coins that add up.
"""

from dataclasses import dataclass
from decimal import Decimal

from surfacecalc.model.pricing import Pricing
from surfacecalc.units.coins import apportioned, rounded


@dataclass(frozen=True)
class JobCosts:
    """What a price is worked out from.

    Attributes:
        pricing: what [price] says.
        supplies: what the supplies are worth that are charged, not rounded.
        hours: hands-on time [h], more than 0.
        coin: the smallest coin of the currency.
    """

    pricing: Pricing
    supplies: Decimal
    hours: Decimal
    coin: Decimal


@dataclass(frozen=True)
class Statement:
    """A price, line by line, in whole coins; the lines add up.

    Attributes:
        rate: what an hour brings, not rounded; below zero where every hour costs money.
        piece: what was paid for the piece.
        supplies: what they are worth.
        work: hours at the rate.
        overhead: its share of supplies and work; of supplies alone where work is below zero.
        margin: its share of the price; none where the price is below zero.
        delivery: as given.
        tax: on top of price and delivery.
        deposit: paid before the work.
    """

    rate: Decimal
    piece: Decimal
    supplies: Decimal
    work: Decimal
    overhead: Decimal
    margin: Decimal
    delivery: Decimal
    tax: Decimal
    deposit: Decimal

    @property
    def cost(self) -> Decimal:
        """The price without the margin."""
        return self.piece + self.supplies + self.work + self.overhead

    @property
    def price(self) -> Decimal:
        """The price before delivery and tax."""
        return self.cost + self.margin

    @property
    def net(self) -> Decimal:
        """The price with delivery, before tax."""
        return self.price + self.delivery

    @property
    def total(self) -> Decimal:
        """What the customer pays in all."""
        return self.net + self.tax

    @property
    def balance(self) -> Decimal:
        """What is left to pay after the deposit."""
        return self.total - self.deposit


def price_for(job: JobCosts, rate: Decimal) -> Statement:
    """Return the price to ask so that an hour brings a rate, zero or more."""
    terms = job.pricing
    work = rate * job.hours
    overhead = terms.overhead * (job.supplies + work)
    cost = terms.piece + job.supplies + work + overhead
    price = cost / (1 - terms.margin)
    net = rounded(price + terms.delivery, job.coin)
    tax = rounded(net * terms.tax, job.coin)
    return _statement(job, rate, (work, overhead, price - cost), net, tax)


def pay_for(job: JobCosts, asked: Decimal) -> Statement:
    """Return what is left for the hours of a price, tax and delivery in it.

    Args:
        job: what the price is worked out from.
        asked: what the customer pays in all, in whole coins.
    """
    terms = job.pricing
    exact_net = asked / (1 + terms.tax)
    price = exact_net - terms.delivery
    margin = terms.margin * max(price, Decimal(0))
    work, overhead = _work_and_overhead(job, price - margin - terms.piece)
    net = rounded(exact_net, job.coin)
    return _statement(job, work / job.hours, (work, overhead, margin), net, asked - net)


def _work_and_overhead(job: JobCosts, left: Decimal) -> tuple[Decimal, Decimal]:
    """Return what is left for the hours, and the overhead; hours that pay nothing bear none."""
    share = job.pricing.overhead
    work = left / (1 + share) - job.supplies
    if work < 0:
        work = left - job.supplies * (1 + share)
    return work, left - job.supplies - work


def _statement(
    job: JobCosts, rate: Decimal, own: tuple[Decimal, ...], net: Decimal, tax: Decimal
) -> Statement:
    """Return the lines in whole coins.

    What was paid for the piece and delivery are in whole coins as given, and supplies have one
    value whatever the price; so work, overhead and margin share what rounding leaves.
    """
    terms, coin = job.pricing, job.coin
    piece, supplies, delivery = (
        rounded(amount, coin) for amount in (terms.piece, job.supplies, terms.delivery)
    )
    rest = net - piece - supplies - delivery
    work, overhead, margin = apportioned(own, rest, coin)
    return Statement(
        rate=rate,
        piece=piece,
        supplies=supplies,
        work=work,
        overhead=overhead,
        margin=margin,
        delivery=delivery,
        tax=tax,
        deposit=rounded((net + tax) * terms.deposit, coin),
    )
