"""What a coat step leaves out is filled in and marked as assumed."""

from collections.abc import Callable

import pytest

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.steps import Coat
from surfacecalc.problems import Problem

Read = Callable[[str], tuple[Piece | None, list[Problem]]]
PieceOf = Callable[[str], Piece]

TEXT = """\
[piece]
name = "p"
unit = "mm"
[[part]]
name = "top"
shape = "board"
width = 100
depth = 60
height = 20
[[zone]]
name = "all"
faces = ["*"]
surface = "bare"
[[zone.step]]
do = "coat"
product = "it"
coats = {coats}
by = "{by}"
{more}
[[product]]
name = "it"
kind = "{kind}"
packs = [{{ size = "1 {pack}" }}]
"""
BEGINNING = TEXT[: TEXT.index("{more}")]
MORE_LINE = BEGINNING.count("\n") + 1


def text(more: str = "", by: str = "brush", kind: str = "paint", coats: str = "2") -> str:
    pack = "kg" if kind.endswith(("wax", "filler")) else "L"
    return TEXT.format(more=more, by=by, kind=kind, coats=coats, pack=pack)


def coat(piece: Piece) -> Coat:
    (step,) = piece.zones[0].steps
    assert isinstance(step, Coat)
    return step


def told(factor: Factor) -> tuple[tuple[float, float, float], str]:
    return (factor.range.low, factor.range.likely, factor.range.high), factor.source


@pytest.mark.parametrize(
    ("kind", "expected"),
    [
        ("waterborne furniture paint", (0.58, 0.75, 0.89)),
        ("primer", (0.58, 0.75, 0.89)),
        ("shellac", (0.58, 0.75, 0.89)),
        ("spray lacquer", (0.58, 0.75, 0.89)),
        ("gel stain", (1, 1, 1)),
        ("drying oil", (1, 1, 1)),
        ("hardwax oil", (1, 1, 1)),
        ("paste wax", (1, 1, 1)),
        ("paste grain filler", (1, 1, 1)),
    ],
)
def test_first_coat_left_out_is_assumed_by_the_kind(
    kind: str, expected: tuple[float, float, float], piece_of: PieceOf
) -> None:
    assert (expected, "assumed") == told(coat(piece_of(text(kind=kind))).first_coat)


@pytest.mark.parametrize(
    ("by", "expected"),
    [
        ("brush", (0.10, 0.10, 0.10)),
        ("roller", (0.10, 0.10, 0.10)),
        ("cloth", (0.15, 0.15, 0.15)),
        ("spray", (0.25, 0.40, 0.75)),
    ],
)
def test_loss_left_out_is_assumed_by_the_way_it_is_put_on(
    by: str, expected: tuple[float, float, float], piece_of: PieceOf
) -> None:
    assert (expected, "assumed") == told(coat(piece_of(text(by=by))).loss)


def test_allowance_left_out_is_assumed_to_be_none(piece_of: PieceOf) -> None:
    assert ((0, 0, 0), "assumed") == told(coat(piece_of(text())).allowance)


def test_thinner_left_out_is_none(piece_of: PieceOf) -> None:
    assert coat(piece_of(text())).thin is None


@pytest.mark.parametrize("key", ["loss", "allowance", "first_coat", "thin"])
def test_written_share_is_kept_and_not_assumed(key: str, piece_of: PieceOf) -> None:
    step = coat(piece_of(text(f'{key} = "12.5 %"')))
    assert ((0.125, 0.125, 0.125), "piece file") == told(getattr(step, key))


@pytest.mark.parametrize("key", ["loss", "allowance", "first_coat", "thin"])
def test_written_range_of_shares_is_kept(key: str, piece_of: PieceOf) -> None:
    step = coat(piece_of(text(f'{key} = ["10 %", "25 %", "50 %"]')))
    assert ((0.1, 0.25, 0.5), "piece file") == told(getattr(step, key))


def test_share_written_as_its_default_is_not_assumed(piece_of: PieceOf) -> None:
    step = coat(piece_of(text('loss = "10 %"\nallowance = "0 %"')))
    assert (step.loss.source, step.allowance.source) == ("piece file", "piece file")


@pytest.mark.parametrize(
    ("coats", "expected"),
    [("1", Range(1, 1, 1)), ("3", Range(3, 3, 3)), ("[1, 2, 4]", Range(1, 2, 4)), ("50", Range(50,
     50, 50))],
)  # fmt: skip
def test_coats_are_a_whole_number_or_a_range(
    coats: str, expected: Range, piece_of: PieceOf
) -> None:
    found = coat(piece_of(text(coats=coats))).coats
    assert (expected, "piece file") == (found.range, found.source)


@pytest.mark.parametrize(
    "coats", ["0", "0.5", "1.5", "-1", "51", "nan", "inf", "true", '"2"', "[2, 1]", "[3, 2, 1]",
              "[0, 1, 2]", "[1, 1.5, 2]", "[]", "10000000000", "{}", "2024-01-01"],
)  # fmt: skip
def test_coats_that_are_no_whole_number_from_one_are_refused(coats: str, read: Read) -> None:
    piece, problems = read(text(coats=coats))
    assert piece is None
    (found,) = problems
    assert (found.level, found.where) == ("mend", 'zone "all" step 1')
    assert found.line == MORE_LINE - 2
    assert found.message.startswith("coats = ")


@pytest.mark.parametrize(
    ("line", "wrong"),
    [
        ('loss = "100 %"', "below 100 %"),
        ('loss = "120 %"', "below 100 %"),
        ('loss = "-1 %"', "from 0 %"),
        ('loss = ["10 %", "20 %", "100 %"]', "below 100 %"),
        ('loss = ["20 %", "10 %", "30 %"]', "[low, likely, high]"),
        ('loss = ["20 %", "10 %"]', "the lower end first"),
        ("loss = 0.1", 'like "10 %"'),
        ('loss = "10"', 'like "10 %"'),
        ('loss = "7,5 %"', '"7.5 %"'),
        ('allowance = "-5 %"', "from 0 %"),
        ('allowance = "2000 %"', "1000 %"),
        ('first_coat = "0 %"', "more than 0 %"),
        ('first_coat = "101 %"', "at most 100 %"),
        ('first_coat = "-75 %"', "more than 0 %"),
        ('thin = "-1 %"', "from 0 %"),
        ("thin = true", 'like "10 %"'),
        ('thin = "10 ml"', 'like "10 %"'),
    ],
)
def test_share_out_of_its_bounds_is_refused_with_them(line: str, wrong: str, read: Read) -> None:
    piece, problems = read(text(line))
    assert piece is None
    (found,) = problems
    assert (found.level, found.line, found.where) == ("mend", MORE_LINE, 'zone "all" step 1')
    assert found.message.startswith(line.partition(" ")[0])
    assert wrong in found.message


def test_thinning_what_is_sold_by_weight_is_refused(read: Read) -> None:
    piece, problems = read(text('thin = "5 %"', kind="paste wax"))
    assert piece is None
    assert ["by volume" in problem.message for problem in problems] == [True]


def test_coat_of_thinner_is_refused(read: Read) -> None:
    piece, problems = read(text(kind="thinner"))
    assert piece is None
    assert ["leaves nothing on the wood" in problem.message for problem in problems] == [True]
