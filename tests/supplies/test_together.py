"""Several pieces, one list: sums first, packs once, nothing mixed up."""

from decimal import Decimal
from math import ceil
from pathlib import Path

import pytest
from piece_texts import exact, piece_text

from surfacecalc import api
from surfacecalc.supplies.together import together

BOARD = piece_text(
    piece={"name": "NAME", "unit": "cm"},
    part=[
        {"name": "board", "shape": "board", "width": 100, "depth": 50, "height": 2},
    ],
    zone=[
        {"name": "all", "faces": ["*"], "surface": "sealed", "step": [
            {"do": "sand", "grits": [120], "with": "disc"},
            {"do": "coat", "product": "sage", "coats": 1, "by": "brush", "loss": "0 %"},
        ]},
    ],
    abrasive=[
        {"name": "disc", "form": "125 mm disc", "life": "1 m2",
         "packs": [{"count": 10, "price": 8}]},
    ],
)  # fmt: skip
PAINT = """
[[product]]
name = "sage"
kind = "waterborne paint"
covers = "10 m2/L"
packs = [{ size = "250 ml", price = 12 }, { size = "1 L", price = 30 }]
"""
MIX = """
[[product]]
name = "white"
kind = "waterborne paint"
covers = "10 m2/L"
packs = [{ size = "100 ml", price = 5 }]
[[product]]
name = "forest green"
kind = "waterborne paint"
covers = "10 m2/L"
packs = [{ size = "100 ml", price = 6 }]
[[mix]]
name = "sage"
recipe = [{ product = "white", parts = 1 }, { product = "forest green", parts = 1 }]
"""
AREA_M2 = 2 * (1.0 * 0.5) + 2 * (1.0 + 0.5) * 0.02  # 1.06


@pytest.fixture
def job():
    """A piece and its measures from the text of its file."""

    def read(text: str, name: str):
        found = api.measure(api.read_piece_text(exact(text.replace("NAME", name))))
        return found.piece, found.measured

    return read


def by_name(trip):
    return {(supply.name, supply.grit): supply for supply in trip.supplies}


def test_sums_are_those_worked_by_hand_and_packs_are_shared(job):
    trip = together([job(BOARD + PAINT, "one"), job(BOARD + PAINT, "two")])
    found = by_name(trip)
    paint = found["sage", None]
    assert pytest.approx(2 * AREA_M2 / 10) == paint.need.likely  # 0.212 L: one 250 ml does both
    assert [(0.25, 1)] == [(pack.size, count) for pack, count in paint.buy]
    assert Decimal(12) == paint.cost
    assert {"one": AREA_M2 / 10, "two": AREA_M2 / 10} == pytest.approx(
        trip.taken(by_name(trip)["sage", None])
    )


def test_abrasives_are_summed_before_they_are_rounded_up(job):
    found = by_name(together([job(BOARD + PAINT, "one"), job(BOARD + PAINT, "two")]))
    assert 3 == ceil(2 * AREA_M2) == found["disc", 120].need.buy_for  # 2 + 2 each by itself


def test_a_mix_is_made_in_one_batch_for_all_pieces(job):
    found = by_name(together([job(BOARD + MIX, "one"), job(BOARD + MIX, "two")]))
    batch = found["sage", None].mixed
    assert batch >= 2 * AREA_M2 / 10
    assert pytest.approx(batch / 2) == found["white", None].need.likely
    assert pytest.approx(batch / 2) == found["forest green", None].need.likely


def test_another_kind_under_one_name_is_kept_apart_and_told(job):
    other = PAINT.replace("waterborne paint", "oil paint")
    trip = together([job(BOARD + PAINT, "one"), job(BOARD + other, "two")])
    assert {("sage", None), ("sage (two)", None)} <= set(by_name(trip))
    assert any("another kind" in remark for remark in trip.remarks)


def test_packs_of_both_files_may_be_bought(job):
    """0.212 L: the 300 ml of the second file, at 11, is cheaper than the 250 ml of the first."""
    other = PAINT.replace('{ size = "250 ml", price = 12 }', '{ size = "300 ml", price = 11 }')
    trip = together([job(BOARD + PAINT, "one"), job(BOARD + other, "two")])
    paint = by_name(trip)["sage", None]
    assert [("300 ml", 1)] == [(pack.text, count) for pack, count in paint.buy]
    assert Decimal(11) == paint.cost
    assert not any("kept apart" in remark for remark in trip.remarks)


def test_one_name_for_a_colour_in_two_files_is_told(job):
    trip = together([job(BOARD + PAINT, "one"), job(BOARD + PAINT, "two")])
    assert ['"sage"'] == [text.split()[0] for text in trip.remarks if "one colour" in text]


def test_the_higher_of_two_prices_is_counted_and_told(job):
    dearer = PAINT.replace("price = 12", "price = 13")
    trip = together([job(BOARD + PAINT, "one"), job(BOARD + dearer, "two")])
    assert Decimal(13) == by_name(trip)["sage", None].cost
    assert any("two prices" in remark for remark in trip.remarks)


def test_the_same_jar_in_two_files_counts_once(job):
    kept = PAINT + 'on_hand = "150 ml"\n'
    trip = together([job(BOARD + kept, "one"), job(BOARD + kept, "two")])
    assert pytest.approx(0.15) == by_name(trip)["sage", None].on_hand
    assert any("counted once" in remark for remark in trip.remarks)


def test_one_piece_alone_needs_what_its_own_list_says(job):
    piece, measured = job(BOARD + PAINT, "one")
    job_alone = api.MeasuredPiece(Path("one.toml"), piece, measured)
    expected = [(one.name, one.grit, one.need, one.buy) for one in api.supplies(job_alone)]
    trip = together([(piece, measured)])
    assert expected == [(one.name, one.grit, one.need, one.buy) for one in trip.supplies]


def test_a_zone_is_its_own_pieces_whatever_their_names(job):
    """ "X" with zone "B: all" and "X: B" with zone "all" read alike."""
    first = BOARD.replace('name = "all"', 'name = "B: all"') + PAINT
    second = BOARD.replace("width = 100", "width = 50") + PAINT
    trip = together([job(first, "X"), job(second, "X: B")])
    taken = trip.taken(by_name(trip)["sage", None])
    assert pytest.approx(AREA_M2 / 10) == taken["X"]
    assert taken["X: B"] < taken["X"]


def test_zones_that_read_alike_get_numbers(job):
    paths = [("X", "B: C: all"), ("X: B", "C: all"), ("X: B: C", "all")]
    jobs = [
        job(BOARD.replace('name = "all"', f'name = "{zone}"') + PAINT, name) for name, zone in paths
    ]
    sources = together(jobs).sources
    assert ["X: B: C: all", "X: B: C: all (2)", "X: B: C: all (3)"] == list(sources)
    assert [name for name, _ in paths] == [source.label for source in sources.values()]


def test_grits_of_all_pieces_come_in_their_order(job):
    """The first piece is sanded with P180, the second with P120."""
    trip = together([job(BOARD.replace("120", "180") + PAINT, "one"), job(BOARD + PAINT, "two")])
    assert [("disc", 120), ("disc", 180), ("sage", None)] == list(by_name(trip))


def test_only_certainties_that_differ_are_told(job):
    sure = BOARD.replace('unit = "cm"', 'unit = "cm"\nbuy_for = "95 %"')
    told = "the files ask for different buy_for; 95 % is used for all"
    for second, expected in ((BOARD, [told]), (sure, [])):
        trip = together([job(sure + PAINT, "one"), job(second + PAINT, "two")])
        assert expected == [text for text in trip.remarks if "buy_for" in text]


def test_what_is_kept_apart_from_one_piece_is_one_for_two_others(job):
    other = PAINT.replace("waterborne paint", "oil paint")
    jobs = [job(BOARD + PAINT, "one"), job(BOARD + other, "two"), job(BOARD + other, "three")]
    found = by_name(together(jobs))
    assert {"sage", "sage (two)"} == {name for name, grit in found if grit is None}
    assert pytest.approx(2 * AREA_M2 / 10) == found["sage (two)", None].need.likely


def test_prices_without_a_currency_are_told(job):
    priced = BOARD.replace('unit = "cm"', 'unit = "cm"\ncurrency = "USD"')
    some = PAINT.replace('size = "250 ml", price = 12', 'size = "250 ml"')
    trip = together([job(BOARD + some, "one"), job(priced + PAINT, "two")])
    assert "one has prices but no currency; they are taken as USD" in trip.remarks
