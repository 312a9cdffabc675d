"""The surface that a step works on: its area, and whether it is bare."""

import math
from collections.abc import Sequence

from surfacecalc.model.inputs import Input
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.shelf import Hardware, Product
from surfacecalc.model.step_facts import coat_left, is_one_session, takes_off
from surfacecalc.model.steps import Coat, Decor, Sand, Step, Wash
from surfacecalc.zones.areas import FaceArea, ZoneArea

MM2_IN_M2 = 1_000_000.0
MM_IN_M = 1_000.0
FILM_FAMILIES = ("paint", "primer", "varnish", "shellac", "lacquer")
"""What leaves a film where nothing is known of the kind; the rest soaks in or is rubbed off."""


def is_bare(steps: Sequence[Step], number: int, surface: str | None) -> bool:
    """Whether a zone is bare when a step of it begins.

    Every coat seals; one on spots or on hardware leaves the rest as it was. Sanding bares nothing
    again; stripping does.
    """
    bare = surface == "bare"
    for step in steps[:number]:
        coat = coat_left(step)
        if takes_off(step):
            bare = True
        elif coat is not None and coat.spot is None and coat.hardware is None:
            bare = False
    return bare


def takes_first_coat(steps: Sequence[Step], number: int, surface: str | None) -> bool:
    """Whether the first coat of a step goes on a bare surface."""
    coat = coat_left(steps[number])
    is_for_zone = coat is not None and coat.hardware is None
    return is_for_zone and is_bare(steps, number, surface)


def coated_m2(zone: ZoneArea, coat: Coat, product: Product, piece: Piece) -> float:
    """Return the area that a coat goes on [m2].

    It is the zone without faces that must slide, or spots of it, or hardware instead.
    """
    if coat.hardware is not None:
        return hardware_m2(piece.shelf.hardware[coat.hardware])
    area_m2 = sum(face.area_m2 for face in _coated_faces(zone, product))
    return area_m2 * _spotted(coat)


def washed_m2(zone: ZoneArea, wash: Wash, piece: Piece) -> float:
    """Return the area that is washed [m2]: the zone, or hardware instead."""
    if wash.hardware is not None:
        return hardware_m2(piece.shelf.hardware[wash.hardware])
    return zone.area_m2


def thirsty_m2(zone: ZoneArea, coat: Coat, product: Product) -> float:
    """Return the area that thirsty faces count more in the first coat on a bare surface [m2]."""
    if coat.hardware is not None:
        return 0.0
    thirst = zone.zone.uneven.thirst
    faces = _coated_faces(zone, product)
    more_m2 = sum((thirst.get((f.part, f.face), 1.0) - 1) * f.area_m2 for f in faces)
    return more_m2 * _spotted(coat)


def slender_share(zone: ZoneArea, coat: Coat, product: Product) -> float:
    """Return the share of what a coat goes on that is slender, so that spray flies past it."""
    faces = _coated_faces(zone, product)
    area_m2 = sum(face.area_m2 for face in faces)
    if coat.hardware is not None or not area_m2:
        return 0.0
    return sum(face.area_m2 for face in faces if face.labour.is_slender) / area_m2


def _coated_faces(zone: ZoneArea, product: Product) -> list[FaceArea]:
    """Return the faces of a zone that a product goes on; a film keeps off those that slide."""
    bare = zone.zone.uneven.no_film if forms_film(product) else frozenset()
    return [face for face in zone.faces if (face.part, face.face) not in bare]


def forms_film(product: Product) -> bool:
    """Whether a product leaves a film that takes room where a drawer slides."""
    if product.nature is None:
        return product.family in FILM_FAMILIES
    return product.nature.forms_film


def decorated_m2(zone: ZoneArea, decor: Decor, share: float) -> float:
    """Return the likely area of a decoration in a zone [m2].

    Args:
        zone: the zone.
        decor: the decoration; an area is that of all zones that share the schedule.
        share: of it that is in this zone.
    """
    if decor.area_m2 is not None:
        return decor.area_m2 * share
    return zone.area_m2 * (decor.share.range.likely if decor.share else 1.0)


def worn_m2(zone: ZoneArea, step: Sand) -> float:
    """Return the likely area that a step abrades [m2]."""
    return zone.area_m2 * (step.worn.range.likely if step.worn else 1.0)


def _spotted(coat: Coat) -> float:
    return coat.spot.range.likely if coat.spot else 1.0


def hardware_m2(hardware: Hardware) -> float:
    """Return the area of all front and side faces of a set of hardware [m2]; its back is hidden."""
    width, height, depth = hardware.size_mm or (0.0, 0.0, 0.0)
    return hardware.count * (width * height + 2 * depth * (width + height)) / MM2_IN_M2


def tape_error(zone: ZoneArea, measured_to_mm: float) -> Factor | None:
    """Return the area that was measured as a share of the true one, None for a perfect tape.

    A face whose width and height are each off by e is off by e x (width + height), which is 2 e x
    the root of its area where it is square, and more where it is slender. The pieces of a set
    are made by one measure, so they are all off by the same share.

    Args:
        zone: the zone.
        measured_to_mm: how much a measure may be off [mm].
    """
    if not measured_to_mm or not zone.area_m2:
        return None
    error_m = measured_to_mm / MM_IN_M
    each_m2 = [face.area_m2 / zone.count for face in zone.faces]
    off = sum(2 * error_m * math.sqrt(each) for each in each_m2) / sum(each_m2)
    values = Range(max(0.0, 1 - off), 1.0, 1 + off)
    return Factor(Input("measuring", of=zone.zone.name), values, "piece file")


def share_of_session(zone: ZoneArea, step: Step, zones: Sequence[ZoneArea]) -> float:
    """Return the share of a session that a zone has, where zones share a schedule.

    Zones that get the same step are done in one go, out of one tray, and so are steps that are
    put on together; a coat in another colour is a session of its own. Where nothing of them is
    exposed, each has the same share.
    """
    sharing = [other for other in zones for s in other.zone.steps if is_one_session(s, step)]
    together_m2 = sum(other.area_m2 for other in sharing)
    return zone.area_m2 / together_m2 if together_m2 > 0 else 1 / len(sharing)
