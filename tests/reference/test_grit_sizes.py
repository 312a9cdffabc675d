"""Grades of abrasives, and steps between them, by the standard's sizes and by common practice.

Sources:
* P12 to P220 are graded with sieves, ISO 6344-2:2021; P240 to P5000 by sedimentation and the like,
  ISO 6344-3:2021; their average particle sizes as two copies of the FEPA P scale print them. The
  tables of the standards themselves were not seen, so sizes are compared as printed. P1500 and
  finer are those of ISO 6344-3:1998.
* Common practice, several ways of it: the next number at most half as high again; never more than
  one grade skipped (P80 - P120 - P180 - P240, and 40 - 60 - 80); 40 to 100 and 80 to 220 are too
  far.

Known differences: some double the number, 80-150-220-320 or 60-100-150; the first fails here at
80-150, the second passes.
"""

import itertools

import pytest

from surfacecalc.catalogue.entries import grades
from surfacecalc.catalogue.lookup import steps_too_wide

CHART_UM = {
    12: 1815, 16: 1324, 20: 1000, 24: 764, 30: 642, 36: 538, 40: 425, 50: 336, 60: 269, 80: 201,
    100: 162, 120: 125, 150: 100, 180: 82, 220: 68, 240: 58.5, 280: 52.2, 320: 46.2, 360: 40.5,
    400: 35.0, 500: 30.2, 600: 25.8, 800: 21.8, 1000: 18.3, 1200: 15.3, 1500: 12.6, 2000: 10.3,
    2500: 8.4,
}  # fmt: skip
SIEVED = [grade for grade in CHART_UM if grade <= 220]
SEDIMENTED = [grade for grade in CHART_UM if grade >= 240]


def ratios(of, skip=0):
    """Return size ratios from each grade to the next, or over `skip` grades between."""
    sizes = [size for grade in of if (size := grades()[grade])]
    return [a / b for a, b in zip(sizes, sizes[skip + 1 :], strict=False)]


def within(low, high, found):
    """Whether the least and the largest are the published two, rounded to two decimals."""
    return (low, high) == (round(min(found), 2), round(max(found), 2))


def test_sizes_are_those_of_the_chart():
    assert CHART_UM == {grade: size for grade, size in grades().items() if size is not None}


@pytest.mark.parametrize(("grade", "um"), [(12, 1815), (220, 68), (240, 58.4), (2500, 8.4)])
def test_ends_of_the_scale_agree_with_another_chart(grade, um):
    # 0.1: the other chart prints 58.4 where the first has 58.5
    assert um == pytest.approx(grades()[grade], abs=0.1 + 1e-9)


def test_grades_of_2021_without_a_published_size_are_known_as_grades():
    assert [3000, 4000, 5000] == [grade for grade, size in grades().items() if size is None]


@pytest.mark.parametrize(
    ("grade_range", "skip", "low", "high"),
    [
        (slice(40, 220), 0, 1.21, 1.34),
        (slice(240, 2500), 0, 1.12, 1.23),
        (slice(40, 220), 1, 1.47, 1.67),
        (slice(240, 2500), 1, 1.27, 1.50),
    ],
)
def test_ratios_of_neighbours_and_next_neighbours(grade_range, skip, low, high):
    """Worked out from the chart, and what the limit of 1.7 rests on."""
    of = [grade for grade in CHART_UM if grade_range.start <= grade <= grade_range.stop]
    assert within(low, high, ratios(of, skip))


@pytest.mark.parametrize("grade", [g for g in CHART_UM if 40 <= g <= 120])
def test_up_to_p120_the_limit_means_one_grade_skipped_at_most(grade):
    scale = list(CHART_UM)
    place = scale.index(grade)
    assert [] == steps_too_wide((grade, scale[place + 1]))
    assert [] == steps_too_wide((grade, scale[place + 2]))
    assert 1 == len(steps_too_wide((grade, scale[place + 3])))


@pytest.mark.parametrize("grade", [150, 180, 220, 240])
def test_from_p150_up_the_limit_is_kinder_than_a_count(grade):
    """Two skipped: 1.71, 1.57, 1.47 and 1.44; only P150 to P240 is past 1.7."""
    scale = list(CHART_UM)
    finer = scale[scale.index(grade) + 3]
    found = steps_too_wide((grade, finer))
    assert ([(150, 240)] if grade == 150 else []) == [(a, b) for a, b, _ in found]


@pytest.mark.parametrize(
    "sequence",
    [
        (100, 150, 220),
        (80, 120, 180, 240),
        (40, 60, 80),
        (80, 120, 180, 220),
        (60, 80, 120, 180),
        (80, 100, 120, 150, 180, 220),
        (40, 60, 80, 120),
        (220, 320, 400),
    ],
)
def test_sequences_of_the_trade_pass(sequence):
    """The first three are much used; the others keep both rules, worked out from the chart."""
    assert [] == steps_too_wide(sequence)
    # 1.51: 80 to 120 is 1.5 and 100 to 150 is, "about 50 per cent higher"
    assert all(b / a <= 1.51 for a, b in itertools.pairwise(sequence))


@pytest.mark.parametrize(
    ("coarse", "fine", "ratio"), [(40, 100, 2.62), (80, 220, 2.96), (80, 150, 2.01)]
)
def test_steps_that_are_called_too_far_are_found(coarse, fine, ratio):
    """40 to 100 and 80 to 220 are called so; 80 to 150 skips two grades."""
    ((found_coarse, found_fine, found),) = steps_too_wide((coarse, fine))
    assert (coarse, fine) == (found_coarse, found_fine)
    # 0.005: two decimals
    assert ratio == pytest.approx(found, abs=0.005)


def test_doubling_the_number_fails_where_it_skips_two_grades():
    assert [(80, 150)] == [(a, b) for a, b, _ in steps_too_wide((80, 150, 220, 320))]
    assert [] == steps_too_wide((60, 100, 150))


def test_the_two_ways_of_grading_join_without_a_jump():
    """P220 is the finest that is sieved, P240 the coarsest that settles: 1.16."""
    assert (220, 240) == (SIEVED[-1], SEDIMENTED[0])
    # 0.005: two decimals
    assert 1.16 == pytest.approx(ratios((220, 240))[0], abs=0.005)
