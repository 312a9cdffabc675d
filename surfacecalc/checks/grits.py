"""Notes on the grits of a step."""

from collections.abc import Iterator

from surfacecalc.catalogue.lookup import steps_too_wide
from surfacecalc.model.pieces import Piece
from surfacecalc.model.step_facts import abrading_of
from surfacecalc.model.step_supplies import steps_of
from surfacecalc.problems import Problem


def check_grit_steps(piece: Piece) -> Iterator[Problem]:
    """Yield steps from one grit to the next that skip too much or go back."""
    steps = {step.line: step for step in map(abrading_of, steps_of(piece)) if step}
    for line, step in steps.items():
        for coarse, fine, ratio in steps_too_wide(step.grits):
            message = (
                f"from P{coarse} to P{fine} the grit gets {ratio:.1f} times finer; past 1.7 times"
                " the finer paper wears out on the old scratches: put a grit between"
            )
            yield Problem("note", line, step.do, message)
        if list(step.grits) != sorted(step.grits):
            yield Problem(
                "note",
                line,
                step.do,
                "the grits go back to a coarser one: list them from coarse to fine",
            )
