"""What a zone says of single faces: thirsty ones, and those that get no film."""

from collections.abc import Iterator
from dataclasses import replace

from shapes.parts import FaceKey
from surfacecalc.model.pieces import Zone
from surfacecalc.model.steps import Uneven
from surfacecalc.reading.faces_of_zones import selected_faces
from surfacecalc.reading.part_tables import Parts
from surfacecalc.reading.tables import Table

FACES_EXAMPLE = '[{ faces = ["apron.left"], times = 1.5 }]'
LEAST_EFFORT = 0.1
MOST_TIMES = 20.0


def with_uneven_faces(table: Table, zone: Zone, zone_of: dict[FaceKey, str], parts: Parts) -> Zone:
    """Return a zone with what its table says of single faces; mistakes are recorded."""
    thirst = _times_of_faces(table, "thirsty", 1.0, zone, zone_of, parts)
    effort = _times_of_faces(table, "effort", LEAST_EFFORT, zone, zone_of, parts)
    no_film: frozenset[FaceKey] = frozenset()
    if "no_film" in table:
        no_film = frozenset(_faces(table, "no_film", zone, zone_of, parts))
    return replace(zone, uneven=Uneven(thirst, no_film, effort))


def _times_of_faces(
    table: Table,
    key: str,
    least: float,
    zone: Zone,
    zone_of: dict[FaceKey, str],
    parts: Parts,
) -> dict[FaceKey, float]:
    """Return how many times the rest some faces count, by face."""
    found: dict[FaceKey, float] = {}
    for inner in table.tables(key, FACES_EXAMPLE):
        inner.only(("faces", "times"))
        times = _times(inner, least)
        for face in _faces(inner, "faces", zone, zone_of, parts):
            found[face] = times
    return found


def _times(table: Table, least: float) -> float:
    if not table.has("times", "1.5"):
        return 1.0
    times = table.number(table.values["times"], "times")
    if times is not None and not least <= times <= MOST_TIMES:
        table.refuse("times", f"must be from {least:g} to 20, and 1 means like the rest")
    return float(times or 1)


def _faces(
    table: Table, key: str, zone: Zone, zone_of: dict[FaceKey, str], parts: Parts
) -> Iterator[FaceKey]:
    """Yield the faces of a zone that selectors name; record a selector that names none of them."""
    for number, selector in enumerate(table.texts(key, '["drawer *.left"]')):
        was_sound = table.is_sound
        named = [face for face, _ in selected_faces(table, key, number, selector, parts)]
        own = [face for face in named if zone_of.get(face) == zone.name]
        if table.is_sound == was_sound and named and not own:
            table.mend(f'{key}: "{selector}" matches no face in this zone', key, number)
        yield from own
