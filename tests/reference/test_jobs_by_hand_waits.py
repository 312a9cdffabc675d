"""What a job waits for, worked out by hand: every step takes an hour, the shop never closes.

Work begins on Saturday 28 November 2026 at 9:00. `at(h)` is so many hours later. In the cold shop,
at 10 C, things dry twice as long (assumed by the program: twice for each 10 C less).
"""

from datetime import timedelta

import pytest
from asked_jobs import SATURDAY, asked_entries, asked_plan

HEAD = """
[piece]
name = "two boards"
unit = "m"

[workshop]
hours = ["mon-sun 00:00-24:00"]
set_up = "0 min"
{workshop}

[[part]]
name = "one"
shape = "board"
width = 1
depth = 0.5
height = 0.1

[[part]]
name = "two"
shape = "board"
width = 1
depth = 0.5
height = 0.1
at = [3, 0, 0]

[[product]]
name = "thick paint"
kind = "waterborne furniture paint"
dry = "1 h"
recoat = "8 h"
cure = "30 h"

[[product]]
name = "slow oil"
kind = "hard oil"
dry = "3 h"
recoat = "4 h"
cure = "50 h"

[[product]]
name = "soap"
kind = "cleaner"

[[product]]
name = "putty"
kind = "wood filler"
density = "1.6 kg/L"
dry = "2 h"
recoat = "6 h"
cure = "9 h"

[[product]]
name = "glue"
kind = "wood glue"
dry = "2 h"
recoat = "6 h"
cure = "9 h"

[[abrasive]]
name = "disc"
form = "125 mm disc"
"""

COLD = 'temperature = "10 C"'
SAND = 'do = "sand"\ngrits = [120]\nwith = "disc"'
WASH = 'do = "wash"\nproduct = "soap"\nstrength = "3 %"'


def coat(product="thick paint", coats=1, *more):
    """Return a step that brushes coats, with more of its keys."""
    keys = f'do = "coat"\nproduct = "{product}"\ncoats = {coats}\nby = "brush"'
    return "\n".join([keys, *more])


def trial(*products):
    """Return a test patch of products, side by side."""
    return f'do = "test"\nproducts = [{", ".join(repr(one) for one in products)}]'


def zone(name, *steps, hours=1):
    """Return a zone of the board of that name, whose steps take an hour each, or so many."""
    head = f'[[zone]]\nname = "{name}"\nfaces = ["{name}"]\nsurface = "bare"\n'
    return head + "".join(f'[[zone.step]]\n{step}\ntime = "{hours} h"\n' for step in steps)


def file(*zones, workshop=""):
    """Return a piece file."""
    return HEAD.format(workshop=workshop) + "".join(zones)


def at(hours):
    """Return a time, so many hours after the work begins."""
    return SATURDAY + timedelta(hours=hours)


def starts(text):
    """Return when each task begins [h after the first]."""
    return [(one.starts - SATURDAY) / timedelta(hours=1) for one in asked_entries(text)]


def ends(text):
    """Return when all can be handled and when it can be used [h after the beginning]."""
    plan = asked_plan(text)
    assert plan.handled is not None
    assert plan.used is not None
    return [(time - SATURDAY) / timedelta(hours=1) for time in (plan.handled, plan.used)]


@pytest.mark.parametrize("products", [["thick paint", "slow oil"], ["slow oil", "thick paint"]])
def test_of_two_wet_products_the_longer_wait_rules(products):
    """Paint is dry 1 h after the patch, oil 3 h after it: sanding begins at 1 + 3 h.

    The paint, which takes a second coat later than the oil does, dries sooner.
    """
    text = file(zone("one", trial(*products), SAND))
    assert [0, 1 + 3] == starts(text)


def test_a_test_patch_of_one_product_waits_for_that():
    assert [0, 1 + 1] == starts(file(zone("one", trial("thick paint"), SAND)))


@pytest.mark.parametrize(
    ("more", "second", "handled", "used"),
    [
        # the product's own: recoat 8 h, cure 30 h
        ([], 9, 10 + 8, 10 + 30),
        # a wait that is longer than it is wet, and shorter than it cures
        (['wait = "6 h"'], 7, 8 + 6, 8 + 30),
        # a wait that is over while the coat is wet: it cannot be handled before it is dry
        (['wait = "30 min"'], 1.5, 2.5 + 1, 2.5 + 30),
        # a wait that is longer than it cures
        (['wait = "40 h"'], 41, 42 + 40, 42 + 40),
    ],
    ids=["own times", "written", "written while it is wet", "written, longer than the cure"],
)
def test_two_coats(more, second, handled, used):
    """The file's time is for the step, so each of two coats takes half of two hours."""
    text = file(zone("one", coat("thick paint", 2, *more), hours=2))
    assert [0, second] == starts(text)
    assert [handled, used] == ends(text)


@pytest.mark.parametrize(
    ("workshop", "wait", "sanded"),
    [
        ("", "", 1 + 4),  # washed wood is dry after 4 h (assumed by the program)
        (COLD, "", 1 + 8),
        (COLD, '\nwait = "3 h"', 1 + 3),  # what is written holds in any air
        ('temperature = "30 C"', "", 1 + 2),
    ],
    ids=["20 C", "10 C", "10 C, written", "30 C"],
)
def test_a_wash_dries_slower_in_the_cold(workshop, wait, sanded):
    text = file(zone("one", WASH + wait, SAND), workshop=workshop)
    assert [0, sanded] == starts(text)


def test_a_wash_at_the_end_can_be_handled_when_its_wait_is_over():
    assert [1 + 8, 1 + 8] == ends(file(zone("one", WASH), workshop=COLD))
    assert [1 + 9, 1 + 9] == ends(file(zone("one", f'{WASH}\nwait = "9 h"')))


def test_two_washings_follow_at_once():
    """Half of two hours each, then dry 4 h later."""
    text = file(zone("one", f"{WASH}\ntimes = 2", SAND, hours=2))
    assert [0, 1, 2 + 4] == starts(text)


@pytest.mark.parametrize(
    ("step", "sanded"),
    [
        # the holes are sanded when a second filling could follow
        ('do = "fill"\nproduct = "putty"\npits = [{ diameter = "5 mm", depth = "3 mm" }]', 1 + 6),
        # a joint can be gone on with when the glue is dry
        ('do = "repair"\nwhat = "joints"\nproduct = "glue"\neach = "5 ml"', 1 + 2),
    ],
    ids=["filler", "glue"],
)
def test_filler_waits_for_its_recoat_and_glue_until_it_is_dry(step, sanded):
    """Both are dry after 2 h, recoat after 6 h and cured after 9 h; used when handled."""
    text = file(zone("one", step, SAND))
    assert [0, sanded] == starts(text)
    assert [sanded, sanded] == ends(file(zone("one", step)))


def test_a_coat_dries_slower_in_the_cold():
    """Recoat 2 x 8 h, cure 2 x 30 h."""
    text = file(zone("one", coat("thick paint", 2), hours=2), workshop=COLD)
    assert [0, 1 + 16] == starts(text)
    assert [18 + 16, 18 + 60] == ends(text)


def test_a_piece_is_turned_over_as_soon_as_it_is_dry():
    """Two sides of one coat, half an hour each: dry 1 h between them, 8 h after the second."""
    text = file(zone("one", coat("thick paint", 1, "sides = 2"), SAND))
    assert [0, 0.5 + 1, 2 + 8] == starts(text)


def test_a_zone_that_follows_another_waits_until_that_is_dry():
    """The paint can be gone over 8 h after its hour."""
    text = file(zone("one", coat()), zone("two", f'{SAND}\nafter = ["one"]'))
    assert [0, 1 + 8] == starts(text)


def test_light_sanding_between_coats_is_followed_at_once():
    """Two coats of 1 h; between them 1.3 m2 at 6 m2 an hour, 13 min, planned as 15 min."""
    text = file(
        zone("one", coat("thick paint", 2, 'between = { grit = 320, with = "disc" }'), hours=2)
    )
    assert [0, 1 + 8, 1 + 8 + 0.25] == starts(text)
    assert [10.25 + 8, 10.25 + 30] == ends(text)


@pytest.mark.parametrize(
    ("change", "coats"), [("", 2), ("dark to light", 3), ("to clear red", 4)], ids=str
)
def test_every_coat_that_the_list_buys_for_is_in_the_plan(change, coats):
    """One more is likely from dark to light, two for a clear red; each is followed by 8 h."""
    more = [f'change = "{change}"'] if change else []
    text = file(zone("one", coat("thick paint", 2, *more), hours=2 * coats))
    assert [(2 + 8) * k for k in range(coats)] == starts(text)


def dust(text):
    """Return what the plan says of dust."""
    said = asked_plan(text).dust
    return [said] if said else []


def dusty(waits, workshop="sand_near_wet = true"):
    """Return a job: one board painted from 9 to 10 and dry at 11, the other sanded from 10 on.

    Args:
        waits: hours of dusting off that come before the sanding.
        workshop: what allows that.
    """
    other = zone("two", SAND)
    if waits:
        off = '[[zone.step]]\ndo = "dust off"\ntime = "{} h"\n[[zone.step]]\ndo = "sand"'
        other = other.replace('[[zone.step]]\ndo = "sand"', off.format(waits))
    return file(zone("one", coat()), other, workshop=workshop)


def test_sanding_waits_until_a_coat_is_dry():
    """Painted from 9:00 until 10:00 and wet until 11:00; dusting off meanwhile does no harm."""
    assert [0, 2] == starts(dusty(waits=0, workshop=""))
    assert [0, 1, 2] == starts(dusty(waits=1, workshop=""))
    assert [] == dust(dusty(waits=0, workshop=""))


def test_dust_that_falls_the_moment_a_coat_is_dry_does_no_harm():
    """Sanded from 11:00 on; the paint is wet until 11:00. Without the wait it is 10:00."""
    assert [0, 1, 2] == starts(dusty(waits=1))
    assert [] == dust(dusty(waits=1))
    (text,) = dust(dusty(waits=0))
    assert "is sanded Sat 28 Nov 10:00" in text
    assert text.endswith("is wet until 11:00. Your file allows this.")


def test_dust_of_a_zone_whose_own_wait_was_written_shorter_is_no_case():
    """Painted until 10:00, sanded from 10:30 on because the file says so."""
    text = file(zone("one", coat("thick paint", 1, 'wait = "30 min"'), SAND))
    assert [0, 1.5] == starts(text)
    assert [] == dust(text)


def test_dust_five_minutes_before_a_coat_is_dry_is_told():
    (text,) = dust(dusty(waits="0.9"))  # 54 min, planned as 55
    assert "is sanded Sat 28 Nov 10:55" in text


@pytest.mark.parametrize(
    ("dry", "until"),
    [
        ("13 h", "until 23:00."),
        ("14 h", "until Sun 29 Nov 00:00."),
        ("20 h", "until Sun 29 Nov 06:00."),
    ],
)
def test_a_coat_that_is_wet_until_another_day_says_which(dry, until):
    """Painted until 10:00, so 14 h later it is midnight, and the day of tomorrow."""
    text = dusty(waits=0).replace('dry = "1 h"\nrecoat = "8 h"', f'dry = "{dry}"\nrecoat = "21 h"')
    (told,) = dust(text)
    assert until in told
