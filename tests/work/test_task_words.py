"""Days, times and waits as people say them."""

from datetime import datetime, timedelta

import pytest

from surfacecalc.model.workshop import DEFAULT_HOURS, DEFAULT_WINDOWS
from surfacecalc.reading import working_hours
from surfacecalc.work.task_words import (
    format_day,
    format_hours,
    format_hours_span,
    format_moment,
    format_span,
    format_until,
    format_week,
)


def test_times_read_as_people_say_them() -> None:
    start, end = datetime(2026, 11, 28, 9, 0), datetime(2026, 11, 28, 10, 15)
    assert "Sat 28 Nov 2026" == format_day(start)
    assert "Sat 28 Nov 09:00" == format_moment(start)
    assert "09:00-10:15" == format_span(start, end)
    assert "22:00-24:00" == format_span(start.replace(hour=22), datetime(2026, 11, 29))


@pytest.mark.parametrize(
    ("hours", "text"),
    [(0, "0 min"), (1 / 6, "10 min"), (1, "1 h"), (1.999999, "2 h"), (71.5, "71 h 30 min"),
     (72, "3 days"), (14 * 24, "14 days")],
)  # fmt: skip
def test_hours_are_told_in_the_unit_that_suits(hours: float, text: str) -> None:
    assert text == format_hours(hours)


def test_usual_hours_are_told_as_they_are() -> None:
    assert DEFAULT_HOURS == format_week(DEFAULT_WINDOWS)


def test_days_apart_are_no_run() -> None:
    windows = [*working_hours.parse_hours("mon,wed,thu 09:00-10:00")]
    assert "mon 09:00-10:00, wed-thu 09:00-10:00" == format_week(windows)


@pytest.mark.parametrize(
    ("days", "said"), [(0, "12:00"), (1, "Sun 12:00"), (6, "Fri 12:00"), (7, "5 Dec 12:00")]
)
def test_a_moment_to_wait_for_is_as_short_as_it_is_clear(days: int, said: str) -> None:
    """A week on, the day of the week alone would be taken for today's."""
    now = datetime(2026, 11, 28, 9)
    assert said == format_until(now.replace(hour=12) + timedelta(days=days), now)


@pytest.mark.parametrize(
    ("low_h", "high_h", "text"),
    [
        (18.9, 24.2, "18 to 25 hours"), (18.0, 25.0, "18 to 25 hours"), (6.9, 8.0, "6 to 8 hours"),
        (6.9, 7.6, "6 1/2 to 8 hours"), (0.4, 1.5, "1/2 to 1 1/2 hours"),
        (1 / 12, 0.5, "5 to 30 minutes"), (1 / 12, 1 / 12, "5 minutes"), (1.0, 1.0, "1 hour"),
        (9.0, 9.0, "9 hours"),
    ],
)  # fmt: skip
def test_hours_from_least_to_most_are_rounded_outwards(
    low_h: float, high_h: float, text: str
) -> None:
    assert text == format_hours_span(low_h, high_h)
