"""What a sprayed coat says of the gun: its kind, and what its cup holds."""

from typing import get_args

from surfacecalc.catalogue.entries import gun_cup
from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor
from surfacecalc.model.steps import Gun, Method
from surfacecalc.reading.steps.shares import read_amount
from surfacecalc.reading.tables import Table

GUNS: tuple[Gun, ...] = get_args(Gun)
LEAST_CUP_L, MOST_CUP_L = 0.05, 20.0
"""Cups and pots of spray guns hold something between; assumed."""


def read_gun(table: Table, by: Method) -> Gun | None:
    """Return what a coat is sprayed with, None where it does not say."""
    for key in ("gun", "cup"):
        if key in table and by != "spray":
            table.refuse(key, f'is for by = "spray", and this step says by = "{by}"')
            return None
    if "gun" not in table:
        return None
    word = table.choice("gun", GUNS)
    return next((gun for gun in GUNS if gun == word), None)


def read_cup(table: Table, gun: Gun | None) -> Factor | None:
    """Return what the cup holds [L], None where nothing is filled or nobody knows."""
    if "cup" in table:
        return read_amount(table, "cup", Input("cup"), "volume", _cup_rule)
    return None if gun is None else gun_cup(gun)


def _cup_rule(value: float) -> str | None:
    if LEAST_CUP_L <= value <= MOST_CUP_L:
        return None
    return "must be from 50 ml to 20 litres (1.7 fl oz to 5 gallons)"
