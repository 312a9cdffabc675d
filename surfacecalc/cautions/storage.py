"""What a piece encloses, from its parts: behind lids, in drawers, behind doors.

A part is what its name says: lid, drawer, door (or, for a lid, that it is loose and covers an
open case). Volumes are those of cases and drawers; where a piece is built of boards they are not
known, or only an upper bound.
"""

import re
from collections.abc import Iterable

from shapes.grid import to_mm
from shapes.parts import Part, box_of
from shapes.volumes import hollow_mm3, is_hollow, volume_mm3

COVERS = 0.9
"""Share of a case's width and depth from which a loose part counts as its lid; assumed."""
DRAWER_FACES = {"front", "edge", "left", "right", "back", "bottom", "inside"}
"""Faces of a drawer, or of a tray that comes out as one does."""
FITTINGS = ("knob", "pull", "handle", "rail", "runner", "slide", "guide", "divider", "stop")
"""What a part of a drawer's name is called that is not a drawer."""
BEHIND_DOORS = 0.5
"""Share of its volume that storage behind doors counts with (16 CFR 1261, ASTM F2057-23)."""


def is_called(part: Part, *words: str) -> bool:
    """Whether a part, or what it is joined to off the piece, has one of some words in its name."""
    text = f"{part.name} {part.loose if isinstance(part.loose, str) else ''}".lower()
    return not set(words).isdisjoint(re.findall(r"[a-z]+", text))


def lids(parts: Iterable[Part]) -> list[Part]:
    """Return the parts that are lids."""
    parts = list(parts)
    open_cases = [part for part in parts if _is_open_case(part)]
    return [
        part
        for part in parts
        if is_called(part, "lid", "lids") or any(_covers(part, case) for case in open_cases)
    ]


def under_lids_mm3(parts: Iterable[Part]) -> tuple[float, bool]:
    """Return the largest room that a lid can close [mm3], and whether that is an upper bound only.

    The room of a case that is open above is known; of a piece built of boards only its box is.
    """
    closing = {part.name for part in lids(parts)}
    bodies = [part for part in parts if part.name not in closing and not is_drawer(part)]
    cases = [hollow_mm3(part.solid) for part in bodies if _is_open_case(part)]
    if cases:
        return max(cases), False
    groups: dict[str, list[Part]] = {}
    for part in bodies:
        groups.setdefault(part.name if part.loose is True else str(part.loose), []).append(part)
    return max((_box_mm3(group) for group in groups.values()), default=0.0), True


def is_drawer(part: Part) -> bool:
    """Whether a part is a drawer or of one."""
    if is_called(part, "drawer", "drawers"):
        return not is_called(part, *FITTINGS)
    return bool(part.loose) and set(part.solid.whole_faces) == DRAWER_FACES and not _is_lidded(part)


def is_door(part: Part) -> bool:
    """Whether a part is a door or of one."""
    return is_called(part, "door", "doors")


def stored_mm3(parts: Iterable[Part]) -> float | None:
    """Return the storage that drawers and doors close [mm3], None where it is not known.

    Drawers count whole, and what is behind doors half, as the standard counts.
    """
    parts = list(parts)
    drawers = _drawers_mm3(parts)
    if drawers is None or not any(map(is_door, parts)):
        return drawers
    cases = [
        hollow_mm3(part.solid)
        for part in parts
        if is_hollow(part.solid) and part.is_joined and not part.solid.is_open
    ]
    if not cases:
        return None
    return drawers + BEHIND_DOORS * max(0.0, sum(cases) - drawers)


def wood_mm3(parts: Iterable[Part]) -> float | None:
    """Return the volume of all parts [mm3], None where one does not close.

    What two parts share counts twice, so it is never too little.
    """
    parts = list(parts)
    if any(part.solid.is_open for part in parts):
        return None
    return sum(volume_mm3(part.solid) for part in parts)


def _drawers_mm3(parts: list[Part]) -> float | None:
    """Return the room in all drawers [mm3], None where one is not drawn as a hollow."""
    groups: dict[str, list[Part]] = {}
    for part in parts:
        if is_drawer(part):
            key = part.loose if isinstance(part.loose, str) else part.name
            groups.setdefault(key, []).append(part)
    rooms = [_room_mm3(group) for group in groups.values()]
    known = [room for room in rooms if room is not None]
    return None if len(known) < len(rooms) else sum(known)


def _room_mm3(drawer: list[Part]) -> float | None:
    """Return the room in one drawer; one built of boards has its box less the boards, at most."""
    if any(part.solid.is_open for part in drawer):
        return None
    hollow = [hollow_mm3(part.solid) for part in drawer if is_hollow(part.solid)]
    if hollow:
        return sum(hollow)
    if len(drawer) == 1 or drawer[0].is_joined:
        return None
    return max(0.0, _box_mm3(drawer) - sum(volume_mm3(part.solid) for part in drawer))


def _is_open_case(part: Part) -> bool:
    is_open_above = "top" not in part.solid.faces and not part.solid.is_open
    return is_open_above and is_hollow(part.solid)


def _is_lidded(part: Part) -> bool:
    return is_called(part, "chest", "trunk", "box")


def _covers(part: Part, case: Part) -> bool:
    """Whether a loose, flat part is as wide and deep as an open case, and no drawer or shelf."""
    if not part.loose or part.loose == case.loose or is_hollow(part.solid):
        return False
    if is_drawer(case) or is_called(part, "drawer", "door", "shelf", "tray", "back", "bottom"):
        return False
    (width, depth, height), room = part.solid.size, case.solid.size
    flat = height < min(width, depth) / 2
    return flat and width >= COVERS * room[0] and depth >= COVERS * room[1]


def _box_mm3(parts: list[Part]) -> float:
    box = box_of(parts)
    if box is None:
        return 0.0
    width, depth, height = (to_mm(high - low) for low, high in zip(*box, strict=True))
    return width * depth * height
