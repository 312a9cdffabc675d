"""A quote for other programs."""

import json
from decimal import Decimal
from typing import Any

from surfacecalc.model.pieces import Piece
from surfacecalc.prices.quotes import Quote
from surfacecalc.prices.statements import Statement
from surfacecalc.units.coins import rounded

FINE = Decimal("0.000001")
"""To which rates, and what single supplies are worth, are told."""


def quote_json(piece: Piece, found: Quote) -> str:
    """Return a quote as one JSON object.

    The lines of "wanted" and "asked" are in whole coins and add up; rates, and what single supplies
    are worth, are not rounded to coins. Shares are fractions of one.
    """
    terms = found.job.pricing
    return json.dumps(
        {
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
        indent=2,
        ensure_ascii=False,
        allow_nan=False,
    )


def _statement(found: Quote, told: Statement | None) -> dict[str, Any] | None:
    if told is None:
        return None
    words = (
        "piece", "supplies", "work", "overhead", "cost", "margin", "price", "delivery", "net",
        "tax", "total", "deposit", "balance",
    )  # fmt: skip
    lines = {word: _number(getattr(told, word)) for word in words}
    with_margin = _number(found.with_margin(told))
    return {"rate": _fine(told.rate), "rate_with_margin": with_margin, **lines}


def _supplies(found: Quote) -> list[dict[str, Any]]:
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
