"""Steps of the trade, the shelf they draw on, and what is said of slips in them."""

from collections.abc import Callable

import pytest

from surfacecalc.model.pieces import Piece
from surfacecalc.model.steps import Coat, Fill, Handwork, Mask, Sand, Trial, Wash
from surfacecalc.problems import Problem
from surfacecalc.reading.steps.step import MEANT, ONCE, WORDS

Read = Callable[[str], tuple[Piece | None, list[Problem]]]

HEAD = """
[piece]
name = "p"
unit = "mm"
[[part]]
name = "top"
shape = "board"
width = 400
depth = 300
height = 20
[[zone]]
name = "all"
faces = ["top"]
surface = "bare"
{zone}
[[zone.step]]
{step}
[[zone]]
name = "none"
faces = ["top.bottom"]
leave = true
[[product]]
name = "paint"
kind = "paint"
[[product]]
name = "water"
kind = "water"
[[product]]
name = "paste"
kind = "wax"
[[product]]
name = "filler"
kind = "wood filler"
density = "1.5 kg/L"
[[product]]
name = "light filler"
kind = "wood filler"
[[abrasive]]
name = "pad"
form = "pad"
life = {{ 320 = "1 m2" }}
[[tape]]
name = "tape"
packs = [{{ length = "50 m" }}]
[[tape]]
name = "film"
packs = [{{ area = "20 m2" }}]
[[hardware]]
name = "pulls"
count = 6
plan = "keep"
[[consumable]]
name = "gloves"
lasts = "1 session"
{more}
"""


def written(step: str, zone: str = "", more: str = "") -> str:
    return HEAD.format(step=step, zone=zone, more=more)


def only_message(read: Read, text: str) -> str:
    piece, problems = read(text)
    assert piece is None
    (problem,) = [problem for problem in problems if problem.level == "mend"]
    assert problem.line is not None
    return problem.message


@pytest.mark.parametrize(
    ("step", "kind", "do"),
    [
        ('do = "wash"\nproduct = "paint"\nstrength = "3 %"', Wash, None),
        ('do = "fill"\nproduct = "filler"\npits = [{ diameter = 5, depth = 2 }]', Fill, None),
        ('do = "mask"\ntape = "tape"', Mask, None),
        ('do = "test"\nproducts = ["paint"]', Trial, None),
        ('do = "repair"\nwhat = "joints"', Handwork, "repair"),
        ('do = "decal"\nwhat = "rose decals"', Handwork, "decal"),
        ('do = "decorate"\nwhat = "a border"\narea = "0.3 m2"', Handwork, "decorate"),
        ('do = "decorate"\nwhat = "ferns"\nshare = "10 %"', Handwork, "decorate"),
        ('do = "distress"\ngrits = [320]\nwith = "pad"', Sand, "distress"),
        ('do = "lime wax"\nproduct = "paste"', Coat, "lime wax"),
        ('do = "take off"\nhardware = ["pulls"]', Handwork, "take off"),
        ('do = "refit"\nhardware = ["pulls"]', Handwork, "refit"),
        ('do = "dust off"', Handwork, "dust off"),
        ('do = "strip"\nproduct = "paint"', Coat, "strip"),
        ('do = "strip"\ngrits = [320]\nwith = "pad"', Sand, "strip"),
        ('do = "rub out"\ngrits = [320]\nwith = "pad"', Sand, "rub out"),
        ('do = "seal"\nproduct = "paint"\nby = "brush"', Coat, "seal"),
        ('do = "stain"\nproduct = "paint"', Coat, "stain"),
        ('do = "fill grain"\nproduct = "paint"', Coat, "fill grain"),
    ],
)
def test_each_word_is_its_step(read, step, kind, do):
    piece, problems = read(written(step))
    assert [] == [problem for problem in problems if problem.level == "mend"]
    (found,) = piece.zones[0].steps
    assert isinstance(found, kind)
    assert do is None or found.do == do


@pytest.mark.parametrize("word", ["wax hardware", "gild"])
def test_hardware_is_waxed_by_the_word_of_today_and_by_the_one_before(read, word):
    step = f'do = "{word}"\nproduct = "metallic wax"\nhardware = "knobs"'
    more = (
        '[[product]]\nname = "metallic wax"\nkind = "metallic wax"\n'
        '[[hardware]]\nname = "knobs"\ncount = 2\nplan = "renew"\nsize = [30, 30, 25]'
    )
    piece, problems = read(written(step, more=more))
    assert [] == [problem for problem in problems if problem.level == "mend"]
    (found,) = piece.zones[0].steps
    assert ("wax hardware", "knobs", "cloth") == (found.do, found.hardware, found.by)


def test_what_every_step_may_say_of_its_work(read):
    step = 'do = "dust off"\ntime = "30 min"\nwait = ["1 h", "2 h", "4 h"]\nsides = 2\n'
    piece, _ = read(written(step + 'after = ["none"]\nuses = ["gloves"]'))
    work = piece.zones[0].steps[0].work
    assert 0.5 == work.time_h.range.likely
    assert (1.0, 2.0, 4.0) == (
        work.wait_h.range.low,
        work.wait_h.range.likely,
        work.wait_h.range.high,
    )
    assert (2, ("none",), ("gloves",)) == (work.sides, work.after, work.uses)


@pytest.mark.parametrize(
    ("step", "why"),
    [
        ('do = "coat"\nproduct = "paint"\ncoats = 2.5\nby = "brush"', "whole number of coats"),
        ('do = "dust off"\nwait = "-1 h"', "must be zero or more"),
        ('do = "dust off"\nwait = "5 L"', "hours" if False else "wait = "),
        ('do = "dust off"\ntime = "1 h"\nrate = "2 m2/h"', "both time and rate"),
        ('do = "dust off"\nrate = "0 m2/h"', "more than zero"),
        ('do = "dust off"\nuses = ["glove"]', 'did you mean "gloves"?'),
        ('do = "dust off"\nafter = ["legs"]', 'after = "legs" is not a zone'),
        ('do = "dust off"\nafter = ["all"]', "is the zone itself"),
        ('do = "mask"\ntape = "film"', "must be sold by length"),
        ('do = "mask"\ntape = "tape"\nfilm = "film"', 'add cover = "1 m2"'),
        ('do = "mask"\ntape = "tape"\ncover = "1 m2"', 'add film = "film"'),
        ('do = "mask"\ntape = "tape"\nagainst = ["nine"]', 'against = "nine" is not a zone'),
        ('do = "fill"\nproduct = "filler"', "has no holes to fill"),
        (
            'do = "fill"\nproduct = "light filler"\npits = [{ diameter = 5, depth = 2 }]',
            "add density =",
        ),
        ('do = "fill"\nproduct = "filler"\npits = [{ diameter = 5, depth = 0 }]', "more than zero"),
        ('do = "wash"\nproduct = "paint"', "has no strength"),
        ('do = "wash"\nproduct = "paint"\nstrength = "0 %"', "more than 0 %"),
        ('do = "take off"\nhardware = ["pull"]', 'did you mean "pulls"?'),
        ('do = "wax hardware"\nproduct = "paste"\nhardware = "pulls"', "has no size"),
        ('do = "repair"\nwhat = "joints"\nproduct = "paint"', "has no each"),
        ('do = "repair"\nwhat = "joints"\neach = "5 ml"', "does not say of which product"),
        ('do = "decal"', "has no what"),
        ('do = "decal"\nwhat = "rose decals"\nproduct = "paint"', "has no each"),
        ('do = "decal"\nwhat = "rose decals"\neach = "5 ml"', 'add product = "decal fluid"'),
        ('do = "decal"\nwhat = "rose decals"\nhardware = ["pulls"]', "hardware"),
        ('do = "decorate"\narea = "0.3 m2"', "has no what"),
        ('do = "decorate"\nwhat = "ferns"', 'add area = "0.3 m2", or share = "10 %"'),
        ('do = "decorate"\nwhat = "ferns"\narea = "1 m2"\nshare = "9 %"', "both area and share"),
        ('do = "decorate"\nwhat = "ferns"\narea = "0 m2"', "more than zero and at most 50 m2"),
        ('do = "decorate"\nwhat = "ferns"\narea = "51 m2"', "more than zero and at most 50 m2"),
        ('do = "decorate"\nwhat = "ferns"\nshare = "0 %"', "more than 0 % and at most 100 %"),
        ('do = "decorate"\nwhat = "ferns"\nshare = "9 %"\ncoats = 2', "has coats, but does not"),
        ('do = "decorate"\nwhat = "ferns"\nshare = "9 %"\nloss = "9 %"', "has loss, but does not"),
        (
            'do = "decorate"\nwhat = "ferns"\nshare = "9 %"\nproduct = "water"',
            "has no coverage, so its amount is not known; add covers",
        ),
        (
            'do = "decorate"\nwhat = "ferns"\nshare = "9 %"\nproduct = "paint"\ncoats = 21',
            "must be a whole number from 1 to 20",
        ),
        ('do = "stencil"\nwhat = "ferns"', 'do = "decorate"'),
        ('do = "antique"\ngrits = [320]\nwith = "pad"', 'do = "distress"'),
        ('do = "distress"\ngrits = [320]\nwith = "pad"\nshare = "60 %"', "at most 50 %"),
        ('do = "distress"\ngrits = [320]\nwith = "pad"\nshare = "0 %"', "more than 0 %"),
        ('do = "distress"\ngrits = [320]\nwith = "pad"\nproduct = "paste"', "product"),
        ('do = "sand"\ngrits = [320]\nwith = "pad"\nshare = "5 %"', "share"),
        ('do = "lime wax"\nproduct = "paste"\nhardware = "pulls"', "hardware"),
        ('do = "unmask"\nproduct = "paint"', "product"),
        ('do = "lime wax"', "has no product"),
        ('do = "liming"\nproduct = "paste"', 'do = "lime wax"'),
        ('do = "transfer"\nwhat = "rose decals"', 'do = "decal"'),
        ('do = "test"\npatch = "0 m2"', "more than zero"),
        ('do = "test"\nproducts = ["water"]', '"water" leaves nothing on the wood; take it out'),
        ('do = "sael"\nproduct = "paint"', 'did you mean "seal"?'),
        ('do = "seal"\nproduct = "paint"', "has no by"),
        ('do = "stain"\nproduct = "paint"\nspot = "120 %"', "at most 100 %"),
        ('do = "stain"\nproduct = "paint"\nchange = "darker"', "change"),
        (
            'do = "stain"\nproduct = "paint"\nbetween = { grit = 321, with = "pad" }',
            "not a standard grit",
        ),
        ('do = "stain"\nproduct = "paint"\nbetween = { grit = 220, with = "pad" }', "no life"),
        (
            'do = "stain"\nproduct = "paint"\ntint = { product = "paste", share = "5 %" }',
            "by volume",
        ),
        ('do = "stain"\nproduct = "paint"\nstays_behind = "20 g"', "stays_behind"),
    ],
)
def test_slip_in_a_step_is_told_in_one_line(read, step, why):
    assert why in only_message(read, written(step))


@pytest.mark.parametrize(
    ("zone", "why"),
    [
        ('thirsty = [{ faces = ["top.lef"], times = 2 }]', "matches no face"),
        ('thirsty = [{ faces = ["top.left"], times = 0.5 }]', "from 1"),
        ('thirsty = [{ faces = ["top.bottom"], times = 2 }]', "no face in this zone"),
        ('no_film = ["lid"]', "matches no part"),
    ],
)
def test_slip_in_what_a_zone_says_of_single_faces(read, zone, why):
    assert why in only_message(read, written('do = "dust off"', zone=zone))


@pytest.mark.parametrize(
    ("more", "why"),
    [
        ('[[mix]]\nname = "m"\nrecipe = []', "add up to zero"),
        ('[[mix]]\nname = "m"\nrecipe = [{ product = "paint", parts = 0 }]', "add up to zero"),
        ('[[mix]]\nname = "m"\nrecipe = [{ product = "water", parts = 1 }]', "stays on the wood"),
        ('[[mix]]\nname = "m"\nrecipe = [{ product = "pain", parts = 1 }]', 'mean "paint"'),
        (
            '[[mix]]\nname = "m"\nrecipe = [{ product = "paint", parts = 1 }]\ncovers = "8 m2/kg"',
            'must be an area per volume, such as "10 m2/L"',
        ),
        (
            '[[mix]]\nname = "m"\nrecipe = [{ product = "paste", parts = 1 }]\nby = "weight"\n'
            'covers = "10 m2/L"',
            'must be an area per weight, such as "8 m2/kg"',
        ),
        ('[[mix]]\nname = "m"\nrecipe = [{ product = "paint", parts = -1 }]', "from zero"),
        (
            '[[mix]]\nname = "m"\nrecipe = [{ product = "paint", parts = 1 },'
            ' { product = "paste", parts = 1 }]',
            "add density =",
        ),
        (
            '[[mix]]\nname = "m"\nrecipe = [{ product = "paint", parts = 1 },'
            ' { product = "paint", parts = 1 }]',
            "twice",
        ),
        ('[[mix]]\nname = "paint"\nrecipe = [{ product = "paint", parts = 1 }]', "paint"),
        ('[[tape]]\nname = "t"\npacks = [{ length = "0 m" }]', "more than zero"),
        ('[[tape]]\nname = "t"\npacks = [{ length = "5 m" }, { area = "2 m2" }]', "keep one"),
        ('[[tape]]\nname = "t"\npacks = [{ length = 50 }]', "has no unit"),
        ('[[hardware]]\nname = "h"\ncount = 0\nplan = "keep"', "whole number from 1"),
        ('[[hardware]]\nname = "h"\ncount = 2\nplan = "sell"', "is not known"),
        (
            '[[hardware]]\nname = "h"\ncount = 2\nplan = "keep"\npacks = [{ count = 2 }]',
            "nothing is",
        ),
        (
            '[[consumable]]\nname = "c"\nlasts = "3 weeks"',
            "is not an area, a time, sessions or jobs",
        ),
        (
            '[[consumable]]\nname = "c"\nlasts = "3days"',
            "is not an area, a time, sessions or jobs",
        ),
        ('[[consumable]]\nname = "c"\nlasts = "nan sessions"', "more than zero"),
        ('[[consumable]]\nname = "c"\nlasts = "0 m2"', "more than zero"),
    ],
)
def test_slip_on_the_shelf_is_told_in_one_line(read, more, why):
    assert why in only_message(read, written('do = "dust off"', more=more))


@pytest.mark.parametrize(
    ("word", "meant"), [("clean", "wash"), ("Paint", "coat"), ("tape", "mask")]
)
def test_another_word_of_the_trade_is_told_the_one_that_is_known(
    read: Read, word: str, meant: str
) -> None:
    piece, problems = read(HEAD.format(zone="", step=f'do = "{word}"', more=""))
    assert piece is None
    assert [f'do = "{word}" is written do = "{meant}" here'] == [
        problem.message for problem in problems
    ]


def test_another_word_for_a_step_hides_no_step_and_leads_to_one():
    """Such a word is looked for first, so a step of that name could never be written."""
    assert set() == {*MEANT, *ONCE} & set(WORDS)
    assert {*MEANT.values(), *ONCE.values()} <= set(WORDS)
