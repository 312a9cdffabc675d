"""Old finish is tested for lead before it is sanded or stripped, or the file says what it has."""

import pytest

from surfacecalc.checks.lead_first import check_lead_first

SAND = 'do = "sand"; grits = [180, 220]; with = "disc"'
TESTED = 'do = "sand"; grits = [180, 220]; with = "disc"; uses = ["lead test"]'
STRIP = 'do = "strip"; product = "stripper"; by = "brush"'
WASH = 'do = "wash"; product = "cleaner"; strength = "3 %"'
WASH_TESTED = f'{WASH}; uses = ["lead test"]'
KIT = '[[consumable]]\nname = "lead test"\nlasts = "1 job"\n'


@pytest.fixture
def told(by_check):
    def run(*steps, **given):
        return by_check(check_lead_first, *steps, more=KIT, **given)

    return run


@pytest.mark.parametrize("step", [SAND, STRIP])
@pytest.mark.parametrize("built", ["", 'built = "unknown"\n', "built = 1991\n"])
def test_wearing_an_old_finish_untested_is_told(step, built, told):
    (note,) = told(step, surface="painted", head=built)
    assert "no step tests it" in note.message


@pytest.mark.parametrize(
    ("steps", "given"),
    [
        ((TESTED,), {"surface": "painted"}),
        ((WASH_TESTED, SAND), {"surface": "varnished"}),
        ((SAND,), {"surface": "painted", "head": 'lead = "none found"\n'}),
        ((SAND,), {"surface": "painted", "head": "built = 1993\n"}),
        ((SAND,), {"surface": "bare"}),
        ((WASH,), {"surface": "painted"}),
    ],
)
def test_what_is_tested_answered_young_bare_or_only_washed_is_not(steps, given, told):
    assert [] == told(*steps, **given)


def test_a_test_after_the_sanding_comes_too_late(told):
    assert 1 == len(told(SAND, WASH_TESTED, surface="painted"))


def test_where_lead_was_found_dry_sanding_is_told_and_stripping_is_not(told):
    found = {"surface": "painted", "head": 'lead = "found"\nbuilt = 1995\n'}
    (note,) = told(SAND, **found)
    assert "lead was found" in note.message
    assert [] == told(STRIP, WASH, **found)


@pytest.mark.parametrize(
    ("steps", "advice"),
    [((SAND, STRIP), "take it off with a stripper"), ((STRIP, WASH, SAND), "do this wet")],
)
def test_after_a_stripper_the_advice_is_not_to_strip(steps, advice, told):
    (note,) = told(*steps, surface="painted", head='lead = "found"\n')
    assert advice in note.message
