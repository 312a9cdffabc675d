"""What a step takes where the file does not say: what was published, and what is assumed."""

from typing import get_args

import pytest

from surfacecalc.catalogue import step_defaults
from surfacecalc.catalogue.entries import product_classes, solids_share
from surfacecalc.model.steps import Change, Method


def test_hardener_is_one_to_three_per_cent_of_the_weight() -> None:
    """1 to 3 % of a 50 % peroxide paste: https://www.archiepaint.com, note of June 2012."""
    found = step_defaults.hardener_share()
    assert (0.01, 0.03) == (found.range.low, found.range.high)
    assert "published" == found.source
    assert found.reference.startswith("https://")


@pytest.mark.parametrize("by", get_args(Method))
def test_every_tool_keeps_something(by: Method) -> None:
    kept = step_defaults.stays_behind(by)
    assert 0 < kept.low < kept.likely < kept.high < 0.2


@pytest.mark.parametrize("change", get_args(Change))
def test_strong_changes_of_colour_take_more_coats(change: Change) -> None:
    assert step_defaults.more_coats(change).likely >= 1


FILM_FAMILIES = sorted({entry.family for entry in product_classes() if entry.nature.forms_film})


@pytest.mark.parametrize("family", FILM_FAMILIES)
def test_every_film_has_solids(family: str) -> None:
    share = solids_share(family)
    assert 0 < share.low <= share.likely <= share.high < 1
