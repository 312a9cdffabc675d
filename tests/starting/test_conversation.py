"""Answers typed line by line: taken, refused, confirmed, taken back, saved and continued."""

import json
import re
import shlex
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from surfacecalc.starting.name_questions import built_question
from surfacecalc.starting.piece_kinds import KINDS, MESH

Run = Callable[..., Any]
Typed = Callable[[str], list[str]]
KEYS = [kind.key for kind in KINDS if kind.key != MESH]
MY_FILE, KEPT = Path("my.toml"), Path("my.toml.unfinished")


def written(run_new: Run, lines: list[str]) -> str:
    """Return the file that typed lines give."""
    result = run_new(lines=lines)
    assert result.exit_code == 0, result.output
    text = MY_FILE.read_text()
    MY_FILE.unlink()
    assert [] == list(Path().iterdir())
    return text


def test_areas_and_list_follow_by_the_code_of_their_commands(
    run_new: Run, typed: Typed, run_command: Run
) -> None:
    result = run_new(lines=typed("nightstand"), lists=True)
    areas, supplies = (run_command(word, "my.toml").stdout for word in ("areas", "supplies"))
    end = result.stdout.partition("Wrote my.toml\n\n")[2]
    assert end.startswith(f"{areas}\n{supplies}\nNext: open my.toml in any text editor")


def test_last_words_are_the_commands_to_run_next(run_new: Run, typed: Typed) -> None:
    """They can be pasted into a shell, whatever the file is called."""
    lines = typed("mirror")
    lines[2] = "Aunt's mirror.toml"
    commands = run_new(lines=lines).stdout.splitlines()[-3:]
    assert [["surfacecalc", word, lines[2]] for word in ("check", "supplies", "sheet")] == [
        shlex.split(command) for command in commands
    ]


def test_every_line_fits_into_80_columns(run_new: Run, typed: Typed) -> None:
    for kind in KEYS:
        output = run_new("--replace", lines=typed(kind)).stdout.partition("my.toml\n\n")[0]
        assert 80 >= max(len(line) for line in output.splitlines())


def test_measure_is_echoed_in_words(run_new: Run, typed: Typed) -> None:
    lines = typed("nightstand")
    lines[4] = "22.5"
    assert "= 22 1/2 in\n" in run_new(lines=lines).stdout


def test_mistake_at_every_question_is_refused_and_asked_again(run_new: Run, typed: Typed) -> None:
    """A bell is not an answer to any question, and is not sent back to the terminal."""
    lines = typed("nightstand")
    expected = written(run_new, lines)
    result = run_new(lines=[text for line in lines for text in ("\x07", line)])
    assert expected == MY_FILE.read_text()
    assert len(lines) == result.stdout.count("\x07")  # the echo of what was typed, nothing else


WRONG_WIDTHS = {
    "22,125": 'has a comma; write "22.125 in", or "22125 in" if you mean thousands',
    "10 to 15": '"10 to 15" has two values 5 in apart, and 3 3/4 in is the most',
    "22,3/8": '"22 3/8 in"',
    "227/8": '"22 7/8 in" or "28 3/8 in"',
    "22 5/61": "no tape measure has 61sts",
    "wide": "cannot be read; write a length",
    "5 kg": "is a weight (kg)",
    "0": "0 in is not possible; it must be from 5 to 72 in (plain numbers are inches).",
    "-22": "is not possible",
    "": "Please type a measurement.",
    "none": "cannot be read",
}


def test_wrong_width_is_refused_with_the_reason(run_new: Run, typed: Typed) -> None:
    lines = typed("nightstand")
    result = run_new(lines=[*lines[:4], *WRONG_WIDTHS, *lines[4:]])
    assert result.exit_code == 0
    answers = result.stdout.split("  Width (usually 10 to 36 in): ")[1:]
    for (wrong, said), answer in zip(WRONG_WIDTHS.items(), answers, strict=False):
        assert answer.startswith(f"{wrong}\n")
        assert said in " ".join(answer.split())
    assert 'width = "22 1/2 in"' in MY_FILE.read_text()


def test_unusual_measure_is_taken_when_it_is_confirmed(run_new: Run, typed: Typed) -> None:
    lines = typed("nightstand")
    result = run_new(lines=[*lines[:4], "48", "maybe", "y", *lines[5:]])
    assert "48 in is unusual (usually 10 to 36 in)." in result.stdout
    assert "Use it anyway? [y/N]" in result.stdout
    assert "width = 48" in MY_FILE.read_text()


def test_unusual_measure_is_asked_again_when_it_is_not(run_new: Run, typed: Typed) -> None:
    lines = typed("nightstand")
    noes = [text for no in ("n", "no", "") for text in ("48", no)]
    assert run_new(lines=[*lines[:4], *noes, *lines[4:]]).exit_code == 0
    assert 'width = "22 1/2 in"' in MY_FILE.read_text()


def test_back_at_every_question_returns_to_the_one_before(run_new: Run, typed: Typed) -> None:
    """Enter then takes the answer that was given before."""
    lines = typed("nightstand")
    expected = written(run_new, lines)
    again = [text for line in lines[:-1] for text in (line, "back", "")]
    assert expected == written(run_new, [*again, lines[-1]])


def test_back_all_the_way_and_forward_again(run_new: Run, typed: Typed) -> None:
    lines = typed("dresser")
    count = len(lines) - 1
    again = [*lines[:count], *["BACK"] * (count + 2), *lines]
    result = run_new(lines=again)
    assert result.stdout.count("This is the first question.") == 2
    text = MY_FILE.read_text()
    MY_FILE.unlink()
    assert text == written(run_new, lines)


def test_answer_changed_after_going_back_counts(run_new: Run, typed: Typed) -> None:
    """Another kind has other questions; answers to the same ones are proposed again."""
    lines = typed("bookcase")
    other = ["back"] * 5 + ["cabinet", "", "", "", "", *typed("cabinet")[5:]]
    result = run_new(lines=[*lines[:5], *other])
    assert result.exit_code == 0
    assert "width = 30\n" in MY_FILE.read_text()
    assert 'name = "door"' in MY_FILE.read_text()


def test_stopping_at_every_question_keeps_the_answers_for_the_next_time(
    run_new: Run, typed: Typed
) -> None:
    lines = typed("mirror")
    expected = written(run_new, lines)
    assert "There were no answers to save." in run_new(lines=[]).stdout
    for number, line in enumerate(lines[:-1]):
        stopped = run_new(lines=[*["y"] * (number > 0), line])
        assert stopped.exit_code == 1
        assert not MY_FILE.exists()
        (kept,) = Path().iterdir()
        assert f"answers are saved in {kept}" in " ".join(stopped.stdout.split())
        assert number + 1 == len(json.loads(kept.read_text())["answers"])
    assert expected == written(run_new, ["y", lines[-1]])


def test_stopping_twice_and_with_answers_taken_back_loses_nothing(
    run_new: Run, typed: Typed
) -> None:
    lines = typed("nightstand")
    expected = written(run_new, lines)
    assert run_new(lines=lines[:6]).exit_code == 1
    assert run_new(lines=["y", *lines[6:10], "back", "back"]).exit_code == 1
    kept = json.loads(KEPT.read_text())
    assert ["leg-height", "leg-thickness"] == sorted(kept["earlier"])
    assert "26 1/4 in" == kept["answers"]["height"]
    assert expected == written(run_new, ["y", "", "", *lines[10:]])


def test_every_question_has_help_and_is_asked_again(run_new: Run, typed: Typed) -> None:
    lines = typed("bookcase")
    expected = written(run_new, lines)
    words = [("?", "help", " HELP ")[number % 3] for number in range(len(lines))]
    asked = [text for pair in zip(words, lines, strict=True) for text in pair]
    result = run_new(lines=asked)
    assert expected == MY_FILE.read_text()
    assert not re.search("not on the list|not a whole|not possible|not an answer", result.stdout)
    said = re.findall(r": (?:\?|help| HELP )\n((?:  .*\n)+?)  [^\n]*: ", result.stdout)
    assert len(lines) == len(said)
    assert all(len(text) > 15 for text in said)


def test_help_with_a_finish_lists_every_way(run_new: Run, typed: Typed) -> None:
    lines = typed("mirror")
    place = lines.index("paint")
    said = " ".join(run_new(lines=[*lines[:place], "?", *lines[place:]]).stdout.split())
    ways = "1 paint painted 2 stain stained and clear-coated 3 clear clear-coated: varnish only, no"
    assert ways in said


def test_enter_twice_finishes_the_top_like_the_outside(run_new: Run, typed: Typed) -> None:
    lines = typed("dresser")
    expected = written(run_new, lines)
    place = lines.index("paint") + 2
    assert ["paint", "varnished"] == lines[place : place + 2]
    assert expected == written(run_new, [*lines[:place], "", "", *lines[place + 2 :]])


def test_what_follows_the_top_is_proposed_like_the_outside(run_new: Run, typed: Typed) -> None:
    """Top stained on bare wood, the rest painted on varnish: Enter keeps paint."""
    lines = typed("dresser")
    place = lines.index("paint") + 2
    lines[place : place + 2] = ["stain", "bare"]
    text = written(run_new, [*lines[: place + 2], "", "", *lines[place + 4 :]])
    zones = {zone["name"]: zone for zone in tomllib.loads(text)["zone"]}
    assert "stain on bare" == zones["top"]["schedule"]
    assert "paint on varnished" == zones["drawer fronts"]["schedule"]


def test_file_without_an_extension_gets_it(run_new: Run, typed: Typed) -> None:
    lines = typed("mirror")
    expected = written(run_new, lines)
    lines[2] = "my"
    result = run_new(lines=lines)
    assert "If you leave off .toml, it is added." in result.stdout
    assert "= my.toml\n" in result.stdout
    assert expected == MY_FILE.read_text()


def test_year_may_be_said_as_people_say_it(run_new: Run, typed: Typed) -> None:
    """Of ten years the first, since older coatings call for more caution."""
    lines = typed("mirror")
    lines[-2] = "about 1930"
    assert "= 1930\n" in run_new(lines=lines).stdout
    assert "built = 1930\n" in MY_FILE.read_text()
    years = ["c. 1895", "ca 1895", "1930s", "~1948", "around 1950", "Circa 1900"]
    read = [built_question().read(year).words for year in years]
    assert ["1895", "1895", "1935", "1948", "1950", "1900"] == read


def test_options_are_kept_as_well(run_new: Run, typed: Typed) -> None:
    lines = typed("nightstand")
    expected = written(run_new, lines)
    words = ["nightstand", "--height", "26 1/4", "--built", "1948"]
    assert run_new(*words, lines=lines[1:6]).exit_code == 1
    rest = [*lines[7:-2], lines[-1]]
    assert expected == written(run_new, ["", *rest])


def test_size_that_was_not_measured_is_still_so_after_a_stop(run_new: Run, typed: Typed) -> None:
    lines = typed("nightstand")
    place = lines.index("1 3/4")
    assert run_new(lines=[*lines[:place], ""]).exit_code == 1
    assert run_new(lines=["y", *lines[place + 1 :]]).exit_code == 0
    head = MY_FILE.read_text().partition("[piece]")[0]
    assert "Leg thickness: 1 3/4 in" in head.partition("Not measured")[2]


def test_file_that_was_written_since_the_stop_is_not_replaced_unasked(
    run_new: Run, typed: Typed
) -> None:
    lines = typed("nightstand")
    run_new(lines=lines[:6])
    MY_FILE.write_text("precious")
    result = run_new(lines=["y", "my.toml", "n", "new.toml", *lines[6:]])
    assert "There is already a file my.toml." in result.stdout
    assert result.exit_code == 0
    assert "precious" == MY_FILE.read_text()


def test_kept_answers_are_listed_in_words(run_new: Run, typed: Typed) -> None:
    run_new(lines=typed("nightstand")[:15])
    listed = " ".join(run_new(lines=["y"]).stdout.split())
    assert "leg height 5 3/4 in" in listed
    assert "finish of outside paint surface of outside varnished" in listed


def test_kept_answers_that_are_declined_stay(run_new: Run, typed: Typed) -> None:
    lines = typed("nightstand")
    run_new(lines=lines[:6])
    before = KEPT.read_bytes()
    other = [*lines[:2], "other.toml", *lines[3:]]
    assert run_new(lines=["n", *other]).exit_code == 0
    assert before == KEPT.read_bytes()


def test_kept_answers_of_a_file_are_dropped_only_when_that_is_confirmed(
    run_new: Run, typed: Typed
) -> None:
    lines = typed("nightstand")
    run_new(lines=lines[:6])
    result = run_new(lines=["n", *lines[:3], "y", *lines[3:]])
    assert "Start over and discard them? [y/N]" in result.stdout
    assert result.exit_code == 0
    assert not KEPT.exists()


def test_kept_answers_are_offered_for_their_kind_only(run_new: Run, typed: Typed) -> None:
    run_new(lines=typed("nightstand")[:6])
    assert "Continue with it?" not in run_new("table", lines=[]).stdout
    assert "Continue with it?" in run_new("nightstand", lines=[]).stdout


@pytest.mark.parametrize(
    "content",
    [b"", b"{", b"[]", b"{}", b'{"answers": 3}', b'{"answers": {"kind": 7}}', b"\xff\xfe",
     b"[" * 100_000, b'{"answers": {"kind": "x"}}' + b" " * 200_000],
    ids=range(9),
)  # fmt: skip
def test_spoilt_answers_are_left_alone_and_all_is_asked(
    content: bytes, run_new: Run, typed: Typed
) -> None:
    KEPT.write_bytes(content)
    result = run_new(lines=typed("mirror")[:2])
    assert "cannot be read as saved answers" in " ".join(result.stdout.split())
    assert content == KEPT.read_bytes()


@pytest.mark.parametrize(
    ("key", "text"),
    [("kind", "sofa"), ("width", "900"), ("width", "wide"), ("unit", "ell"), ("drawers", "40"),
     ("finish outside", "gold"), ("built", "soon"), ("file", "no/where.toml")],
)  # fmt: skip
def test_kept_answer_that_no_longer_holds_is_asked_again(
    key: str, text: str, run_new: Run, typed: Typed
) -> None:
    lines = typed("nightstand")
    expected = written(run_new, lines)
    run_new(lines=lines[:-1])
    kept = json.loads(KEPT.read_text())
    place = list(kept["answers"]).index(key) if key in kept["answers"] else len(lines) - 2
    kept["answers"][key] = text
    KEPT.write_text(json.dumps(kept))
    order = lines.copy()
    again = [order[place]] if key in kept["answers"] else []
    assert expected == written(run_new, ["y", *again, lines[-1]])


def test_file_that_is_there_is_replaced_only_when_that_is_confirmed(
    run_new: Run, typed: Typed
) -> None:
    lines = typed("mirror")
    MY_FILE.write_text("precious")
    assert run_new(lines=[*lines[:3], "n", "new.toml", *lines[3:]]).exit_code == 0
    assert "precious" == MY_FILE.read_text()
    assert run_new(lines=[*lines[:3], "y", *lines[3:]]).exit_code == 0
    assert "[piece]" in MY_FILE.read_text()


def test_file_is_named_after_the_piece_and_never_one_that_is_there(run_new: Run) -> None:
    Path("aunts-desk.toml").write_text("precious")
    assert "File name [aunts-desk-2.toml]" in run_new(lines=["desk", "Aunt's desk"]).stdout


def test_file_that_cannot_be_written_is_refused_at_once(run_new: Run, typed: Typed) -> None:
    Path("folder.toml").mkdir()
    Path("folder").mkdir()
    wrong = {
        "desk.txt": "does not end in .toml",
        "no/where.toml": "There is no folder no; use a folder that exists.",
        ".toml": "does not end in .toml",
        "folder.toml": '"folder.toml" is a folder; name a file in it',
        "folder": '"folder" is a folder; name a file in it, such as folder/piece',
        ".": '"." is a folder;',
    }
    lines = typed("mirror")
    result = run_new(lines=[*lines[:2], *wrong, *lines[2:]])
    answers = result.stdout.split("  File name [my-piece.toml]: ")[1:]
    assert [True] * len(wrong) == [
        said in answer for said, answer in zip(wrong.values(), answers, strict=False)
    ]
    assert result.exit_code == 0


def test_stain_on_an_old_finish_gets_a_note(run_new: Run, typed: Typed) -> None:
    lines = typed("mirror")
    lines[lines.index("paint")] = "stain"
    said = "Stain only soaks into bare wood, so the old finish has to come off first."
    assert said in " ".join(run_new(lines=lines).stdout.split())


@pytest.mark.parametrize("text", ["3", "nightstand", "NIGHTSTAND", "night", " nightstand "])
def test_kind_may_be_a_number_or_the_beginning_of_its_name(text: str, run_new: Run) -> None:
    assert "= nightstand\n" in run_new(lines=[text]).stdout


@pytest.mark.parametrize("text", ["0", "14", "c", "sofa", "-1", "99999999999999999999"])
def test_kind_that_fits_none_or_several_is_refused(text: str, run_new: Run) -> None:
    assert "is not on the list" in run_new(lines=[text]).stdout
