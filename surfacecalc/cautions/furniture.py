"""Cautions on the piece in use: lids, tipping over, children, food."""

from collections.abc import Iterator

from shapes.parts import Part
from surfacecalc.cautions import caution_texts, storage
from surfacecalc.cautions.caution import Caution
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor
from surfacecalc.model.step_facts import coat_left
from surfacecalc.problems import listing
from surfacecalc.units.display import Units, format_length
from surfacecalc.zones.areas import Measured

MM3_IN_FT3 = 304.8**3
MM3_IN_L = 1e6
LEAST_CHEST_MM3 = 1.1 * MM3_IN_FT3
"""1.1 ft3, from which ASTM F2598 (and F834 for toy chests) counts a chest."""
TIP_OVER_MM = 685.8
"""27 in, from which 16 CFR 1261 (ASTM F2057-23) counts a clothing storage unit."""
LEAST_STORAGE_MM3 = 3.2 * MM3_IN_FT3
"""3.2 ft3 of enclosed storage, from the same rule."""
LEAST_WEIGHT_KG = 13.61
"""30 lb, from the same rule."""
HEAVIEST_WOOD_KG_PER_L = 1.0
"""Hardly any wood of furniture is heavier than water: common practice."""
USUAL_CURE_DAYS = 30
"""An often repeated rule for a full cure: common practice."""
HOURS_IN_DAY = 24


def lid(piece: Piece, measured: Measured) -> Caution | None:
    """Apply to a lid over 1.1 ft3 or more, and where the space under it may be that large."""
    lids = storage.lids(piece.parts)
    space_mm3, is_upper_bound = storage.under_lids_mm3(piece.parts) if lids else (0.0, False)
    if space_mm3 < LEAST_CHEST_MM3:
        return None
    most = "at most " if is_upper_bound else ""
    size = f"{most}{_volume(space_mm3, piece)} under {_names(lids)}"
    return caution_texts.LID.applied(
        f"{size}; the rule applies from {_volume(LEAST_CHEST_MM3, piece)} up"
    )


def tip_over(piece: Piece, measured: Measured) -> Caution | None:
    """Apply from 27 in with drawers or doors, unless storage or weight is surely below the rule."""
    height_mm = _height_mm(piece, measured)
    parts = [part for part in piece.parts if storage.is_drawer(part) or storage.is_door(part)]
    if not parts or height_mm < TIP_OVER_MM or piece.settings.is_built_in:
        return None
    stored, wood = storage.stored_mm3(piece.parts), storage.wood_mm3(piece.parts)
    if stored is not None and stored < LEAST_STORAGE_MM3:
        return None
    if wood is not None and wood / MM3_IN_L * HEAVIEST_WOOD_KG_PER_L < LEAST_WEIGHT_KG:
        return None
    units = Units.of(piece.settings.unit)
    rule = f"{format_length(TIP_OVER_MM, units)} and {_volume(LEAST_STORAGE_MM3, piece)}"
    return caution_texts.TIP_OVER.applied(
        f"{format_length(height_mm, units)} high, {_held(parts, stored, piece)}; the rule applies"
        f" from {rule} up"
    )


def tall_shelves(piece: Piece, measured: Measured) -> Caution | None:
    """Apply to a bookcase as tall as the rule for drawers, which says nothing of open shelves."""
    height_mm = _height_mm(piece, measured)
    if piece.settings.kind != "bookcase" or piece.settings.is_built_in:
        return None
    if height_mm < TIP_OVER_MM or tip_over(piece, measured) is not None:
        return None
    height = format_length(height_mm, Units.of(piece.settings.unit))
    return caution_texts.TALL_SHELVES.applied(f"a bookcase {height} high")


def _held(parts: list[Part], stored_mm3: float | None, piece: Piece) -> str:
    """Return what drawers and doors hold; a door holds nothing itself, so the space behind it."""
    drawers = {_title(part) for part in parts if storage.is_drawer(part)}
    doors = {_title(part) for part in parts if storage.is_door(part)}
    where = []
    if drawers:
        where.append(f"in its drawer{'s' * (len(drawers) > 1)}")
    if doors:
        where.append(f"behind its door{'s' * (len(doors) > 1)}")
    places = " and ".join(where)
    if stored_mm3 is None:
        return f"the space {places} is not known from the parts"
    half = " (space behind doors counts half, as in the rule)" if doors else ""
    return f"holds {_volume(stored_mm3, piece)} {places}{half}"


def nursery(piece: Piece, measured: Measured) -> Caution | None:
    """Apply to a piece that a child will use."""
    if "nursery" not in piece.settings.made_for:
        return None
    return caution_texts.NURSERY.applied("made for a nursery").adding(_cure(piece))


def food(piece: Piece, measured: Measured) -> Caution | None:
    """Apply to a piece that food touches."""
    if "food" not in piece.settings.made_for:
        return None
    return caution_texts.FOOD.applied("made for food").adding(_cure(piece))


def _cure(piece: Piece) -> str:
    """Return how long the slowest product cures, and where nothing is known the usual rule."""
    known = dict(_cures(piece))
    if not known:
        return (
            "No product here says how long it takes to cure: allow"
            f" {USUAL_CURE_DAYS} days (common practice)."
        )
    name, cure = max(known.items(), key=lambda item: item[1].range.high)
    days = cure.range.high / HOURS_IN_DAY
    source = "assumed" if cure.source == "assumed" else "as its label says"
    if cure.source == "published":
        source = "published for its kind"
    return f'The slowest to cure here is "{name}": {days:.3g} days ({source}).'


def _cures(piece: Piece) -> Iterator[tuple[str, Factor]]:
    for zone in piece.zones:
        for step in zone.steps:
            coat = coat_left(step)
            if coat is not None:
                product = piece.shelf.products[coat.product]
                if product.drying is not None:
                    yield product.name, product.drying.cure_h


def _height_mm(piece: Piece, measured: Measured) -> float:
    """Return the height of the joined parts, or of the tallest part where all are loose."""
    tallest = max((part.solid.size_mm[2] for part in piece.parts), default=0.0)
    return measured.size_mm[2] or tallest


def _names(parts: list[Part]) -> str:
    return listing(sorted({f'"{_title(part)}"' for part in parts}), 3)


def _title(part: Part) -> str:
    """Return the name of a part, or of what it is joined to off the piece."""
    return part.loose if isinstance(part.loose, str) else part.name


def _volume(mm3: float, piece: Piece) -> str:
    if Units.of(piece.settings.unit) is Units.US:
        return f"{mm3 / MM3_IN_FT3:.1f} cu ft"
    return f"{mm3 / MM3_IN_L:.0f} L"
