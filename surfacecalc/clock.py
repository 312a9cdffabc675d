"""The one place that asks what time it is."""

from datetime import UTC, datetime


def now() -> datetime:
    """Return the local time, without a zone, to the minute."""
    return datetime.now().replace(second=0, microsecond=0)  # local wall clock, as hours are meant


def stamp() -> datetime:
    """Return the time in UTC, to the second."""
    return datetime.now(UTC).replace(microsecond=0)
