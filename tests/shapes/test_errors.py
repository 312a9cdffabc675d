"""What a ShapeError says and carries, and what the package raises."""

import numpy as np
import pytest

from shapes.boards import board
from shapes.errors import KernelError, ShapeError
from shapes.exposure import exposure
from shapes.placement import place
from shapes.solids import Solid


def test_a_shape_error_is_a_value_error_and_a_kernel_error_is_none():
    assert issubclass(ShapeError, ValueError)
    assert issubclass(KernelError, RuntimeError)
    assert not issubclass(KernelError, ValueError)


def test_the_message_names_argument_rule_limit_and_value():
    error = ShapeError("board", "less than half of the width", 12, 10.0)
    assert str(error) == "board must be less than half of the width (10 mm), not 12 mm"
    assert (error.argument, error.rule) == ("board", "less than half of the width")
    assert (error.value_mm, error.limit_mm) == (12, 10.0)


def test_the_message_leaves_out_what_there_is_not():
    assert str(ShapeError("open", "at most five")) == "open must be at most five"
    assert (
        str(ShapeError("width", "more than zero", -1)) == "width must be more than zero, not -1 mm"
    )


@pytest.mark.parametrize("gap", [-0.001, 5.001, -5])
def test_a_gap_out_of_range_is_refused(gap, check_refused):
    check_refused(
        lambda: exposure([place("a", board(1, 1, 1))], gap=gap), "gap", "from 0 to 5 mm", gap
    )


@pytest.mark.parametrize("gap", [float("inf"), float("nan")])
def test_a_gap_that_is_no_length_is_refused(gap):
    with pytest.raises(ShapeError, match="gap must be a finite length"):
        exposure([place("a", board(1, 1, 1))], gap=gap)


@pytest.mark.parametrize("loose", [False, True, "lid"])
def test_two_parts_of_one_name_are_refused(loose, check_refused):
    parts = [place("a", board(1, 1, 1)), place("a", board(2, 2, 2), (9, 9, 9), loose=loose)]
    check_refused(lambda: exposure(parts), "parts", "without two parts of one name")


@pytest.mark.parametrize(
    "spoil",
    [
        lambda triangles: triangles[1:],  # open
        lambda triangles: np.concatenate([triangles[:6], triangles[6:, ::-1]]),  # half inside out
    ],
)
def test_a_solid_that_the_kernel_refuses_is_an_error_and_not_an_empty_piece(spoil):
    good = board(1, 1, 1)
    triangles = spoil(good.triangles)
    bad = Solid(good.vertices, triangles, good.patch_of[: len(triangles)], good.patches, good.size)
    with pytest.raises(KernelError, match="the solid kernel refused a solid: NotManifold"):
        exposure([place("good", good), place("bad", bad, (5, 0, 0))])
