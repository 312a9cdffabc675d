"""A coat more takes another can: what is bought for fewer coats, and what only for more."""

import json

import pytest
from piece_texts import measured, piece_text

from surfacecalc import api
from surfacecalc.reports.choice_words import jump_text
from surfacecalc.reports.exports import supplies_json
from surfacecalc.supplies.jumps import jumps

CUBE = {"shape": "board", "width": "1 m", "depth": "1 m", "height": "1 m"}


def sentences(
    coats, *, size="1 quart", on_hand="0 ml", spread="0 %", faces=("*",), more=(), packs=None
):
    zone = {
        "name": "all",
        "faces": list(faces),
        "surface": "sealed",
        "step": [
            {"do": "coat", "product": "moss green", "coats": coats, "by": "brush", "loss": "0 %"}
        ],
    }
    paint = {"name": "moss green", "kind": "waterborne paint", "covers": "15 m2/L",
             "on_hand": on_hand, "packs": packs or [{"size": size, "price": 20}]}  # fmt: skip
    text = piece_text(part=CUBE, zone=[zone, *more], product=paint, workshop={"own_spread": spread})
    job = measured(text)
    return [jump_text(one) for one in jumps(job.piece, api.supplies(job))]


def test_the_second_quart_is_for_a_third_coat_only():
    """6 m2 at 15 m2/L are 0.4 L a coat: a quart of 0.946 L does two coats, not three."""
    assert sentences([2, 2, 3]) == [
        "buy 1 quart for 2 coats now and 1 quart more later, only if a third coat is needed"
    ]


def test_a_jump_two_coats_on_names_that_coat():
    """0.4 L a coat: 1 gallon does nine; half-pints of 0.237 L jump at once, from 2 to 4."""
    assert sentences([1, 1, 3], size="8 fl oz") == [
        "buy 2 half-pints for 1 coat now and 2 half-pints more later, only if a second coat is"
        " needed"
    ]
    assert sentences([1, 2, 3]) == [
        "buy 1 quart for 2 coats now and 1 quart more later, only if a third coat is needed"
    ]


def test_what_is_on_hand_may_be_enough_without_the_last_coat():
    assert sentences([2, 2, 3], on_hand="900 ml") == [
        "what you have is enough for 2 coats; buy 1 quart later, only if a third coat is needed"
    ]


def test_the_hand_counts_in_the_cans_for_each_number_of_coats():
    """Two coats need up to 0.8 x exp(1.2816 x 0.2283) = 1.07 L nine times in ten: 2 quarts."""
    assert sentences([2, 2, 3], spread=None) == []  # three coats: 1.61 L, still 2 quarts


def test_a_larger_tin_bought_at_once_is_told_where_it_is_the_cheaper_way():
    """0.8 L is a quart of 0.946 L; a third coat takes 254 ml more.

    Later that is another quart for 20. A gallon at once is 30, less than two quarts.
    """
    packs = [{"size": "1 quart", "price": 20}, {"size": "1 gallon", "price": 30}]
    assert sentences([2, 2, 3], packs=packs) == [
        "buy 1 quart for 2 coats now and 1 quart more later, only if a third coat is needed;"
        " 1 gallon bought at once would do for both"
    ]


def test_what_is_bought_later_is_what_the_first_tins_and_the_jar_leave_open():
    """Three coats are 1.2 L: 0.3 L are there and a quart of 0.946 L is bought.

    A fourth needs 1.6 - 1.246 = 0.354 L more: two half-pints for 18, not a quart for 20.
    """
    packs = [{"size": "1 quart", "price": 20}, {"size": "8 fl oz", "price": 9}]
    assert sentences([3, 3, 4], packs=packs, on_hand="300 ml") == [
        "buy 1 quart for 3 coats now and 2 half-pints more later, only if a fourth coat is needed"
    ]


@pytest.mark.parametrize("coats", [2, [2, 2, 3]])
def test_nothing_is_said_where_no_other_can_is_needed(coats):
    assert sentences(coats, size="5 L") == []


def test_a_part_of_a_mix_is_bought_for_its_batch_whatever_the_coats():
    zone = {
        "name": "all",
        "faces": ["*"],
        "surface": "sealed",
        "step": [{"do": "coat", "product": "sage", "coats": [2, 2, 3], "by": "brush"}],
    }
    paints = [
        {
            "name": name,
            "kind": "waterborne paint",
            "covers": "15 m2/L",
            "packs": [{"size": "1 quart"}],
        }
        for name in ("white", "green")
    ]
    mix = {
        "name": "sage",
        "recipe": [{"product": "white", "parts": 1}, {"product": "green", "parts": 1}],
    }
    job = measured(piece_text(part=CUBE, zone=zone, product=paints, mix=mix))
    assert [] == list(jumps(job.piece, api.supplies(job)))


def test_the_zone_is_named_where_coats_of_two_zones_are_in_doubt():
    more = {
        "name": "back",
        "faces": ["board.back"],
        "surface": "sealed",
        "step": [
            {
                "do": "coat",
                "product": "moss green",
                "coats": [1, 1, 2],
                "by": "brush",
                "loss": "0 %",
            }
        ],
    }
    found = sentences([2, 2, 3], faces=["board"], more=[more])
    assert len(found) == 1
    assert " for 2 coats on all now and " in found[0]


def test_json_says_what_to_buy_now_and_what_later():
    """As above: a quart for two coats, another one for a third."""
    text = piece_text(
        {"do": "coat", "product": "green", "coats": [2, 2, 3], "by": "brush", "loss": "0 %"},
        part=CUBE,
        zone={"surface": "sealed"},
        product={"name": "green", "kind": "waterborne paint", "covers": "15 m2/L",
                 "packs": [{"size": "1 quart", "price": 20}]},
        workshop={"own_spread": "0 %"},
    )  # fmt: skip
    job = measured(text)
    (line,) = json.loads(supplies_json(job.piece, api.supplies(job), []))["supplies"]
    found = line["more_coats"]
    assert (3, []) == (found["coats"], found["zones"])
    packs = [[pack["count"] for pack in found[key]] for key in ("fewer", "more", "later")]
    assert [[1], [2], [1]] == packs
