"""What a list says of how sure it is: each line, all of them together, and what is counted."""

import json
import re

import pytest
from piece_texts import exact, measured, piece_text

from surfacecalc import api
from surfacecalc.reports.certainty import all_lasts, certainty_lines
from surfacecalc.reports.exports import supplies_json

CUBE = {"shape": "board", "width": "1 m", "depth": "1 m", "height": "1 m"}
HARDWARE = {"name": "knobs", "count": 3, "plan": "replace", "packs": [{"count": 1}]}


def job_text(head="", packs=({"size": "50 ml"},), coats=2):
    zones = [
        {"name": face, "faces": [f"board.{face}"], "surface": "sealed", "step": [
            {"do": "coat", "product": f"{face} colour", "coats": coats, "by": "brush"},
            {"do": "refit", "hardware": ["knobs"]}]}
        for face in ("top", "front", "left")
    ]  # fmt: skip
    paints = [
        {"name": f"{face} colour", "kind": "waterborne paint", "covers": "10 m2/L",
         "packs": list(packs)}
        for face in ("top", "front", "left")
    ]  # fmt: skip
    text = piece_text(part=CUBE, zone=zones, product=paints, hardware=HARDWARE)
    return text.replace("[piece]\n", f"[piece]\n{head}\n")


def lines(text):
    job = measured(text)
    return list(certainty_lines(job.piece, api.supplies(job)))


def printed(run, tmp_path, text, *options):
    file = tmp_path / "piece.toml"
    file.write_text(text, encoding="utf-8")
    return " ".join(run(*options, file).stdout.split())


def test_a_list_says_how_often_all_of_it_lasts_and_how_to_be_surer():
    found = lines(job_text(packs=()))
    assert found[0] == ("Need: enough 9 times out of 10. Range: 9 jobs in 10 fall between these.")
    assert found[1] == ('Lines marked "counted" or "exact" have no range: you need just that much.')
    # three normal numbers of correlation 0.49, each below its 90 % point: 78.05 %
    assert found[2] == (
        "Everything on this list lasts to the end in 78 jobs out of 100, if you get what you need"
        ' of the lines without a pack too. To make that 90, set buy_for_all = "90 %" in [piece].'
    )
    assert len(found) == 3


def test_a_list_that_is_bought_for_together_says_the_point_of_each_line():
    found = lines(job_text('buy_for_all = "90 %"', packs=()))
    need = found[0].partition(".")[0]
    share = float(found[0].removeprefix("Need: enough ").partition(" %")[0])
    assert need.startswith("Need: enough 9")
    assert 94 < share < 97
    assert "lasts to the end in 90 jobs out of 100" in found[2]
    assert "buy_for_all" not in found[2]


def test_what_no_amount_can_reach_is_said():
    job = measured(job_text('buy_for_all = "99 %"', packs=()))
    few = api.supplies(measured(job_text(packs=())))
    said = all_lasts(job.piece, few)
    assert said.endswith("No amount makes that 99 out of 100.")


def test_a_list_of_exact_numbers_says_nothing_of_chances(run, tmp_path):
    found = lines(exact(job_text()).replace('by = "brush"', 'by = "brush"\nloss = "10 %"'))
    assert found == ['Lines marked "counted" or "exact" have no range: you need just that much.']
    shown = printed(run, tmp_path, exact(job_text()), "supplies")
    assert "out of" not in shown
    assert " exact " in shown


def test_what_is_counted_says_so_in_place_of_a_range(run, tmp_path):
    shown = printed(run, tmp_path, job_text(), "supplies")
    assert "knobs 9 counted" in shown or "knobs 3 counted" in shown
    why = printed(run, tmp_path, job_text(), "supplies", "--why")
    assert "counted: there is no range" in why
    text = "half of all jobs need "
    said = why[why.index(text) : why.index(" is enough 9 times out of 10")]
    middle, low, high, bought = re.findall(r"(\d+(?:\.\d+)?) ml", said)
    assert float(low) < float(middle) < float(bought) < float(high)


def test_the_arithmetic_names_all_three_spreads_of_the_hand(run, tmp_path):
    why = printed(run, tmp_path, job_text(), "supplies", "--why")
    for words in (
        "how much more or less your hand uses than the label says, 77 to 130 %, most likely 100:"
        " assumed",
        "your hand with top colour by brush, 82 to 122 %, most likely 100: assumed",
        "one job beside the next with top colour by brush, 83 to 120 %, most likely 100: assumed",
    ):
        assert words in why
    ranking = why.partition("Assumed figures, the one that matters most first")[2]
    assert "your hand with one supply, 82 to 122 %" in ranking
    assert "one job beside the next, 83 to 120 %" in ranking


def test_a_number_with_an_assumed_range_says_both(run, tmp_path):
    text = job_text().replace('by = "brush"', 'by = "brush"\nloss = "20 %"')
    why = printed(run, tmp_path, text, "supplies", "--why")
    assert "lost when applied by brush" in why
    assert ", 20 %, taken as 10 to 30 %: piece file, its range assumed" in why
    assert "taken as" not in printed(run, tmp_path, exact(text), "supplies", "--why")


def test_own_spread_is_the_piece_files_and_not_assumed(run, tmp_path):
    text = job_text() + '[workshop]\nown_spread = "20 %"\n'
    why = printed(run, tmp_path, text, "supplies", "--why")
    # 0.16 / 0.2283 of ln 1.2 to each side
    assert "than the label says, 88 to 114 %, most likely 100: piece file" in why


def test_programs_are_told_the_same():
    job = measured(job_text(packs=()))
    found = json.loads(supplies_json(job.piece, api.supplies(job), []))
    assert found["chance_all_lasts"] == pytest.approx(0.7805, abs=0.004)
    by_name = {one["supply"]: one["need"] for one in found["supplies"]}
    assert by_name["top colour"]["bought_at"] == 0.9
    assert by_name["knobs"]["bought_at"] is None


def test_the_sheet_says_it_too(run, tmp_path):
    file = tmp_path / "piece.toml"
    file.write_text(job_text(), encoding="utf-8")
    page = tmp_path / "sheet.html"
    run("sheet", file, "--to", page)
    assert "Everything on this list lasts to the end in " in page.read_text("utf-8")
