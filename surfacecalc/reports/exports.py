"""JSON for other programs. Metric whatever the screen shows; nothing is left out."""

import json
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, cast

from shapes.exposure import NearMiss
from surfacecalc.cautions import Caution
from surfacecalc.gear.needed_too import NeededToo
from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import Pack, SupplyKey
from surfacecalc.problems import Problem
from surfacecalc.reports.area_shapes import AirData, FaceData, FileData
from surfacecalc.reports.arithmetic import AsWritten, why
from surfacecalc.reports.input_words import input_text
from surfacecalc.reports.json_shapes import (
    SCHEMA,
    CautionData,
    LargerChoiceData,
    MoreCoatsData,
    NeededTooData,
    PackData,
    PieceNeedData,
    SupplyData,
    printed,
)
from surfacecalc.supplies.all_enough import chance_all_lasts
from surfacecalc.supplies.jumps import jumps
from surfacecalc.supplies.larger_packs import larger_choice
from surfacecalc.supplies.shopping import Supply, total_cost, unpriced
from surfacecalc.units.display import Units
from surfacecalc.units.money import json_number
from surfacecalc.zones.areas import MM2_IN_M2, FaceArea, Measured

if TYPE_CHECKING:  # of no use to the other lists, which start sooner without them
    from surfacecalc.supplies.together import Trip


def problems_json(problems: Iterable[Problem]) -> str:
    """Return problems as one JSON object."""
    return printed(
        {
            "schema": SCHEMA,
            "problems": [
                {
                    "level": problem.level,
                    "file": problem.file or None,
                    "line": problem.line,
                    "where": problem.where,
                    "message": problem.message,
                }
                for problem in problems
            ],
        }
    )


def areas_json(piece: Piece, measured: Measured) -> str:
    """Return areas as one JSON object: m2, m and mm."""
    return printed(
        {
            "schema": SCHEMA,
            "piece": piece.settings.name,
            "count": piece.settings.count,
            "size_mm": list(measured.size_mm),
            "exposed_m2": measured.exposed_m2,
            "exposed_each_m2": measured.one.exposed_m2,
            "zones": [
                {
                    "zone": zone.zone.name,
                    "area_m2": zone.area_m2,
                    "area_each_m2": each.area_m2,
                    "labour_m2": zone.labour_m2,
                    "by_hand_m2": zone.by_hand_m2,
                    "leave": zone.zone.leave,
                    "meets_m": zone.meets_m,
                    "faces": _faces(zone.faces),
                }
                for zone, each in zip(measured.zones, measured.one.zones, strict=True)
            ],
            "in_no_zone": {
                "area_m2": measured.in_no_zone_m2,
                "faces": _faces(measured.in_no_zone),
            },
            "closed": [_near_miss(miss) for miss in measured.closed],
            "gaps": [_near_miss(miss) for miss in measured.gaps],
        }
    )


def files_json(answers: Iterable[tuple[str, str]]) -> str:
    """Return one JSON object of the objects printed for several files, each with its file."""
    files = [cast(FileData, {"file": file, **json.loads(text)}) for file, text in answers]
    return printed({"schema": SCHEMA, "files": files})


def supplies_json(
    piece: Piece, supplies: list[Supply], found: list[Caution], too: Sequence[NeededToo] = ()
) -> str:
    """Return the supply list and the cautions as one JSON object: L, kg, m, m2 and pieces."""
    by_coats = _by_coats(piece, supplies)
    return printed(
        {
            "schema": SCHEMA,
            "piece": piece.settings.name,
            "count": piece.settings.count,
            "currency": piece.settings.currency,
            "total_cost": json_number(total_cost(supplies)),
            "unpriced": unpriced(supplies),
            "chance_all_lasts": chance_all_lasts(supplies),
            "supplies": [_supply(piece, supply, by_coats) for supply in supplies],
            "needed_too": [_needed_too(one) for one in too],
            "cautions": cautions_data(found),
        }
    )


def trip_json(trip: "Trip", found: list[Caution], too: Sequence[NeededToo] = ()) -> str:
    """Return one list for several pieces as one JSON object, with what each piece takes."""
    by_coats = _by_coats(trip.piece, trip.supplies)
    return printed(
        {
            "schema": SCHEMA,
            "pieces": list(trip.pieces),
            "counts": list(trip.counts),
            "currency": trip.piece.settings.currency,
            "total_cost": json_number(total_cost(trip.supplies)),
            "unpriced": unpriced(trip.supplies),
            "chance_all_lasts": chance_all_lasts(trip.supplies),
            "remarks": list(trip.remarks),
            "supplies": [
                {
                    **_supply(trip.piece, supply, by_coats, trip.as_written),
                    "by_piece": _by_piece(trip, supply),
                }
                for supply in trip.supplies
            ],
            "needed_too": [_needed_too(one) for one in too],
            "cautions": cautions_data(found),
        }
    )


def _by_piece(trip: "Trip", supply: Supply) -> list[PieceNeedData]:
    return [{"piece": label, "buy_for": amount} for label, amount in trip.taken(supply).items()]


def _needed_too(one: NeededToo) -> NeededTooData:
    price = one.pack.price if one.pack else None
    return {
        "name": one.name,
        "uses": list(one.uses),
        "on_hand": one.on_hand,
        "count": int(one.pack.size) if one.pack else None,
        "price": json_number(price),
    }


def cautions_data(found: list[Caution]) -> list[CautionData]:
    """Return cautions as a JSON list."""
    return [
        {
            "headline": caution.headline,
            "text": caution.text,
            "source": "; ".join(caution.sources),
            "because": caution.applies_to,
            "sources": list(caution.sources),
        }
        for caution in found
    ]


def _by_coats(piece: Piece, supplies: list[Supply]) -> dict[SupplyKey, MoreCoatsData]:
    """Return what is bought for fewer coats and what for one more, by supply."""
    return {
        jump.supply.key: {
            "coats": jump.coats,
            "zones": list(jump.zones),
            "fewer": _packs(jump.supply, jump.fewer),
            "more": _packs(jump.supply, jump.more),
            "later": _packs(jump.supply, jump.later),
        }
        for jump in jumps(piece, supplies)
    }


def _larger(piece: Piece, supply: Supply) -> LargerChoiceData | None:
    found = larger_choice(piece, supply)
    if found is None:
        return None
    return {
        "buy": _packs(supply, found.buy),
        "costs_more": float(found.more),
        "holds_times": found.times,
    }


def _supply(
    piece: Piece,
    supply: Supply,
    by_coats: dict[SupplyKey, MoreCoatsData],
    as_written: AsWritten | None = None,
) -> SupplyData:
    need = supply.need
    return {
        "supply": supply.name,
        "kind": supply.kind,
        "grit": supply.grit,
        "unit": supply.unit,
        "need": {
            "low": need.low,
            "likely": need.likely,
            "high": need.high,
            "buy_for": need.buy_for,
            "bought_at": None if supply.is_exact else need.bought_at,
        },
        "by_zone": [{"zone": zone, "likely": amount} for zone, amount in supply.by_zone.items()],
        "on_hand": supply.on_hand,
        "buy": _packs(supply, supply.buy),
        "mixed": supply.mixed,
        "cost": json_number(supply.cost),
        "left_over": supply.left_over,
        "larger": _larger(piece, supply),
        "more_coats": by_coats.get(supply.key),
        "why": [line.text for line in why(piece, supply, Units.METRIC, as_written)],
        "assumed": _assumed(supply),
    }


def _packs(supply: Supply, buy: tuple[tuple[Pack, int], ...]) -> list[PackData]:
    return [pack_data(pack, count, supply.unit) for pack, count in buy]


def pack_data(pack: Pack, count: int, unit: str) -> PackData:
    """Return packs of one size."""
    return {"size": pack.size, "unit": unit, "count": count, "price": json_number(pack.price)}


def _assumed(supply: Supply) -> list[str]:
    return [input_text(factor, Units.METRIC) for factor in supply.assumed]


def _faces(faces: Iterable[FaceArea]) -> list[FaceData]:
    return [{"part": face.part, "face": face.face, "area_m2": face.area_m2} for face in faces]


def _near_miss(miss: NearMiss) -> AirData:
    return {
        "part": miss.face[0],
        "face": miss.face[1],
        "other_part": miss.other[0],
        "other_face": miss.other[1],
        "distance_mm": miss.distance_mm,
        "area_m2": miss.area_mm2 / MM2_IN_M2,
    }
