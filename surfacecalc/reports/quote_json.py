"""A quote for other programs."""

from decimal import Decimal

from surfacecalc.model.pieces import Piece
from surfacecalc.prices.quotes import Quote
from surfacecalc.prices.statements import Statement
from surfacecalc.reports.json_shapes import SCHEMA, MaterialData, StatementData, printed
from surfacecalc.units.coins import rounded

FINE = Decimal("0.000001")
"""To which rates, and what single supplies are worth, are told."""


def quote_json(piece: Piece, found: Quote) -> str:
    """Return a quote as one JSON object.

    The lines of "wanted" and "asked" are in whole coins and add up; rates, and what single supplies
    are worth, are not rounded to coins. Shares are fractions of one.
    """
    terms = found.job.pricing
    return printed(
        {
            "schema": SCHEMA,
            "piece": piece.settings.name,
            "currency": piece.settings.currency,
            "coin": _number(found.job.coin),
            "hours": _number(found.job.hours),
            "hours_from": "plan" if found.are_hours_planned else "piece file",
            "charged": terms.supplies,
            "overhead": _number(terms.overhead),
            "margin": _number(terms.margin),
            "tax": _number(terms.tax),
            "deposit": _number(terms.deposit),
            "wanted": _statement(found, found.wanted),
            "asked": _statement(found, found.given),
            "difference": _number(found.difference),
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
        "rate_with_margin": _number(found.with_margin(told)),
        "piece": _number(told.piece),
        "supplies": _number(told.supplies),
        "work": _number(told.work),
        "overhead": _number(told.overhead),
        "cost": _number(told.cost),
        "margin": _number(told.margin),
        "price": _number(told.price),
        "delivery": _number(told.delivery),
        "net": _number(told.net),
        "tax": _number(told.tax),
        "total": _number(told.total),
        "deposit": _number(told.deposit),
        "balance": _number(told.balance),
    }


def _supplies(found: Quote) -> list[MaterialData]:
    return [
        {
            "supply": item.supply.name,
            "grit": item.supply.grit,
            "unit": item.supply.unit,
            "amount": _number(item.amount),
            "price_of_one": _fine(item.per_unit) if item.is_counted else None,
            "used": _fine(item.used) if item.is_counted else None,
            "bought": _number(item.supply.cost),
            "on_hand": _fine(item.on_hand) if item.is_counted else None,
            "kept": _fine(item.kept) if item.is_counted else None,
        }
        for item in found.materials
    ]


def _fine(amount: Decimal) -> float | int | None:
    return _number(rounded(amount, FINE))


def _number(amount: Decimal | None) -> float | int | None:
    """Return a JSON number, whole where it is whole."""
    if amount is None:
        return None
    return int(amount) if amount == amount.to_integral_value() else float(amount)
