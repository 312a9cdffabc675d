"""A range as a label prints it, and as a list of two, in every key that takes one."""

import re
from importlib import resources
from typing import Any

import pytest
from piece_texts import piece_text

from surfacecalc.api import Reading, read_piece_text
from surfacecalc.model.pieces import Piece

SAND = {"do": "sand", "grits": [120], "with": "disc"}
DISC = {"name": "disc", "form": "125 mm disc"}
PASTE = {"name": "it", "kind": "wood filler", "density": "1.6 kg/L"}
FILL = {"do": "fill", "product": "it", "pits": [{"count": 12, "diameter": 5, "depth": 3}]}


def coat(**keys: Any) -> dict[str, Any]:
    return {"do": "coat", "product": "it", "coats": 2, "by": "brush", **keys}


def paint(**keys: Any) -> dict[str, Any]:
    return {"name": "it", "kind": "oil varnish", **keys}


def text_with(key: str, value: Any) -> str:
    """Return a piece file in which a key that takes a range has a value."""
    if key in ("covers", "dry", "recoat", "cure", "rub_out", "min_temp"):
        return piece_text(coat(), product=paint(**{key: value}))
    if key == "solids":
        return piece_text(coat(), product=paint(solids=value, dry_film="30 um"))
    if key == "dry_film":
        return piece_text(coat(), product=paint(solids="40 %", dry_film=value))
    if key == "life":
        return piece_text(SAND, abrasive={**DISC, "life": value})
    if key == "lasts":
        rag = {"name": "rag", "lasts": value}
        return piece_text(coat(uses=["rag"]), product=paint(), consumable=rag)
    if key == "strength":
        wash = {"do": "wash", "product": "it", "strength": value}
        return piece_text(wash, product={"name": "it", "kind": "degreasing cleaner"})
    if key == "shrinkage":
        return piece_text({**FILL, key: value}, product=PASTE)
    if key == "thin":
        thinner = {"name": "spirit", "kind": "thinner"}
        return piece_text(coat(thin=value), product=[paint(thinner="spirit"), thinner])
    return piece_text(coat(**{key: value}), product=paint())


RANGES = {
    "covers": ("75", "100", " ft2/quart"), "solids": ("30", "40", " %"),
    "dry_film": ("25", "35", " um"), "life": ("0.4", "0.6", " m2"), "lasts": ("2", "4", " h"),
    "loss": ("5", "10", " %"), "allowance": ("5", "10", " %"), "first_coat": ("60", "80", " %"),
    "thin": ("5", "10", " %"), "coats": ("2", "4", ""), "strength": ("3", "5", " %"),
    "shrinkage": ("5", "10", " %"), "stays_behind": ("5", "15", " ml"),
    "time": ("20", "40", " min"), "rate": ("2", "4", " m2/h"), "wait": ("2", "4", " h"),
    "dry": ("2", "4", " h"),
    "recoat": ("4", "6", " h"), "cure": ("7", "21", " days"),
    "rub_out": ("7", "9", " days"), "min_temp": ("8", "12", " C"),
}  # fmt: skip
"""Each key that takes a range, with two ends and their unit."""


def read(text: str) -> Piece:
    reading: Reading = read_piece_text(text)
    assert reading.piece is not None, reading.lines
    return reading.piece


def rounded(piece: Piece) -> str:
    """Return all that a piece holds; half of 5 % and 10 % is 7.5 % but for the last bit."""
    return re.sub(r"\d+\.\d{13,}", lambda found: f"{float(found[0]):.12g}", repr(piece))


def as_value(number: str, unit: str) -> str | int:
    return f"{number}{unit}" if unit else int(number)


@pytest.mark.parametrize("key", RANGES)
def test_two_ends_are_a_range_with_the_middle_likely(key: str) -> None:
    """All ways to write it give one piece, equal to that of the three values written out."""
    low, high, unit = RANGES[key]
    middle = f"{(float(low) + float(high)) / 2:g}"
    three = [as_value(number, unit) for number in (low, middle, high)]
    expected = rounded(read(text_with(key, three)))
    ways = ([three[0], three[2]], f"{low} to {high}{unit}", f"{low}-{high}{unit}",
            f"{low}{unit} to {high}{unit}")  # fmt: skip
    for way in ways:
        assert expected == rounded(read(text_with(key, way))), way
    assert expected != rounded(read(text_with(key, three[1])))


def test_guide_names_the_keys_that_take_a_range() -> None:
    page = (resources.files("surfacecalc.guide") / "measures.md").read_text("utf-8")
    said = re.search(r"You can give a range for (.*?)\.", page, re.DOTALL)
    assert said is not None
    assert sorted(RANGES) == sorted(re.findall(r"`(\w+)`", said[1]))


def problem(key: str, value: Any) -> str:
    reading = read_piece_text(text_with(key, value))
    assert reading.piece is None
    (line,) = reading.lines
    return str(line)


@pytest.mark.parametrize("value", ["100 to 75 ft2/quart", ["100 ft2/quart", "75 ft2/quart"]])
def test_higher_end_first_is_refused(value: Any) -> None:
    assert problem("covers", value).endswith("must have the lower end first")


def test_mistake_of_both_ends_is_said_once() -> None:
    assert 'did you mean "quart"?' in problem("covers", "75 to 100 ft2/qaurt")


def test_half_a_coat_goes_up_to_a_whole_one() -> None:
    expected = rounded(read(text_with("coats", [2, 3, 3])))
    assert expected == rounded(read(text_with("coats", "2 to 3")))


def test_whole_coats_are_checked_at_both_ends() -> None:
    assert "must be a whole number of coats" in problem("coats", "2 to 2.5")
    assert 'coats = "2 to 60" must be' in problem("coats", "2 to 60")


def test_list_of_four_says_what_a_range_is() -> None:
    said = "must be one value, or a list of two or three: [low, high] or [low, likely, high]"
    assert said in problem("coats", [1, 2, 3, 4])


@pytest.mark.parametrize(
    ("key", "written", "wrong"),
    [
        ("covers", "75 to 100 sq ft", "is not a coverage; write how much surface"),
        ("covers", "75-100 sq ft", "is not a coverage; write how much surface"),
        ("covers", "75 to 100 ft2/quartt", 'has an unknown unit "quartt"; did you mean "quart"?'),
        ("covers", "75 to 100000 ft2/quart", "is over 1,000 m2"),
        ("covers", "0 to 75 ft2/quart", "must be more than zero"),
        ("loss", "10 to 200 %", "must be from 0 % to below 100 %"),
        ("loss", "some to many", "is not a percentage"),
        ("coats", "2 to x", "must be a number"),
        ("recoat", "2 to 4", 'has no unit; write recoat = "2 to 4 min" or "2 to 4 h"'),
        ("dry", "2-4", 'has no unit; write dry = "2-4 min" or "2-4 h"'),
        ("recoat", "2 h to 4 furlongs", "furlongs"),
        ("dry_film", "25 to 35 umm", 'has an unknown unit "umm"'),
    ],
)
def test_a_mistake_in_a_range_quotes_all_that_is_written(
    key: str, written: str, wrong: str
) -> None:
    (line,) = read_piece_text(text_with(key, written)).lines
    assert f'{key} = "{written}" ' in line
    assert wrong in line
