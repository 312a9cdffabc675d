"""Exposed area by zone, and how far zones meet.

Every exposed face is in one zone or in none, so the zones and `in_no_zone` add up to the whole.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from shapes.exposure import Exposure, NearMiss, exposure
from shapes.parts import FaceKey
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.zones.labour import PLAIN, Labour, Surroundings, balustrades, labour_of_part

MM2_IN_M2 = 1_000_000
MM_IN_M = 1_000


@dataclass(frozen=True)
class FaceArea:
    """The exposed area of a face [m2], and how much work it is."""

    part: str
    face: str
    area_m2: float
    labour: Labour = PLAIN


@dataclass(frozen=True)
class ZoneArea:
    """A zone, measured.

    Attributes:
        zone: the zone.
        faces: its faces, also those of which nothing is exposed.
        meets_m: how far it meets each other zone [m], by name; where masking tape goes.
        count: over how many pieces of a set each of its faces is added up.
    """

    zone: Zone
    faces: tuple[FaceArea, ...]
    meets_m: dict[str, float]
    count: int = 1

    @property
    def area_m2(self) -> float:
        """Exposed area [m2]."""
        return sum(face.area_m2 for face in self.faces)

    @property
    def labour_m2(self) -> float:
        """What its area counts as work [m2]; for hours alone."""
        return sum(face.area_m2 * face.labour.counts for face in self.faces)

    @property
    def by_hand_m2(self) -> float:
        """What of that no machine reaches [m2]."""
        return sum(face.area_m2 * face.labour.counts * face.labour.by_hand for face in self.faces)


@dataclass(frozen=True)
class Measured:
    """A piece, measured.

    Attributes:
        size_mm: width, depth, height of the joined parts' box.
        zones: in the order of the file.
        in_no_zone: exposed faces that no zone claims.
        closed: air between joined parts that counts as touching.
        gaps: air between joined parts that is too wide for that.
        of_one: the measures of one piece, where these are of a set of several; else None.
    """

    size_mm: tuple[float, float, float]
    zones: tuple[ZoneArea, ...]
    in_no_zone: tuple[FaceArea, ...]
    closed: tuple[NearMiss, ...]
    gaps: tuple[NearMiss, ...]
    of_one: "Measured | None" = None

    @property
    def one(self) -> "Measured":
        """The measures of one piece."""
        return self if self.of_one is None else self.of_one

    @property
    def exposed_m2(self) -> float:
        """Exposed area of the whole piece, loose parts included [m2]."""
        return sum(zone.area_m2 for zone in self.zones) + self.in_no_zone_m2

    @property
    def to_finish(self) -> tuple[ZoneArea, ...]:
        """The zones in which something is done."""
        return tuple(zone for zone in self.zones if zone.zone.steps and not zone.zone.leave)

    @property
    def to_finish_m2(self) -> float:
        """Exposed area of the zones in which something is done [m2]."""
        return sum(zone.area_m2 for zone in self.to_finish)

    @property
    def left_m2(self) -> float:
        """Exposed area of the zones that are left as they are [m2]."""
        return sum(zone.area_m2 for zone in self.zones if zone not in self.to_finish)

    @property
    def in_no_zone_m2(self) -> float:
        """Exposed area that no zone claims [m2]."""
        return sum(face.area_m2 for face in self.in_no_zone)


def measure(piece: Piece) -> Measured:
    """Return the exposed area of every zone of a piece; of a set, those of all its pieces."""
    one = _measure_one(piece)
    return one if piece.settings.count == 1 else _of_set(one, piece.settings.count)


def _of_set(one: Measured, count: int) -> Measured:
    """Return the measures of so many pieces like one; its size and the air in it stay."""
    return replace(
        one,
        zones=tuple(
            replace(
                zone,
                faces=_times(zone.faces, count),
                meets_m={other: length_m * count for other, length_m in zone.meets_m.items()},
                count=count,
            )
            for zone in one.zones
        ),
        in_no_zone=_times(one.in_no_zone, count),
        of_one=one,
    )


def _times(faces: Iterable[FaceArea], count: int) -> tuple[FaceArea, ...]:
    return tuple(replace(face, area_m2=face.area_m2 * count) for face in faces)


def _measure_one(piece: Piece) -> Measured:
    seen = exposure(piece.parts, gap=piece.settings.gap_mm)
    faces: dict[str | None, list[FaceArea]] = {}
    for (part, face), area_mm2 in seen.areas_mm2.items():
        area = FaceArea(part, face, area_mm2 / MM2_IN_M2)
        faces.setdefault(piece.zone_of.get((part, face)), []).append(area)
    spindles_mm2 = balustrades(piece.parts)
    zones = tuple(
        ZoneArea(
            zone,
            _with_labour(
                piece,
                faces.get(zone.name, []),
                Surroundings(
                    zone.uneven.effort, seen.corners_mm, spindles_mm2, frozenset(piece.mesh_units)
                ),
            ),
            _meets(piece, zone, seen),
        )
        for zone in piece.zones
    )
    unclaimed = tuple(face for face in faces.get(None, ()) if face.area_m2 > 0)
    return Measured(seen.size_mm, zones, unclaimed, seen.closed, seen.gaps)


def _with_labour(piece: Piece, faces: list[FaceArea], around: Surroundings) -> tuple[FaceArea, ...]:
    """Return the faces of a zone with how much work each is, part by part."""
    areas_mm2: dict[str, dict[str, float]] = {}
    for face in faces:
        areas_mm2.setdefault(face.part, {})[face.face] = face.area_m2 * MM2_IN_M2
    found = {
        part.name: labour_of_part(part, areas_mm2[part.name], around)
        for part in piece.parts
        if part.name in areas_mm2
    }
    return tuple(replace(face, labour=found[face.part][face.face]) for face in faces)


def _meets(piece: Piece, zone: Zone, seen: Exposure) -> dict[str, float]:
    """Return how far a zone meets each other zone, in the order of the file."""
    meets: dict[str, float] = {}
    for pair, length_mm in seen.seams_mm.items():
        names = _zones_of(piece, pair)
        if zone.name in names and None not in names and names[0] != names[1]:
            other = names[1] if names[0] == zone.name else names[0]
            meets[str(other)] = meets.get(str(other), 0.0) + length_mm / MM_IN_M
    return {other.name: meets[other.name] for other in piece.zones if other.name in meets}


def _zones_of(piece: Piece, faces: Iterable[FaceKey]) -> list[str | None]:
    return [piece.zone_of.get(face) for face in faces]
