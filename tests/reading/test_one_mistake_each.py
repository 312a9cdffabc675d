"""Each kind of mistake in a file that is right otherwise: one problem, and it says what to do.

A row is: what to change in the right file, a text that stands in the line of the mistake once it is
made, the place that is named, what was found, and what would be right.
"""

from collections.abc import Callable
from dataclasses import dataclass

import pytest

from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem

Read = Callable[[str], tuple[Piece | None, list[Problem]]]
Changed = Callable[..., str]


@dataclass(frozen=True)
class Mistake:
    """A mistake and what must be said of it."""

    old: str
    new: str
    at: str
    where: str
    found: str
    right: str


TOP, BOX, LEG = 'part "top"', 'part "box"', 'part "leg"'
DRAWER, DOOR, KNOB = 'part "drawer"', 'part "door"', 'part "knob"'
STEP = 'zone "top" step 2'
STAIN = 'product "stain"'

MISTAKES = {
    # Unknown keys and shapes.
    "unknown key in a part": Mistake(
        "at = [0, 0, 480]", "att = [0, 0, 480]", "att =", TOP, '"att"', 'did you mean "at"?'),
    "unknown key in the piece": Mistake(
        "built = 1931", "bilt = 1931", "bilt", "piece", '"bilt"', 'did you mean "built"?'),
    "unknown key in a zone": Mistake(
        'faces = ["*"]', 'faces = ["*"]\nsteps = 1', "steps = 1", 'zone "stand"', '"steps"',
        'did you mean "step"?'),
    "unknown key in a step": Mistake(
        'allowance = "5 %"', 'alowance = "5 %"', "alowance", STEP, '"alowance"',
        'did you mean "allowance"?'),
    "unknown key in a product": Mistake(
        'on_hand = "30 ml"', 'onhand = "30 ml"', "onhand", STAIN, '"onhand"',
        'did you mean "on_hand"?'),
    "unknown key in an abrasive": Mistake(
        "on_hand = { 120 = 3 }", "on_hands = { 120 = 3 }", "on_hands", 'abrasive "disc"',
        '"on_hands"', 'did you mean "on_hand"?'),
    "unknown key in a pack": Mistake(
        'size = "1 L", price = 21', 'size = "1 L", cost = 21', "cost = 21", STAIN, '"cost"',
        "size, price"),
    "unknown key in a row": Mistake(
        "row = { of = 2,", "row = { of = 2, gap = 3,", "gap = 3", DRAWER, '"gap"', "of, apart"),
    "unknown key of another shape": Mistake(
        "height = 20\n", "height = 20\nfoot = 31\n", "foot = 31", TOP, '"foot"', "width"),
    "unknown kind of table": Mistake(
        "[[schedule.paint]]\ndo = \"sand\"",
        '[[prodct]]\nname = "glue"\nkind = "paint"\n[[schedule.paint]]\ndo = "sand"',
        "[[prodct]]", "", "[[prodct]] is not a heading", "did you mean [[product]]?"),
    "unknown shape": Mistake(
        'shape = "board"', 'shape = "bord"', '"bord"', TOP, '"bord"', 'did you mean "board"?'),
    "unknown shape unlike any": Mistake(
        'shape = "board"', 'shape = "xyz"', '"xyz"', TOP, '"xyz"',
        "board, case, drawer, leg, panel"),
    "unknown form of a leg": Mistake(
        'form = "tapered"', 'form = "tapred"', "tapred", LEG, '"tapred"',
        'did you mean "tapered"?'),
    "unknown side that is open": Mistake(
        'open = ["front"]', 'open = ["frnt"]', "frnt", BOX, '"frnt"', 'did you mean "front"?'),
    "unknown surface": Mistake(
        'surface = "painted"', 'surface = "paint"', 'surface = "paint"', 'zone "stand"', '"paint"',
        'did you mean "painted"?'),
    "unknown unit of the piece": Mistake(
        'unit = "mm"', 'unit = "mmm"', '"mmm"', "piece", '"mmm"', 'did you mean "mm"?'),
    "unit of the piece that is no length": Mistake(
        'unit = "mm"', 'unit = "kg"', '"kg"', "piece", '"kg"', "mm, cm, m, in, ft"),
    "unknown way to put a coat on": Mistake(
        'by = "spray"', 'by = "sprey"', "sprey", 'schedule "paint" step 2', '"sprey"',
        'did you mean "spray"?'),
    "unknown kind of product": Mistake(
        'kind = "gel stain"', 'kind = "gel stian"', "stian", STAIN, '"gel stian"',
        'did you mean "gel stain"?'),
    # Missing measures and names.
    "missing measure": Mistake(
        "depth = 400\n", "", 'name = "top"\nshape', TOP, "has no depth", "depth = "),
    "missing thickness": Mistake(
        "board = 15\n", "", 'name = "box"\nshape', BOX, "has no board", "board = "),
    "missing foot": Mistake("foot = 30\n", "", 'name = "leg"\nshape', LEG, "has no foot",
    "foot = "),
    "missing profile": Mistake(
        "profile = [[0, 12], [10, 12], [10, 25], [25, 0]]\n", "", 'name = "knob"\nshape', KNOB,
        "has no profile", "[[0, 30], [400, 45]]"),
    "missing shape": Mistake(
        'shape = "panel"\n', "", 'name = "door"\nwidth', DOOR, "has no shape", "panel"),
    "missing unit of the piece": Mistake(
        'unit = "mm"\ngap = 1', 'gap = "1 mm"', "[piece]", "piece", "has no unit", 'unit = "in"'),
    "missing name of the piece": Mistake(
        'name = "Side table"\n', "", "[piece]", "piece", "has no name", "name = "),
    "missing faces": Mistake(
        'faces = ["*"]\n', "", 'name = "stand"\nsurface', 'zone "stand"', "has no faces",
        "faces = ["),
    "missing surface": Mistake(
        'surface = "painted"\n', "", 'name = "stand"\nfaces', 'zone "stand"', "has no surface",
        "bare"),
    "missing coats": Mistake(
        "coats = 1\n", "", 'do = "coat"\nproduct = "stain"', STEP, "has no coats", "coats = 2"),
    # Sizes that cannot be.
    "size of zero": Mistake("width = 500", "width = 0", "width = 0", TOP, "0", "more than zero"),
    "negative size": Mistake(
        "width = 500", "width = -500", "width = -500", TOP, "-500", "more than zero"),
    "negative size in a text": Mistake(
        "width = 500", 'width = "-50 cm"', "-50 cm", TOP, '"-50 cm"', "more than zero"),
    "size that is no number": Mistake("width = 500", "width = nan", "nan", TOP, "nan", "ordinary"),
    "infinite size": Mistake("width = 500", "width = inf", "inf", TOP, "inf", "ordinary"),
    "negative infinite size": Mistake("width = 500", "width = -inf", "inf", TOP, "-inf", "ordin"),
    "size of over ten metres": Mistake(
        "width = 500", "width = 10001", "10001", TOP, "10001", "10 m"),
    "size of over ten metres in a text": Mistake(
        "width = 500", 'width = "40 ft"', "40 ft", TOP, '"40 ft"', "10 m"),
    "size of a mile": Mistake(
        "width = 500", "width = 1e300", "1e300", TOP, "1e+300", "too large"),
    "size that is a truth": Mistake("width = 500", "width = true", "width = true", TOP, "true",
    "number"),
    "size that is a list": Mistake("width = 500", "width = [500]", "[500]", TOP, "[500]", "number"),
    "size that is a day": Mistake(
        "width = 500", "width = 2024-05-01", "2024", TOP, "2024-05-01", "number"),
    # Units.
    "length without a unit in a text": Mistake(
        "width = 500", 'width = "500"', '"500"', TOP, '"500" has no unit', 'mean "500 mm"?'),
    "decimal comma": Mistake(
        "width = 500", 'width = "3,5 cm"', "3,5 cm", TOP, '"3,5 cm"', '"3.5 cm"'),
    "area where must be a length": Mistake(
        "width = 500", 'width = "2 m2"', "2 m2", TOP, '"2 m2" is an area', "mm, cm, m, in, ft"),
    "area where must be a volume": Mistake(
        'size = "1 L"', 'size = "1 m2"', "1 m2", STAIN, '"1 m2" is an area', "ml, L, fl oz"),
    "area where must be a volume, on hand": Mistake(
        'on_hand = "30 ml"', 'on_hand = "3 ft2"', "3 ft2", STAIN, '"3 ft2" is an area', "ml, L"),
    "weight where a volume belongs": Mistake(
        'on_hand = "30 ml"', 'on_hand = "3 oz"', "3 oz", STAIN, '"3 oz" is a weight', '"fl oz"'),
    "volume where must be an area": Mistake(
        'life = { 120 = "0.5 m2"', 'life = { 120 = "0.5 L"', "0.5 L", 'abrasive "disc"',
        '"0.5 L" is a volume', "m2, ft2"),
    "unknown unit": Mistake(
        "width = 500", 'width = "50 xm"', "50 xm", TOP, 'unknown unit "xm"', 'did you mean "m"?'),
    # Measures that do not go together.
    "board thicker than its case": Mistake(
        "board = 15", "board = 75", "board = 75", BOX, "75",
        "less than half of the height (75 mm)"),
    "boards thicker than their drawer": Mistake(
        "board = 10", "board = 200", "board = 200", DRAWER, "200", "less than half of the width"),
    "frame that leaves no field": Mistake(
        "frame = 30", "frame = 55", "frame = 55", DOOR, "55", "less than half of the height"),
    "recess that leaves no field": Mistake(
        "recess = 5", "recess = 10", "recess = 10", DOOR, "10", "less than half of the depth"),
    "case that is open on all sides": Mistake(
        'open = ["front"]', 'open = ["front", "back", "left", "right", "top", "bottom"]', "open =",
        BOX, "front", "at most five"),
    "legs that do not fit under their corners": Mistake(
        "set_in = 5", "set_in = 400", "set_in = 400", LEG, "400", "sticks out of"),
    "corners of a part that is not there": Mistake(
        'of = "box"', 'of = "bok"', '"bok"', LEG, '"bok" is not a part', 'did you mean "box"?'),
    # Names.
    "name of a part twice": Mistake(
        'name = "foot"', 'name = "top"', 'name = "top"\nshape = "leg"', TOP, '"top"', "line 10"),
    "name of a zone twice": Mistake(
        'name = "inside"', 'name = "top"', 'name = "top"\nfaces = ["box.inside"]', 'zone "top"',
        '"top"', "is already used"),
    "name of a product twice": Mistake(
        '[[abrasive]]\nname = "disc"',
        '[[product]]\nname = "wax"\nkind = "oil"\n[[abrasive]]\nname = "disc"',
        'name = "wax"\nkind = "oil"', 'product "wax"', '"wax"', "is already used"),
    "name of an abrasive twice": Mistake(
        '[[abrasive]]\nname = "disc"',
        '[[abrasive]]\nname = "sponge"\nform = "sheet"\n[[abrasive]]\nname = "disc"',
        'name = "sponge"\nform = "sanding', 'abrasive "sponge"', '"sponge"', "is already used"),
    "empty name of a part": Mistake(
        'name = "foot"', 'name = ""', 'name = ""', "part", '""', "is empty"),
    "blank name of a part": Mistake(
        'name = "foot"', 'name = " "', 'name = " "', "part", '" "', "is empty"),
    "empty name of the piece": Mistake(
        'name = "Side table"', 'name = ""', 'name = ""', "piece", '""', "is empty"),
    "empty name of a zone": Mistake(
        'name = "inside"', 'name = ""', 'name = ""', "zone", '""', "is empty"),
    "name that is a number": Mistake(
        'name = "foot"', "name = 3", "name = 3", "part", "3", "in quotes"),
    "name with a point": Mistake(
        'name = "foot"', 'name = "a.b"', '"a.b"', 'part "a.b"', '"a.b"', "not have ."),
    "name with a star": Mistake(
        'name = "foot"', 'name = "a*"', '"a*"', 'part "a*"', '"a*"', "or * in it"),
    # Zones.
    "selector of a part that is not there": Mistake(
        '"box.inside"', '"bx.inside"', "bx.inside", 'zone "inside"', '"bx.inside"',
        'did you mean "box"?'),
    "selector of a face that is not there": Mistake(
        '"box.inside"', '"box.outside"', "outside", 'zone "inside"', '"box.outside"',
        'did you mean "inside"?'),
    "pattern that fits nothing": Mistake(
        '"box.inside"', '"shelf *"', "shelf *", 'zone "inside"', '"shelf *"',
        "the parts are"),
    "two zones for one face": Mistake(
        'faces = ["box.inside"]', 'faces = ["*"]', 'faces = ["*"]\nleave', 'zone "inside"',
        'zone "stand"', "name fewer faces"),
    "zone without a finish": Mistake(
        'schedule = "paint"\n', "", '[[zone]]\nname = "stand"', 'zone "stand"', "has no finish",
        "leave = true"),
    "zone with a schedule that is left as it is": Mistake(
        'schedule = "paint"\n', 'schedule = "paint"\nleave = true\n', 'schedule = "paint"',
        'zone "stand"', "leave and schedule", "keep one"),
    "zone with a schedule and own steps": Mistake(
        'surface = "bare"\n', 'surface = "bare"\nschedule = "paint"\n',
        "[[zone.step]]\ndo = \"sand\"",
        'zone "top"', "schedule and its own steps", "keep one"),
    "zone with own steps that is left as it is": Mistake(
        'surface = "bare"\n', 'surface = "bare"\nleave = true\n', "[[zone.step]]\ndo = \"sand\"",
        'zone "top"', "leave and its own steps", "keep one"),
    "schedule that is not there": Mistake(
        'schedule = "paint"', 'schedule = "pant"', '"pant"', 'zone "stand"', '"pant"',
        'did you mean "paint"?'),
    # Steps.
    "product that is not there": Mistake(
        'product = "wax"', 'product = "vax"', '"vax"', 'zone "top" step 3', '"vax"',
        'did you mean "wax"?'),
    "abrasive that is not there": Mistake(
        'with = "disc"', 'with = "disk"', '"disk"', 'zone "top" step 1', '"disk"',
        'did you mean "disc"?'),
    "no coats": Mistake("coats = 1\n", "coats = 0\n", "coats = 0", STEP, "0", "from 1 to"),
    "half a coat": Mistake("coats = 1\n", "coats = 1.5\n", "coats = 1.5", STEP, "1.5",
    "whole number"),
    "half a coat in a range": Mistake(
        "coats = [1, 2, 3]", "coats = [1, 1.5, 3]", "[1, 1.5, 3]", 'zone "top" step 3', "1.5",
        "whole number"),
    "loss of everything": Mistake(
        'loss = "12 %"', 'loss = "100 %"', "100 %", STEP, '"100 %"', "below 100 %"),
    "loss below nothing": Mistake('loss = "12 %"', 'loss = "-1 %"', "-1 %", STEP, '"-1 %"', "0 %"),
    "grit that is no grade": Mistake(
        "grits = [120, 180]", "grits = [120, 185]", "185", 'zone "top" step 1', "185", "180"),
    "grit of an abrasive that is no grade": Mistake(
        "on_hand = { 120 = 3 }", "on_hand = { 121 = 3 }", "121", 'abrasive "disc"', "121", "120"),
    # Packs and jars.
    "pack of nothing": Mistake(
        'size = "1 L"', 'size = "0 L"', "0 L", STAIN, '"0 L"', "more than zero"),
    "pack of no discs": Mistake(
        "count = 5", "count = 0", "count = 0", 'abrasive "disc"', "0", "from 1"),
    "negative price": Mistake(
        "price = 21", "price = -21", "price = -21", STAIN, "-21", "from 0"),
    "negative jar": Mistake(
        'on_hand = "30 ml"', 'on_hand = "-30 ml"', "-30 ml", STAIN, '"-30 ml"', "zero or more"),
    "negative discs on hand": Mistake(
        "on_hand = { 120 = 3 }", "on_hand = { 120 = -3 }", "-3", 'abrasive "disc"', "-3", "from 0"),
    # Settings of the piece.
    "gap too wide": Mistake("gap = 1", "gap = 6", "gap = 6", "piece", "6", "from 0 to 5 mm"),
    "negative gap": Mistake("gap = 1", "gap = -1", "gap = -1", "piece", "-1", "from 0 to 5 mm"),
    "certainty of everything": Mistake(
        'buy_for = "80 %"', 'buy_for = "100 %"', "100 %", "piece", '"100 %"', "less than 100 %"),
    "certainty without its sign": Mistake(
        'buy_for = "80 %"', "buy_for = 0.8", "0.8", "piece", "0.8", 'like "10 %"'),
    "certainty of all that nobody has": Mistake(
        'buy_for = "80 %"', 'buy_for_all = "99.5 %"', "99.5 %", "piece", '"99.5 %"',
        "at most 99 %"),
    "certainty of all that is everything": Mistake(
        'buy_for = "80 %"', 'buy_for_all = "100 %"', "100 %", "piece", '"100 %"',
        "less than 100 %"),
    "year that is none": Mistake(
        "built = 1931", "built = 19310", "19310", "piece", "19310", "such as 1930"),
    "year as a text": Mistake(
        "built = 1931", 'built = "1931"', '"1931"', "piece", '"1931"', "a year without them"),
    "currency that is none": Mistake(
        'currency = "EUR"', 'currency = "euro"', '"euro"', "piece", '"euro"', '"EUR"'),
    "currency that nobody has": Mistake(
        'currency = "EUR"', 'currency = "EUX"', '"EUX"', "piece", '"EUX"', 'did you mean "EUR"?'),
    "currency that is a metal": Mistake(
        'currency = "EUR"', 'currency = "XAG"', '"XAG"', "piece", '"XAG"', "that banks use"),
}  # fmt: skip


def line_of(text: str, at: str) -> int:
    """Return the line where a text stands that is there once."""
    assert text.count(at) == 1
    return text[: text.index(at)].count("\n") + 1


@pytest.mark.parametrize("mistake", MISTAKES.values(), ids=list(MISTAKES))
def test_one_mistake_is_one_problem_that_says_where_what_and_how(
    mistake: Mistake, changed: Changed, good: str, read: Read
) -> None:
    if mistake.old.startswith('surface = "bare"'):
        text = good.replace(mistake.old, mistake.new, 1)
    else:
        text = changed((mistake.old, mistake.new))
    piece, problems = read(text)
    assert piece is None
    (found,) = problems
    assert (found.level, found.where) == ("mend", mistake.where)
    assert mistake.found in found.message
    assert mistake.right in found.message
    # A key that is missing has no line of its own; that of its table is the one before the name.
    missing = found.message.startswith("has no") and not mistake.at.startswith("[")
    assert line_of(text, mistake.at) - missing == found.line


def test_file_without_a_mistake_has_no_problem(good: str, read: Read) -> None:
    piece, problems = read(good)
    assert [] == problems
    assert piece is not None


def test_bare_number_without_a_unit_of_the_piece_is_no_length(changed: Changed, read: Read) -> None:
    """No unit is guessed; the one mistake is told once, not for each number."""
    piece, problems = read(changed(('unit = "mm"\n', "")))
    assert piece is None
    (found,) = problems
    assert (found.line, found.where) == (1, "piece")
    assert "a plain number is not a length" in found.message


def test_many_mistakes_are_all_told_in_the_order_of_the_file(changed: Changed, read: Read) -> None:
    """Each is of another table, so that none can hide another."""
    names = [
        "unknown key in the piece", "unknown shape", "board thicker than its case",
        "unknown form of a leg", "unknown key in a row", "frame that leaves no field",
        "missing profile", "unknown kind of product", "negative price", "no coats",
        "unknown surface", "pattern that fits nothing",
        "unknown way to put a coat on", "pack of no discs", "grit that is no grade",
    ]  # fmt: skip
    text = changed(*((MISTAKES[name].old, MISTAKES[name].new) for name in names))
    piece, problems = read(text)
    assert piece is None
    lines = [found.line or 0 for found in problems]
    assert sorted(lines) == lines
    for name in names:
        told = [
            found
            for found in problems
            if found.where == MISTAKES[name].where and MISTAKES[name].right in found.message
        ]
        assert len(told) == 1, name
    assert len(names) == len(problems)


def test_two_mistakes_in_one_table_are_both_told(changed: Changed, read: Read) -> None:
    text = changed(("width = 500", "width = -500"), ("depth = 400\n", "depth = nan\nhight = 3\n"))
    _, problems = read(text)
    assert [found.where for found in problems] == [TOP] * 3


@pytest.mark.parametrize(
    ("old", "new", "meant"),
    [
        ("foot = 30", "fot = 30", "foot"),
        ("width = 500", "widht = 500", "width"),
        ("at = [0, 0, 480]", "ta = [0, 0, 480]", "at"),
        ("count = 5", "cuont = 5", "count"),
        ('product = "wax"', 'prodcut = "wax"', "product"),
        ('faces = ["*"]', 'faecs = ["*"]', "faces"),
        ('kind = "gel stain"', 'knid = "gel stain"', "kind"),
        ('form = "125 mm disc"', 'from = "125 mm disc"', "form"),
        ('unit = "mm"', 'untit = "mm"', "unit"),
        ('schedule = "paint"', 'shedule = "paint"', "schedule"),
        ('name = "top"\nshape', 'nmae = "top"\nshape', "name"),
        ('name = "wax"', 'nam = "wax"', "name"),
        ('name = "disc"', 'naem = "disc"', "name"),
    ],
)
def test_misspelled_key_is_told_once_and_not_as_missing_too(
    old: str, new: str, meant: str, changed: Changed, read: Read
) -> None:
    piece, problems = read(changed((old, new)))
    assert piece is None
    key = new.split(" ", maxsplit=1)[0]
    (found,) = problems
    assert found.message.endswith(f'"{key}" is not known here; did you mean "{meant}"?')


def test_mistake_in_a_product_is_not_told_again_for_its_steps(changed: Changed, read: Read) -> None:
    _, problems = read(changed(('covers = "50 m2/kg"', 'covers = "50"')))
    assert [found.where for found in problems] == ['product "wax"']


def test_mistake_in_a_part_is_not_told_again_for_its_zones(changed: Changed, read: Read) -> None:
    _, problems = read(changed(("board = 15", "board = nan")))
    assert [found.where for found in problems] == [BOX]
