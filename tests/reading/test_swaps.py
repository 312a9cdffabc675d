"""`swap`: the schedule of a zone with another product in the place of one of its own."""

import pytest
from piece_texts import Keys, exact, measured, piece_text

from surfacecalc import api
from surfacecalc.plans.tasks import tasks_of

BOARDS: list[Keys] = [
    {"name": "wide", "shape": "board", "width": 500, "depth": 400, "height": 20},
    {"name": "slim", "shape": "board", "width": 300, "depth": 200, "height": 20, "at": [900, 0, 0]},
]
TOPS_M2 = {"wide": 0.20, "slim": 0.06}
PRODUCTS: list[Keys] = [
    {"name": "moss green", "kind": "waterborne furniture paint", "covers": "10 m2/L",
     "packs": [{"size": "750 ml", "price": 20}]},
    {"name": "cream", "kind": "waterborne furniture paint", "covers": "8 m2/L",
     "packs": [{"size": "750 ml", "price": 20}]},
    {"name": "danish oil", "kind": "danish oil", "covers": "12 m2/L"},
    {"name": "umber", "kind": "waterborne furniture paint"},
    {"name": "filler", "kind": "wood filler", "density": "1.6 kg/L"},
    {"name": "dark filler", "kind": "wood filler", "density": "1.6 kg/L"},
]  # fmt: skip
KNOBS = {"name": "knobs", "count": 6, "plan": "renew", "size": ["30 mm", "30 mm", "20 mm"]}
STEPS: list[Keys] = [
    {"do": "test", "products": ["moss green"], "patch": "0.1 m2"},
    {"do": "fill", "product": "filler",
     "pits": [{"count": 9, "diameter": "8 mm", "depth": "4 mm"}]},
    {"do": "sand", "grits": [180], "with": "pads"},
    {"do": "coat", "product": "moss green", "coats": 2, "by": "roller", "stays_behind": "30 ml",
     "tint": {"product": "umber", "share": "5 %"}, "uses": ["sleeve"]},
    {"do": "wax hardware", "product": "moss green", "by": "brush", "hardware": "knobs"},
]  # fmt: skip


def file(swap: Keys | str | None, **more: object) -> str:
    """Return a file whose two zones have one schedule, the slim one with a swap."""
    zones: list[Keys] = [
        {"name": name, "faces": [f"{name}.top"], "surface": "painted", "schedule": "painted"}
        for name in TOPS_M2
    ]
    zones[1].update({"swap": swap, **more})
    zones.append({"name": "rest", "faces": ["*"], "leave": True})
    return piece_text(
        part=BOARDS,
        zone=zones,
        product=PRODUCTS,
        hardware=KNOBS,
        abrasive={"name": "pads", "form": "150 mm disc"},
        consumable={"name": "sleeve", "lasts": "1 session"},
        **{"schedule.painted": STEPS},
    )


def mistakes(text: str) -> list[str]:
    return [one.message for one in api.read_piece_text(text).problems if one.level == "mend"]


def test_each_colour_is_needed_for_its_own_zone_with_a_tray_of_its_own() -> None:
    job = measured(exact(file({"moss green": "cream"})))
    needs = {supply.name: supply.need.likely for supply in api.supplies(job)}
    patch, loss = 0.1, 0.9
    knobs = 6 * (0.03 * 0.03 + 2 * 0.02 * 0.06) / 10 / loss
    green_coats = 2 * 0.20 / 10 / loss + 2 * 0.030
    cream_coats = 2 * 0.06 / 8 / loss + 2 * 0.030
    assert patch / 10 / loss + green_coats + knobs == pytest.approx(needs["moss green"])
    assert patch / 8 / loss + cream_coats == pytest.approx(needs["cream"])
    assert 0.05 * (green_coats + cream_coats) == pytest.approx(needs["umber"])
    assert 4 == needs["sleeve"]  # one for each coat in each colour


def test_without_a_swap_the_zones_share_tray_and_sessions() -> None:
    job = measured(exact(file(None)))
    needs = {supply.name: supply.need.likely for supply in api.supplies(job)}
    knobs = 6 * (0.03 * 0.03 + 2 * 0.02 * 0.06) / 10 / 0.9
    coats = 2 * 0.26 / 10 / 0.9 + 2 * 0.030
    assert 0.1 / 10 / 0.9 + coats + knobs == pytest.approx(needs["moss green"])
    assert 2 == needs["sleeve"]
    assert "cream" not in needs


def test_a_coat_in_another_colour_says_so_in_the_plan_and_hardware_keeps_its_own() -> None:
    job = measured(file({"moss green": "cream"}))
    words = [task.words for task in tasks_of(job.piece, job.measured)["slim"]]
    assert "first coat of cream, by roller" in words
    assert "wax hardware: one coat of moss green on knobs (6 total), by brush" in words
    assert "test patch: cream" in words


def test_what_is_counted_is_shared_as_before_whatever_it_is_filled_with() -> None:
    def filler(swap: Keys | None) -> dict[str, float]:
        job = measured(exact(file(swap)))
        return {s.name: s.need.likely for s in api.supplies(job) if "filler" in s.name}

    both, apart = filler(None), filler({"filler": "dark filler"})
    assert sum(both.values()) == pytest.approx(sum(apart.values()))
    assert {"filler", "dark filler"} == set(apart)
    assert apart["dark filler"] / sum(apart.values()) == pytest.approx(0.06 / 0.26)


def test_a_swapped_coat_has_the_defaults_of_its_own_product() -> None:
    text = piece_text(
        part=BOARDS,
        zone=[
            {"name": name, "faces": [name], "surface": "bare", "schedule": "finish",
             "swap": swap}
            for name, swap in (("wide", None), ("slim", {"moss green": "danish oil"}))
        ],
        product=PRODUCTS,
        **{"schedule.finish": [{"do": "coat", "product": "moss green", "coats": 1, "by": "brush"}]},
    )  # fmt: skip
    reading = api.read_piece_text(text)
    assert reading.piece is not None, reading.lines
    wide, slim = reading.piece.zones
    assert (0.75, 1.0) == tuple(zone.steps[0].first_coat.range.likely for zone in (wide, slim))
    assert wide.steps[0].line == slim.steps[0].line


def test_a_tint_may_be_swapped_too() -> None:
    job = measured(file({"umber": "cream"}))
    assert "cream" == job.piece.zones[1].steps[3].tint.product
    assert "umber" == job.piece.zones[0].steps[3].tint.product


@pytest.mark.parametrize(
    ("swap", "told"),
    [
        ({"moss gren": "cream"}, '"moss gren" is not a product that this schedule uses; did you'),
        ({"moss green": "creme"}, 'swap: moss green = "creme" is not a product in this file'),
        ({"moss green": 3}, 'must be the name of a product in quotes, as in swap = { "moss green"'),
        ({}, "is empty; write swap = {"),
        ("cream", 'must be written swap = { "moss green" = "cream" }'),
        ({"cream": "moss green"}, '"cream" is not a product that this schedule uses'),
    ],
)
def test_a_swap_that_cannot_be_is_told_once_and_what_would_be_right(swap: Keys, told: str) -> None:
    (message,) = mistakes(file(swap))
    assert told in message


def test_a_swap_needs_a_schedule() -> None:
    steps = [{"do": "coat", "product": "moss green", "coats": 1, "by": "brush"}]
    text = piece_text(zone={"swap": {"moss green": "cream"}, "step": steps}, product=PRODUCTS)
    (message,) = mistakes(text)
    assert "swap" in message
    assert "has no schedule to change; name the product in the steps themselves" in message


def test_a_product_that_does_not_fit_the_step_is_told_at_the_zone() -> None:
    light = '[[product]]\nname = "light filler"\nkind = "wood filler"\n'
    text = file({"filler": "light filler"}) + light
    (problem,) = [one for one in api.read_piece_text(text).problems if one.level == "mend"]
    assert 'zone "slim"' == problem.where
    assert problem.message.startswith("swap: line ")
    assert "sold by weight, but holes are measured by volume" in problem.message


def test_what_goes_on_hardware_alone_cannot_be_swapped() -> None:
    text = (
        file({"gilding": "cream"}).replace(
            'do = "wax hardware"\nproduct = "moss green"',
            'do = "wax hardware"\nproduct = "gilding"',
        )
        + '[[product]]\nname = "gilding"\nkind = "gilding wax"\n'
    )
    (message,) = mistakes(text)
    assert '"gilding" is not a product that this schedule uses' in message
