"""Areas of new pieces against sums made by hand, face by face, in inches."""

import tomllib
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from surfacecalc.starting.scales import Scale

Answer = Callable[..., Any]
AreasOf = Callable[[Path], dict[str, float]]

ROUNDING = 1e-9
"""Relative; all sizes are on the grid, what is left is the sum of floats."""


def test_table_of_48_by_30_inches(answer: Answer, areas_of: AreasOf) -> None:
    """Top 48 x 30 x 1; legs 2 x 2 x 28 set in by 2; aprons 4 high, 3/4 thick, between the legs."""
    assert answer("table").exit_code == 0
    long, short = 48 - 2 * 4, 30 - 2 * 4  # an apron between two legs
    touched = 4 * 2 * 2 + 2 * (long + short) * 0.75  # of the underside, by legs and aprons
    legs = 4 * (4 * 2 * 28 - 2 * 4 * 0.75)  # four sides, less two aprons' ends on each
    aprons = 2 * (long + short) * (2 * 4 + 0.75)  # two faces and the lower edge
    expected = {
        "top": 48 * 30 + 2 * (48 + 30) * 1,
        "base": legs + aprons,
        "underside": 48 * 30 - touched + 4 * 2 * 2,
    }
    assert expected == pytest.approx(areas_of(Path("table.toml")), rel=ROUNDING)


def test_bookcase_of_30_by_72_inches(answer: Answer, areas_of: AreasOf) -> None:
    """Boards of 3/4 with a back of the same; four shelves, each touching back and both sides."""
    assert answer("bookcase").exit_code == 0
    w, d, h, board = 30 - 1.5, 11 - 0.75, 72 - 1.5, 0.75
    case = 72 - board  # under the top
    empty = w * h + 2 * d * h + 2 * w * d
    shelf = 2 * w * d + w * board - (w + 2 * d) * board  # both faces, front edge, less its touch
    expected = {
        "outside": 2 * 11 * case + (30 * case - w * h),
        "top": 30 * 11 + 2 * (30 + 11) * board,
        "inside and shelves": empty + 4 * shelf,
        "back and underside": 30 * case + 30 * 11,
    }
    assert expected == pytest.approx(areas_of(Path("bookcase.toml")), rel=ROUNDING)


def test_bookcase_under_a_top_that_overhangs_by_an_inch(answer: Answer, areas_of: AreasOf) -> None:
    """Top 30 x 11; case 28 x 10 under it, flush at the back; what overhangs is seen from below."""
    assert answer("bookcase", overhang="1", shelves="0").exit_code == 0
    w, d, h, case = 28 - 1.5, 10 - 0.75, 72 - 1.5, 72 - 0.75
    expected = {
        "outside": 2 * 10 * case + (28 * case - w * h),
        "top": 30 * 11 + 2 * (30 + 11) * 0.75,
        "inside and shelves": w * h + 2 * d * h + 2 * w * d + (30 * 11 - 28 * 10),
        "back and underside": 28 * case + 28 * 10,
    }
    assert expected == pytest.approx(areas_of(Path("bookcase.toml")), rel=ROUNDING)


def test_fronts_of_a_kitchen(answer: Answer, areas_of: AreasOf) -> None:
    """Six and four panelled doors, field 1/4 back in a frame of 2 1/4, and five flat fronts."""

    def front(width: float, height: float, frame: float) -> float:
        step = 2 * (width - 2 * frame + height - 2 * frame) * 0.25 if frame else 0
        return width * height + step

    faces = [6 * front(17.75, 24, 2.25), 4 * front(15, 30, 2.25), 5 * front(17.75, 6, 0)]
    edges = 2 * 0.75 * (6 * (17.75 + 24) + 4 * (15 + 30) + 5 * (17.75 + 6))
    assert answer("doors").exit_code == 0
    outside = {"fronts": sum(faces) + edges, "faces left alone": sum(faces)}
    assert outside == pytest.approx(areas_of(Path("doors.toml")), rel=ROUNDING)
    both = {"inside_faces": "yes", "edges": "no", "out": "both.toml"}
    assert answer("doors", **both).exit_code == 0
    zones = {"fronts": sum(faces), "inside faces": sum(faces), "faces left alone": edges}
    assert zones == pytest.approx(areas_of(Path("both.toml")), rel=ROUNDING)
    assert answer("doors", edges="no", out="faces.toml").exit_code == 0
    zones = {"fronts": sum(faces), "faces left alone": sum(faces) + edges}
    assert zones == pytest.approx(areas_of(Path("faces.toml")), rel=ROUNDING)


def test_rows_of_fronts_are_drawn_one_above_the_other(answer: Answer) -> None:
    """Doors 24 high, 2 in of air, doors 30 high, 2 in of air; no row is 10 m long."""
    assert answer("doors").exit_code == 0
    found = [position[2] for position in positions("doors").values()]
    assert [0, 24 + 2, 24 + 2 + 30 + 2] == found
    assert answer("doors", doors="30", out="many.toml").exit_code == 0
    (row, *_) = (part["row"] for part in tomllib.loads(Path("many.toml").read_text())["part"])
    assert [30, [0, "2 3/4 in", 0]] == [row["of"], row["apart"]]
    assert tomllib.loads(Path("many.toml").read_text())["piece"]["built_in"] is True


def test_dresser_of_six_drawers(answer: Answer, areas_of: AreasOf) -> None:
    """Case 36 x 18 x 30 on legs of 4; two rails 2 deep and an upright; six drawers."""
    assert answer("dresser").exit_code == 0
    w, d, h, board = 34.5, 17.25, 28.5, 0.75
    rails = 2 * w * board + h * board - 2 * board * board  # fronts, crossings counted once
    case = 30 - board  # under the top
    outside = 2 * 18 * case + (36 * case - w * h) + 4 * 4 * 2 * 4 + rails
    open_w = w - board  # of a rail, without what the upright takes
    touch = 2 * board  # a rail's end: 2 deep, 3/4 high
    behind = (
        (w * h + 2 * d * h + 2 * w * d)  # the empty case
        - board * h - 2 * board * d + 2 * d * h  # the upright: back, ends, two sides
        - 2 * 4 * touch  # two rails end on two sides and cross two sides of the upright
        + 2 * (2 * open_w * 2 + open_w * board)  # two rails: both faces and the back
    )  # fmt: skip
    wide, high, deep = (w - board) / 2 - 0.125, (h - 2 * board) / 3 - 0.125, d - 0.5
    box = deep - 0.75  # behind the front board
    fronts = wide * high + 2 * (wide + high) * 0.75 + 2 * box * 0.5 + (wide - 1) * 0.5
    boxes = (
        2 * box * high + wide * high + wide * box  # outside
        + (wide - 1) * (box - 0.5) + 2 * (wide - 1 + box - 0.5) * (high - 0.5)  # inside
    )  # fmt: skip
    expected = {
        "outside": outside,
        "top": 36 * 18 + 2 * (36 + 18) * board,
        "drawer fronts": 6 * fronts,
        "behind the drawers": behind,
        "inside of the drawers": 6 * boxes,
        "back and underside": 36 * case + 36 * 18 - 4 * 4 + 4 * 4,
    }
    assert expected == pytest.approx(areas_of(Path("dresser.toml")), rel=ROUNDING)


def test_aprons_whose_inside_stays_as_it_is(answer: Answer, areas_of: AreasOf) -> None:
    """The same table: four inside faces, from leg to leg, go from the base to the underside."""
    assert answer("table").exit_code == 0
    whole = areas_of(Path("table.toml"))
    assert answer("table", "--out", "outside.toml", **{"apron-inside": "no"}).exit_code == 0
    inside = 2 * (48 - 2 * 4 + 30 - 2 * 4) * 4
    expected = {
        "top": whole["top"],
        "base": whole["base"] - inside,
        "underside": whole["underside"] + inside,
    }
    assert expected == pytest.approx(areas_of(Path("outside.toml")), rel=ROUNDING)


def test_bench_without_aprons(answer: Answer, areas_of: AreasOf) -> None:
    """Seat 42 x 14 x 1 on four legs of 2 x 2 x 17, flush with its corners."""
    assert answer("bench").exit_code == 0
    expected = {
        "seat": 42 * 14 + 2 * (42 + 14) * 1,
        "base": 4 * 4 * 2 * 17,
        "underside": 42 * 14 - 4 * 4 + 4 * 4,
    }
    assert expected == pytest.approx(areas_of(Path("bench.toml")), rel=ROUNDING)


def test_mirror_frame(answer: Answer, areas_of: AreasOf) -> None:
    """Frame 24 x 36, 3 wide, 3/4 thick; outer edges and the inner ones to the glass."""
    assert answer("mirror").exit_code == 0
    face = 24 * 36 - 18 * 30
    expected = {"front": face + 2 * (24 + 36) * 0.75 + 2 * (18 + 30) * 0.75, "back": face}
    assert expected == pytest.approx(areas_of(Path("mirror.toml")), rel=ROUNDING)


def test_headboard_between_two_posts(answer: Answer, areas_of: AreasOf) -> None:
    """Board 55 x 24 x 3/4 between posts of 2 1/2 x 2 1/2 x 48, their tops level."""
    assert answer("headboard").exit_code == 0
    posts = 2 * (3 * 2.5 * 48 + 2.5 * 2.5) - 2 * 24 * 0.75  # three sides and the top
    expected = {
        "front": 55 * 24 + 55 * 0.75 + posts,
        "back and underside": 55 * 24 + 55 * 0.75 + 2 * (2.5 * 48 + 2.5 * 2.5),
    }
    assert expected == pytest.approx(areas_of(Path("headboard.toml")), rel=ROUNDING)


def test_chest_is_its_box_and_its_lid_apart(answer: Answer, areas_of: AreasOf) -> None:
    """Box 42 x 19 1/2 x 16 1/4, open above, on legs of 3; lid 3/4 thick lies beside it."""
    assert answer("chest").exit_code == 0
    w, d, high = 40.5, 18.0, 20 - 3 - 0.75
    rim = 42 * 19.5 - w * d
    expected = {
        "outside": 2 * (42 + 19.5) * high + 4 * 4 * 2 * 3,
        "lid": 42 * 19.5 + 2 * (42 + 19.5) * 0.75,
        "inside": w * d + 2 * (w + d) * (high - 0.75) + rim + 42 * 19.5,
        "underside": 42 * 19.5,
    }
    assert expected == pytest.approx(areas_of(Path("chest.toml")), rel=ROUNDING)


@pytest.mark.parametrize(
    ("kind", "width", "depth"),
    [("dresser", 36, 18), ("nightstand", 22.5, 16.125), ("bookcase", 30, 11),
     ("cabinet", 36, 16.75)],
)  # fmt: skip
def test_top_of_a_case_is_its_top_surface_with_its_edges(
    kind: str, width: float, depth: float, answer: Answer, areas_of: AreasOf
) -> None:
    assert answer(kind).exit_code == 0
    expected = width * depth + 2 * (width + depth) * 0.75
    assert expected == pytest.approx(areas_of(Path(f"{kind}.toml"))["top"], rel=ROUNDING)


def positions(kind: str) -> dict[str, list[float]]:
    """Return where the parts of a piece file are [inches]."""
    parts = tomllib.loads(Path(f"{kind}.toml").read_text())["part"]
    return {
        part["name"]: [float(Scale("in").read(str(end)) / Fraction("25.4")) for end in part["at"]]
        for part in parts
        if "at" in part
    }


def test_rail_is_halfway_between_two_drawers(answer: Answer) -> None:
    """Case and top 20 1/2 high on legs of 5 3/4, the top 1/2 in over; opening 19 less the rail."""
    assert answer("nightstand").exit_code == 0
    assert [0.5 + 0.75, 0.5, 5.75 + 0.75 + (19 - 0.75) / 2] == positions("nightstand")["rail"]


def test_aprons_are_in_the_middle_of_the_legs(answer: Answer) -> None:
    """Legs 2 thick, set in by 2; aprons 3/4 thick and 4 high under a top of 1 at 29."""
    assert answer("table").exit_code == 0
    along, across, up = 2 + 2 / 2, 2 + (2 - 0.75) / 2, 29 - 1 - 4
    found = positions("table")
    assert [along, across, up] == found["long apron"]
    assert [across, along, up] == found["side apron"]


def test_piece_has_the_size_that_was_measured(answer: Answer) -> None:
    result = answer("nightstand", lists=True)
    assert "22 1/2 in x 16 1/8 in x 26 1/4 in (width x depth x height)" in result.stdout


def test_same_piece_in_a_file_of_millimetres_has_the_same_areas_nearly(
    answer: Answer, areas_of: AreasOf
) -> None:
    """Lengths typed with their unit are taken to a tenth of a millimetre; 1 in is 25.4 mm."""
    sizes = {"width": "48 in", "depth": "30 in", "height": "29 in", "top_thickness": "1 in"}
    sizes |= {"overhang": "2 in", "leg_thickness": "2 in", "foot_thickness": "2 in"}
    assert answer("table").exit_code == 0
    assert answer("table", "--unit", "mm", "--out", "mm.toml", **sizes, apron="4 in").exit_code == 0
    inches, mm = areas_of(Path("table.toml")), areas_of(Path("mm.toml"))
    assert inches == pytest.approx(mm, rel=1e-3)  # the apron is 19 mm thick, not 19.05
    assert inches["top"] == pytest.approx(mm["top"], rel=ROUNDING)
