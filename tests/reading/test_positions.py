"""The line of everything in a TOML text."""

import pytest

from surfacecalc.reading.positions import line_of, lines_moved
from surfacecalc.reading.syntax.scan import line_index

TEXT = """\
title = "x"
sizes = [1,
  2, # a comment

  3]

[piece]
name = "Chest"
'quoted key' = 1
"a\\u0062c" = 2
row.of = 3
row.apart = [0,
  0, 8]
note = \"\"\"
one

[[part]]
two\"\"\"

[[part]] # first
name = "a"
corners = { of = "case", set_in = 1 }

[[zone]]
name = "one"

[[zone.step]]
do = "sand"

[[zone.step]]
do = "coat"

[[zone]]
name = "two"

[[zone.step]]
do = "sand"
grits = [
  80, # coarse
  120,
  [1,
   2],
]

[[schedule."oil, wax"]]
do = "coat"

[[schedule."oil, wax"]]
packs = [
  { size = "1 L" },
  { size = "2 L", price = 3 },
]

[[part]]
name = "b"
[part.row]
of = 2
[ a . "b" . 'c' ]
d = 1
"""

LINES = {
    "a key at the top": (("title",), 1),
    "an array": (("sizes",), 2),
    "the first item": (("sizes", 0), 2),
    "an item on a line of its own": (("sizes", 1), 3),
    "an item after a comment and an empty line": (("sizes", 2), 5),
    "a table": (("piece",), 7),
    "a key": (("piece", "name"), 8),
    "a key in single quotes": (("piece", "quoted key"), 9),
    "a key with an escape in it": (("piece", "abc"), 10),
    "a table made by a dotted key": (("piece", "row"), 11),
    "a dotted key": (("piece", "row", "of"), 11),
    "a second dotted key": (("piece", "row", "apart"), 12),
    "an item on the line after": (("piece", "row", "apart", 1), 13),
    "a text of several lines": (("piece", "note"), 14),
    "a list of tables: its first": (("part",), 20),
    "a table of a list, after a text that looks like one": (("part", 0), 20),
    "a key in a table of a list": (("part", 0, "name"), 21),
    "a key in an inline table": (("part", 0, "corners", "set_in"), 22),
    "a table in a table of a list": (("zone", 0, "step", 0), 27),
    "the second one": (("zone", 0, "step", 1), 30),
    "its key": (("zone", 0, "step", 1, "do"), 31),
    "the second table of a list": (("zone", 1), 33),
    "its first inner table counts from nothing": (("zone", 1, "step", 0), 36),
    "an item after an item with a comment": (("zone", 1, "step", 0, "grits", 1), 40),
    "an array in an array": (("zone", 1, "step", 0, "grits", 2), 41),
    "its second item": (("zone", 1, "step", 0, "grits", 2, 1), 42),
    "a table whose name is quoted": (("schedule", "oil, wax", 0), 45),
    "a second table whose name is quoted": (("schedule", "oil, wax", 1), 48),
    "an inline table in an array": (("schedule", "oil, wax", 1, "packs", 1), 51),
    "its key, too": (("schedule", "oil, wax", 1, "packs", 1, "price"), 51),
    "a later table of a list": (("part", 1, "name"), 55),
    "a plain table in the latest table of a list": (("part", 1, "row"), 56),
    "a key of that one": (("part", 1, "row", "of"), 57),
    "a table with blanks and quotes in its name": (("a", "b", "c"), 58),
    "a table that is only named on the way": (("a", "b"), 58),
    "its key at last": (("a", "b", "c", "d"), 59),
}


@pytest.mark.parametrize(("path", "line"), LINES.values(), ids=list(LINES))
@pytest.mark.parametrize("end", ["\n", "\r\n"], ids=["unix", "windows"])
def test_line_is_that_of(path: tuple[str | int, ...], line: int, end: str) -> None:
    assert line == line_index(TEXT.replace("\n", end))[path]


def test_line_of_what_is_not_there_is_that_of_the_nearest_table_around_it() -> None:
    lines = line_index(TEXT)
    assert line_of(lines, ("zone", 1, "step", 0, "coats", 2)) == 36
    assert line_of(lines, ("zone", 9, "name")) == 24
    assert line_of(lines, ("nothing",)) == 1


@pytest.mark.parametrize("text", ["", "\n\n", "# only a comment", "a = 1"])
def test_whole_file_is_line_one(text: str) -> None:
    assert line_of(line_index(text), ()) == 1


def test_signs_of_several_bytes_do_not_move_lines() -> None:
    lines = line_index('a = "\u00bd\u2033 \U0001fa91"\nb = "\u00e9"\n[t]\n"\u00fc" = 1\n')
    assert lines["b",] == 2
    assert lines["t", "\u00fc"] == 4


def test_lines_of_a_table_can_be_found_under_another_name() -> None:
    lines = line_index('[[prt]]\nname = "a"\n[[prt]]\nname = "b"\n[x]\ny = 1\n')
    moved = lines_moved(lines, ("prt",), ("part",), shift=3)
    assert moved == {
        ("part",): 1, ("part", 3): 1, ("part", 3, "name"): 2, ("part", 4): 3, ("part", 4, "name"): 4
    }  # fmt: skip
