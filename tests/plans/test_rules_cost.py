"""What a plan's two rules cost in days, and how it says so."""

import json
from collections.abc import Callable
from dataclasses import replace

import pytest

from surfacecalc.plans.plan import Plan
from surfacecalc.plans.rules_cost import RulesCost
from surfacecalc.reports.plan_json import plan_json
from surfacecalc.reports.plan_words import rules_words

HOURS = '[workshop]\nset_up = "0 min"\nhours = ["sat-sun 09:00-12:00"]\n'
COAT = 'do = "coat"\nproduct = "paint"\ncoats = 1\nby = "roller"\ntime = "1 h"'
SAND = 'do = "sand"\ngrits = [120]\nwith = "disc"\ntime = "2 h"'


def test_day_that_dust_costs_is_counted_and_said(
    job: Callable, plan: Callable, step_zone: Callable
) -> None:
    """By hand, 3 h a day: coated Sat 9 to 10, dry at 11, and can be handled at 14:00.

    Sanded 10 to 12 where the file allows it; else 11 to 12 and Sun 9 to 10, a day later.
    """
    zones = (
        step_zone("one", f'{COAT}\nwait = "0 min"'),
        step_zone("two", f'{SAND}\nafter = ["one"]'),
    )
    allowed, clean = plan(f"{HOURS}sand_near_wet = true\n", *zones), plan(HOURS, *zones)
    assert "Sat 12:00" == f"{allowed.handled:%a %H:%M}"
    assert "Sun 10:00" == f"{clean.handled:%a %H:%M}"
    assert RulesCost(0, is_for_dust=False, is_for_zones=False) == allowed.rules_cost
    assert RulesCost(1, is_for_dust=True, is_for_zones=False) == clean.rules_cost
    assert ["Keeping dust off wet coats makes this plan 1 day longer."] == list(rules_words(clean))
    piece = job(HOURS, *zones).piece
    assert [0, 1] == [
        json.loads(plan_json(piece, found, {}))["rules_cost_days"] for found in (allowed, clean)
    ]


def test_rules_that_cost_less_than_a_day_are_not_mentioned(
    plan: Callable, step_zone: Callable
) -> None:
    """By hand: sanded 9 to 11 and coated to 12, or coated 9 to 10 and sanded later: one day."""
    found = plan(HOURS, step_zone("one", COAT), step_zone("two", SAND))
    assert RulesCost(0, is_for_dust=True, is_for_zones=False) == found.rules_cost
    assert [] == list(rules_words(found))


def test_zones_worked_together_are_compared_with_zones_worked_apart(plan: Callable) -> None:
    """By hand, 3 h a day: 2 h of sanding and a coat of 1 h that can be handled 4 h later.

    Apart: Sat "one" is sanded and coated, Sun "two", handled on Sun at 16:00. Together: sanding
    takes Sat and an hour of Sun; the coats on both fit Sun from 10 to 12: the same day.
    """
    both = "".join(
        f'[[zone]]\nname = "{name}"\nfaces = ["{name}"]\nsurface = "bare"\nschedule = "all"\n'
        for name in ("one", "two")
    )
    found = plan(HOURS, both, f"[[schedule.all]]\n{SAND}\n[[schedule.all]]\n{COAT}\n")
    assert "Sun 16:00" == f"{found.handled:%a %H:%M}"
    assert RulesCost(0, is_for_dust=False, is_for_zones=True) == found.rules_cost


@pytest.mark.parametrize(
    ("cost", "words"),
    [
        (RulesCost(0, True, True), []),
        (RulesCost(1, True, False), ["Keeping dust off wet coats makes this plan 1 day longer."]),
        (
            RulesCost(2, False, True),
            ["Working the zones of one schedule together makes this plan 2 days longer."],
        ),
        (
            RulesCost(3, True, True),
            [
                "Keeping dust off wet coats and working the zones of one schedule together make"
                " this plan 3 days longer."
            ],
        ),
    ],
)
def test_rules_that_make_a_plan_longer_are_named(
    cost: RulesCost, words: list[str], plan: Callable, step_zone: Callable
) -> None:
    found: Plan = plan(HOURS, step_zone("one", COAT))
    assert words == list(rules_words(replace(found, rules_cost=cost)))
