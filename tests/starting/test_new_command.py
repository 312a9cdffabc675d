"""`surfacecalc new` by options alone, where nobody can be asked."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from surfacecalc.commands import new_piece
from surfacecalc.starting.piece_kinds import KINDS, MESH, measure_keys

Answer = Callable[..., Any]
Run = Callable[..., Any]
FINISHED = ("--finish", "paint", "--condition", "varnished", "--built", "1948")
KEYS = [kind.key for kind in KINDS if kind.key != MESH]


def error(result: Any) -> str:
    """Return the one sentence that a command ends with; nothing else was printed or written."""
    assert (2, "") == (result.exit_code, result.stdout)
    assert [] == [path for path in Path().iterdir() if path.suffix == ".toml"]
    assert not result.stderr.startswith("Error")
    assert 1 == result.stderr.count("\n")
    return str(result.stderr)


def test_every_measure_of_every_kind_has_its_option(run_command: Run) -> None:
    text = run_command("new", "--help").stdout
    assert [] == [key for key in measure_keys() if f"--{key} " not in text]


def test_every_kind_is_in_the_help() -> None:
    assert [] == [kind.key for kind in KINDS if kind.key not in str(new_piece.new.__doc__)]


def test_nobody_is_asked_where_there_is_no_terminal(answer: Answer) -> None:
    result = answer("table", lists=True)
    assert (0, "") == (result.exit_code, result.stderr)
    assert result.stdout.startswith("\nWrote table.toml\n")


@pytest.mark.parametrize("kind", KEYS)
def test_missing_measure_is_one_sentence_that_names_its_option(kind: str, answer: Answer) -> None:
    for missing in ("width", "height", *(["back-height"] if kind == "chair" else [])):
        text = error(answer(kind, **{missing: None}))
        assert f") is missing; add it, such as --{missing} " in text


def test_missing_kind_finish_and_condition_are_named_likewise(run_new: Run, answer: Answer) -> None:
    assert "surfacecalc new KIND" not in error(run_new())
    assert "say what kind of piece it is, such as: surfacecalc new dresser" in error(run_new())
    assert error(run_new("sofa")).startswith('"sofa" is not on the list; use one of chest,')
    assert "--finish paint" in error(answer("table", finished=()))
    assert "--condition varnished" in error(answer("table", finished=("--finish", "oil")))


@pytest.mark.parametrize(
    ("kind", "option"),
    [("table", "drawers"), ("headboard", "depth"), ("mirror", "leg-height"), ("bench", "slats"),
     ("bookcase", "doors"), ("chest", "across"), ("dresser", "mesh")],
)  # fmt: skip
def test_measure_that_a_kind_lacks_is_refused(kind: str, option: str, answer: Answer) -> None:
    text = error(answer(kind, f"--{option}", "3"))
    assert f"--{option} does not apply to a {kind}; use --width, " in text


@pytest.mark.parametrize(
    ("kind", "changes", "option"),
    [("nightstand", {"drawers": "0"}, "across"),
     ("dresser", {"leg-height": "none"}, "leg-thickness"),
     ("chair", {"back-height": "none", "top-rail": None}, "slats")],
)  # fmt: skip
def test_measure_of_what_is_not_there_is_refused(
    kind: str, changes: dict[str, Any], option: str, answer: Answer
) -> None:
    text = error(answer(kind, **changes))
    assert f"--{option} does not fit the other answers" in text


CLEAR_ON_PAINT = ("--finish", "clear", "--condition", "painted")


def test_a_way_to_strip_where_nothing_is_stripped_is_refused_with_the_reason(
    answer: Answer,
) -> None:
    text = error(answer("mirror", "--stripping", "stripper", finished=CLEAR_ON_PAINT))
    assert "comes off only where stain or oil replaces it" in text


@pytest.mark.parametrize(
    ("option", "text", "said"),
    [
        ("width", "500", "--width: 500 in is not possible"),
        ("width", "130", "--width: 130 in is unusual (usually 12 to 120 in)"),
        ("width", "22,125", 'has a comma; write "22.125 in", or "22125 in"'),
        ("width", "", "--width: "),
        ("width", "19 5/61", "no tape measure has 61sts"),
        ("width", "337/8", '"33 7/8 in" or "42 1/8 in"'),
        ("apron", "20", "from 1/2 to 14 in"),
        ("unit", "furlong", "use one of in, cm, mm"),
        ("built", "2999", "is not a year between 1400 and"),
        ("built", "1650", "is unusual"),
        ("currency", "shells", "is not a three-letter code"),
        ("currency", "DEM", "is not the code of a currency"),
        ("name", " ", "a name must have 1 to 60 letters"),
        ("out", "table.txt", "does not end in .toml; write table.toml"),
        ("out", "no/where.toml", "there is no folder no"),
        ("finish", "gold", '--finish: "gold" is not on the list'),
        ("finish", "seat=oil", 'there is no zone "seat"; use one of top, base, underside'),
        ("condition", "underside=bare", 'the zone "underside" gets no finish'),
        ("foot-thickness", "2 1/2", "from 1/4 to 2 in"),
    ],
)
def test_wrong_option_is_one_sentence_and_writes_nothing(
    option: str, text: str, said: str, answer: Answer
) -> None:
    changes: dict[str, Any] = {}
    if option in ("width", "apron", "foot-thickness"):
        changes[option] = text
    else:
        finished: tuple[str, ...] = ("--condition", "bare") if text == "gold" else FINISHED
        finished = finished[:-2] if option == "built" else finished
        changes["finished"] = (*finished, f"--{option}", text)
    assert said in error(answer("table", **changes))


def test_unusual_measures_are_taken_when_they_are_said_to_be_correct(answer: Answer) -> None:
    assert 0 == answer("table", "--unusual", width="130").exit_code
    assert "width = 130" in Path("table.toml").read_text()


def test_zone_may_have_a_finish_of_its_own(answer: Answer) -> None:
    words = ["--finish", "top=stain", "--finish", "underside=wax", "--condition", "top = bare"]
    assert 0 == answer("table", *words).exit_code
    text = Path("table.toml").read_text()
    schedules = ["stain on bare", "paint on varnished", "wax on varnished"]
    assert all(f'schedule = "{name}"' in text for name in schedules)


def test_top_of_a_nightstand_may_be_oiled(answer: Answer) -> None:
    assert 0 == answer("nightstand", "--finish", "top=oil").exit_code
    text = Path("nightstand.toml").read_text()
    assert 'faces = ["top"]\nsurface = "varnished"\nschedule = "oil on varnished"' in text


@pytest.mark.parametrize("kind", ["mirror", "headboard"])
def test_depth_of_a_flat_piece_is_its_board(kind: str, answer: Answer) -> None:
    text = error(answer(kind, "--depth", "1"))
    assert text.endswith("; its thickness from front to back is --board\n")


@pytest.mark.parametrize("name", ["aunts table", "table.v2.toml", "small"])
def test_file_gets_its_extension_by_itself(name: str, answer: Answer) -> None:
    target = name if name.endswith(".toml") else f"{name}.toml"
    assert f"\nWrote {target}\n" in answer("table", "--out", name).stdout
    assert Path(target).is_file()


def test_two_answers_for_one_zone_are_refused(answer: Answer) -> None:
    text = error(answer("table", "--finish", "top=oil", "--finish", "top=wax"))
    assert '--finish is given twice for the zone "top"; keep one of them' in text


def test_file_that_is_there_is_replaced_only_with_the_option(answer: Answer) -> None:
    target = Path("table.toml")
    target.write_text("precious")
    refused = answer("table", "--out", "table.toml")
    assert 2 == refused.exit_code
    assert "there is already a file table.toml; add --replace" in refused.stderr
    assert "precious" == target.read_text()
    assert "Wrote table-2.toml" in answer("table").stdout
    assert "precious" == target.read_text()
    assert "Replaced table.toml" in answer("table", "--replace").stdout
    assert "[piece]" in target.read_text()


def test_answers_somebody_else_has_kept_are_not_dropped(answer: Answer) -> None:
    kept = Path("table.toml.unfinished")
    kept.write_text("{}")
    assert 2 == answer("table", "--out", "table.toml").exit_code
    assert "Wrote table-2.toml" in answer("table").stdout
    assert kept.exists()


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="root may write anywhere")
def test_folder_that_cannot_be_written_to_is_refused(answer: Answer, tmp_path: Path) -> None:
    (tmp_path / "locked").mkdir(mode=0o500)
    assert "you have no permission to write" in error(answer("table", "--out", "locked/table.toml"))


def test_piece_measured_in_centimetres(run_new: Run, run_command: Run) -> None:
    words = ["--unit", "cm", "--width", "91.5", "--depth", "45", "--height", "76"]
    result = run_new("table", *words, "--finish", "oil", "--condition", "bare", lists=True)
    assert 0 == result.exit_code
    assert "915 mm x 450 mm x 760 mm" in result.stdout
    assert 'size = "375 ml"' in Path("table.toml").read_text()
    assert "No mistakes.\n" == run_command("check", "table.toml").stdout
