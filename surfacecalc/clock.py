"""The one place that asks what time it is."""

from datetime import UTC, datetime, timedelta


def now() -> datetime:
    """Return the local time, without a zone, to the minute."""
    return datetime.now().replace(second=0, microsecond=0)  # local wall clock, as hours are meant


def stamp() -> datetime:
    """Return the time in UTC, to the second."""
    return datetime.now(UTC).replace(microsecond=0)


def offset(time: datetime) -> timedelta:
    """Return how far this computer's clock is ahead of UTC at a time that is given in UTC.

    Raises:
        OSError, OverflowError, ValueError: the system knows nothing of so early or late a time.
    """
    return time.astimezone().utcoffset() or timedelta()
