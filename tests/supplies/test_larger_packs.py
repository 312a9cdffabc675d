"""The next larger choice: at least 1.5 times as much, for at most a quarter more money."""

import json
from decimal import Decimal

import pytest
from piece_texts import measured, piece_text

from surfacecalc import api
from surfacecalc.reports.choice_words import choices_of, larger_text
from surfacecalc.reports.exports import supplies_json, trip_json
from surfacecalc.supplies.larger_packs import larger_choice

CUBE = {"shape": "board", "width": "1 m", "depth": "1 m", "height": "1 m"}
ROUNDING = 1e-9
"""A few operations on float64."""


@pytest.fixture
def job():
    """Return a job that needs 1.2 L of a paint: two coats on 6 m2 at 10 m2/L."""

    def made(*packs, currency="USD", on_hand="0 ml"):
        coat = {"do": "coat", "product": "moss green", "coats": 2, "by": "brush", "loss": "0 %"}
        paint = {"name": "moss green", "kind": "waterborne paint", "covers": "10 m2/L",
                 "on_hand": on_hand,
                 "packs": [{"size": s, **({"price": p} if p is not None else {})}
                           for s, p in packs]}  # fmt: skip
        return measured(
            piece_text(
                coat,
                part=CUBE,
                zone={"surface": "sealed"},
                product=paint,
                piece={"currency": currency},
                workshop={"own_spread": "0 %"},
            )
        )

    return made


@pytest.fixture
def told(job):
    """Return the sentences on what else could be bought."""

    def sentences(*packs, **keys):
        found = job(*packs, **keys)
        return [text for texts in choices_of(found.piece, api.supplies(found)).values()
                for text in texts]  # fmt: skip

    return sentences


def test_a_gallon_for_6_more_that_holds_twice_as_much_is_told(told):
    """1.2 L are two quarts of 0.946 L at 30; a gallon of four quarts for 66 is 6 more."""
    assert told(("1 quart", 30), ("1 gallon", 66)) == [
        "1 gallon costs $6 more and holds twice as much"
    ]


@pytest.mark.parametrize(
    ("gallon", "is_told"),
    [(75, True), (75.01, False), (60.01, True)],  # a quarter more than 60 is 75
)
def test_a_quarter_more_is_the_most_that_a_larger_choice_may_cost(told, gallon, is_told):
    assert is_told == bool(told(("1 quart", 30), ("1 gallon", gallon)))


@pytest.mark.parametrize(
    ("larger", "is_told"),
    [("1.799 L", False), ("1.8 L", True), ("2.4 L", True)],  # 1.5 times 1.2 L
)
def test_one_and_a_half_times_is_the_least_that_it_must_hold(told, larger, is_told):
    assert is_told == bool(told(("1.2 L", 20), (larger, 24)))


def test_the_cheapest_of_what_holds_so_much_is_told(told):
    """1.2 L for 20; of 2 L for 25 and 5 L for 24 the latter is the cheaper."""
    assert told(("1.2 L", 20), ("2 L", 25), ("5 L", 24)) == [
        "1 pack of 5 L costs $4 more and holds 4.1 times as much"
    ]


def test_what_is_there_already_is_not_bought_again(told):
    """0.3 L are missing: a tin of it for 10 beside one of 0.5 L for 12."""
    assert told(("300 ml", 10), ("500 ml", 12), on_hand="900 ml") == [
        "1 pack of 500 ml costs $2 more and holds 1.6 times as much"
    ]


def test_two_larger_packs_are_told_in_the_plural(told):
    """Two tins of 0.6 L for 40; two of 1 L for 48 hold 2 L, 1.67 times as much."""
    assert told(("600 ml", 20), ("1 L", 24)) == [
        "2 packs of 1 L cost $8 more and hold 1.6 times as much"
    ]


@pytest.mark.parametrize(
    "packs", [(("1 quart", None), ("1 gallon", 20)), (("2 L", 0), ("4 L", 0)), (("5 L", 40),)]
)
def test_nothing_is_told_without_prices_or_a_larger_pack_for_little_more(told, packs):
    assert [] == told(*packs)


def test_a_pack_without_a_price_is_not_proposed(job):
    found = job(("1.2 L", 20), ("2 L", None))
    (line,) = api.supplies(found)
    assert larger_choice(found.piece, line) is None


def test_what_costs_no_more_is_said_so(job):
    """It cannot come from the choice of packs, which takes the cheaper; it can from a tie."""
    found = job(("1.2 L", 20), ("2 L", 20))
    (line,) = api.supplies(found)
    assert [("1.2 L", 1)] == [(pack.text, count) for pack, count in line.buy]
    larger = larger_choice(found.piece, line)
    assert larger is not None
    assert Decimal(0) == larger.more
    assert "costs no more and holds 1.6 times as much" in larger_text(line, larger, "USD")


def test_json_has_the_larger_choice_and_what_can_wait(job):
    found = job(("1 quart", 30), ("1 gallon", 66))
    (line,) = json.loads(supplies_json(found.piece, api.supplies(found), []))["supplies"]
    assert [1, 66] == [line["larger"]["buy"][0][key] for key in ("count", "price")]
    assert 6 == line["larger"]["costs_more"]
    assert 2 == pytest.approx(line["larger"]["holds_times"], rel=ROUNDING)
    assert line["more_coats"] is None
    (line,) = json.loads(trip_json(api.supplies_together([found, found]), []))["supplies"]
    assert line["larger"] is None  # 2.4 L are a gallon, of which nothing larger holds 1.5 times


def test_larger_packs_of_what_is_counted_are_told_too():
    """Twelve discs of 0.5 m2 for 6 m2: two packs of 6 at 5; 25 for 12 are 2 more."""
    sand = {"do": "sand", "grits": [120], "with": "disc"}
    disc = {"name": "disc", "form": "disc", "life": "0.5 m2",
            "packs": [{"count": 6, "price": 5}, {"count": 25, "price": 12}]}  # fmt: skip
    text = piece_text(sand, part=CUBE, abrasive=disc, workshop={"own_spread": "0 %"})
    found = measured(text)
    assert [("1 pack of 25 costs 2 more and holds twice as much",)] == list(
        choices_of(found.piece, api.supplies(found)).values()
    )


def test_nothing_larger_than_what_is_bought_is_looked_for_where_nothing_is_bought(job):
    found = job(("1 quart", 30), ("1 gallon", 66), on_hand="2 L")
    (line,) = api.supplies(found)
    assert () == line.buy
    assert larger_choice(found.piece, line) is None
