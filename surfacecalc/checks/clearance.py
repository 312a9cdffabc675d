"""Notes on films where things must slide: how thick they are."""

from collections.abc import Iterator

from shapes.parts import Part
from surfacecalc.catalogue.entries import solids_share
from surfacecalc.cautions.storage import DRAWER_FACES
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.ranges import likely
from surfacecalc.model.shelf import Product
from surfacecalc.model.step_facts import coats_of
from surfacecalc.model.steps import Coat
from surfacecalc.needs.coating import coat_count
from surfacecalc.needs.coverage import FILM_M2_PER_L_UM, coverage
from surfacecalc.problems import Problem, listing
from surfacecalc.units.display import Units
from surfacecalc.units.known import factor
from surfacecalc.zones.areas import Measured, ZoneArea
from surfacecalc.zones.worked_surfaces import forms_film

UM_IN_MM = 1_000.0
SLIDING = ("left", "right")


def is_drawer(part: Part) -> bool:
    """Whether a part is a drawer, or comes out as one does."""
    return not part.is_joined and set(part.solid.faces) == DRAWER_FACES


def check_sliding_film(piece: Piece, measured: Measured) -> Iterator[Problem]:
    """Yield zones whose film goes on the sides of drawers, with how thick it is."""
    drawers = {part.name for part in piece.parts if is_drawer(part)}
    for zone in measured.zones:
        sides = [f"{part}.{face}" for part, face in _sliding(zone, drawers)]
        film_mm = sum(_films_mm(piece, zone.zone)) if sides else 0.0
        if film_mm > 0:
            message = (
                f"the film makes {listing(sides, 2)} about {_thin(film_mm, piece)} thicker"
                f" on each side, {_thin(2 * film_mm, piece)} in total: check that the drawer still"
                f" clears, or list those faces under no_film{_assumed(piece, zone.zone)}"
            )
            yield Problem("note", zone.zone.line, f'zone "{zone.zone.name}"', message)


def _assumed(piece: Piece, zone: Zone) -> str:
    """Return what a thickness assumes."""
    products = [piece.shelf.products[step.product] for step in _films(piece, zone)]
    if all(len(product.coverage) == 2 for product in products):
        return ""
    return " (how much of it is left when dry is assumed)"


def _thin(thickness_mm: float, piece: Piece) -> str:
    """Return a thickness as finely as anyone can feel it."""
    if Units.of(piece.settings.unit) is Units.US:
        return f"{thickness_mm / float(factor('in')):.3f} in"
    return f"{thickness_mm:.2f} mm"


def _sliding(zone: ZoneArea, drawers: set[str]) -> list[tuple[str, str]]:
    return [
        (face.part, face.face)
        for face in zone.faces
        if face.part in drawers
        and face.face in SLIDING
        and face.area_m2 > 0
        and (face.part, face.face) not in zone.zone.uneven.no_film
    ]


def _films_mm(piece: Piece, zone: Zone) -> Iterator[float]:
    """Yield the dry film of each step that leaves one on the whole zone [mm]."""
    for step in _films(piece, zone):
        yield float(coat_count(step, likely)) * _dry_film_mm(piece.shelf.products[step.product])


def _films(piece: Piece, zone: Zone) -> Iterator[Coat]:
    """Yield the steps that leave a film on the whole zone."""
    for coat in coats_of(zone.steps):
        is_whole = coat.hardware is None and coat.spot is None
        if is_whole and forms_film(piece.shelf.products[coat.product]):
            yield coat


def _dry_film_mm(product: Product) -> float:
    if len(product.coverage) == 2:
        return product.coverage[1].range.likely / UM_IN_MM
    wet_um = FILM_M2_PER_L_UM / float(coverage(product, likely))
    return wet_um * solids_share(product.family).likely / UM_IN_MM
