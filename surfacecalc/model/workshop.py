"""The workshop: when it is worked in, and in what air things dry."""

from dataclasses import dataclass
from datetime import date, datetime

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
MINUTES_IN_DAY = 24 * 60
DEFAULT_HOURS = "mon-fri 18:00-21:00, sat-sun 09:00-17:00"
"""Evenings and weekends, assumed where the file gives no hours."""


@dataclass(frozen=True)
class Window:
    """Hours of one day of the week in which there is time to work.

    Attributes:
        day: 0 for Monday to 6 for Sunday.
        starts_min: minutes from midnight.
        ends_min: minutes from midnight, at most 24 h.
    """

    day: int
    starts_min: int
    ends_min: int


DEFAULT_WINDOWS = (
    *(Window(day, 18 * 60, 21 * 60) for day in range(5)),
    *(Window(day, 9 * 60, 17 * 60) for day in (5, 6)),
)


@dataclass(frozen=True)
class ClosedDays:
    """Days on which nobody works; what is wet dries on.

    Attributes:
        first: the first of them.
        last: the last of them, the same for a single day.
    """

    first: date
    last: date


@dataclass(frozen=True)
class Workshop:
    """What [workshop] says.

    Attributes:
        temperature_c: of its air [degrees Celsius], None where the file does not say.
        humidity: relative humidity, a fraction of one, None where the file does not say.
        windows: when there is time to work; None where the file does not say.
        closed: days on which nobody works, in the order of the file.
        start: when the work may begin; None where the file does not say.
        set_up_h: for setting out and cleaning up, each coat, grit or pass [h]; None for the usual.
        over_min: how long a task may run over closing time, rather than go on another day [min].
        sand_near_wet: whether one zone may be sanded or stripped while a film is wet on another
            zone of the same joined parts.
        country: as it is written, a code or a name; None where the file does not say.
        own_spread: 9 jobs in 10 use at most this share more than is worked out, and as few use less
            than that much less; 0 takes every number as given, None for the assumed spread.
        line: where it stands, None where the file has none.
    """

    temperature_c: float | None = None
    humidity: float | None = None
    windows: tuple[Window, ...] | None = None
    closed: tuple[ClosedDays, ...] = ()
    start: datetime | None = None
    set_up_h: float | None = None
    over_min: int = 0
    sand_near_wet: bool = False
    country: str | None = None
    own_spread: float | None = None
    line: int | None = None
