"""Decoration and distressing: what they need and how long they take, on paper.

The top is 1 m x 0.8 m. Usual figures, all assumed: 5 % of a zone is worn, at 0.5 m2/h by hand; a
decoration goes at 0.2 m2/h.
"""

import pytest
from piece_texts import Keys, exact, measured, piece_text

from surfacecalc import api
from surfacecalc.plans.tasks import Task, tasks_of
from surfacecalc.reports.use_lines import use_line
from surfacecalc.units.display import Units

TOP_M2 = 0.8
PRODUCTS: list[Keys] = [
    {"name": "stencil paint", "kind": "waterborne furniture paint", "covers": "10 m2/L"},
    {"name": "medium", "kind": "wood glue", "covers": "8 m2/L"},
]
STENCIL: Keys = {"do": "decorate", "what": "a stencilled border", "area": "0.3 m2",
                 "product": "stencil paint", "loss": "20 %"}  # fmt: skip
PASTED: Keys = {"do": "decorate", "what": "decoupage", "share": "25 %", "product": "medium",
                "coats": 3, "loss": "20 %", "uses": ["paper"]}  # fmt: skip
TRANSFER: Keys = {"do": "decorate", "what": "a rub-on transfer", "area": "0.3 m2",
                  "uses": ["paper"]}  # fmt: skip
DISTRESS: Keys = {"do": "distress", "grits": [150, 220], "with": "paper pads"}


def text(*steps: Keys, **head: object) -> str:
    return piece_text(
        piece=head,
        part={"width": 1000, "depth": 800},
        zone=[
            {"name": "top", "faces": ["board.top"], "surface": "bare", "step": list(steps)},
            {"name": "rest", "faces": ["*"], "leave": True},
        ],
        product=PRODUCTS,
        abrasive={"name": "paper pads", "form": "pad", "life": "0.4 m2"},
        consumable={"name": "paper", "lasts": "0.1 m2"},
    )


def needs(*steps: Keys, **head: object) -> dict[str, float]:
    found = api.supplies(measured(exact(text(*steps, **head))))
    return {supply.title: supply.worked_out for supply in found}


def tasks(*steps: Keys, **head: object) -> tuple[Task, ...]:
    job = measured(text(*steps, **head))
    return tasks_of(job.piece, job.measured)["top"]


def test_a_stencil_needs_paint_for_its_own_area() -> None:
    assert 0.3 / 10 / 0.8 == pytest.approx(needs(STENCIL)["stencil paint"])


def test_decoupage_goes_over_its_share_of_the_zone_as_often_as_it_says() -> None:
    found = needs(PASTED)
    assert 3 * 0.25 * TOP_M2 / 8 / 0.8 == pytest.approx(found["medium"])
    assert 0.25 * TOP_M2 / 0.1 == pytest.approx(found["paper"])


def test_a_transfer_needs_no_product() -> None:
    assert {"paper": pytest.approx(0.3 / 0.1)} == needs(TRANSFER)


def test_a_decoration_takes_its_time_by_area() -> None:
    assert [pytest.approx(0.3 / 0.2)] == [task.work_h for task in tasks(STENCIL)]
    assert pytest.approx(0.25 * TOP_M2 / 0.2) == sum(task.work_h for task in tasks(PASTED))
    given = [STENCIL | {"rate": "0.6 m2/h"}, STENCIL | {"time": "2 h"}]
    assert [0.5, 2.0] == pytest.approx([task.work_h for one in given for task in tasks(one)])


def test_a_decoration_in_words_and_in_time() -> None:
    (stencil,), (transfer,) = tasks(STENCIL), tasks(TRANSFER)
    assert "decorate with a stencilled border, using stencil paint" == stencil.words
    assert "decorate with a rub-on transfer" == transfer.words
    # the paint of a stencil is dry after one hour, and takes a clear coat after four
    assert (1, 4) == (stencil.wait.dry_h, stencil.wait.next_h)
    assert 0 == transfer.wait.next_h
    assert stencil.can_pause
    assert not stencil.dust


def test_each_coat_of_a_stencil_is_put_on_by_itself() -> None:
    """0.2 m2 an hour (assumed) for all of them, as a written time is; a rate is that of each."""
    found = tasks({**STENCIL, "coats": 2})
    assert ["first time", "second time"] == [task.words.split(", ")[-1] for task in found]
    assert [4, 4] == [task.wait.next_h for task in found]
    (once,) = tasks(STENCIL)
    assert pytest.approx([once.work_h / 2] * 2) == [task.work_h for task in found]
    rated = tasks({**STENCIL, "coats": 2, "rate": "0.6 m2/h"})
    assert pytest.approx([0.5, 0.5]) == [task.work_h for task in rated]
    written = tasks({**STENCIL, "coats": 2, "time": "40 min"})
    assert pytest.approx([1 / 3, 1 / 3]) == [task.work_h for task in written]


def test_a_decoration_given_as_an_area_is_shared_by_the_zones_of_a_schedule() -> None:
    file = piece_text(
        part={"width": 1000, "depth": 800},
        zone=[
            {"name": face, "faces": [f"board.{face}"], "surface": "bare", "schedule": "border"}
            for face in ("top", "bottom")
        ]
        + [{"name": "rest", "faces": ["*"], "leave": True}],
        product=PRODUCTS,
        consumable={"name": "paper", "lasts": "0.1 m2"},
        **{"schedule.border": [STENCIL | {"uses": ["paper"]}]},
    )
    job = measured(exact(file))
    found = {supply.name: supply.worked_out for supply in api.supplies(job)}
    assert 0.3 / 10 / 0.8 == pytest.approx(found["stencil paint"])
    assert 0.3 / 0.1 == pytest.approx(found["paper"])
    hours = [task.work_h for zone in tasks_of(job.piece, job.measured).values() for task in zone]
    assert [0.75, 0.75] == pytest.approx(hours)


def test_worn_edges_need_paper_and_hours_for_their_share_alone() -> None:
    found = needs(DISTRESS | {"share": "10 %"})
    assert [0.1 * TOP_M2 / 0.4] * 2 == pytest.approx(list(found.values()))
    assert 0.05 * TOP_M2 / 0.4 == pytest.approx(needs(DISTRESS)["paper pads P150"])
    usual = tasks(DISTRESS)
    assert [0.05 * TOP_M2 / 0.5] * 2 == pytest.approx([task.work_h for task in usual])
    assert ["distress P150, by hand", "distress P220, by hand"] == [task.words for task in usual]
    assert {"distressed"} == {task.dust for task in usual}


def test_the_usual_share_that_is_worn_is_marked_as_assumed() -> None:
    (supply, _) = api.supplies(measured(text(DISTRESS)))
    assert "worn" in {factor.what.quantity for factor in supply.assumed}
    (told, _) = api.supplies(measured(text(DISTRESS | {"share": "10 %"})))
    assert "worn" not in {factor.what.quantity for factor in told.assumed}


def test_the_share_that_is_worn_varies_with_the_draws() -> None:
    """Of a range from 2 to 10 % the need of P150 may be five times as much."""
    fine = exact(text(DISTRESS)).replace('life = "0.4 m2"', 'life = "0.001 m2"')
    (supply, _) = api.supplies(measured(fine))
    assert supply.need.high > 2 * supply.need.low


def test_a_tape_that_is_off_changes_a_share_and_no_area_that_is_given() -> None:
    job = measured(exact(text(STENCIL, PASTED, measured_to="20 mm")))
    found = {supply.name: supply.need for supply in api.supplies(job)}
    assert found["stencil paint"].low == found["stencil paint"].high
    assert found["medium"].low < found["medium"].high


def test_what_wears_out_by_area_in_distressing_wears_out_on_the_worn_area() -> None:
    found = needs(DISTRESS | {"uses": ["paper"]})
    assert 2 * 0.05 * TOP_M2 / 0.1 == pytest.approx(found["paper"])  # with each of two grits


def test_distressing_by_machine_goes_by_hand_where_no_machine_reaches() -> None:
    """The edges of the board are 20 mm wide: 2 x (1 + 0.8) x 0.02 m2 of them."""
    step = DISTRESS | {"by": "machine"}
    job = measured(text(step).replace('faces = ["board.top"]', 'faces = ["board"]'))
    found = tasks_of(job.piece, job.measured)["top"]
    each = 0.05 * (2 * TOP_M2 / 1.0 + 0.072 / 0.5)
    assert [each, each] == pytest.approx([task.work_h for task in found])


def test_a_disc_on_a_machine_is_no_usual_way_to_wear_edges() -> None:
    file = text(DISTRESS).replace('form = "pad"', 'form = "disc"')
    (step,) = measured(file).piece.zones[0].steps
    assert "hand" == step.by


def test_how_a_decoration_was_worked_out_is_told() -> None:
    job = measured(text(PASTED))
    supply = next(one for one in api.supplies(job) if one.name == "medium")
    (use,) = supply.uses
    line = use_line(job.piece, supply, use, Units.METRIC)
    assert "top: decoupage: 0.2000 m2 / 8 m2/L x 3 / (1 - 20 %) = 93.8 ml" == line


def test_a_set_has_as_much_decoration_and_as_many_worn_edges_as_it_has_pieces() -> None:
    one, four = needs(STENCIL, DISTRESS, TRANSFER), needs(STENCIL, DISTRESS, TRANSFER, count=4)
    assert {name: 4 * amount for name, amount in one.items()} == pytest.approx(four)
    assert 4 * 0.3 / 0.2 == pytest.approx(tasks(STENCIL, count=4)[0].work_h)


def painted(*steps: Keys, **head: object) -> str:
    return text(*steps, **head).replace('surface = "bare"', 'surface = "painted"')


def test_distressing_an_old_coating_is_dry_sanding_of_it() -> None:
    job = measured(painted(DISTRESS, built=1950))
    lead = [one for one in api.cautions(job) if "lead" in one.headline.lower()]
    assert 1 == len(lead)
    assert '"top" is painted' in lead[0].applies_to
    assert any("wears off an old finish that may contain lead" in one.message for one in job.notes)
    found = measured(painted(DISTRESS, built=1950, lead="found"))
    assert any(
        "makes dust of a finish in which lead was found" in one.message for one in found.notes
    )


def test_decorating_an_old_coating_sets_no_lead_free() -> None:
    job = measured(painted(TRANSFER, built=1950))
    assert not [one for one in api.cautions(job) if "lead" in one.headline.lower()]


def test_distressing_makes_wood_dust() -> None:
    assert [one for one in api.cautions(measured(text(DISTRESS))) if "dust" in one.headline.lower()]
    assert not [one for one in api.cautions(measured(text(STENCIL))) if "dust" in one.headline]
