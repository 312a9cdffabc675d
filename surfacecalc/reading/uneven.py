"""What a zone says of single faces: thirsty ones, and those that get no film."""

from collections.abc import Iterator
from dataclasses import replace

from shapes.parts import FaceKey
from surfacecalc.model.pieces import Zone
from surfacecalc.model.steps import Uneven
from surfacecalc.reading.faces_of_zones import selected_faces
from surfacecalc.reading.part_tables import Parts
from surfacecalc.reading.tables import Table

THIRSTY_EXAMPLE = '[{ faces = ["apron.left"], times = 1.5 }]'
MOST_TIMES = 20.0


def with_uneven_faces(table: Table, zone: Zone, zone_of: dict[FaceKey, str], parts: Parts) -> Zone:
    """Return a zone with what its table says of single faces; mistakes are recorded."""
    thirst: dict[FaceKey, float] = {}
    for inner in table.tables("thirsty", THIRSTY_EXAMPLE):
        inner.only(("faces", "times"))
        times = _times(inner)
        for face in _faces(inner, "faces", zone, zone_of, parts):
            thirst[face] = times
    no_film: frozenset[FaceKey] = frozenset()
    if "no_film" in table:
        no_film = frozenset(_faces(table, "no_film", zone, zone_of, parts))
    return replace(zone, uneven=Uneven(thirst, no_film))


def _times(table: Table) -> float:
    if not table.has("times", "1.5"):
        return 1.0
    times = table.number(table.values["times"], "times")
    if times is not None and not 1 <= times <= MOST_TIMES:
        table.refuse("times", "must be from 1 (no more than the rest) to 20")
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
