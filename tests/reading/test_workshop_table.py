"""[workshop]: its air, its hours, its start, or one clear line at the place of each mistake."""

from datetime import date, datetime

import pytest

from surfacecalc.model.workshop import ClosedDays, Window, Workshop
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
        'over = "15 min"',
        "sand_near_wet = true",
        'country = "GB"',
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
        over_min=15,
        sand_near_wet=True,
        country="GB",
        own_spread=0.2,
        line=1,
    ) == workshop  # fmt: skip


@pytest.mark.parametrize(
    ("written", "minutes"), [('"0 min"', 0), ('"2 h"', 120), ('"0.25 h"', 15), ('"1.6 min"', 2)]
)
def test_time_over_closing_is_read_in_whole_minutes(written: str, minutes: int) -> None:
    workshop, messages = read(f"over = {written}")
    assert ([], minutes) == (messages, workshop.over_min)


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


CHRISTMAS = date(2026, 12, 24)
YEAR_END = ClosedDays(date(2026, 12, 28), date(2027, 1, 3))


@pytest.mark.parametrize(
    ("written", "days"),
    [
        ("2026-12-24", [ClosedDays(CHRISTMAS, CHRISTMAS)]),
        ('"2026-12-24"', [ClosedDays(CHRISTMAS, CHRISTMAS)]),
        ('"2026-12-28 to 2027-01-03"', [YEAR_END]),
        ('[2026-12-24, "2026-12-28 to 2027-01-03"]', [ClosedDays(CHRISTMAS, CHRISTMAS), YEAR_END]),
        ('"2026-12-28\u20132027-01-03"', [YEAR_END]),
        ('"2026-12-28 - 2027-01-03"', [YEAR_END]),
        ('"28 December 2026 until 3 Jan. 2027"', [YEAR_END]),
        ('"Dec 28, 2026 to January 3rd, 2027"', [YEAR_END]),
        ('"2026-12-24 to 24 dec 2026"', [ClosedDays(CHRISTMAS, CHRISTMAS)]),
        ('"29 Feb 2028"', [ClosedDays(date(2028, 2, 29), date(2028, 2, 29))]),
        ("[]", []),
    ],
)
def test_closed_days_are_single_days_and_ranges(written: str, days: list[ClosedDays]) -> None:
    workshop, messages = read(f"closed = {written}")
    assert [] == messages
    assert tuple(days) == workshop.closed


def test_each_mistaken_closed_day_is_listed_at_its_own_line() -> None:
    workshop, messages = read(
        "closed = [", '  "31 April 2027",', "  2026-12-24,", '  "2027-01-02 to 2027-01-01",', "]"
    )
    assert ["3", "5"] == [message.partition(":")[0] for message in messages]
    assert (ClosedDays(CHRISTMAS, CHRISTMAS),) == workshop.closed


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
        ('closed = ["2026-12-24 to 2026-12-20"]', '"2026-12-20 to 2026-12-24"'),
        ('closed = ["31 April"]', "closed: there is no 31 April: April has 30 days"),
        ('closed = ["30 February 2026"]', "there is no 30 February 2026: that February has 28"),
        ('closed = "29 Feb 2026"', "there is no 29 February 2026: that February has 28 days"),
        ('closed = ["2026-12-28 to 2026-12-32"]', "there is no 32 December 2026: December has 31"),
        ('closed = ["2026-12-28 to 2027-13-03"]', 'has "2027-13-03": there is no month 13'),
        ('closed = ["24 December"]', "has no year; write it like 2028-12-24"),
        ('closed = ["29 February"]', "has no year; write it like 2028-02-29"),
        ('closed = ["30 February"]', "there is no 30 February: February has 29 days"),
        ('closed = ["0 May 2026"]', "there is no 0 May 2026: May has 31 days"),
        ('closed = ["sundays"]', '"sundays" is a day of the week; leave it off in hours'),
        ('closed = ["24.12.2026"]', "write it as year-month-day, such as 2026-12-24"),
        ('closed = ["12/24/2026"]', "write it as year-month-day, such as 2026-12-24"),
        ('closed = ["easter"]', '"easter" is not a date; write it like 2026-12-24'),
        ('closed = ["2026-12-24 to easter"]', 'has "easter", which is not a date'),
        ('closed = ["24 Smarch 2026"]', '"24 Smarch 2026" is not a date'),
        ('closed = [""]', "must be dates, such as closed = [2026-12-24,"),
        ("closed = 24", "must be dates, such as closed = [2026-12-24,"),
        ("closed = [true]", "must be dates, such as closed = [2026-12-24,"),
        ("closed = [2026-12-24T09:00:00]", "has a time of day; a closed day is a whole one, 2026"),
        ("closed = 1700-01-01", "must be from 1900 to 2200"),
        ('closed = "1700-01-01"', "must be from 1900 to 2200"),
        ("start = 1700-01-01", "must be from 1900 to 2200"),
        ("start = 9999-12-31", "must be from 1900 to 2200"),
        ("start = 09:00:00", "must be a date"),
        ("start = true", "must be a date"),
        ('set_up = "9 h"', "must be from 0 min to 8 h"),
        ("set_up = 10", "has no unit"),
        ('over = "121 min"', "must be from 0 min to 2 h; give longer hours instead"),
        ("over = 15", "has no unit"),
        ('ovr = "15 min"', 'did you mean "over"?'),
        ('sand_near_wet = "yes"', "must be true or false"),
        ("sand_nearwet = true", 'did you mean "sand_near_wet"?'),
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


@pytest.mark.parametrize("country", ["US", "us", "U.K.", "United  Kingdom", "FR", "France"])
def test_any_country_is_read_by_code_or_name(country: str) -> None:
    workshop, messages = read(f'country = "{country}"')
    assert [] == messages
    assert " ".join(country.split()) == workshop.country


@pytest.mark.parametrize("value", ["1978", '""', '" "', '"44"', "true", '["US"]', f'"{"x" * 61}"'])
def test_what_is_not_a_country_is_refused_with_an_example(value: str) -> None:
    workshop, messages = read(f"country = {value}")
    assert workshop.country is None
    assert 1 == len(messages)
    assert 'must be a country in quotes, such as "US", "GB" or "United Kingdom"' in messages[0]


@pytest.mark.parametrize(
    ("typed", "meant"), [("United Sates", "United States"), ("untied kingdom", "United Kingdom")]
)
def test_a_misspelt_country_with_a_ban_of_its_own_is_asked_about(typed: str, meant: str) -> None:
    _, messages = read(f'country = "{typed}"')
    assert [f'2: country = "{typed}" is not a country I know; did you mean "{meant}"?'] == messages


def test_a_country_whose_name_is_like_another_is_not_taken_for_it() -> None:
    workshop, messages = read('country = "United Arab Emirates"')
    assert [] == messages
    assert workshop.country == "United Arab Emirates"
