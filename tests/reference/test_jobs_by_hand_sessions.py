"""Hardware and coats in one session, worked out by hand, line by line from the file.

Two boards of 1 m x 1 m x 0.1 m stand apart: each has 2 x 1 + 4 x 0.1 = 2.4 m2. No value is a range
and own_spread is 0 %, so every sum is exact. Wherever a time is not written it is one of those in
catalogue/rates.toml, which are assumed.
"""

from collections.abc import Callable
from datetime import datetime

import pytest
from piece_texts import exact, measured, piece_text

from surfacecalc.api import MeasuredPiece
from surfacecalc.needs.draws import Draws
from surfacecalc.needs.job import job_needs
from surfacecalc.plans.plan import Plan, PlanEntry, make_plan

ROUNDING = 1e-9
"""A few dozen float64 operations."""
MONDAY = datetime(2027, 3, 1, 9, 0)
VARNISH = {"do": "top coat", "product": "varnish", "coats": 2, "by": "brush", "loss": "10 %",
           "rate": "2.4 m2/h", "stays_behind": "40 ml", "uses": ["gloves"]}  # fmt: skip
TOGETHER = {**VARNISH, "together": "clear"}
PAINT = {"do": "coat", "product": "paint", "coats": 1, "by": "brush", "rate": "2.4 m2/h"}
OFF = {"do": "take off", "hardware": ["knobs"]}
REFIT = {"do": "refit", "hardware": ["knobs"]}
WASHED = {"do": "wash", "product": "soap", "strength": "4 %", "covers": "5 m2/L",
          "rinse": "4 m2/L", "hardware": "knobs", "wait": "1 h"}  # fmt: skip
ON_KNOBS = {"do": "coat", "product": "black", "coats": 1, "by": "brush", "hardware": "knobs",
            "loss": "0 %"}  # fmt: skip


def boards_sharing(steps: list[dict], on: str | None = None) -> MeasuredPiece:
    """Return the two boards, both with the schedule of these steps."""
    return boards(None, None, steps, on)


def boards(
    one: list[dict] | None,
    two: list[dict] | None,
    shared: list[dict] | None = None,
    on: str | list[str] | None = None,
) -> MeasuredPiece:
    """Return the two boards, each a zone with its steps, or with the shared schedule for None."""
    zones = [
        {"name": name, "faces": [name], "surface": "sealed",
         **({"schedule": "all"} if steps is None else {"step": steps})}
        for name, steps in (("one", one), ("two", two))
    ]  # fmt: skip
    knobs = {"name": "knobs", "count": 6, "plan": "renew", "size": ["60 mm", "20 mm", "20 mm"]}
    text = piece_text(
        piece={"name": "Boards", "unit": "m"},
        part=[
            {"name": "one", "shape": "board", "width": 1, "depth": 1, "height": 0.1},
            {"name": "two", "shape": "board", "width": 1, "depth": 1, "height": 0.1,
             "at": [3, 0, 0]},
        ],
        zone=zones,
        product=[
            {"name": "varnish", "kind": "waterborne varnish", "covers": "12 m2/L", "dry": "1 h",
             "recoat": "3 h", "cure": "10 days", "min_temp": "10 C"},
            {"name": "paint", "kind": "waterborne furniture paint", "covers": "10 m2/L",
             "dry": "1 h", "recoat": "4 h", "cure": "14 days", "min_temp": "10 C"},
            {"name": "black", "kind": "waterborne furniture paint", "covers": "10 m2/L",
             "dry": "1 h", "recoat": "2 h", "cure": "14 days", "min_temp": "10 C"},
            {"name": "soap", "kind": "cleaner"},
        ],
        hardware=[knobs if on is None else {**knobs, "on": on}],
        consumable=[{"name": "gloves", "lasts": "1 session"}],
        workshop={"hours": ["mon-sun 09:00-21:00"]},
        **({"schedule.all": shared} if shared else {}),
    )  # fmt: skip
    return measured(exact(text))


def need(found: MeasuredPiece, name: str) -> float:
    needs = {n.name: n for n in job_needs(found.piece, found.measured, Draws(64))}
    return needs[name].likely


def planned(found: MeasuredPiece) -> Plan:
    plan = make_plan(found.piece, found.measured, MONDAY)
    assert isinstance(plan, Plan), plan
    return plan


def at(entry: PlanEntry) -> tuple[str, str, str, str]:
    """Return when an entry begins and ends, where it is, and its first words."""
    task = entry.task
    words = " ".join(task.words.split()[:2])
    return f"{entry.starts:%H:%M}", f"{entry.ends:%H:%M}", task.place, words


@pytest.fixture(scope="module")
def one_session() -> MeasuredPiece:
    return boards([PAINT, TOGETHER], [TOGETHER])


def test_tray_and_brush_keep_their_rest_once_for_a_session(one_session: MeasuredPiece) -> None:
    """On the wood 2 x 2.4 m2 x 2 / 12 / (1 - 10 %); in the tools 2 coats x 40 ml, once."""
    on_wood_l = 2 * 2.4 * 2 / 12 / 0.9
    assert pytest.approx(on_wood_l + 2 * 0.040, rel=ROUNDING) == need(one_session, "varnish")
    apart = boards([PAINT, VARNISH], [VARNISH])
    assert pytest.approx(on_wood_l + 4 * 0.040, rel=ROUNDING) == need(apart, "varnish")


def test_gloves_are_for_the_session(one_session: MeasuredPiece) -> None:
    """Two coats are two sessions, whatever number of zones; apart they are two for each zone."""
    assert pytest.approx(2, rel=ROUNDING) == need(one_session, "gloves")
    assert pytest.approx(4, rel=ROUNDING) == need(boards([VARNISH], [VARNISH]), "gloves")


def test_session_is_planned_once_and_waits_for_all(one_session: MeasuredPiece) -> None:
    """One has 1 h of paint, 10 min set-up and 4 h to recoat: 14:10. Then 2 x 2.4 m2 at 2.4 m2/h
    and one set-up of 10 min, 3 h to recoat, and the same again."""
    entries = planned(one_session).entries
    assert [
        ("09:00", "10:10", "one", "one coat"),
        ("14:10", "16:20", "one and two", "top coat:"),
        ("09:00", "11:10", "one and two", "top coat:"),
    ] == [at(entry) for entry in entries]  # the second would end 21:30, so it is on Tuesday
    assert ["first", "second"] == [e.task.words.split()[2] for e in entries[1:]]


def test_hands_on_time_has_one_set_up_for_a_session(one_session: MeasuredPiece) -> None:
    """70 min for the paint and twice 2 x 60 + 10 min for the varnish."""
    assert pytest.approx((70 + 2 * 130) / 60) == planned(one_session).hands_on_h


def test_washed_hardware_takes_soap_for_its_own_area_once() -> None:
    """6 x (60 x 20 + 2 x 20 x (60 + 20)) mm2 = 0.0264 m2, for both zones together."""
    found = boards_sharing([OFF, WASHED, REFIT])
    area_m2 = 6 * (60 * 20 + 2 * 20 * (60 + 20)) / 1e6
    assert pytest.approx(area_m2 / 5 * 0.04, rel=ROUNDING) == need(found, "soap")
    water_l = area_m2 / 5 * 0.96 + area_m2 / 4
    assert pytest.approx(water_l, rel=ROUNDING) == need(found, "water from the tap")


def test_painted_hardware_takes_paint_for_its_own_area_once() -> None:
    found = boards_sharing([OFF, ON_KNOBS, REFIT])
    assert pytest.approx(0.0264 / 10, rel=ROUNDING) == need(found, "black")


def test_work_on_hardware_fits_into_the_gaps_of_the_piece() -> None:
    """Off: 6 x 3 + 5 = 23, so 25 min. Paint on both boards with one set-up: 60 + 60 + 10 = 130 min,
    so until 11:35, and 4 h to dry: 15:35. In the gap the knobs are washed, 6 x 2 + 10 = 22, so 20
    min, and 1 h later painted, 6 x 3 + 10 = 28, so 30 min, with 2 h to dry. On again: 6 x 5 + 5 =
    35 min.
    """
    plan = planned(boards_sharing([OFF, WASHED, PAINT, ON_KNOBS, REFIT]))
    spans = [at(entry) for entry in plan.entries]
    assert ("09:00", "09:25", "one and two", "take off") == spans[0]
    assert ("15:35", "16:10", "one and two", "refit knobs") == spans[-1]
    beside = [entry for entry in plan.entries if entry.task.off == "knobs"]
    assert [20, 30] == [entry.task.work_min for entry in beside]
    assert [65, 65] == [
        e.task.work_min for e in plan.entries if e.task.words.startswith("one coat of paint")
    ]
    assert plan.is_shortest


def test_hardware_of_one_zone_does_not_hold_up_the_other() -> None:
    """With on = "two" nothing is taken off one, and the refit waits for two alone."""
    found = boards_sharing([OFF, PAINT, REFIT], "two")
    assert [["coat"], ["take off", "coat", "refit"]] == [
        [step.do for step in zone.zone.steps] for zone in found.measured.zones
    ]
    entries = planned(found).entries
    assert {"two"} == {e.task.place for e in entries if "knobs" in e.task.words}


def test_refit_waits_for_a_zone_that_has_no_step_about_the_hardware() -> None:
    """Two has the refit; one is painted twice, so it is dry later: 1 h 10, 4 h, 1 h 10, 4 h."""
    twice = {**PAINT, "coats": 2}
    found = boards([twice], [OFF, PAINT, REFIT], None, ["one", "two"])
    entries = {" ".join(at(e)[2:]): e for e in planned(found).entries}
    last = max(e.next_from for e in entries.values() if "paint" in e.task.words)
    assert entries["two refit knobs"].starts >= last
    first = min(e.starts for e in entries.values() if "paint" in e.task.words)
    assert entries["two take off"].ends <= first
    alone = boards([twice], [OFF, PAINT, REFIT], None, "two")
    entries = {" ".join(at(e)[2:]): e for e in planned(alone).entries}
    assert entries["two refit knobs"].starts < entries["one second coat"].next_from


@pytest.fixture(scope="module")
def taped() -> Callable[..., MeasuredPiece]:
    def make(*steps: dict) -> MeasuredPiece:
        text = piece_text(
            piece={"name": "Board", "unit": "m"},
            part=[{"name": "board", "shape": "board", "width": 1, "depth": 1, "height": 0.1}],
            zone=[
                {"name": "top", "faces": ["board.top"], "surface": "sealed", "step": list(steps)},
                {"name": "rest", "faces": ["board"], "surface": "sealed", "leave": True},
            ],
            product=[{"name": "paint", "kind": "waterborne furniture paint", "covers": "10 m2/L"}],
            tape=[{"name": "tape"}, {"name": "blue tape"}],
        )  # fmt: skip
        return measured(exact(text))

    return make


def test_tape_comes_off_in_a_quarter_of_a_minute_a_metre(taped: Callable) -> None:
    """The top meets the rest along its four edges of 1 m: 4 x 0.25 min, and 5 min set-up."""
    mask, coat = {"do": "mask", "tape": "tape"}, {**PAINT, "coats": 1}
    entries = planned(taped(mask, coat, {"do": "unmask"}, coat)).entries
    words = [e.task.words for e in entries]
    assert "take the tape off" == words[2]
    assert not any("then take the tape off" in one for one in words)
    assert pytest.approx(4 * 0.25 / 60) == entries[2].task.work_h
    assert pytest.approx(5 / 60) == entries[2].task.set_up_h


def test_only_the_tape_that_is_named_comes_off(taped: Callable) -> None:
    masks = [{"do": "mask", "tape": name} for name in ("tape", "blue tape")]
    coat = {**PAINT, "coats": 1}
    off = {"do": "unmask", "tape": "blue tape"}
    words = [e.task.words for e in planned(taped(*masks, coat, off, coat)).entries]
    assert "take blue tape off" == words[3]
    assert words[4].endswith(", then take the tape off")


def test_tape_of_no_length_is_not_taken_off_and_film_is() -> None:
    """A board that is one zone meets no other; film over it comes off in the least, 5 min."""

    def words(mask: dict) -> list[str]:
        text = piece_text(
            mask, PAINT, {"do": "unmask"}, PAINT,
            product={"name": "paint", "kind": "waterborne furniture paint", "covers": "10 m2/L"},
            tape=[{"name": "tape"}, {"name": "film", "packs": [{"area": "20 m2"}]}],
        )  # fmt: skip
        return [entry.task.words for entry in planned(measured(exact(text))).entries]

    mask = {"do": "mask", "tape": "tape"}
    assert 2 == len(words(mask))
    assert "take the tape off" == words({**mask, "film": "film", "cover": "1 m2"})[2]
