"""What an input is stands in its fields; what its draws are seeded with follows from these."""

from typing import get_args

import pytest

from surfacecalc.model.inputs import Input, Quantity

KEYS = [
    (Input("coverage", of="moss green"), "product moss green covers"),
    (Input("coverage", of="river blue", where='mix "river blue"'), 'mix "river blue" covers'),
    (Input("first coat", of="sealer"), "first coat sealer"),
    (Input("loss", by="brush"), "loss by brush"),
    (Input("loss", by="brush", where='zone "top" step 2'), 'zone "top" step 2 loss'),
    (Input("coats", where='zone "top" step 2'), 'zone "top" step 2 coats'),
    (Input("extra coats", by="dark to light"), "more coats dark to light"),
    (Input("left in the tools", by="roller"), "stays behind by roller"),
    (Input("abrasive life", of="disc", grit=120), "abrasive disc life 120"),
    (Input("abrasive life", of="disc"), "abrasive disc life"),
    (Input("wash coverage"), "wash covers"),
    (Input("rinse coverage", where='zone "top" step 1'), 'zone "top" step 1 rinse'),
    (Input("filler loss"), "filler loss"),
    (Input("hardener", where='zone "top" step 1'), 'zone "top" step 1 share'),
    (Input("measuring", of="top"), "tape measure in top"),
    (Input("hand"), "hand"),
    (Input("hand with a supply", of="sealer", by="brush"), "hand with sealer by brush"),
    (
        Input("hand in a job", of="sealer", by="brush", job="Chair"),
        "hand with sealer by brush in Chair",
    ),
]
"""The seeds of the first edition: with another one every printed range would change."""


@pytest.mark.parametrize(("what", "key"), KEYS, ids=lambda value: str(value)[:40])
def test_draws_are_seeded_as_they_always_were(what, key):
    assert key == what.draw_key


@pytest.mark.parametrize("quantity", get_args(Quantity))
def test_every_quantity_has_a_key(quantity):
    assert Input(quantity, of="it", where="" if quantity in ALWAYS else "here").draw_key


ALWAYS = {
    "hand", "hand with a supply", "hand in a job", "loss in coverage", "life between coats",
    "solids", "dry film", "extra coats", "abrasive life", "consumable life", "measuring",
    "time each", "drying after", "dry", "recoat", "cure", "rub out", "coldest", "sprayed past",
}  # fmt: skip
"""Quantities that no step says for itself alone."""
