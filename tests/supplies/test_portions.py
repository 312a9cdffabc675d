"""What each task uses: all tasks of a step add up to its use on the supply list."""

from collections import defaultdict
from datetime import datetime
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from piece_texts import measured, piece_text

from surfacecalc import api

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
SATURDAY = datetime(2026, 11, 28, 9, 0)
POURED = ("product", "thinner", "water")


def sums(job):
    """Return what the supply list says of each zone, step, supply, and the sum of its tasks.

    Water of nothing, in a wash that is neither diluted nor rinsed, is no line.
    """
    made, bought = api.plan(job, SATURDAY), api.supplies(job)
    listed: dict[tuple, float] = defaultdict(float)
    summed: dict[tuple, float] = defaultdict(float)
    for supply in bought:
        for use in supply.uses:
            if supply.what in POURED and use.role != "part of mix":
                listed[use.zone, use.step.line, supply.name] += use.likely
    lines = {(entry.task.zone, entry.task.number): entry.task.line for entry in made.entries}
    for (zone, number), task in api.bench(job, made, bought).items():
        for one in task.portions:
            summed[zone, lines[zone, number], one.supply] += one.amount
    return {key: amount for key, amount in listed.items() if amount}, dict(summed)


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_the_tasks_of_each_step_of_an_example_add_up_to_its_use(file):
    listed, summed = sums(api.measure(api.read_piece(file)))
    assert listed == pytest.approx(summed)


COATS = st.sampled_from([1, 2, 3, [1, 2, 2], [2, 2, 4], [1, 3, 5], [2, 4, 4]])
SHARES = st.sampled_from([None, "5 %", "12 %"])
COAT = st.fixed_dictionaries({
    "do": st.just("coat"), "product": st.sampled_from(["paint", "mixed"]), "coats": COATS,
    "by": st.sampled_from(["brush", "roller", "cloth", "spray"]), "thin": SHARES,
    "sides": st.sampled_from([None, 2]), "spot": st.sampled_from([None, "30 %"]),
    "tint": st.sampled_from([None, {"product": "ochre", "share": "3 %"}]),
    "change": st.sampled_from([None, "dark to light"]),
    "between": st.sampled_from([None, {"grit": 320, "with": "disc"}]),
})  # fmt: skip
WASH = st.fixed_dictionaries({
    "do": st.just("wash"), "product": st.just("soap"),
    "strength": st.sampled_from(["3 %", "100 %"]),
    "times": st.integers(1, 3), "rinse": st.booleans(), "sides": st.sampled_from([None, 2]),
})  # fmt: skip
FILL = st.fixed_dictionaries({
    "do": st.just("fill"), "product": st.just("putty"), "applications": st.integers(1, 3),
    "shrinkage": st.sampled_from([None, "8 %"]), "sides": st.sampled_from([None, 2]),
    "pits": st.just([{"count": 3, "diameter": 10, "depth": 4}]),
})  # fmt: skip
RUB = st.just({
    "do": "rub out", "grits": [1000, 2000], "with": "disc", "by": "hand", "product": "polish",
})  # fmt: skip
TRIAL = st.just({"do": "test", "products": ["paint", "ochre"], "patch": "0.01 m2"})
STEPS = st.lists(st.one_of(COAT, WASH, FILL, RUB, TRIAL), min_size=1, max_size=4)


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(steps=STEPS, surface=st.sampled_from(["bare", "sealed"]))
def test_the_tasks_of_each_step_of_any_schedule_add_up_to_its_use(steps, surface):
    """Two zones share the schedule, so that what is counted once is shared out."""
    zones = [
        {"name": name, "faces": [f"board.{face}"], "surface": surface, "schedule": "finish"}
        for name, face in (("up", "top"), ("down", "bottom"))
    ]
    schedule = [{key: value for key, value in step.items() if value is not None} for step in steps]
    paint = {"kind": "waterborne furniture paint", "covers": ["8 m2/L", "10 m2/L", "13 m2/L"]}
    text = piece_text(
        zone=zones,
        product=[
            {"name": "paint", **paint},
            {"name": "ochre", **paint},
            {"name": "soap", "kind": "cleaner"},
            {"name": "putty", "kind": "wood filler", "density": "1.6 kg/L"},
            {"name": "polish", "kind": "paste wax"},
        ],
        abrasive={"name": "disc", "form": "125 mm disc", "life": "0.3 m2"},
        mix={
            "name": "mixed",
            "recipe": [{"product": "paint", "parts": 2}, {"product": "ochre", "parts": 1}],
            "on_hand": "20 ml",
        },
    )
    text += "".join("[[schedule.finish]]\n" + "\n".join(_lines(step)) + "\n" for step in schedule)
    listed, summed = sums(measured(text))
    assert listed == pytest.approx(summed)


def _lines(step):
    from toml_writer import toml_value

    return [f"{key} = {toml_value(value)}" for key, value in step.items()]
