"""`plan --why` says what each zone counts as work and by which rule; only where it differs."""

from pathlib import Path

from piece_texts import piece_text

EXAMPLES = Path(__file__).parents[2] / "examples"


def test_why_says_what_slender_parts_count_and_by_whose_rule(run):
    shown = " ".join(run("plan", EXAMPLES / "spindle-chair.toml", "--why").stdout.split())
    assert "chair: 0.7129 m2 counts as 1.071 m2" in shown
    assert "of it by hand" in shown
    assert "under 6 in around as 6 in, 6 to 12 in as 12 in (G. Terry" in shown


def test_why_names_every_rule_with_its_source(run):
    shown = " ".join(run("plan", EXAMPLES / "spindle-chair.toml", "--why").stdout.split())
    for source in ("IS 1200, Part 15", "Radford's Cyclopedia of Construction, vol. 10", "p. 127"):
        assert source in shown


def test_a_zone_of_which_nothing_counts_more_is_not_listed(run, tmp_path):
    board = {"name": "board", "shape": "board", "width": 500, "depth": 400, "height": 60}
    zones = [
        {"name": "flat", "faces": ["board.top"], "surface": "bare"},
        {"name": "stick", "faces": ["stick"], "surface": "bare"},
    ]
    stick = {**board, "name": "stick", "depth": 30, "height": 30, "at": [0, 900, 0]}
    text = piece_text({"do": "dust off"}, part=[board, stick], zone=zones)
    (tmp_path / "two.toml").write_text(text, encoding="utf-8")
    shown = run("plan", tmp_path / "two.toml", "--why").stdout
    assert "stick: " in shown.partition("How much work it is")[2]
    assert "flat: " not in shown.partition("How much work it is")[2]


def test_without_why_it_is_not_told(run):
    assert "counts as" not in run("plan", EXAMPLES / "spindle-chair.toml").stdout
