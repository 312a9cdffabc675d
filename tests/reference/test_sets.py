"""A set of pieces against as many pieces drawn out in one file, and against paper.

The second file repeats every part, and multiplies by hand what is counted on a piece, so nothing of
`count` is in it. Packs need not be linear: both files must buy the same ones.
"""

import math
from datetime import datetime

import pytest
from piece_texts import Keys, exact, measured, piece_text

from surfacecalc import api
from surfacecalc.plans.tasks import hands_on_h, tasks_of
from surfacecalc.prices.quotes import Quote

FOUR = 4
START = datetime(2027, 3, 1, 9)
TOP_M2, REST_M2 = 0.5 * 0.4, 0.5 * 0.4 + 2 * (0.5 * 0.02 + 0.4 * 0.02)


def cans(*sizes: tuple[str, int]) -> list[Keys]:
    return [{"size": size, "price": price} for size, price in sizes]


def one_file(count: int, copies: int, **head: object) -> str:
    """Return a file of a board in two zones: so many pieces, drawn out in so many copies."""
    boards = [
        {"name": f"board {k}", "shape": "board", "width": 500, "depth": 400, "height": 20,
         "at": [2000 * k, 0, 0]}
        for k in range(1, copies + 1)
    ]  # fmt: skip
    pit = {"count": 2 * copies, "diameter": "8 mm", "depth": "4 mm"}
    steps: list[Keys] = [
        {"do": "test", "products": ["moss green"], "patch": "0.1 m2", "time": "30 min",
         "uses": ["lead test"]},
        {"do": "repair", "what": "joints", "count": 3 * copies, "product": "glue", "each": "4 ml"},
        {"do": "fill", "product": "filler", "pits": [pit]},
        {"do": "sand", "grits": [120, 180], "with": "pads", "time": f"{copies} h"},
        {"do": "mask", "tape": "tape", "film": "paper", "cover": f"{0.5 * copies} m2"},
        {"do": "coat", "product": "moss green", "coats": 2, "by": "brush", "stays_behind": "20 ml",
         "between": {"grit": 180, "with": "pads"}, "uses": ["gloves"]},
        {"do": "wax hardware", "product": "moss green", "by": "brush", "hardware": "knobs"},
        {"do": "refit", "hardware": ["knobs", "hinges"]},
    ]  # fmt: skip
    wash = {"do": "wash", "product": "soap", "strength": "3 %", "uses": ["cloths"]}
    return piece_text(
        piece={"count": count, "currency": "USD", **head},
        part=boards,
        zone=[
            {"name": "top", "faces": ["*.top"], "surface": "painted", "step": steps},
            {"name": "rest", "faces": ["*"], "surface": "painted", "step": [wash]},
        ],
        product=[
            {"name": "moss green", "kind": "waterborne furniture paint", "covers": "10 m2/L",
             "packs": cans(("500 ml", 15), ("2.5 L", 50))},
            {"name": "filler", "kind": "wood filler", "packs": cans(("20 ml", 5))},
            {"name": "glue", "kind": "wood glue", "packs": cans(("20 ml", 3))},
            {"name": "soap", "kind": "sugar soap", "packs": cans(("500 ml", 4))},
        ],
        abrasive={"name": "pads", "form": "150 mm disc", "packs": [{"count": 3, "price": 8}]},
        tape=[
            {"name": "tape", "packs": [{"length": "5 m", "price": 4}]},
            {"name": "paper", "packs": [{"area": "4 m2", "price": 3}]},
        ],
        hardware=[
            {"name": "knobs", "count": 6 * copies, "plan": "renew",
             "size": ["30 mm", "30 mm", "20 mm"]},
            {"name": "hinges", "count": 2 * copies, "plan": "replace",
             "packs": [{"count": 1, "price": 2}]},
        ],
        consumable=[
            {"name": "gloves", "lasts": "1 session", "packs": [{"count": 2, "price": 1}]},
            {"name": "lead test", "lasts": "1 job", "packs": [{"count": 1, "price": 9}]},
            {"name": "cloths", "lasts": "0.5 m2", "packs": [{"count": 2, "price": 1}]},
        ],
        workshop={"start": START.date(), "hours": ["mon-sun 08:00-20:00"]},
        price={"rate": 30},
    )  # fmt: skip


SET = measured(one_file(FOUR, 1, measured_to="2 mm"))
DRAWN_OUT = measured(one_file(1, FOUR, measured_to="2 mm"))


def test_a_set_has_the_areas_and_lines_of_as_many_pieces_drawn_out() -> None:
    for one, other in zip(DRAWN_OUT.measured.zones, SET.measured.zones, strict=True):
        assert one.area_m2 == pytest.approx(other.area_m2)
        assert one.labour_m2 == pytest.approx(other.labour_m2)
        assert one.by_hand_m2 == pytest.approx(other.by_hand_m2)
        assert one.meets_m == pytest.approx(other.meets_m)
    areas = [zone.area_m2 for zone in SET.measured.zones]
    assert [FOUR * TOP_M2, FOUR * REST_M2] == pytest.approx(areas)
    assert [TOP_M2, REST_M2] == pytest.approx([zone.area_m2 for zone in SET.measured.one.zones])
    assert pytest.approx(FOUR * 2 * (0.5 + 0.4)) == SET.measured.zones[0].meets_m["rest"]
    assert (500.0, 400.0, 20.0) == SET.measured.size_mm


def test_a_set_needs_and_buys_what_as_many_pieces_drawn_out_do() -> None:
    one_by_one, as_set = api.supplies(DRAWN_OUT), api.supplies(SET)
    assert [one.key for one in one_by_one] == [other.key for other in as_set]
    for one, other in zip(one_by_one, as_set, strict=True):
        for point in ("low", "likely", "high", "buy_for"):
            expected, actual = getattr(one.need, point), getattr(other.need, point)
            assert expected == pytest.approx(actual, rel=1e-9), (one.name, point)
        assert (one.buy, one.cost) == (other.buy, other.cost)


def test_a_set_takes_the_hours_of_as_many_pieces_drawn_out_in_the_same_tasks() -> None:
    one_by_one, as_set = (tasks_of(job.piece, job.measured) for job in (DRAWN_OUT, SET))
    for zone, tasks in one_by_one.items():
        assert [task.words for task in tasks] == [task.words for task in as_set[zone]]
        hours = [task.work_h for task in as_set[zone]]
        assert [task.work_h for task in tasks] == pytest.approx(hours)
        assert [task.set_up_h for task in tasks] == [task.set_up_h for task in as_set[zone]]


def test_what_is_done_once_for_a_set_is_counted_once() -> None:
    needs = {supply.name: supply.need.likely for supply in api.supplies(SET)}
    words = [task.words for task in tasks_of(SET.piece, SET.measured)["top"]]
    assert (1.0, 2.0) == (needs["lead test"], needs["gloves"])  # a job; two coats, one session each
    assert "test patch: moss green" in words
    test = tasks_of(SET.piece, SET.measured)["top"][0]
    assert 0.5 == test.work_h


def test_a_set_on_paper() -> None:
    job = measured(exact(one_file(FOUR, 1)))
    needs = {supply.name: supply.need.likely for supply in api.supplies(job)}
    patch = 0.1 / 10 / 0.9
    coats = 2 * 4 * 0.2 / 10 / 0.9 + 2 * 0.020
    knobs = 4 * 6 * (0.03 * 0.03 + 2 * 0.02 * 0.06) / 10 / 0.9
    assert patch + coats + knobs == pytest.approx(needs["moss green"])
    assert 4 * 3 * 0.004 == pytest.approx(needs["glue"])
    assert 4 * 0.5 == pytest.approx(needs["paper"])
    assert 4 * 2 * 0.9 * 1.1 == pytest.approx(needs["tape"])
    assert 4 * 2 == needs["hinges"]
    assert math.ceil(4 * 0.236 / 0.5) == needs["cloths"]
    sanding = [task.work_h for task in tasks_of(job.piece, job.measured)["top"] if task.grit_pass]
    assert [
        2.0,
        2.0,
    ] == sanding  # an hour on each piece, half of it for each grit


def test_one_of_a_kind_is_the_same_with_and_without_count() -> None:
    text = one_file(1, 1)
    without = text.replace("count = 1\n", "\n", 1)
    assert text != without
    one, other = measured(text), measured(without)
    assert one.measured == other.measured
    assert api.plan(one, START).entries == api.plan(other, START).entries
    assert [s.need for s in api.supplies(one)] == [s.need for s in api.supplies(other)]


def test_the_areas_of_one_are_not_kept_apart_where_there_is_one() -> None:
    job = measured(one_file(1, 1))
    assert job.measured.one is job.measured


def test_a_jar_of_a_set_has_to_do_for_all_pieces() -> None:
    def jars(count: int, copies: int) -> list[float]:
        text = one_file(count, copies).replace(
            'covers = "10 m2/L"\n', 'covers = "10 m2/L"\non_hand = "150 ml"\n'
        )
        (jar,) = api.jars(measured(text))
        return [reach.buy_for for reach in jar.reaches]

    assert jars(1, FOUR) == pytest.approx(jars(FOUR, 1))


def test_a_trip_buys_for_every_piece_of_a_set_and_says_how_many_there_are() -> None:
    single = measured(one_file(1, 1, name="Shelf"))
    trip = api.supplies_together([measured(one_file(FOUR, 1)), single])
    name = "Board (4 of these)"  # as the set is called there, so that its draws are the same
    drawn_out = api.supplies_together([measured(one_file(1, FOUR, name=name)), single])
    assert (name, "Shelf") == trip.pieces
    assert (FOUR, 1) == trip.counts
    for one, other in zip(drawn_out.supplies, trip.supplies, strict=True):
        assert one.need.likely == pytest.approx(other.need.likely), one.name
    assert 1 == trip.piece.settings.count


def test_a_price_is_for_the_set_and_told_for_each() -> None:
    found, drawn_out = api.quote(SET), api.quote(DRAWN_OUT)
    assert drawn_out.wanted == found.wanted
    assert isinstance(found, Quote)
    assert found.wanted is not None
    assert round(found.wanted.total / 4, 2) == found.each(found.wanted.total)
    assert float(found.job.hours) == pytest.approx(hands_on_h(SET.piece, SET.measured), abs=0.005)


def test_a_coat_over_a_set_may_stop_between_two_pieces_but_never_on_one() -> None:
    def mistakes(count: int, per_piece: str) -> list[str]:
        step = {"do": "coat", "product": "paint", "coats": 1, "by": "brush", "time": per_piece}
        text = piece_text(
            step,
            piece={"count": count},
            product={"name": "paint", "kind": "waterborne furniture paint"},
            workshop={"hours": ["mon-sun 18:00-21:00"], "start": START.date()},
        )
        return [
            str(one) for one in api.check(api.read_piece_text(text), START) if one.level != "note"
        ]

    assert not mistakes(FOUR, "2 h")  # eight hours over three evenings, two hours at a stretch
    assert mistakes(1, "8 h")
    assert mistakes(FOUR, "4 h")  # not even one piece fits in an evening


def test_a_test_patch_of_a_set_is_one_and_does_not_stop_halfway() -> None:
    test = tasks_of(SET.piece, SET.measured)["top"][0]
    assert "test patch: moss green" == test.words
    assert not test.may_stop


@pytest.mark.parametrize("count", ["0", "-2", "2.5", '"four"', "true", "1001"])
def test_how_many_there_are_is_a_whole_number(count: str) -> None:
    text = one_file(1, 1).replace("count = 1\n", f"count = {count}\n", 1)
    (problem,) = [one for one in api.read_piece_text(text).problems if one.level == "mend"]
    assert "count" in problem.message
    assert "must be a whole number from 1 to 1,000" in problem.message
