"""[workshop]: its air, its hours, its start, or one clear line at the place of each mistake."""

from datetime import datetime

import pytest

from surfacecalc.model.workshop import Window, Workshop
from surfacecalc.reading.document import parse_document
from surfacecalc.reading.tables import Context, Table
from surfacecalc.reading.workshop_table import read_workshop


def read(*lines: str) -> tuple[Workshop, list[str]]:
    """Return the workshop, and the messages with their lines; the table stands on line 1."""
    document = parse_document("\n".join(("[workshop]", *lines)).encode())
    context = Context(document.lines)
    workshop = read_workshop(Table(document.tables, (), "", context))
    return workshop, [f"{problem.line}: {problem.message}" for problem in context.problems]


def test_file_without_a_workshop_leaves_everything_to_the_defaults() -> None:
    document = parse_document(b"[piece]")
    assert Workshop() == read_workshop(Table(document.tables, (), "", Context(document.lines)))


def test_everything_that_a_workshop_can_say_is_read() -> None:
    workshop, messages = read(
        'temperature = "59 F"',
        'humidity = "60 %"',
        'hours = ["mon-wed 18:00-21:30", "sat 09:00-12:00", "sat 13:00-17:00"]',
        "start = 2026-11-28",
        'set_up = "15 min"',
        'own_spread = "20 %"',
    )
    assert [] == messages
    assert Workshop(
        temperature_c=15.0,
        humidity=0.6,
        windows=(
            Window(0, 1080, 1290), Window(1, 1080, 1290), Window(2, 1080, 1290),
            Window(5, 540, 720), Window(5, 780, 1020),
        ),
        start=datetime(2026, 11, 28),
        set_up_h=0.25,
        own_spread=0.2,
        line=1,
    ) == workshop  # fmt: skip


@pytest.mark.parametrize(
    ("text", "days"),
    [("mon-fri 18:00-21:00", [0, 1, 2, 3, 4]), ("Sat 18:00-21:00", [5]),
     ("fri-mon 18:00-21:00", [4, 5, 6, 0]), ("mon, wed-thu 18:00 - 21:00", [0, 2, 3]),
     ("Sunday 18:00-21:00", [6]), ("mon\u2013tue 18:00\u201321:00", [0, 1])],
)  # fmt: skip
def test_days_are_read_as_people_write_them(text: str, days: list[int]) -> None:
    workshop, messages = read(f'hours = ["{text}"]')
    assert [] == messages
    assert tuple(Window(day, 1080, 1260) for day in days) == workshop.windows


def test_hours_up_to_midnight_end_at_24_00() -> None:
    workshop, _ = read('hours = ["fri 22:00-24:00", "sat 00:00-02:00"]')
    assert (Window(4, 1320, 1440), Window(5, 0, 120)) == workshop.windows


def test_start_may_have_a_time() -> None:
    assert datetime(2026, 11, 28, 13, 30) == read("start = 2026-11-28T13:30:00")[0].start


@pytest.mark.parametrize(
    ("line", "wrong"),
    [
        ("hours = []", "is empty"),
        ('hours = ["mon 09:00-09:00"]', "begins and ends at the same time"),
        ('hours = ["mon 17:00-09:00"]', '"mon 17:00-24:00" and "tue 00:00-09:00"'),
        ('hours = ["sun 22:00-02:00"]', '"sun 22:00-24:00" and "mon 00:00-02:00"'),
        ('hours = ["mon 20:00-00:00"]', "write 24:00 for midnight"),
        ('hours = ["mon 09:00-25:00"]', "25:00, which is not a time of day"),
        ('hours = ["mon 09:00-24:01"]', "24:01, which is not a time of day"),
        ('hours = ["mon 09:60-10:00"]', "09:60, which is not a time of day"),
        ('hours = ["mon 9-17"]', '"9", which is not a time of day'),
        ('hours = ["mon 6:30pm-9:00pm"]', '"6:30pm", which is not a time of day'),
        ('hours = ["mon"]', "is not a day with hours"),
        ('hours = ["18:00-21:00"]', "is not a day with hours"),
        ('hours = [" 18:00-21:00"]', "is not a day with hours"),
        ('hours = ["mom 18:00-21:00"]', 'has "mom", which is not a day; did you mean "mon"?'),
        ('hours = ["weekdays 18:00-21:00"]', '"weekdays", which is not a day'),
        ('hours = ["mon-wed-fri 18:00-21:00"]', "more than two days joined with a dash"),
        ('hours = ["mon,mon 18:00-21:00"]', "has mon twice"),
        ('hours = ["mon-wed,tue 18:00-21:00"]', "has tue twice"),
        ('hours = ["mon, 18:00-21:00"]', "has no day"),
        ('hours = "mon 18:00-21:00"', "must be a list of words in quotes"),
        ("hours = [18]", "must be a list of words in quotes"),
        ('hours = ["mon-fri 18:00-21:00", "wed 20:00-22:00"]', "wed 20:00-22:00 and wed 18:00"),
        ('hours = ["mon-fri 18:00-21:00", "wed 18:00-21:00"]', "and wed 18:00-21:00"),
        ('temperature = "150 C"', "must be from -10 C to 45 C"),
        ('temperature = "-11 C"', "must be from -10 C to 45 C"),
        ('temperature = "120 F"', "must be from -10 C to 45 C"),
        ("temperature = 15", "has no unit"),
        ('temperature = "15"', "has no unit"),
        ('temperature = "warm"', "is not a temperature"),
        ('humidity = "101 %"', "must be from 0 % to 100 %"),
        ("humidity = 60", "is not a percentage"),
        ('start = "2026-11-28"', "without quotes"),
        ("start = 2026-11-28T09:00:00Z", "has a time zone"),
        ("start = 1700-01-01", "must be from 1900 to 2200"),
        ("start = 9999-12-31", "must be from 1900 to 2200"),
        ("start = 09:00:00", "must be a date"),
        ("start = true", "must be a date"),
        ('set_up = "9 h"', "must be from 0 min to 8 h"),
        ("set_up = 10", "has no unit"),
        ('own_spread = "-1 %"', "must be from 0 % to 200 %"),
        ('own_spread = "201 %"', "must be from 0 % to 200 %"),
        ("own_spread = 0.2", "is not a percentage"),
        ('own_spred = "20 %"', 'did you mean "own_spread"?'),
        ('temprature = "15 C"', 'did you mean "temperature"?'),
    ],
)
def test_mistake_is_one_clear_line_at_its_place(line: str, wrong: str) -> None:
    _, messages = read(line)
    assert 1 == len(messages), messages
    assert messages[0].startswith("2: ")
    assert wrong in messages[0]


def test_each_mistaken_window_is_told_at_its_own_line() -> None:
    _, messages = read(
        "hours = [", '  "mon 09:00-08:00",', '  "sat 09:00-10:00",', '  "x 1-2",', "]"
    )
    assert ["3", "5"] == [message.partition(":")[0] for message in messages]


def test_workshop_that_is_no_table_is_told() -> None:
    document = parse_document(b'workshop = "cold"')
    context = Context(document.lines)
    assert Workshop() == read_workshop(Table(document.tables, (), "", context))
    assert ["must be written [workshop]" in problem.message for problem in context.problems]
