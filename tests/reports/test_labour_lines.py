"""`plan --why` says what each zone counts as work and by which rule; only where it differs."""

from pathlib import Path

EXAMPLES = Path(__file__).parents[2] / "examples"


def test_why_says_what_slender_parts_count_and_by_whose_rule(run):
    shown = " ".join(run("plan", EXAMPLES / "spindle-chair.toml", "--why").stdout.split())
    assert "chair: 0.7129 m2 counts as 1.060 m2" in shown
    assert "of it by hand" in shown
    assert "under 6 in around as 6 in, 6 to 12 in as 12 in (G. Terry" in shown


def test_a_zone_of_which_nothing_counts_more_is_not_listed(run):
    shown = run("plan", EXAMPLES / "spindle-chair.toml", "--why").stdout
    assert "seat top:" not in shown


def test_without_why_it_is_not_told(run):
    assert "counts as" not in run("plan", EXAMPLES / "spindle-chair.toml").stdout
