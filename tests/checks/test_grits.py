"""Steps between grits are told where they skip too much or go back."""

import pytest


def step(do, grits):
    return f'do = "{do}"; grits = {grits}; with = "disc"'


@pytest.mark.parametrize("do", ["sand", "rub out"])
def test_a_step_over_too_many_grits_is_told(do, on_steps):
    found = on_steps(step(do, [80, 220]))
    assert [(do, "from P80 to P220 the grit gets 3.0 times finer")] == [
        (where, message.split(";")[0]) for where, message in found
    ]


def test_a_coarser_grit_after_a_finer_one_is_told(on_steps):
    found = on_steps(step("sand", [180, 120]))
    assert [("sand", "the grits go back to a coarser one: list them from coarse to fine")] == found


def test_neighbouring_grits_are_not_told(on_steps):
    assert [] == on_steps(step("sand", [80, 120, 180, 220]))
