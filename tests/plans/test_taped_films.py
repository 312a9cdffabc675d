"""Tape on a zone that is not finished is told; on a finished one, or a bare one, it is not."""

from collections.abc import Callable

from surfacecalc.plans.plan import Plan

HOURS = '[workshop]\nset_up = "0 min"\nhours = ["sat-sun 09:00-17:00"]\n'
SEAMED = """
[[part]]
name = "lower"
shape = "board"
width = 1
depth = 1
height = 0.1
at = [0, 0, 5]

[[part]]
name = "upper"
shape = "board"
width = 1
depth = 1
height = 0.1
at = [0, 0, 5.1]
"""
COAT = 'do = "coat"\nproduct = "paint"\ncoats = {}\nby = "roller"\ntime = "{} h"'
SAND = 'do = "sand"\ngrits = [120]\nwith = "disc"\ntime = "30 min"'
MASK = 'do = "mask"\ntape = "tape"\nagainst = ["lower"]\ntime = "30 min"'


def told(plan: Plan) -> list[str]:
    """Return what a plan says about tape."""
    return [text for text in plan.mind if text.startswith("Tape")]


def test_tape_on_a_wet_film_is_told_with_what_to_write(plan: Callable, step_zone: Callable) -> None:
    """By hand: "lower" gets its first coat 9 to 10, the next from 14:00; "two" takes 10 to 12."""
    repair = 'do = "repair"\nwhat = "split"\ntime = "2 h"'
    found = plan(
        HOURS,
        SEAMED,
        step_zone("two", repair),
        step_zone("lower", COAT.format(2, 2)),
        step_zone("upper", f'{MASK}\nafter = ["two"]', COAT.format(1, 3)),
    )
    line = next(one.task.line for one in found.entries if "mask" in one.task.words)
    assert [
        'Tape goes on "lower" Sat 28 Nov 12:00, which is not dry until Sat 28 Nov 14:00. To finish'
        f' "lower" first, add after = ["lower"] to the mask step (line {line}).'
    ] == told(found)


def test_zone_that_is_sanded_under_the_tape_is_told(plan: Callable, step_zone: Callable) -> None:
    """By hand: "lower" waits for "two" and is sanded between the coats on "upper", taped."""
    late = f'{SAND}\nafter = ["two"]'
    found = plan(
        HOURS,
        SEAMED,
        step_zone("two", COAT.format(1, 1)),
        step_zone("upper", MASK, COAT.format(3, 3)),
        step_zone("lower", late),
    )
    (text,) = told(found)
    assert "which is worked on before that tape comes off" in text


def test_tape_after_the_zone_is_finished_is_not_told(plan: Callable, step_zone: Callable) -> None:
    """With after, the tape goes on when the paint can be coated again: at 14:00."""
    found = plan(
        HOURS,
        SEAMED,
        step_zone("lower", COAT.format(1, 1)),
        step_zone("upper", f'{MASK}\nafter = ["lower"]', COAT.format(1, 1)),
    )
    masked = next(one for one in found.entries if "mask" in one.task.words)
    assert ("Sat 14:00", []) == (f"{masked.starts:%a %H:%M}", told(found))


def test_tape_on_a_zone_that_is_left_as_it_is_is_not_told(
    plan: Callable, step_zone: Callable
) -> None:
    """Nothing is done to "lower", so nothing can go wrong under the tape."""
    left = '[[zone]]\nname = "lower"\nfaces = ["lower"]\nleave = true\n'
    assert not told(plan(HOURS, SEAMED, left, step_zone("upper", MASK, COAT.format(2, 2))))


def test_zone_that_is_worked_on_after_the_tape_is_off_is_not_told(
    plan: Callable, step_zone: Callable
) -> None:
    """The last coats on "upper" go on without tape, and "lower" is washed between them."""
    unmask = 'do = "unmask"\ntime = "30 min"'
    washed = 'do = "wash"\nproduct = "cleaner"\nstrength = "3 %"\nafter = ["two"]'
    found = plan(
        HOURS,
        SEAMED,
        step_zone("two", COAT.format(2, 2)),
        step_zone("upper", MASK, COAT.format(1, 1), unmask, COAT.format(3, 3)),
        step_zone("lower", washed),
    )
    off, wash = (
        next(one for one in found.entries if text in one.task.words)
        for text in ("take the tape off", "wash")
    )
    last = max(one.starts for one in found.entries if one.task.zone == "upper")
    assert off.ends <= wash.starts < last
    assert not told(found)


def test_zone_that_is_masked_twice_is_told_of_each_tape_by_itself(
    plan: Callable, step_zone: Callable
) -> None:
    """Tape comes off with the first coat, before "lower" is sanded, and goes on again after it."""
    later = f'{MASK}\nafter = ["lower"]'
    found = plan(
        HOURS,
        SEAMED,
        step_zone("two", COAT.format(1, 1)),
        step_zone("upper", MASK, COAT.format(1, 1), later, COAT.format(1, 1)),
        step_zone("lower", f'{SAND}\nafter = ["two"]'),
    )
    assert not told(found)


def test_hardware_that_is_off_the_taped_zone_may_be_worked_on(
    plan: Callable, step_zone: Callable
) -> None:
    """The pulls of "lower" are painted on a bench, whatever tape is on the zone."""
    off, on = (
        f'do = "{word}"\nhardware = ["pulls"]\ntime = "30 min"' for word in ("take off", "refit")
    )
    painted = 'do = "coat"\nproduct = "paint"\ncoats = 3\nby = "brush"\nhardware = "pulls"'
    found = plan(
        HOURS,
        SEAMED,
        step_zone("lower", off, f'{painted}\ntime = "3 h"', on),
        step_zone("upper", MASK, COAT.format(3, 3)),
    )
    masked = next(one for one in found.entries if "mask" in one.task.words)
    last = max(one.starts for one in found.entries if one.task.zone == "upper")
    worked = [one.starts for one in found.entries if "pulls" in one.task.words]
    assert any(masked.starts < start < last for start in worked)
    assert not told(found)
