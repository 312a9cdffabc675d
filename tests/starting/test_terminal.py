"""The guided start at a real terminal, with mistakes, going back, and being stopped."""

import json
import signal
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from surfacecalc.commands import new_piece

# pytest-xdist runs threads; what is started here is another program at once
pytestmark = pytest.mark.filterwarnings("ignore:.*forkpty:DeprecationWarning")

Run = Callable[..., Any]
KEPT = Path("my.toml.unfinished")
WRONG = {
    "name": [("x" * 61, "A name must have 1 to 60 letters."), ("a\x07b", "cannot contain control")],
    "file": [("my.txt", "does not end in .toml"), ("no/where.toml", "There is no folder no;")],
    "unit": [("furlong", "use one of in, cm, mm"), ("mn", "is not on the list")],
    "length": [("wide", "cannot be read; write a length"), ("5000", "5000 in is not possible;"),
               ("22,125", 'has a comma; write "22.125')],
    "count": [("many", '"many" is not a whole number;'), ("2,5", "not a whole number"),
              ("99", "99 is not possible;")],
    "presence": [("perhaps", "is not an answer;")],
    "finish": [("gold", '"gold" is not on the list;'), ("piant", 'did you mean "paint"?')],
    "condition": [("varnihsed", 'did you mean "varnished"?'), ("9", "is not on the list;")],
    "built": [("soon", '"soon" is not a year between 1400'), ("2999", "is not a year")],
    "currency": [("shells", "is not a three-letter code")],
    "mesh": [("none.off", "There is no file none.off."), ("", "Please type an answer.")],
    "mesh-unit": [("m", "In m the piece would be longer"), ("ell", "use one of mm, cm, m, in, ft")],
}  # fmt: skip
"""Wrong answers to a question, and what is said about each."""
COUNTED = ("drawers", "across", "shelves", "doors", "rungs", "slats")
MISSPELT = {"nightstand": "nihgtstand", "bookcase": "bokocase", "chair": "chiar", "mesh": "mehs"}
"""Between them these are asked every sort of question."""
MIRROR = ["mirror", "My piece", "my.toml", "in", "24 1/2", "36", "3", "3/4",
          "wax", "bare", "leave", "1948", "USD"]  # fmt: skip


def wrong_answers(key: str, kind: str) -> list[tuple[str, str]]:
    """Return wrong answers to a question, with what is said about each."""
    if key == "kind":
        first = [("back", "This is the first question."), ("", "Please type a word from the list")]
        return [*first, ("sofa", "is not on the list"), (MISSPELT[kind], f'did you mean "{kind}"?')]
    sort = key.partition(" ")[0]
    if sort in WRONG:
        return WRONG[sort]
    nothing = [("", "Please type a measurement.")] if key in ("width", "depth", "height") else []
    yes_or_no = key in ("back", "apron-inside")
    return nothing + WRONG["count" if key in COUNTED else "presence" if yes_or_no else "length"]


def take_back(typist: Any, count: int) -> None:
    """Go back over some questions, and forth again by Enter, which takes what was answered."""
    typist.types(*["back"] * count, *[""] * count)


def answer_all(typist: Any, kind: str, lines: dict[str, str]) -> None:
    """Answer every question, after wrong ones; half-way and at the end go back over some."""
    for number, (key, line) in enumerate(lines.items()):
        for wrong, said in wrong_answers(key, kind):
            typist.types(wrong)
            typist.reads(said)
        typist.types(line)
        if number in (6, len(lines) - 2):
            take_back(typist, 5)


@pytest.mark.parametrize("kind", [kind for kind in MISSPELT if kind != "mesh"])
def test_mistakes_and_going_back_leave_no_trace_in_the_file(
    kind: str,
    at_terminal: Run,
    questions: Run,
    answer: Run,
    run_command: Run,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The file is that of the same answers as options."""
    typist = at_terminal()
    answer_all(typist, kind, questions(kind))
    typist.reads("surfacecalc sheet my.toml")
    assert 0 == typist.leaves()
    by_typing = Path("my.toml").read_text()
    assert "No mistakes.\n" == run_command("check", "my.toml").stdout
    monkeypatch.setattr(new_piece, "_show", lambda *_, **__: None)  # the file is enough
    assert 0 == answer(kind, "--name", "My piece", "--out", "my.toml", "--replace").exit_code
    assert Path("my.toml").read_text() == by_typing
    assert ["my.toml"] == [path.name for path in Path().iterdir()]


def test_mesh_is_taken_after_mistakes_as_well(box: str, at_terminal: Run, run_command: Run) -> None:
    pytest.importorskip("trimesh")
    pytest.importorskip("embreex")
    lines = {
        "kind": "mesh", "mesh": box, "name": "My piece", "file": "my.toml", "unit": "mm",
        "mesh-unit": "mm", "finish surface": "oil", "condition surface": "bare",
        "built": "about 1948", "currency": "none",
    }  # fmt: skip
    typist = at_terminal()
    answer_all(typist, "mesh", lines)
    typist.reads("surfacecalc sheet my.toml")
    assert 0 == typist.leaves()
    assert 0 == run_command("check", "my.toml").exit_code
    assert "built = 1948\n" in Path("my.toml").read_text()


def kept_answers() -> list[str]:
    """Return the answers that are kept, in order; none where there is no file."""
    return list(json.loads(KEPT.read_text())["answers"].values()) if KEPT.exists() else []


def test_stopped_in_every_way_one_after_the_other_nothing_is_lost(
    at_terminal: Run, run_new: Run
) -> None:
    """Ctrl-C, a closed terminal, Ctrl-D, the word; also while a doubt is asked about."""
    at_terminal().presses_ctrl_c("There were no answers to save.")
    second = at_terminal()
    second.types(*MIRROR[:5])
    second.presses_ctrl_c("Stopped. Your answers are saved in my.toml.unfinished. To continue,")
    assert 1 == second.leaves()
    at_terminal().presses_ctrl_c("Your answers are still saved in my.toml.unfinished.")
    third = at_terminal()
    third.types("", MIRROR[5])
    assert signal.SIGHUP == third.closes_the_terminal()
    fourth = at_terminal()
    fourth.types("", MIRROR[6])
    fourth.presses_ctrl_d()
    assert 1 == fourth.leaves()
    fifth = at_terminal()
    fifth.types("", "5")
    fifth.presses_ctrl_c("Stopped.")
    sixth = at_terminal()
    sixth.types("", "5", "n", MIRROR[7], "quit")
    assert 1 == sixth.leaves()
    assert ["24 1/2 in", "36 in", "3 in", "3/4 in"] == kept_answers()[4:]
    seventh = at_terminal()
    seventh.types("", *MIRROR[8:])
    assert 0 == seventh.leaves()
    by_stops = Path("my.toml").read_text()
    assert ["my.toml"] == [path.name for path in Path().iterdir()]
    Path("my.toml").unlink()
    assert 0 == run_new(lines=MIRROR).exit_code
    assert Path("my.toml").read_text() == by_stops


@pytest.mark.parametrize("count", [0, 3])
def test_closed_terminal_leaves_what_was_answered(
    count: int, at_terminal: Run, tmp_path: Path
) -> None:
    typist = at_terminal()
    typist.types(*MIRROR[:count])
    assert signal.SIGHUP == typist.closes_the_terminal()
    found = list(tmp_path.iterdir())
    assert min(count, 1) == len(found)
    assert [count] * len(found) == [len(json.loads(p.read_text())["answers"]) for p in found]
