"""A life in one number: off by a quarter where it is measured, exact where it is counted."""

import pytest
from piece_texts import measured, piece_text


def lasts(written):
    sand = {"do": "sand", "grits": [120], "with": "sheet", "uses": ["rag"]}
    text = piece_text(
        sand,
        abrasive={"name": "sheet", "form": "sheet"},
        consumable={"name": "rag", "lasts": written},
    )
    return measured(text).piece.shelf.consumables["rag"].lasts


@pytest.mark.parametrize("written", ["2 m2", "2 h", "2 sessions"])
def test_one_number_may_be_off_by_a_quarter(written):
    found = lasts(written)
    assert found.is_band_assumed
    assert (1.5, 2.0, 2.5) == (found.range.low, found.range.likely, found.range.high)


@pytest.mark.parametrize("written", ["1 session", "0.5 sessions", "1 job", "20 jobs"])
def test_what_is_counted_by_the_session_or_the_job_is_exact(written):
    assert lasts(written).range.is_fixed


@pytest.mark.parametrize("written", [["1 m2", "2 m2", "4 m2"], ["2 h", "2 h", "2 h"]])
def test_a_range_stays_that_range(written):
    found = lasts(written)
    assert not found.is_band_assumed
    assert float(written[2].partition(" ")[0]) == found.range.high
