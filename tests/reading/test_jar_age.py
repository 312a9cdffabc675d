"""A jar that was opened long ago gets a remark; slips in its date are told."""

from datetime import datetime

import pytest

from surfacecalc import clock

PIECE = """
[piece]
name = "p"
unit = "mm"
[[part]]
name = "top"
shape = "board"
width = 100
depth = 60
height = 20
[[zone]]
name = "all"
faces = ["top"]
leave = true
[[product]]
name = "paint"
kind = "paint"
{more}
"""


@pytest.fixture(autouse=True)
def today(monkeypatch):
    monkeypatch.setattr(clock, "now", lambda: datetime(2026, 6, 30))


@pytest.mark.parametrize(
    ("more", "level", "message"),
    [
        ("opened = 2025-01-01", "note", "was opened 545 days ago and keeps for 365 days (assumed)"),
        (
            'opened = 2026-06-01\nkeeps = "20 days"',
            "note",
            "was opened 29 days ago and keeps for 20 days:",
        ),
        ("opened = 2026-07-01", "mend", "is in the future"),
        ('opened = "2026-01-01"', "mend", "must be a date without quotes"),
        ('keeps = "20 days"', "mend", "but not the day it was opened"),
        ('opened = 2026-06-01\nkeeps = "0 days"', "mend", "more than zero"),
    ],
)
def test_age_of_a_jar(read, more, level, message):
    _, problems = read(PIECE.format(more=more))
    (found,) = [problem for problem in problems if problem.level == level]
    assert message in found.message


def test_fresh_jar_is_no_matter(read):
    piece, problems = read(PIECE.format(more="opened = 2026-06-01"))
    assert piece is not None
    assert problems == []
