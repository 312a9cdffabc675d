"""Hours in whole minutes: work to the nearest five, waits up; one time or many at once."""

import numpy as np
import pytest

from surfacecalc.plans.rounded_minutes import wait_min, work_min

MINUTES = [0.01, 2.4, 2.5, 5, 7.4, 7.5, 12.4, 12.5, 59.9, 60, 62.4, 62.5]


@pytest.mark.parametrize(
    ("minutes", "planned"),
    list(zip(MINUTES, [5, 5, 5, 5, 5, 10, 10, 15, 60, 60, 60, 65], strict=True)),
)
def test_work_goes_to_the_nearest_five_and_is_never_nothing(minutes: float, planned: int) -> None:
    assert planned == work_min(minutes / 60)


@pytest.mark.parametrize(
    ("minutes", "planned"),
    list(zip(MINUTES, [5, 5, 5, 5, 10, 10, 15, 15, 60, 60, 65, 65], strict=True)),
)
def test_waits_go_up_to_the_next_five(minutes: float, planned: int) -> None:
    assert planned == wait_min(minutes / 60)
    assert 0 == wait_min(0.0)


def test_many_times_are_rounded_like_each() -> None:
    hours = np.array([0.0, *MINUTES, 1e4]) / 60
    assert [work_min(float(one)) for one in hours] == work_min(hours).tolist()
    assert [wait_min(float(one)) for one in hours] == wait_min(hours).tolist()
