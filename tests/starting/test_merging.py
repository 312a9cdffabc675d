"""What other answers change of a file: just that, and nothing that somebody wrote by hand."""

import itertools
from collections.abc import Iterator
from pathlib import Path
from types import SimpleNamespace

import pytest

from surfacecalc.model.kind_names import KIND_NAMES
from surfacecalc.starting.answers import Answer, AnswerError
from surfacecalc.starting.file_pieces import taken_apart
from surfacecalc.starting.file_text import piece_text
from surfacecalc.starting.finishes import CONDITIONS, FINISHES, STRIPPING, ZONES
from surfacecalc.starting.measurements import Measure
from surfacecalc.starting.merging import changed_lines, merged
from surfacecalc.starting.piece_kinds import kind_of
from surfacecalc.starting.questions import sizes_of
from surfacecalc.starting.start import draft_of

OTHERS = {"length": ("none", "1 1/4", "21", "20 to 21"), "count": "0134", "presence": ("yes", "no")}
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
Found = dict[str, Answer]
Sized = dict[str, dict[str, str]]


def word(text: str) -> Answer:
    return Answer(text, text)


def read(measure: Measure, text: str, found: Found) -> Answer:
    return measure.read(text, sizes_of(found))


def answered(kind: str, sizes: dict[str, str]) -> Found:
    """Return the answers about a piece of a kind, all zones painted on varnish."""
    texts = {"kind": kind, "name": "It", "file": "it.toml", "unit": "in", "built": "1948"}
    found = {key: word(text) for key, text in {**texts, "stripping": "stripper"}.items()}
    found["currency"] = Answer("USD", "USD")
    for measure in kind_of(kind).measures:
        if measure.key in sizes:
            found[measure.key] = read(measure, sizes[measure.key], found)
    for zone in ZONES:
        found |= {f"finish {zone}": word("paint"), f"condition {zone}": word("varnished")}
    return found


def written(found: Found, assumed: tuple[str, ...] = ()) -> str:
    """Return the file that `new` writes for answers."""
    return piece_text(draft_of(SimpleNamespace(found=found, assumed=assumed)))  # type: ignore[arg-type]


def with_what_follows(kind: str, found: Found) -> Found:
    """Return answers with the proposed ones to questions that only come up with them."""
    for measure in kind_of(kind).measures:
        sizes = sizes_of(found)
        if measure.key not in found and measure.asked(sizes):
            found[measure.key] = measure.read(measure.proposal(sizes) or "", sizes)
    return found


def other_answers(kind: str, found: Found) -> Iterator[Found]:
    """Yield the answers with one measure changed, in every way of a few."""
    for measure in kind_of(kind).measures:
        for text in OTHERS[measure.sort]:
            try:
                answer = read(measure, text, found)
            except AnswerError:
                continue
            if measure.key in found and answer.words != found[measure.key].words:
                yield with_what_follows(kind, {**found, measure.key: answer})


def other_ends(found: Found, zone: str) -> Iterator[Found]:
    """Yield the answers with another finish, surface, year, way of stripping, currency or name."""
    for way, condition in itertools.product(FINISHES, CONDITIONS):
        changed = {f"finish {zone}": word(way), f"condition {zone}": word(condition)}
        for stripping in STRIPPING if way in ("stain", "oil") else ("stripper",):
            yield {**found, **changed, "stripping": word(stripping)}
    yield from ({**found, "built": word(year)} for year in ("1999", "unknown"))
    yield {**found, "currency": Answer("", "none")}
    yield {**found, "currency": word("EUR")}
    yield {**found, "name": word('Another "one"')}


def assert_changed(before: Found, after: Found) -> None:
    old, new = written(before), written(after)
    assert new == merged(old, new, old).text
    assert old == merged(new, old, new).text


@pytest.mark.parametrize("kind", KIND_NAMES)
def test_any_other_measure_gives_the_file_that_new_writes_for_it_and_back(
    kind: str, measures: Sized
) -> None:
    """Letter by letter, parts and zones that come and go among it."""
    found = answered(kind, measures[kind])
    changed = list(other_answers(kind, found))
    assert len(changed) >= len(measures[kind])
    for after in changed:
        assert_changed(found, after)


def test_any_other_finish_gives_the_file_that_new_writes_for_it_and_back(measures: Sized) -> None:
    for kind, zone in (("dresser", "top"), ("mirror", "front")):
        found = answered(kind, measures[kind])
        for after in other_ends(found, zone):
            assert_changed(found, after)


def test_what_is_measured_at_last_moves_to_what_was_measured(measures: Sized) -> None:
    found = answered("mirror", measures["mirror"])
    before, after = written(found, ("board", "frame")), written(found, ("board",))
    assert before != after
    assert after == merged(before, after, before).text


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_file_taken_apart_and_joined_again_is_the_same_file(path: Path) -> None:
    text = path.read_text("utf-8")
    pieces = taken_apart(text)
    assert text == "".join(piece.text for piece in pieces)
    for piece in pieces:
        if piece.values is not None:
            statements, rest = piece.statements()
            assert piece.text == piece.rebuilt(piece.comment, statements, rest).text
            assert {statement.key for statement in statements} <= piece.values.keys()


BY_HAND = """\
# mine
[[part]]  # a table
# about the name
name = "a # b" # not a comment in it
width   =   12 # measured twice
row = { of = 2,
  # inside
  apart = [1, 0, 0] } # so
faces = [
  "x", # first
  "y",
]

# loose

[[part]]
name = "last"
width = 1"""


def test_values_are_replaced_inside_what_somebody_wrote() -> None:
    first = taken_apart(BY_HAND)[0]
    statements, rest = first.statements()
    assert ['"a # b"', "12"] == [statement.value_text for statement in statements[:2]]
    changed = [s.with_value("7") if s.key in ("width", "row", "faces") else s for s in statements]
    assert first.rebuilt(first.comment, changed, rest).text == (
        "# mine\n[[part]]  # a table\n# about the name\n"
        'name = "a # b" # not a comment in it\nwidth   =   7 # measured twice\n'
        "row = 7 # so\nfaces = 7\n"
    )


PART = '[[part]]\nname = "a"\nwidth = {}\n'
STEP = '[[schedule."s"]]\ndo = "strip"\n{}\n'
ZONE = '[[zone]]\nname = "z"\nfaces = {}\n'


@pytest.mark.parametrize(
    ("old", "new", "file", "expected"),
    [
        (PART.format(1), PART.format(2), PART.format("1 # so"), PART.format("2 # so")),
        (PART.format(1), PART.format(2), PART.format("2 # so"), PART.format("2 # so")),
        (PART.format(1), PART.format(2), PART.format(1) + "own = 3\n",
         PART.format(2) + "own = 3\n"),
        (PART.format(1), PART.format(1) + "deep = 5\n", PART.format(1) + "own = 3\n",
         PART.format(1) + "deep = 5\nown = 3\n"),
        (PART.format(1) + "deep = 5\n", PART.format(1), PART.format(1) + "deep = 5\nown = 3",
         PART.format(1) + "own = 3"),
        (ZONE.format('["a", "b"]'), ZONE.format('["a", "c"]'), ZONE.format('["b", "mine", "a"]'),
         ZONE.format('["mine", "a", "c"]')),
        (PART.format(1), PART.format(1), PART.format(9), PART.format(9)),
        (PART.format(1), PART.format(1) + "\n[[part]]\nname = \"b\"\n", "x = 1\n" + PART.format(1),
         "x = 1\n" + PART.format(1) + "\n[[part]]\nname = \"b\"\n"),
        (PART.format(1), PART.format(1) + "\n[[part]]\nname = \"b\"\n", PART.format(1).strip(),
         PART.format(1) + "\n[[part]]\nname = \"b\"\n"),
    ],
)  # fmt: skip
def test_only_what_differs_is_done_to_a_file(old: str, new: str, file: str, expected: str) -> None:
    result = merged(old, new, file)
    assert ([], expected) == (result.refused, result.text)


@pytest.mark.parametrize(
    ("old", "new", "file", "said"),
    [
        (PART.format(1), PART.format(2), PART.format(3),
         'width of the part "a" was changed by hand: it is 3 in the file, 1 by'),
        (PART.format(1), PART.format(2), '[[part]]\nname = "a"\n', "it is not there in the file"),
        (PART.format(1) + "deep = 5\n", PART.format(1), PART.format(1) + "deep = 6\n", "not there"),
        (PART.format(1), "", PART.format(2), 'the part "a" was changed by hand, and your answers'),
        (STEP.format('product = "x"'), STEP.format("grits = [80]"),
         STEP.format('product = "x"\nwait = "2 h"'),
         'the step "strip" of the schedule "s" was changed by hand, and your answers take it out'),
        ("", PART.format(1), PART.format(1), 'the part "a" was added by hand, and your answers'),
    ],
)  # fmt: skip
def test_what_was_changed_by_hand_in_the_same_place_is_refused(
    old: str, new: str, file: str, said: str
) -> None:
    result = merged(old, new, file)
    assert any(said in sentence for sentence in result.refused)


def test_a_part_that_somebody_took_out_stays_out() -> None:
    result = merged(PART.format(1), PART.format(2), "x = 1\n")
    assert ("x = 1\n", []) == (result.text, result.refused)
    assert ['the part "a" was taken out by hand, so it stays out'] == result.notes


def test_lines_that_are_not_there_any_more_are_named() -> None:
    assert (["a", "x"], ["b"]) == changed_lines(["a", "b"], ["a", "c"], ["a", "x"])
    assert (["n", "a"], []) == changed_lines(["a"], ["n", "a"], ["a"])
