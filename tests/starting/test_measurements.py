"""Measures: what is taken, what is taken once confirmed, what is refused."""

import re
from fractions import Fraction

import pytest

from surfacecalc.starting.answers import AnswerError
from surfacecalc.starting.measurements import Measure, Sizes
from surfacecalc.starting.piece_kinds import KINDS, kind_of
from surfacecalc.starting.scales import Scale
from surfacecalc.starting.shared_measures import CASE_LEG, DOORS, LEG_HEIGHT
from surfacecalc.starting.wordings import WORDINGS

NONE_YET = Sizes({}, Scale("in"))
WIDTH = Measure("width", "Width", "across the front", "12", "40")
LEGS = Measure("legs", "Legs", "from the floor up", "1", "8", may_be_none=True)
SHELVES = Measure("shelves", "Shelves", "in it", "0", "6", "2", "count", may_be_none=True)


def inches(measure: Measure, text: str) -> float:
    value = measure.read(text, NONE_YET).value
    assert isinstance(value, Fraction)
    return float(value / Fraction("25.4"))


@pytest.mark.parametrize(("text", "found"), [("12", 12), ("40 in", 40), ("36 1/2", 36.5)])
def test_measure_in_its_usual_range_is_taken(text: str, found: float) -> None:
    assert found == inches(WIDTH, text)
    assert WIDTH.read(text, NONE_YET).doubt is None


@pytest.mark.parametrize("text", ["11 63/64", "6", "40 1/64", "80"])
def test_measure_beyond_it_has_to_be_confirmed(text: str) -> None:
    doubt = WIDTH.read(text, NONE_YET).doubt
    assert doubt is not None
    assert f"{text} in is unusual (usually 12 to 40 in)" == doubt.found


@pytest.mark.parametrize("text", ["5 63/64", "80 1/64", "0", "-20", "900"])
def test_measure_far_beyond_it_is_refused(text: str) -> None:
    with pytest.raises(AnswerError, match=r"is not possible; it must be from 6 to 80 in"):
        WIDTH.read(text, NONE_YET)


@pytest.mark.parametrize(
    ("text", "unit", "low", "high"),
    [
        ("36,5", "in", "36.5", "36.5"), ("18,25", "in", "18.25", "18.25"),
        ("12 to 14", "in", "12", "14"), ("14 to 12", "in", "12", "14"), ("12-14", "in", "12", "14"),
        ("30 - 31 cm", "in", "11.8110", "12.2047"), ("12\u201314 in", "in", "12", "14"),
        ("1 ft to 13 in", "in", "12", "13"), ("12,5 to 13,5 in", "in", "12.5", "13.5"),
        ("12 1/2 to 12 3/4", "in", "12.5", "12.75"), ("12-1/2", "in", "12.5", "12.5"),
        ("36,5 to 37 cm", "cm", "14.3701", "14.5669"),
    ],
)  # fmt: skip
def test_comma_is_a_point_and_two_values_are_a_span(
    text: str, unit: str, low: str, high: str
) -> None:
    """The middle is what counts; both ends are the answer that is kept, and read again the same."""
    sizes = Sizes({}, Scale(unit))
    answer = WIDTH.read(text, sizes)
    ends = Fraction(low) * Fraction("25.4"), Fraction(high) * Fraction("25.4")
    mark = float(sizes.scale.mark_mm)
    assert float(sum(ends) / 2) == pytest.approx(float(answer.value), abs=mark)
    assert float((ends[1] - ends[0]) / 2) == pytest.approx(float(answer.spread_mm), abs=mark)
    assert ("decimal comma" in answer.taken_as) == ("," in text and low == high)
    again = WIDTH.read(answer.words, sizes)
    assert (answer.value, answer.words, answer.spread_mm) == (
        again.value, again.words, again.spread_mm
    )  # fmt: skip


def test_both_ends_of_a_span_are_held_against_the_limits() -> None:
    assert WIDTH.read("39 to 41", NONE_YET).doubt is not None
    assert WIDTH.read("11 to 13", NONE_YET).doubt is not None
    for text in ("4 to 7", "79 to 81"):
        with pytest.raises(AnswerError, match=f"{text} in is not possible"):
            WIDTH.read(text, NONE_YET)
    assert WIDTH.read("20 to 23 3/4", NONE_YET).spread_mm < 50
    with pytest.raises(AnswerError, match="has two values 3 13/16 in apart, and 3 3/4 in"):
        WIDTH.read("20 to 23 13/16", NONE_YET)


@pytest.mark.parametrize("text", ["1,234", "12,5,5", "2 to 3 to 4", "to 12", "a to b", "12,5 to x"])
def test_other_commas_and_half_spans_are_refused(text: str) -> None:
    with pytest.raises(AnswerError):
        WIDTH.read(text, NONE_YET)


@pytest.mark.parametrize("text", ["none", "no", "0", "None"])
def test_what_may_be_absent_is_none(text: str) -> None:
    answer = LEGS.read(text, NONE_YET)
    assert (0, "none", None) == (answer.value, answer.words, answer.doubt)


@pytest.mark.parametrize("text", ["none", "no"])
def test_what_must_be_there_is_never_none(text: str) -> None:
    with pytest.raises(AnswerError):
        WIDTH.read(text, NONE_YET)


@pytest.mark.parametrize("text", ["thirteen", "2.5", "-1", "7", "1000000", "\u0662", "1/2", "2 in"])
def test_count_is_a_whole_number_in_its_range(text: str) -> None:
    with pytest.raises(AnswerError):
        SHELVES.read(text, NONE_YET)


def test_room_beside_the_other_answers_is_a_limit() -> None:
    narrow = Measure("leg", "Leg", "", "1", "4", room=lambda s: s["width"] / 3)
    sizes = Sizes({"width": Fraction("25.4") * 6}, Scale("in"))
    assert "1 to 2 in" == narrow.range_words(sizes)
    with pytest.raises(
        AnswerError, match="with the other measurements it must be from 1/2 to 2 in"
    ):
        narrow.read("2 1/64", sizes)


@pytest.mark.parametrize("unit", ["in", "cm", "mm"])
@pytest.mark.parametrize("kind", [kind.key for kind in KINDS])
def test_proposed_answers_are_usual_and_say_where_to_measure(kind: str, unit: str) -> None:
    """With everything else as large as is usual, so that all fits."""
    values: dict[str, Fraction] = {}
    for measure in kind_of(kind).measures:
        sizes = Sizes(values, Scale(unit))
        proposal = measure.proposal(sizes)
        if proposal is not None:
            assert measure.read(proposal, sizes).doubt is None
        values = {**values, measure.key: measure.limits(sizes).usual_most}
        assert measure.what
        assert re.match(r"[a-z]", measure.how)
        assert ("Type " in measure.hint) == measure.may_be_none  # how to say that there is none
        assert measure.prompt(sizes).startswith(f"{measure.what} (")


@pytest.mark.parametrize(
    ("unit", "shown", "taken"), [("in", "2 3/4 in", "2 51/64 in"), ("cm", "7.1 cm", "7.11 cm")]
)
def test_limit_from_other_measures_is_shown_as_a_plain_number(
    unit: str, shown: str, taken: str
) -> None:
    """What lies between the shown limit and the true one is taken without a doubt."""
    narrow = Measure("leg", "Leg", "across", "1", "8", "6", room=lambda sizes: Fraction("71.19"))
    sizes = Sizes({}, Scale(unit))
    assert narrow.range_words(sizes).endswith(f" to {shown}")
    assert shown == narrow.proposal(sizes)
    answer = narrow.read(taken, sizes)
    assert (taken, None) == (answer.words, answer.doubt)


def test_what_fits_under_the_top_of_a_case_is_less_by_its_overhang() -> None:
    """Width 30 and depth 14, 2 over in front and on both sides: 12 deep, and a third of it."""
    inch = Fraction("25.4")
    lengths = {"width": 30, "depth": 14, "height": 40, "overhang": 2, "leg-height": 4}
    sizes = Sizes({key: length * inch for key, length in lengths.items()}, Scale("in"))
    assert 4 * inch == CASE_LEG.limits(sizes).most
    narrow = Sizes({**sizes.values, "width": 13 * inch}, Scale("in"))
    assert 3 * inch == CASE_LEG.limits(narrow).most


def test_question_where_nothing_fits_says_the_one_answer() -> None:
    full = Measure(
        "doors", "Doors", "the doors", "0", "3", sort="count", room=lambda sizes: Fraction(0)
    )
    assert "Doors (only 0 fits)" == full.prompt(NONE_YET)
    assert full.help(NONE_YET).endswith("Type 0: nothing else fits.")


def test_length_is_asked_for_with_its_unit_once() -> None:
    assert "Width (usually 12 to 40 in)" == WIDTH.prompt(NONE_YET)
    assert "Shelves (0 to 6)" == SHELVES.prompt(NONE_YET)


@pytest.mark.parametrize("text", ["2", "two", "Two", "2 doors", "two doors", "2 panelled doors"])
def test_count_may_be_said_in_words_with_what_is_counted(text: str) -> None:
    assert DOORS.read(text, Sizes({}, Scale("in"))).value == 2


@pytest.mark.parametrize("text", ["2 in", "2-3", "two 1/2", "thirteen", "2 or 3", "2,5", "-2"])
def test_what_is_no_count_says_to_type_digits(text: str) -> None:
    with pytest.raises(AnswerError, match="type it in digits, such as 2"):
        DOORS.read(text, Sizes({}, Scale("in")))


def test_word_near_none_offers_it_and_a_number_in_words_asks_for_digits() -> None:
    sizes = Sizes({"height": Fraction(800)}, Scale("in"))
    with pytest.raises(AnswerError, match='did you mean "none"'):
        LEG_HEIGHT.read("non", sizes)
    with pytest.raises(AnswerError, match="type it in digits: 9 inches"):
        LEG_HEIGHT.read("nine inches", sizes)
    assert LEG_HEIGHT.read("no legs", sizes).value == 0


@pytest.mark.parametrize("kind", [kind.key for kind in KINDS])
def test_help_with_a_measurement_adds_to_the_question(kind: str) -> None:
    for measure in kind_of(kind).measures:
        said = WORDINGS[measure.key].help
        assert len(said) > 25
        assert measure.how not in said
