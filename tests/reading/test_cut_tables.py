"""`cuts` of a part: which faces a zone then names, how it is masked, and what is refused."""

import pytest
from piece_texts import Keys, measured, piece_text

from surfacecalc import api
from surfacecalc.cautions.storage import is_drawer

LEGS: Keys = {
    "name": "leg", "shape": "leg", "height": 700, "width": 40, "depth": 40,
    "row": {"of": 4, "apart": [200, 0, 0]},
}  # fmt: skip
DIP: Keys = {"height": 120, "below": "dip"}
SIDE_M2, END_M2 = 0.04 * 0.7, 0.04 * 0.04
DIP_M2, REST_M2 = 4 * 0.04 * 0.12, 4 * 0.04 * 0.58
NOT_WOOD = {"leave": True, "surface": None}


def zones(**faces: list[str]) -> list[Keys]:
    return [{"name": name, "faces": found, "leave": True} for name, found in faces.items()]


def areas(part: Keys, **faces: list[str]) -> dict[str, float]:
    job = measured(piece_text(part=part, zone=zones(**faces)))
    return {zone.zone.name: zone.area_m2 for zone in job.measured.zones}


def mistakes(part: Keys, **faces: list[str]) -> list[str]:
    found = api.read_piece_text(piece_text(part=part, zone=zones(**faces or {"all": ["*"]})))
    return [one.message for one in found.problems if one.level == "mend"]


def test_dipped_legs_are_a_zone_of_their_own_and_masked_all_round() -> None:
    job = measured(
        piece_text(part=LEGS | {"cuts": [DIP]}, zone=zones(dipped=["leg.dip"], rest=["*"]))
    )
    dipped, rest = job.measured.zones
    assert 4 * (DIP_M2 + END_M2) == pytest.approx(dipped.area_m2)
    assert 4 * (REST_M2 + END_M2) == pytest.approx(rest.area_m2)
    assert 4 * 4 * 0.04 == pytest.approx(dipped.meets_m["rest"])


def test_a_cut_alone_changes_no_area() -> None:
    assert areas(LEGS, all=["*"]) == pytest.approx(areas(LEGS | {"cuts": [DIP]}, all=["*"]))


@pytest.mark.parametrize(
    ("dark", "expected"),
    [
        (["leg *.dip"], 4 * (DIP_M2 + END_M2)),
        (["leg 1.dip"], DIP_M2 + END_M2),
        (["leg 1.front dip"], DIP_M2 / 4),
        (["leg 1.front"], SIDE_M2),  # the whole face, both its pieces
        (["leg 1"], 4 * SIDE_M2 + 2 * END_M2),
        (["leg 2.bottom"], END_M2),  # all of it is dipped
    ],
)
def test_what_selectors_mean_on_a_cut_part(dark: list[str], expected: float) -> None:
    found = areas(LEGS | {"cuts": [DIP]}, dark=dark, rest=["*"])
    assert expected == pytest.approx(found["dark"])


def test_the_closest_name_wins_among_pieces_too() -> None:
    found = areas(
        LEGS | {"cuts": [DIP]},
        one=["leg 1.front dip"], dark=["leg *.dip"], fronts=["leg *.front"], rest=["leg *"],
    )  # fmt: skip
    assert DIP_M2 / 4 == pytest.approx(found["one"])
    assert 4 * (DIP_M2 + END_M2) - DIP_M2 / 4 == pytest.approx(found["dark"])
    assert REST_M2 == pytest.approx(found["fronts"])


@pytest.mark.parametrize(
    ("cut", "face", "expected"),
    [
        ({"across": 150, "left": "dark"}, "front", 0.15 * 0.3),
        ({"across": 150, "right": "dark"}, "front", 0.35 * 0.3),
        ({"depth": 15, "front": "dark"}, "left", 0.015 * 0.3),
        ({"depth": 15, "back": "dark"}, "left", 0.025 * 0.3),
        ({"height": 100, "above": "dark"}, "front", 0.5 * 0.2),
        ({"box": [[0, 0, 0], [200, 40, 100]], "inside": "dark"}, "front", 0.2 * 0.1),
        ({"box": [[0, 0, 0], [200, 40, 100]], "outside": "dark"}, "front", 0.15 - 0.2 * 0.1),
    ],
)
def test_lines_and_boxes_on_a_board(cut: Keys, face: str, expected: float) -> None:
    part = {"width": 500, "depth": 40, "height": 300, "cuts": [cut]}
    found = areas(part, dark=[f"board.{face} dark"], rest=["*"])
    assert expected == pytest.approx(found["dark"])


def test_a_line_is_measured_along_a_part_that_leans_or_is_turned() -> None:
    part = {
        **LEGS,
        "row": None,
        "cuts": [DIP],
        "turn": 90,
        "lean": {"degrees": 10, "towards": "back"},
    }
    part = {key: value for key, value in part.items() if value is not None}
    assert DIP_M2 + END_M2 == pytest.approx(areas(part, dark=["leg.dip"], rest=["*"])["dark"])


def test_a_mirrored_part_is_cut_as_it_stands() -> None:
    part = {"width": 500, "depth": 40, "height": 300, "mirror": "left-right",
            "cuts": [{"across": 150, "left": "dark"}]}  # fmt: skip
    found = areas(part, dark=["board.left dark"], rest=["*"])
    assert 0.04 * 0.3 == pytest.approx(found["dark"])


def test_work_on_a_dipped_foot_is_counted_by_its_own_length() -> None:
    """A girth of 160 mm counts as 304.8 mm, below the line as above it."""
    job = measured(
        piece_text(part=LEGS | {"cuts": [DIP]}, zone=zones(dark=["leg *.dip"], rest=["*"]))
    )
    dark, rest = job.measured.zones
    for zone, length_m in ((dark, 0.12), (rest, 0.58)):
        girth_m = zone.area_m2 / 4 / length_m
        assert zone.area_m2 * 0.3048 / girth_m == pytest.approx(zone.labour_m2)


def test_a_cut_door_is_still_one() -> None:
    door = {"name": "door", "shape": "door", "width": 500, "depth": 20, "height": 900,
            "frame": 60, "recess": 6}  # fmt: skip
    whole = measured(piece_text(part=door, zone=zones(all=["*"])))
    both = {"cuts": [DIP | {"above": "rest"}]}
    cut = measured(piece_text(part=door | both, zone=zones(all=["*"])))
    assert whole.measured.zones[0].labour_m2 == pytest.approx(cut.measured.zones[0].labour_m2)


@pytest.mark.parametrize(
    ("cut", "told"),
    [
        ({"below": "dip"}, "must have one of height, across, depth and box, such as cuts = [{"),
        ({"height": 100, "across": 10, "below": "dip"}, "must have one of height, across, depth"),
        ({"height": 100}, 'has no name for either side; add below = "dip" (or above)'),
        ({"height": 900, "below": "dip"}, "must be more than 0 and less than the part (700 mm)"),
        ({"height": 0, "below": "dip"}, "must be more than 0 and less than the part (700 mm)"),
        ({"height": 100, "below": "front"}, "front is a face"),
        ({"height": 100, "below": "a.b"}, "a name without . and *"),
        ({"height": 100, "below": 3}, "below = 3"),
        ({"box": [1, 2], "inside": "dip"}, "must be two corners, such as box = [["),
        ({"height": 100, "below": "dip", "under": "x"}, '"under" is not known'),
        ({"box": [[900, 0, 0], [901, 1, 1]], "inside": "dip"}, "all of it is on one side"),
    ],
)
def test_a_cut_that_cannot_be_is_told_once(cut: Keys, told: str) -> None:
    (message,) = mistakes(LEGS | {"cuts": [cut]})
    assert told in message


def test_a_piece_that_is_not_there_is_told_with_those_that_are() -> None:
    (message,) = mistakes(LEGS | {"cuts": [DIP]}, dark=["leg 1.dib"], rest=["*"])
    assert "matches no face" in message
    assert "dip" in message


SEAT_AND_CREST: list[Keys] = [
    {"name": "seat", "shape": "board", "width": 430, "depth": 410, "height": 30, "at": [0, 0, 420]},
    {"name": "crest", "shape": "board", "width": 430, "depth": 410, "height": 60,
     "at": [0, 0, 860]},
]  # fmt: skip
UPRIGHT: Keys = {
    "name": "post", "shape": "leg", "form": "tapered", "width": 40, "depth": 40, "foot": 40,
    "straight": 30,
    "between": {"below": "seat", "above": "crest", "of": 1, "tenon": 0},
}  # fmt: skip


@pytest.mark.parametrize("lean", [{}, {"lean": {"degrees": 8, "towards": "back"}}])
def test_an_upright_is_cut_when_its_length_is_known(lean: Keys) -> None:
    """It is 410 mm long, more than any length that it has before its parts are known."""
    cut = {"cuts": [{"height": 300, "below": "low", "above": "high"}]}
    whole, split = (
        measured(piece_text(part=[*SEAT_AND_CREST, UPRIGHT | lean | more], zone=zones(all=["*"])))
        for more in ({}, cut)
    )
    assert whole.piece.parts[-1].at == split.piece.parts[-1].at
    assert whole.measured.exposed_m2 == pytest.approx(split.measured.exposed_m2)
    assert "front low" in split.piece.parts[-1].solid.faces
    if not lean:
        (low,) = [f for f in split.measured.zones[0].faces if f.face == "front low"]
        assert 0.04 * 0.3 == pytest.approx(low.area_m2)


def test_a_tray_whose_faces_are_cut_still_counts_as_a_drawer() -> None:
    tray = {"name": "tray", "shape": "drawer", "width": 400, "depth": 450, "height": 150,
            "front": 20, "board": 12}  # fmt: skip
    cut = {"cuts": [{"height": 70, "below": "low", "above": "high"}]}
    for more in ({}, cut):
        job = measured(piece_text(part=tray | more, zone=zones(all=["*"])))
        assert is_drawer(job.piece.parts[0])
