"""What people call things is taken, and the answer says what it is taken as."""

import re
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from surfacecalc.starting.answers import AnswerError
from surfacecalc.starting.choices import choice, choice_reader
from surfacecalc.starting.decades import span_of_years
from surfacecalc.starting.finishes import CONDITIONS, FINISHES, LEAVE
from surfacecalc.starting.name_questions import built_question, currency_question
from surfacecalc.starting.other_words import OF_FINISHES, OF_KINDS, OF_SURFACES, OF_UNITS
from surfacecalc.starting.piece_kinds import KINDS
from surfacecalc.starting.questions import kind_word
from surfacecalc.starting.scales import UNITS

LISTS = [
    ({kind.key: kind.meaning for kind in KINDS}, OF_KINDS), (FINISHES, OF_FINISHES),
    (CONDITIONS, OF_SURFACES), (UNITS, OF_UNITS),
]  # fmt: skip


@pytest.mark.parametrize(("words", "also"), LISTS)
def test_every_other_word_means_one_choice(words: dict[str, str], also: dict[str, Any]) -> None:
    names = [name for others in also.values() for name in others]
    assert len(names) == len(set(names))
    assert [] == [n for key, own in also.items() for n in own if choice(n, words, also) != key]


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("wardrobe", "cabinet"), ("washstand", "cabinet"), ("cupboard", "cabinet"),
        ("sideboard", "cabinet"), ("chest of drawers", "dresser"), ("stool", "chair"),
        ("an old oak wardrobe", "cabinet"), ("blanket chest", "chest"), ("side table", "table"),
        ("coffee table", "table"), ("writing table", "desk"), ("picture", "mirror"),
        ("shelves", "bookcase"), ("bedside case", "nightstand"), ("stools", "chair"),
    ],
)  # fmt: skip
def test_word_of_the_list_of_kinds_is_taken(text: str, kind: str) -> None:
    assert kind == kind_word(text)


def test_answer_says_which_kind_it_is_taken_as(run_new: Callable[..., Any]) -> None:
    said = " ".join(run_new(lines=["washstand"]).stdout.split())
    assert "= cabinet: a case with doors, such as a cupboard, sideboard or wardrobe" in said


@pytest.mark.parametrize(
    ("text", "way"),
    [
        ("varnish", "clear"), ("clear", "clear"), ("clear coat", "clear"),
        ("Clear-coated", "clear"),
        ("stain and varnish", "stain"), ("stain + clear", "stain"), ("stain & varnish", "stain"),
        ("painted", "paint"), ("lacquer", "clear"), ("nothing", LEAVE),
    ],
)  # fmt: skip
def test_finish_in_other_words(text: str, way: str) -> None:
    assert way == choice(text, FINISHES, OF_FINISHES)


@pytest.mark.parametrize("text", ["cleat", "claer", "gloss", "gild", "glaze"])
def test_leave_is_never_offered_for_a_finish(text: str) -> None:
    with pytest.raises(AnswerError) as caught:
        choice(text, FINISHES, OF_FINISHES)
    assert not re.search('did you mean "(leave"|left|none|no)', str(caught.value))


def test_word_that_is_only_a_little_like_a_choice_is_not_offered() -> None:
    with pytest.raises(AnswerError, match="use one of paint, leave"):
        choice("clear", {"paint": "painted", "leave": "no new finish"})


@pytest.mark.parametrize("text", ["waxed", "oiled", "lacquered", "polyurethane"])
def test_surface_that_has_to_be_cleaned_counts_as_varnished(text: str) -> None:
    answer = choice_reader(CONDITIONS, OF_SURFACES)(text)
    assert answer.value == "varnished"
    assert answer.taken_as == "varnished: varnished, lacquered, oiled or waxed"


def test_word_that_is_not_known_is_answered_with_all_words_and_the_one_that_is_near() -> None:
    for text, near in (("gloss", ""), ("piant", 'did you mean "paint"? Otherwise ')):
        with pytest.raises(AnswerError) as caught:
            choice(text, FINISHES, OF_FINISHES)
        assert str(caught.value).endswith(f"; {near}use one of {', '.join(FINISHES)}")


def test_misspelt_other_word_is_offered() -> None:
    with pytest.raises(AnswerError, match='did you mean "lacquer"'):
        choice("laquer", CONDITIONS, OF_SURFACES)


@pytest.mark.parametrize(("text", "unit"), [("inch", "in"), ("inches", "in"), ("metric", "cm")])
def test_unit_in_words(text: str, unit: str) -> None:
    assert unit == choice(text, UNITS, OF_UNITS)


@pytest.mark.parametrize(
    ("text", "year"),
    [
        ("50's", "1955"), ("50s", "1955"), ("'50s", "1955"), ("1950s", "1955"), ("1950's", "1955"),
        ("the fifties", "1955"), ("early sixties", "1965"), ("late 1800s", "1850"),
        ("about 1930", "1930"), ("1948", "1948"), ("the 1900s", "1905"),
    ],
)  # fmt: skip
def test_decade_is_its_middle_and_said_back(text: str, year: str) -> None:
    answer = built_question().read(text)
    assert year == answer.value
    assert bool(answer.taken_as) == (span_of_years(text) is not None)


@pytest.mark.parametrize("text", ["fifty", "00s", "10s", "soon", "fiftys", "2090s", "s"])
def test_what_is_no_decade_is_refused(text: str) -> None:
    with pytest.raises(AnswerError):
        built_question().read(text)


@pytest.mark.parametrize(
    ("text", "code"),
    [("$", "USD"), ("dollars", "USD"), ("euro", "EUR"), ("\u00a3", "GBP"), ("chf", "CHF")],
)
def test_currency_in_other_words(text: str, code: str) -> None:
    assert code == currency_question("in").read(text).value


def test_currency_near_none_offers_it() -> None:
    with pytest.raises(AnswerError, match='did you mean "none"'):
        currency_question("in").read("non")


@pytest.mark.parametrize(
    ("condition", "steps"),
    [
        ("bare", ["sand", "dust off", "coat"]),
        ("sealed", ["sand", "dust off", "coat"]),
        ("varnished", ["wash", "sand", "dust off", "coat"]),
        ("painted", ["wash", "sand", "dust off", "coat"]),
    ],
)  # fmt: skip
def test_clear_coat_goes_on_bare_wood_or_a_dulled_old_finish(
    condition: str, steps: list[str], run_new: Callable[..., Any]
) -> None:
    words = ["--finish", "clear", "--condition", condition, "--width", "24", "--height", "36"]
    assert run_new("mirror", *words, "--frame", "3").exit_code == 0
    found = tomllib.loads(Path("mirror.toml").read_text())["schedule"][f"clear on {condition}"]
    assert steps == [step["do"] for step in found]
    assert ([120, 180, 220] if condition == "bare" else [220]) == found[-3]["grits"]
    assert (3 if condition == "bare" else 2, "clear varnish") == (
        found[-1]["coats"], found[-1]["product"],
    )  # fmt: skip


def test_name_with_quotes_and_comments_read_well(answer: Callable[..., Any]) -> None:
    answer("table", name='"Gran" table', finished=("--finish", "stain", "--condition", "painted"))
    text = Path("gran-table.toml").read_text()
    assert "name = '\"Gran\" table'\n" in text
    assert 80 >= max(len(line) for line in text.splitlines() if line.startswith("#"))
