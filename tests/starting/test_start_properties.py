"""Any answers within the ranges give a file that reads without a mistake and without a note."""

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from surfacecalc.api import measure, read_piece, supplies
from surfacecalc.problems import format_problem
from surfacecalc.starting.answers import Answer
from surfacecalc.starting.file_text import piece_text
from surfacecalc.starting.finishes import CONDITIONS, FINISHES
from surfacecalc.starting.interview import Interview
from surfacecalc.starting.measurements import Measure
from surfacecalc.starting.piece_kinds import KINDS, MESH, kind_of
from surfacecalc.starting.questions import next_question, sizes_of
from surfacecalc.starting.start import draft_of
from surfacecalc.starting.targets import Targets

EXAMPLES = settings(
    max_examples=4,
    deadline=None,
    phases=[Phase.explicit, Phase.reuse, Phase.generate],  # making a failure small takes minutes
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
"""For each kind, usual and unusual: some 90 pieces."""


def any_answer(
    data: st.DataObject, measure: Measure, found: dict[str, Answer], *, wide: bool
) -> str:
    """Return any answer within the usual range, or as far as a measure is taken at all."""
    sizes = sizes_of(found)
    if measure.sort == "presence":
        return data.draw(st.sampled_from(["yes", "no"]), measure.key)
    limits = measure.limits(sizes)
    ends = (limits.least, limits.most) if wide else (limits.usual_least, limits.usual_most)
    if measure.may_be_none and (not ends[1] or data.draw(st.booleans(), f"no {measure.key}")):
        return "none"
    mark = Fraction(1) if measure.sort == "count" else sizes.scale.mark_mm
    low, high = -(-ends[0] // mark), ends[1] // mark
    return measure.words(data.draw(st.integers(low, high), measure.key) * mark, sizes.scale)


def any_piece(data: st.DataObject, kind: str, target: Path, *, wide: bool) -> Interview:
    """Return all answers about a piece of a kind."""
    interview = Interview({}, frozenset(), is_asking=False, targets=Targets())
    measures = {measure.key: measure for measure in kind_of(kind).measures}
    while (question := next_question(interview.found, interview.targets)) is not None:
        text = question.proposed or {"kind": kind}.get(question.key, "")
        if question.key == "file":
            text = str(target)
        elif question.key == "unit":
            text = data.draw(st.sampled_from(["in", "cm", "mm"]), "unit")
        elif question.key in measures:
            text = any_answer(data, measures[question.key], interview.found, wide=wide)
        elif question.option in ("--finish", "--condition"):
            words = FINISHES if question.option == "--finish" else CONDITIONS
            text = data.draw(st.sampled_from(list(words)), question.key)
        interview.found[question.key] = question.read(text)
    return interview


@pytest.mark.parametrize("wide", [False, True], ids=["usual", "unusual"])
@pytest.mark.parametrize("kind", [kind.key for kind in KINDS if kind.key != MESH])
@EXAMPLES
@given(data=st.data())
def test_any_answers_give_a_file_without_a_mistake_or_a_note(
    kind: str, wide: bool, data: st.DataObject, tmp_path: Path
) -> None:
    target = tmp_path / "piece.toml"
    target.unlink(missing_ok=True)
    target.write_text(piece_text(draft_of(any_piece(data, kind, target, wide=wide))))
    job = measure(read_piece(target))
    # that paint inside a drawer takes room is worth a word, whoever wrote the file; so is a size
    # that is unusual, although it was confirmed
    allowed = ["the drawer still clears", *(["such a piece is usually"] if wide else [])]
    found = [note for note in job.notes if not any(text in note.message for text in allowed)]
    assert [] == [format_problem(problem, "piece.toml") for problem in found]
    assert supplies(job) or all(zone.leave for zone in job.piece.zones)
    assert all(zone.area_m2 > 0 for zone in job.measured.zones)
