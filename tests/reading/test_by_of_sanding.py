"""By machine or by hand: as the step says, else as the form of the abrasive tells."""

import pytest

from surfacecalc.model.steps import Sand

PIECE = """\
[piece]
name = "board"
unit = "m"
[[part]]
name = "board"
shape = "board"
width = 1
depth = 1
height = 0.1
[[zone]]
name = "all"
faces = ["*"]
surface = "bare"
[[zone.step]]
do = "{do}"
grits = [120]
with = "paper"
{more}
[[abrasive]]
name = "paper"
form = "{form}"
life = "0.5 m2"
"""


def by_of(piece_of, form, do="sand", more=""):
    (step,) = piece_of(PIECE.format(do=do, form=form, more=more)).zones[0].steps
    assert isinstance(step, Sand)
    return step.by


@pytest.mark.parametrize(
    ("form", "by"),
    [("125 mm disc", "machine"), ("5 in Disc", "machine"), ("75 x 533 mm belt", "machine"),
     ("9 x 11 in sheet", "hand"), ("sanding sponge", "hand"), ("finishing pad", "hand"),
     ("steel wool", "hand"), ("discount paper", "hand")],
)  # fmt: skip
@pytest.mark.parametrize("do", ["sand", "strip"])
def test_form_tells_where_the_step_does_not(piece_of, do, form, by):
    assert by == by_of(piece_of, form, do)


@pytest.mark.parametrize(("form", "by"), [("125 mm disc", "hand"), ("9 x 11 in sheet", "machine")])
def test_step_goes_before_the_form(piece_of, form, by):
    assert by == by_of(piece_of, form, more=f'by = "{by}"')


def test_rubbing_out_is_by_hand_unless_the_step_says_otherwise(piece_of):
    assert "hand" == by_of(piece_of, "125 mm disc", "rub out")
