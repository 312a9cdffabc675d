"""One slip in a key or a header is one message, and what refers to it is not told too."""

from collections.abc import Callable

import pytest

from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem

Read = Callable[[str], tuple[Piece | None, list[Problem]]]
Changed = Callable[..., str]

HEAD = '[piece]\nname = "p"\nunit = "in"\n'
SIZES = 'shape = "board"\nwidth = 3\ndepth = 4\nheight = 1\n'
ZONE = '[[zone]]\nname = "z"\nfaces = ["top"]\nleave = true\n'
PART = f'[[part]]\nname = "top"\n{SIZES}'
LEG = f'[[part]]\nname = "leg"\n{SIZES}on = "top"\n'


def one(read: Read, text: str) -> Problem:
    """Return the one problem of a text that yields no piece."""
    piece, problems = read(text)
    assert piece is None
    (found,) = problems
    return found


@pytest.mark.parametrize(
    ("old", "new", "right"),
    [
        ("[piece]\n", "[peice]\n", "[piece]"),
        ('[[part]]\nname = "box"', '[[prt]]\nname = "box"', "[[part]]"),
        ('[[zone]]\nname = "inside"', '[[zoen]]\nname = "inside"', "[[zone]]"),
        ('[[product]]\nname = "wax"', '[[prodct]]\nname = "wax"', "[[product]]"),
        ('[[abrasive]]\nname = "disc"', '[[abrasiv]]\nname = "disc"', "[[abrasive]]"),
        ('[[part]]\nname = "box"', '[[bits]]\nname = "box"', "[[part]]"),
    ],
)
def test_misspelled_header_is_told_alone_also_where_others_refer_to_what_it_holds(
    old: str, new: str, right: str, changed: Changed, read: Read
) -> None:
    text = changed((old, new))
    found = one(read, text)
    assert text[: text.index(new)].count("\n") + 1 == found.line
    header = new.split("\n", maxsplit=1)[0]
    assert (
        f"{header} is not a heading that a piece file can have; did you mean {right}?"
        == found.message
    )


def test_every_header_misspelled_alike_is_told_alone(good: str, read: Read) -> None:
    for header, wrong in (("[[part]]", "[[parts]]"), ("[[schedule.", "[[shedule.")):
        found = one(read, good.replace(header, wrong))
        assert "is not a heading that a piece file can have" in found.message


def test_mistake_under_a_misspelled_header_is_told_on_its_own_line(
    changed: Changed, read: Read
) -> None:
    text = changed(('[[product]]\nname = "wax"', '[[prodct]]\nname = "wax"'), ("50 m2/kg", "50"))
    _, problems = read(text)
    lines = [text[: text.index(at)].count("\n") + 1 for at in ("[[prodct]]", 'covers = "50"')]
    assert lines == [found.line for found in problems]


def test_header_unlike_any_lists_all(read: Read) -> None:
    found = one(read, f'{HEAD}{PART}[[thing]]\ncolour = "red"\n')
    assert found.message.startswith(
        "[[thing]] is not a heading that a piece file can have; use one of [piece], [["
    )


def test_misspelled_steps_of_a_zone_are_its_finish_all_the_same(
    changed: Changed, read: Read
) -> None:
    text = changed(('[[zone.step]]\ndo = "sand"', '[[zone.stpe]]\ndo = "sand"'))
    assert 'did you mean "step"?' in one(read, text).message


def test_part_in_the_piece_asks_for_the_missing_header(read: Read) -> None:
    found = one(read, f'[piece]\nname = "top"\nunit = "in"\n{SIZES}{ZONE}')
    assert (4, "piece") == (found.line, found.where)
    assert "is a [[part]] line missing above line 4?" in found.message


@pytest.mark.parametrize(
    ("text", "line", "header"),
    [
        (f'name = "p"\nunit = "in"\n{PART}{ZONE}', 1, "[piece]"),
        (f'{HEAD}{PART}faces = ["top"]\nsurface = "bare"\nleave = true\n', 10, "[[zone]]"),
        (f'{HEAD}{PART}do = "sand"\n', 10, "[[zone.step]]"),
        (f'{HEAD}{PART}{ZONE}kind = "paint"\ncovers = "10 m2/L"\n', 14, "[[product]]"),
    ],
)
def test_keys_of_another_table_ask_once_for_the_header_that_is_missing(
    text: str, line: int, header: str, read: Read
) -> None:
    found = one(read, text)
    assert line == found.line
    assert f"is a {header} line missing above line {line}?" in found.message


def test_step_without_its_header_is_the_finish_of_its_zone(read: Read) -> None:
    zone = ZONE.replace("leave = true", 'surface = "bare"\ndo = "sand"\ngrits = [120]\nwith = "d"')
    found = one(read, f'{HEAD}{PART}{zone}[[abrasive]]\nname = "d"\nform = "sheet"\n')
    assert found.line == 14
    assert "is a [[zone.step]] line missing above line 14?" in found.message


@pytest.mark.parametrize(("line", "key"), [('nmae = "top"\n', "nmae"), ("", "name")])
def test_part_without_its_name_is_told_once_though_others_stand_by_it(
    line: str, key: str, read: Read
) -> None:
    found = one(read, HEAD + PART.replace('name = "top"\n', line) + LEG + ZONE)
    assert found.line in (4, 5)
    assert key in found.message


def test_part_with_one_bracket_is_told_once_though_others_refer_to_it(read: Read) -> None:
    found = one(read, f"{HEAD}[part]\nname = 'top'\n{SIZES}{ZONE}")
    assert (4, "[part] must be written [[part]]") == (found.line, found.message)


def test_key_that_is_missing_and_asked_for_twice_is_told_once(changed: Changed, read: Read) -> None:
    found = one(read, changed(('on_hand = "30 ml"', "on_hand = { depth = 20 }")))
    assert "has no width" in found.message


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("set_in = 5", 'set_in = "5 kg"', 'corners: set_in = "5 kg" is a weight'),
        ("set_in = 5", "set_out = 5", 'corners: "set_out" is not known here'),
        ('of = "box"', 'of = "bx"', 'corners: of = "bx" is not a part'),
        ("of = 2,", "of = 0,", "row: of = 0 must be"),
        ("of = 2, ", "", "row has no of"),
        ("on_hand = { 120 = 3 }", "on_hand = { 121 = 3 }", 'on_hand: "121" is not a standard grit'),
        ('on_hand = "30 ml"', "on_hand = { depth = 20, width = 0 }", "on_hand: width = 0 must be"),
        ("price = 21", "price = -21", "packs 2: price = -21 must be"),
        ("count = 5", "count = 0", "packs: count = 0 must be"),
        ('corners = { of = "box", set_in = 5 }', 'on = { part = "box", set_in = { lft = 1 } }',
         'on set_in: "lft" is not known here; did you mean "left"?'),
        ('open = ["front"]', 'open = ["fron="]',
         'open: "fron=" is not a side; did you mean "front"?'),
        ("[10, 25]", "[10, nan]", "profile: nan must be an ordinary number"),
        ("at = [20, 20, 330]", 'on = "tpo"',
         'on = "tpo" is not a part in this file; did you mean "top"?'),
    ],
)  # fmt: skip
def test_mistake_in_a_table_in_a_table_names_both(
    old: str, new: str, said: str, changed: Changed, read: Read
) -> None:
    _, problems = read(changed((old, new)))
    assert [] != [found for found in problems if found.message.startswith(said)]
