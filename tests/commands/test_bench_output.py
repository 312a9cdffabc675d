"""What the bench needs, wherever it is printed: plan on the screen, JSON, CSV, calendar, sheet.

The seat has 2 + 4 x 0.1 = 2.4 m2, one coat takes 2.4 / 10 = 0.24 L with nothing lost; 0.03 L of the
mix are on hand. Bought for six of ten jobs, of which two in three need two coats, 0.48 L are
needed, 0.45 L of them mixed: 0.3 L of blue and 0.15 L of white. A third coat needs 0.24 L again.
"""

import csv
import io
import json

import pytest
from icalendar import Calendar
from typer.testing import CliRunner

from surfacecalc.commands import app

PIECE = """\
[piece]
name = "Stool"
unit = "m"
buy_for = "60 %"

[workshop]
start = 2026-11-28
own_spread = "0 %"

[[part]]
name = "seat"
shape = "board"
width = 1
depth = 1
height = 0.1

[[zone]]
name = "seat"
faces = ["seat"]
surface = "sealed"

[[zone.step]]
do = "wash"
product = "soap"
strength = "4 %"
covers = "8 m2/L"
rinse = "6 m2/L"

[[zone.step]]
do = "coat"
product = "pale blue"
coats = [2, 2, 3]
by = "brush"
loss = "0 %"
stays_behind = "0 ml"
thin = "10 %"

[[mix]]
name = "pale blue"
recipe = [{ product = "blue", parts = 2 }, { product = "white", parts = 1 }]
covers = "10 m2/L"
measure = "5 ml"
on_hand = "30 ml"

[[product]]
name = "blue"
kind = "waterborne furniture paint"
thinner = "water"

[[product]]
name = "white"
kind = "waterborne furniture paint"
thinner = "water"

[[product]]
name = "water"
kind = "water"

[[product]]
name = "soap"
kind = "cleaner"
"""
WASH = "Mix 1 part with 24 parts water: 12.0 ml in 288 ml water; rinse with 400 ml water."
PARTS = "300 ml blue and 150 ml white"
FIRST = f"First mix 450 ml of pale blue: {PARTS}; stir it into the 30.0 ml you have."
COAT = "240 ml for this coat; stir in 10 % water (24.0 ml)."
SPARE = "A third coat only if it is needed: 240 ml; stir in 10 % water (24.0 ml)."
STOP = "With under 240 ml left after it, mix again and stir the two together before a third coat."
EVERYTHING = [[WASH], [FIRST, COAT], [COAT, SPARE, STOP]]


@pytest.fixture
def run(tmp_path, monkeypatch):
    """Run a command on the stool; it prints wide, so that no sentence is broken."""
    monkeypatch.setenv("COLUMNS", "400")
    file = tmp_path / "stool.toml"
    file.write_text(PIECE, encoding="utf-8")

    def invoke(command, *options):
        found = CliRunner().invoke(app, [command, str(file), *options])
        assert 0 == found.exit_code, found.output
        return found.output

    return invoke


def test_the_plan_says_it_where_asked_why(run):
    lines = [line for line in run("plan", "--why").splitlines() if line.startswith("seat ")]
    assert [" ".join(texts) for texts in EVERYTHING] == [
        line[min(line.find(text) for text in ("Mix", "First", "240") if text in line) :].strip()
        for line in lines
        if "Mix 1" in line or "for this coat" in line
    ]
    assert "for this coat" not in run("plan")


def test_json_has_amounts_batch_stop_and_spare_coat(run):
    wash, first, second = json.loads(run("plan", "--json"))["tasks"]
    assert [("cleaner", 0.012), ("water", 0.288), ("rinse", 0.4)] == [
        (one["role"], pytest.approx(one["amount"])) for one in wash["amounts"]
    ]
    used = {"unit": "L", "share": None, "role": "step", "supply": "pale blue"}
    thinner = {"unit": "L", "share": 0.1, "role": "thinner", "supply": "water"}
    coat = [{**used, "amount": pytest.approx(0.24)}, {**thinner, "amount": pytest.approx(0.024)}]
    assert coat == first["amounts"] == second["amounts"]
    assert [[], []] == [wash["batches"], second["batches"]]
    (batch,) = first["batches"]
    assert ("pale blue", "L", pytest.approx(0.45), pytest.approx(0.03)) == tuple(
        batch[key] for key in ("mix", "unit", "amount", "on_hand")
    )
    assert [("blue", pytest.approx(0.3), "L"), ("white", pytest.approx(0.15), "L")] == [
        tuple(part[key] for key in ("supply", "amount", "unit")) for part in batch["parts"]
    ]
    stop = {"supply": "pale blue", "least": pytest.approx(0.24), "unit": "L", "coat": 3}
    assert [{**stop, "zones": ["seat"], "planned": False, "mix": True}] == second["stops"]
    assert [{"coat": 3, "amounts": coat}] == second["spare_coats"]
    assert [[], [], False, []] == [
        wash["stops"], first["spare_coats"], second["only_if_needed"], first["pour_together_first"]
    ]  # fmt: skip


def test_json_says_what_is_poured_together_and_which_coat_only_some_jobs_need(run, tmp_path):
    """0.1 L of blue is on hand for a coat of 0.24 L; one job in three does with one coat."""
    text = PIECE.replace("[2, 2, 3]", "[1, 2, 2]").replace('ct = "pale blue"', 'ct = "blue"')
    text = text.replace('name = "blue"', 'name = "blue"\ncovers = "10 m2/L"\non_hand = "100 ml"')
    (tmp_path / "stool.toml").write_text(text, encoding="utf-8")
    _, first, second = json.loads(run("plan", "--json"))["tasks"]
    assert [["blue"], []] == [first["pour_together_first"], second["pour_together_first"]]
    assert [False, True] == [first["only_if_needed"], second["only_if_needed"]]


def test_csv_has_the_amounts_of_each_task_once(run):
    rows = list(csv.DictReader(io.StringIO(run("plan", "--csv"))))
    coat = "0.24 L pale blue; 0.024 L water (thinner)"
    washing = "0.012 L soap (cleaner); 0.288 L water from the tap (water)"
    assert [f"{washing}; 0.4 L water from the tap (rinse)", coat, coat] == [
        row["amounts"] for row in rows
    ]


def test_csv_has_the_amounts_of_a_task_that_goes_on_another_day_in_its_first_row(run, tmp_path):
    text = PIECE.replace('strength = "4 %"', 'strength = "4 %"\ntime = "10 h"')
    (tmp_path / "stool.toml").write_text(text, encoding="utf-8")
    rows = list(csv.DictReader(io.StringIO(run("plan", "--csv"))))
    washing = [row["amounts"] for row in rows if row["step"] == "1"]
    assert len(washing) > 1
    assert [True, *[False] * (len(washing) - 1)] == [bool(amounts) for amounts in washing]


def test_the_calendar_says_it_between_step_and_wait(run, tmp_path):
    target = tmp_path / "stool.ics"
    assert "for this coat" not in run("plan", "--calendar", str(target))
    events = Calendar.from_ical(target.read_bytes()).walk("VEVENT")
    texts = [str(event["description"]).split("\n") for event in events if "description" in event]
    assert [["Step 1.", WASH], ["Step 2.", FIRST, COAT], ["Step 2.", COAT, SPARE, STOP]] == [
        [line for line in text if not line.startswith("Then wait")] for text in texts
    ]


def test_the_shop_sheet_says_it_under_each_step_and_the_client_sheet_does_not(run, tmp_path):
    target = tmp_path / "stool.html"
    run("sheet", "--to", str(target))
    page = target.read_text(encoding="utf-8").replace("\N{NO-BREAK SPACE}", " ")
    for line in (line for texts in EVERYTHING for line in texts):
        assert f'<span class="amounts"><bdi>{line}</bdi></span>' in page
    run("sheet", "--client", "--to", str(target), "--replace")
    assert "for this coat" not in target.read_text(encoding="utf-8")


def test_the_door_for_programs_has_it_too(tmp_path):
    from surfacecalc import api

    job = api.measure(api.read_piece_text(PIECE))
    made = api.plan(job)
    found = api.bench(job, made, api.supplies(job))
    assert [("seat", 1), ("seat", 2), ("seat", 3)] == list(found)
