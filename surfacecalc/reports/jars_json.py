"""JSON of what is on hand: how far it goes, and what leftovers make of the mixes they belong to."""

from surfacecalc.model.pieces import Piece
from surfacecalc.needs.jars import Jar
from surfacecalc.reports.exports import pack_data
from surfacecalc.reports.input_words import input_text
from surfacecalc.reports.json_shapes import (
    SCHEMA,
    CoatsData,
    JarData,
    MixData,
    MixedData,
    PartData,
    TinData,
    printed,
)
from surfacecalc.reports.leftover_words import unit_of
from surfacecalc.supplies.parts_on_hand import MixOnHand, PartJar
from surfacecalc.units.display import Units


def jars_json(piece: Piece, found: list[Jar], mixes: list[MixOnHand]) -> str:
    """Return how far what is on hand goes as one JSON object: L and kg, chances from 0 to 1."""
    asked = [*found, *(mix.by_recipe for mix in mixes)]
    return printed(
        {
            "schema": SCHEMA,
            "piece": piece.settings.name,
            "count": piece.settings.count,
            "confidence": max((jar.confidence for jar in asked), default=piece.settings.buy_for),
            "jars": [_jar(jar) for jar in found],
            "mixes": [_mix(mix) for mix in mixes],
        }
    )


def _jar(jar: Jar) -> JarData:
    return {
        "supply": jar.product.name,
        "unit": unit_of(jar.product),
        "on_hand": jar.product.on_hand,
        "sure_coats": jar.sure_coats,
        "will_do": jar.will_do,
        "assumed": _assumed_of(jar),
        "coats": _coats(jar),
    }


def _coats(jar: Jar) -> list[CoatsData]:
    return [
        {
            "coats": reach.coats,
            "likely": reach.likely,
            "buy_for": reach.buy_for,
            "chance": reach.chance,
        }
        for reach in jar.reaches
    ]


def _mix(mix: MixOnHand) -> MixData:
    return {
        "supply": mix.mix.name,
        "unit": unit_of(mix.mix),
        "on_hand": mix.mix.on_hand,
        "batch": mix.batch,
        "makes_whole_batch": mix.makes_whole_batch,
        "limited_by": mix.limited_by.name,
        "parts": [_part(part) for part in mix.parts],
        "by_recipe": _mixed(mix.made, mix.by_recipe),
        "poured": None if mix.together is None else _mixed(mix.poured, mix.together),
        "one_tin": _tin(mix),
        "assumed": _assumed_of(mix.by_recipe),
    }


def _part(part: PartJar) -> PartData:
    return {
        "supply": part.product.name,
        "unit": unit_of(part.product),
        "on_hand": part.product.on_hand,
        "other_uses": part.elsewhere,
        "for_mix": part.free,
        "whole_batch": part.needed,
        "missing": part.missing,
    }


def _mixed(made: float, jar: Jar) -> MixedData:
    return {
        "made": made,
        "on_hand": jar.product.on_hand,
        "sure_coats": jar.sure_coats,
        "will_do": jar.will_do,
        "coats": _coats(jar),
    }


def _tin(mix: MixOnHand) -> TinData | None:
    if mix.one_tin is None:
        return None
    product, pack = mix.one_tin
    return {"supply": product.name, "pack": pack_data(pack, 1, unit_of(product))}


def _assumed_of(jar: Jar) -> list[str]:
    return [input_text(factor, Units.METRIC) for factor in jar.assumed]
