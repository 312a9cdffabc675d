"""A piece unlike its kind is told; nothing that the guided start writes is, nor any example."""

import random
import re
from collections.abc import Callable, Iterator
from fractions import Fraction
from pathlib import Path

import pytest

from surfacecalc.api import measure, read_piece, read_piece_text
from surfacecalc.checks.likeness import AREA_TO_BOX, SETS, area_to_box
from surfacecalc.checks.usual_sizes import usual_sizes
from surfacecalc.model.kind_names import KIND_NAMES
from surfacecalc.starting.file_text import piece_text
from surfacecalc.starting.interview import Interview
from surfacecalc.starting.measurements import Measure, Sizes
from surfacecalc.starting.piece_kinds import kind_of
from surfacecalc.starting.questions import next_question, sizes_of
from surfacecalc.starting.start import draft_of
from surfacecalc.starting.targets import Targets

Pick = Callable[[Measure, Sizes], str]
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
DRAWN = 2
"""Pieces of each kind, usual and unusual, that are measured anew."""
DRESSER = """\
[piece]
name = "Pine dresser"
unit = "in"
[[part]]
name = "case"
shape = "case"
width = 36
depth = 18
height = 34
board = 0.75
open = ["front"]
[[part]]
name = "drawer"
shape = "drawer"
width = 34
depth = 16
height = 10
front = 0.75
board = 0.5
row = { of = 3, apart = [0, 0, 11] }
[[zone]]
name = "all"
faces = ["*"]
leave = true
"""


def block(name: str, width: object, depth: object, height: object, more: str = "") -> str:
    """Return the file of a piece of one board, in inches."""
    sizes = f"width = {width}\ndepth = {depth}\nheight = {height}\n{more}\n"
    head = f'[piece]\nname = "{name}"\nunit = "in"\n[[part]]\nname = "a"\nshape = "board"\n'
    return f'{head}{sizes}[[zone]]\nname = "all"\nfaces = ["*"]\nleave = true\n'


@pytest.fixture
def told(tmp_path: Path) -> Callable[..., list[str]]:
    """Return a function that gives the remarks on the whole piece of a changed file."""

    def run(text: str, **changed: str) -> list[str]:
        for key, value in changed.items():
            line = re.compile(rf"^{key} = .*$", re.MULTILINE)
            assert line.search(text)
            text = line.sub(f"{key} = {value}", text, count=1)
        file = tmp_path / "piece.toml"
        file.write_text(text)
        return remarks(file)

    return run


def proposed(measure: Measure, sizes: Sizes) -> str:
    middle = sum(measure.limits(sizes).__dict__[end] for end in ("usual_least", "usual_most")) / 2
    return measure.proposal(sizes) or words(measure, sizes, middle)


def least(measure: Measure, sizes: Sizes) -> str:
    return words(measure, sizes, measure.limits(sizes).usual_least)


def most(measure: Measure, sizes: Sizes) -> str:
    return words(measure, sizes, measure.limits(sizes).usual_most)


def drawn(chance: random.Random, *, wide: bool) -> Pick:
    """Return a way to pick any size: the ends and absent things as often as all in between."""

    def pick(measure: Measure, sizes: Sizes) -> str:
        limits = measure.limits(sizes)
        low, high = limits.usual_least, limits.usual_most
        if wide:
            low, high = limits.least, limits.most
        share = chance.choice([Fraction(0), Fraction(1), Fraction(chance.randrange(101), 100)])
        if measure.may_be_none and chance.random() < 0.2:
            return "none"
        return words(measure, sizes, low + (high - low) * share)

    return pick


def words(measure: Measure, sizes: Sizes, value: Fraction) -> str:
    if measure.sort == "length":
        at_mark = sizes.scale.down(value)
        limits = measure.limits(sizes)  # rounding down must not leave the range
        return measure.words(at_mark if at_mark >= limits.least else value, sizes.scale)
    return measure.words(Fraction(int(value)), sizes.scale)


def begun(kind: str, pick: Pick, target: Path, unit: str = "in") -> Path:
    """Write the piece that the guided start makes of some sizes."""
    interview = Interview({}, frozenset(), is_asking=False, targets=Targets())
    measures = {measure.key: measure for measure in kind_of(kind).measures}
    said = {"kind": kind, "unit": unit, "file": str(target)}
    while (question := next_question(interview.found, interview.targets)) is not None:
        text = said.get(question.key) or question.proposed or ""
        if question.option == "--finish":
            text = "leave"
        if question.key in measures:
            text = pick(measures[question.key], sizes_of(interview.found))
        interview.found[question.key] = question.read(text)
    target.write_text(piece_text(draft_of(interview)))
    return target


def remarks(file: Path) -> list[str]:
    problems = measure(read_piece(file)).notes
    return [problem.message for problem in problems if problem.where == "piece"]


def pieces(kind: str, target: Path) -> Iterator[tuple[Path, bool]]:
    """Yield drawn pieces of a kind, and whether they are beyond what is usual."""
    chance = random.Random(f"likeness of a {kind}")  # noqa: S311 - sizes, no secrets
    for wide in [False] * DRAWN + [True] * DRAWN:
        yield begun(kind, drawn(chance, wide=wide), target), wide


@pytest.mark.parametrize(
    ("unit", "pick"),
    [("mm", proposed), ("in", least), ("in", most)],
    ids=["usual", "least", "most"],
)
@pytest.mark.parametrize("kind", KIND_NAMES)
def test_pieces_of_usual_sizes_are_not_told(kind, pick, unit, tmp_path):
    file = begun(kind, pick, tmp_path / "piece.toml", unit)
    assert f'\nkind = "{kind}"\n' in file.read_text()
    assert [] == remarks(file)


@pytest.mark.parametrize("kind", [kind for kind in KIND_NAMES if kind not in SETS])
def test_drawn_pieces_have_a_ratio_within_what_was_computed(kind, tmp_path):
    low, high = AREA_TO_BOX[kind]
    for file, wide in pieces(kind, tmp_path / "piece.toml"):
        measured = measure(read_piece(file)).measured
        width, depth, height = measured.size_mm
        box_mm2 = 2 * (width * depth + depth * height + width * height)
        assert low <= measured.exposed_m2 * 1e6 / box_mm2 <= high
        found = remarks(file)
        if wide:  # what was confirmed may still look like another unit
            found = [message for message in found if "would fit" not in message]
        assert [] == found


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_examples_are_not_told(example):
    assert [] == remarks(example)


def test_every_kind_has_a_ratio_and_sizes():
    assert set(KIND_NAMES) == {*AREA_TO_BOX, *SETS}
    for kind in AREA_TO_BOX:
        low, high = area_to_box(kind)
        assert 0 < low < AREA_TO_BOX[kind][0] < AREA_TO_BOX[kind][1] < high
    for kind in KIND_NAMES:
        assert all(0 < span.least_mm < span.most_mm for span in usual_sizes(kind).spans)


def test_inches_read_as_millimetres_are_told_with_the_unit_that_fits(told):
    found = told(DRESSER, unit='"mm"')
    wide = "a dresser 36 mm wide: such a piece is usually 510 mm to 2130 mm wide"
    assert [f'{wide}; is the unit right? unit = "in" would fit'] == found


def test_inches_read_as_centimetres_are_told_although_such_a_piece_could_be(told):
    (message,) = told(DRESSER, unit='"cm"')
    assert message.startswith("a dresser 360 mm wide: ")
    assert message.endswith('unit = "in" would fit')


def test_centimetres_read_as_inches_are_told(told):
    text = DRESSER.replace("36", "92").replace("= 18", "= 46").replace("= 34", "= 86")
    (message,) = told(text)
    assert message.startswith("a dresser 92 in wide: such a piece is usually 20 in to 84 in wide")
    assert message.endswith('unit = "cm" would fit')


def test_a_single_measure_far_off_is_told_without_another_unit(told):
    (message,) = told(DRESSER, height='"7 in"')
    low = "a dresser 7 in high: such a piece is usually 24 in to 72 in high"
    assert f"{low}; are the unit and the sizes right?" == message


def test_a_single_size_that_is_unusual_but_can_be_is_not_told(told):
    assert [] == told(DRESSER, height='"20 in"')
    assert [] == told(DRESSER, height='"90 in"')


def test_a_chair_may_be_as_high_as_its_back(told):
    assert [] == told(block("Chair", 18, 18, 45))


@pytest.mark.parametrize("sizes", [(36, 24, 0.75), (24, 0.75, 36), (0.75, 24, 36)])
def test_a_mirror_may_lie_stand_or_hang(sizes, told):
    assert [] == told(block("Mirror", *sizes))


@pytest.mark.parametrize(
    ("size", "told_as"),
    [("50 mm", None), ("49 mm", "49 mm"), ("6 m", None), ("6001 mm", "6001 mm")],
)
def test_without_a_kind_only_what_is_no_furniture_is_told(size, told_as, told):
    found = told(block("Block", f'"{size}"', 30, 20), unit='"mm"')
    range_of_furniture = "and furniture is usually 50 mm to 6000 mm (common practice)"
    message = f"its largest side is {told_as}, {range_of_furniture}; is the unit right?"
    assert ([] if told_as is None else [message]) == found


@pytest.mark.parametrize(("size", "shown"), [(1, "1 in"), (300, "300 in")])
def test_without_a_kind_usual_sizes_are_whole_inches(size, shown, told):
    (message,) = told(block("Block", size, 0.5, 0.5))
    assert f"side is {shown}, and furniture is usually 2 in to 236 in (common" in message


def test_a_drawer_that_is_there_many_times_is_told(told):
    (message,) = told(DRESSER, row="{ of = 30, apart = [0, 0, 11] }")
    # 2 x (36 x 18 + 36 x 34 + 18 x 34) = 4 968 square inches
    assert "times that of the box around it (34.5 sq ft)" in message
    assert "is a part given twice, is a row or a size too large" in message
    assert "computed from this program's own layouts and widened" in message
    assert [] == told(DRESSER)


def test_a_drawer_ten_times_as_large_is_told(told):
    text = DRESSER.replace("width = 34", "width = 340").replace("depth = 16", "depth = 160")
    (message,) = told(text)
    assert " times that of the box around it (" in message


def test_a_piece_of_which_most_is_left_out_is_told(told):
    """Four thin rods at the corners of a dresser's box."""
    row = "row = { of = [2, 2], apart = [[35, 0, 0], [0, 17, 0]] }"
    (message,) = told(block("Dresser", 1, 1, 34, row))
    assert "is a part missing" in message


def test_loose_parts_are_as_long_as_the_longest_of_them(told):
    """Taken apart, it is not known how they go together; their lengths are known."""
    text = DRESSER.replace("board = 0.75\nopen", "loose = true\nboard = 0.75\nopen")
    (message,) = told(text, unit='"mm"')
    assert "its largest side is 36 mm" in message
    assert [] == told(text)


def test_a_part_too_small_for_a_finish_is_told_once_for_a_row():
    small = DRESSER.replace("[[zone]]", '[[part]]\nname = "knob"\nshape = "board"\nwidth = 0.04'
                            '\ndepth = 0.04\nheight = 0.1\nat = [0, 50, 0]\n'
                            "row = { of = 4, apart = [10, 0, 0] }\n[[zone]]")  # fmt: skip
    notes = measure(read_piece_text(small)).notes
    found = [problem for problem in notes if "largest side" in problem.message]
    assert [('part "knob"', "its largest side is 0.1 in, and no part")] == [
        (problem.where, problem.message[:39]) for problem in found
    ]
