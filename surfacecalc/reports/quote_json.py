"""A quote for other programs."""

from decimal import Decimal

from surfacecalc.model.pieces import Piece
from surfacecalc.prices.quotes import Quote
from surfacecalc.prices.statements import Statement
from surfacecalc.reports.json_shapes import SCHEMA, MaterialData, StatementData, printed
from surfacecalc.units.coins import rounded
from surfacecalc.units.money import json_number

FINE = Decimal("0.000001")
"""To which a rate and the price of one litre, kilo, metre or piece are given."""


def quote_json(piece: Piece, found: Quote) -> str:
    """Return a quote as one JSON object.

    All money is in whole coins and adds up, as on the screen: the lines of "wanted" and "asked",
    and what is charged for each supply to "supplies" there. Only "rate" and "price_of_one" are
    finer. Shares are fractions of one.
    """
    terms = found.job.pricing
    return printed(
        {
            "schema": SCHEMA,
            "piece": piece.settings.name,
            "count": piece.settings.count,
            "currency": piece.settings.currency,
            "coin": json_number(found.job.coin),
            "hours": json_number(found.job.hours),
            "hours_from": "plan" if found.are_hours_planned else "piece file",
            "charged": terms.supplies,
            "overhead": json_number(terms.overhead),
            "margin": json_number(terms.margin),
            "tax": json_number(terms.tax),
            "deposit": json_number(terms.deposit),
            "wanted": _statement(found, found.wanted),
            "asked": _statement(found, found.given),
            "difference": json_number(found.difference),
            "supplies": _supplies(found),
            "not_counted": list(found.not_counted),
            "assumed": list(found.assumed),
        },
        ascii_only=False,
    )


def _statement(found: Quote, told: Statement | None) -> StatementData | None:
    if told is None:
        return None
    return {
        "rate": _fine(told.rate),
        "rate_with_margin": json_number(found.with_margin(told)),
        "piece": json_number(told.piece),
        "supplies": json_number(told.supplies),
        "work": json_number(told.work),
        "overhead": json_number(told.overhead),
        "cost": json_number(told.cost),
        "margin": json_number(told.margin),
        "price": json_number(told.price),
        "delivery": json_number(told.delivery),
        "net": json_number(told.net),
        "tax": json_number(told.tax),
        "total": json_number(told.total),
        "total_each": json_number(found.each(told.total)),
        "deposit": json_number(told.deposit),
        "balance": json_number(told.balance),
    }


def _supplies(found: Quote) -> list[MaterialData]:
    return [
        {
            "supply": item.supply.name,
            "grit": item.supply.grit,
            "unit": item.supply.unit,
            "amount": json_number(item.amount),
            "price_of_one": _fine(item.per_unit) if item.is_counted else None,
            "used": json_number(coins.used) if item.is_counted else None,
            "charged": json_number(coins.charged) if item.is_counted else None,
            "bought": json_number(item.supply.cost),
            "on_hand": json_number(coins.on_hand) if item.is_counted else None,
            "kept": json_number(coins.kept) if item.is_counted else None,
        }
        for item, coins in zip(found.materials, found.coins[0], strict=True)
    ]


def _fine(amount: Decimal) -> float | int | None:
    return json_number(rounded(amount, FINE))
