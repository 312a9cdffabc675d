"""Remarks on areas: faces without a zone, zones without an area, air between parts."""

import pytest
from piece_texts import measured, piece_text

LOWER = 'name = "lower"; shape = "board"; width = 500; depth = 400; height = 20'


def test_faces_in_no_zone_are_told_with_their_area():
    top = {"name": "up", "faces": ["board.top"], "surface": None, "leave": True}
    messages = [note.message for note in measured(piece_text(zone=top)).notes]
    # 2 x (500 + 400) x 20 + 500 x 400 mm2
    assert ["0.24 m2 is in no zone, so it gets no finish: "] == [m[:45] for m in messages]


def test_air_is_told_as_touching_or_as_open(notes):
    for height, meaning in ((20.5, "counts as touching"), (22, "stays exposed")):
        upper = LOWER.replace('"lower"', '"upper"') + f"; at = [0, 0, {height}]"
        found = notes(parts=[LOWER, upper])
        (message,) = (note.message for note in found if meaning in note.message)
        air = f"{height - 20:g} mm of air to upper.bottom (0.2000 m2)"  # 500 x 400 mm2
        assert message.startswith(f"{air} {meaning}")


def test_a_zone_of_which_nothing_shows_is_told(notes):
    zone = '[[zone]]\nname = "under"\nfaces = ["lower.top"]\nleave = true\n'
    upper = LOWER.replace('"lower"', '"upper"') + "; at = [0, 0, 20]"
    found = notes(parts=[LOWER, upper], more=zone)
    told = [(n.where, n.message) for n in found if n.message.startswith("has no area")]
    assert [('zone "under"', "has no area: all its faces are hidden")] == told


def test_a_zone_whose_faces_are_all_in_others_is_told():
    sides = ("front", "back", "left", "right", "top", "bottom")
    one = {"name": "one", "faces": ["board"], "surface": None, "leave": True}
    other = {**one, "name": "other", "faces": [f"board.{side}" for side in sides]}
    notes = measured(piece_text(zone=[one, other])).notes
    told = [(n.where, n.message) for n in notes if n.message.startswith("has no area")]
    assert [('zone "one"', "has no area: other zones have all its faces")] == told


@pytest.mark.parametrize("count", [1, 3])
@pytest.mark.parametrize(("area", "is_told"), [(0.2, False), (0.21, True)])
def test_a_decoration_larger_than_its_zones_is_told(count, area, is_told):
    """Of each piece, two zones of one schedule have 0.1 m2 each."""
    shared = {"surface": "sealed", "schedule": "decor"}
    text = piece_text(
        piece={"count": count},
        part={"shape": "board", "width": 1000, "depth": 100, "height": 100},
        zone=[
            {"name": "top", "faces": ["board.top"], **shared},
            {"name": "front", "faces": ["board.front"], **shared},
        ],
        **{"schedule.decor": [{"do": "decorate", "what": "a wreath", "area": f"{area} m2"}]},
    )
    found = [n for n in measured(text).notes if "to put it on" in n.message]
    assert is_told == bool(found)
    for note in found:
        assert f"{count * area:.2f} m2, and there are only {count * 0.2:.2f} m2" in note.message
