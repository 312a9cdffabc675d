"""A stripper that stays on until the next evening dries on the wood, and the plan says so."""

from collections.abc import Callable

from piece_texts import measured
from whole_jobs import FOLDER

from surfacecalc import api

STRIP = 'do = "strip"\nproduct = "stripper"\nby = "brush"\ntime = "{}"'
WASH = 'do = "wash"\nproduct = "cleaner"\nstrength = "3 %"\ntime = "1 h"'
STRIPPER = '[[product]]\nname = "stripper"\nkind = "waterborne stripper"\n'
HOURS = '[workshop]\nset_up = "0 min"\nhours = ["sat-sun 09:00-12:00"]\n'


def test_stripper_that_stays_on_overnight_is_told(plan: Callable, step_zone: Callable) -> None:
    """By hand: on from 9:00 to 11:40; half an hour later, at 12:10, the shop is closed."""
    found = plan(HOURS, STRIPPER, step_zone("one", STRIP.format("160 min"), WASH))
    assert [
        'Left on "one" from Sat 28 Nov 11:40 to Sun 29 Nov 09:00, stripper dries on. Strip only as'
        " much as you can also scrape and wash on the same day, or begin on a day with more hours."
    ] == [text for text in found.mind if "dries on" in text]


def test_stripper_that_is_washed_off_the_same_morning_is_not_told(
    plan: Callable, step_zone: Callable
) -> None:
    """By hand: on from 9:00 to 10:00, washed from 10:30 on."""
    found = plan(HOURS, STRIPPER, step_zone("one", STRIP.format("1 h"), WASH))
    assert not [text for text in found.mind if "dries on" in text]


def test_set_is_told_once_and_from_the_first_evening_on() -> None:
    """Four chairs on evenings of three hours: the first ones are wet from Monday at closing time.

    The second coat stays on to Wednesday as well, which needs no second line.
    """
    text = (FOLDER / "chairs.toml").read_text(encoding="utf-8")
    late = text.replace("start = 2027-02-06", "start = 2027-02-01").replace("30 ft2/h", "20 ft2/h")
    found = [one for one in api.plan(measured(late)).mind if "dries on" in one]
    (line,) = found
    assert 'Left on "chair" from Mon 1 Feb 21:00 to Tue 2 Feb 18:55, stripper dries on.' in line
