"""How fast hands work where the file does not say, from catalogue/rates.toml; all assumed."""

from functools import cache
from importlib.resources import files
from typing import Any, Literal

import tomli

from surfacecalc.model.inputs import Input, InputUnit
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.steps import CoatWord, HandWord, SandWord
from surfacecalc.units.grammar import parse_amount, parse_rate

Sort = Literal["coat", "sand", "wash", "fill", "mask", "test", "handwork"]
"""What set-up and clean-up depend on."""
RatedWord = CoatWord | SandWord | HandWord | Literal["denib", "wash"]
"""What may have a rate."""


def usual_rate(do: RatedWord, by: str) -> Factor:
    """Return the area done in an hour [m2/h], each coat or grit.

    Args:
        do: the word of the trade.
        by: how it is done; in a way that is not listed for its word, it is as quick as a coat.
            Handwork over an area must be listed: no coat is put on by hand.
    """
    rates = _rates()["rate"]
    word = do if by in rates.get(do, {}) else "coat"
    return _assumed(Input("rate", of=word, by=by), float(parse_rate(rates[word][by])), "m2/h")


def usual_time(each: str) -> Factor:
    """Return the hands-on time that one of something takes [h]."""
    return _assumed(Input("time each", of=each), _hours(_rates()["each"][each]))


def life_between_coats() -> Factor:
    """Return how far an abrasive goes between coats, as a share of how far it goes in sanding.

    Source: assumed: it wears by the time that it is rubbed, so by the ratio of the two rates.
    """
    times = usual_rate("denib", "hand").range.likely / usual_rate("sand", "hand").range.likely
    return _assumed(Input("life between coats"), times, "times")


def usual_set_up(sort: Sort) -> Factor:
    """Return the time for set-up and clean-up [h]."""
    return _assumed(Input("set-up", of=sort), _hours(_rates()["set_up"][sort]))


def usual_drying(do: str) -> Factor:
    """Return how long something is wet that no product's class speaks of [h]."""
    return _assumed(Input("drying after", of=do), _hours(_rates()["dries"][do]))


def _assumed(what: Input, value: float, unit: InputUnit = "h") -> Factor:
    return Factor(what, Range.fixed(value), "assumed", unit=unit)


def _hours(text: str) -> float:
    return float(parse_amount(text, "time"))


@cache
def _rates() -> dict[str, Any]:
    return tomli.loads(files("surfacecalc.catalogue").joinpath("rates.toml").read_text("utf-8"))
