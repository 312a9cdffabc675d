"""Pieces built as a frame on legs: tables, desks, benches, chairs.

Rails reach into the legs as far as their middle, as tenons do: what is sunk is hidden. What is not
measured follows common practice and is noted in a comment of the file.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from surfacecalc.starting.layouts.case_layouts import PLAY, ZERO, drawer
from surfacecalc.starting.measurements import Sizes
from surfacecalc.starting.part_blocks import Block, row

Step = tuple[Fraction, Fraction, Fraction]
"""How far apart two parts of a row are, along x, y and z [mm]."""


def table(s: Sizes) -> Iterator[Block]:
    """Yield a top on four legs, with or without aprons."""
    yield from _top_on_legs(s, "top")
    yield from _aprons(s)


def bench(s: Sizes) -> Iterator[Block]:
    """Yield a seat on four legs, with or without aprons."""
    yield from _top_on_legs(s, "seat")
    yield from _aprons(s)


def desk(s: Sizes) -> Iterator[Block]:
    """Yield a table that may have drawers side by side in place of its front apron."""
    yield from _top_on_legs(s, "top")
    drawers = s.count("drawers")
    if not drawers:
        yield from _aprons(s)
        return
    yield from _aprons(s, with_front=False)
    yield from _drawers_in_front(s, drawers)


def _top_on_legs(s: Sizes, name: str) -> Iterator[Block]:
    thick = s["top-thickness"]
    yield Block(
        name,
        "board",
        {
            "width": s["width"],
            "depth": s["depth"],
            "height": thick,
            "at": (ZERO, ZERO, s["height"] - thick),
        },
        {name: (), "underside": ("bottom",)},
    )
    across, foot = s["leg-thickness"], s["foot-thickness"]
    tapered = {"form": "tapered"} if foot < across else {}
    yield Block(
        "leg",
        "leg",
        {
            **tapered,
            "height": s["height"] - thick,
            "width": across,
            **({"foot": foot} if tapered else {}),
            "corners": {"of": name, "set_in": s["overhang"]},
        },
        {"base": (), "underside": ("bottom",)},
        "Square. A turned leg: surfacecalc guide parts",
    )


def _thickness(s: Sizes) -> Fraction:
    """Return the thickness of rails between legs [mm]."""
    return min(s.common("3/4"), s.part_of(s["leg-thickness"], 2))


@dataclass(frozen=True)
class Rails:
    """Rails from leg to leg on all sides.

    Attributes:
        name: what they are called.
        zone: their zone.
        set_in: of the legs from the edges [mm].
        low: of their lower edges above the floor [mm].
        high: from their lower to their upper edge [mm].
        levels: how many one above the other.
        apart: from one level to the next [mm].
        with_front: whether there are any in front.
        with_inside: whether their inside faces are in their zone; else with the underside.
    """

    name: str
    zone: str
    set_in: Fraction
    low: Fraction
    high: Fraction
    levels: int = 1
    apart: Fraction = ZERO
    with_front: bool = True
    with_inside: bool = True


def _aprons(s: Sizes, *, with_front: bool = True) -> Iterator[Block]:
    high = s["apron"]
    if high:
        low = s["height"] - s["top-thickness"] - high
        inside = bool(s.count("apron-inside"))
        apron = Rails(
            "apron", "base", s["overhang"], low, high, with_front=with_front, with_inside=inside
        )
        yield from _rails_round(s, apron)


def _rails_round(s: Sizes, rails: Rails) -> Iterator[Block]:
    thick, leg = _thickness(s), s["leg-thickness"]
    end = rails.set_in + s.part_of(leg, 2)
    side = rails.set_in + s.part_of(leg - thick, 2)
    keys = {"width": s["width"] - 2 * end, "depth": thick, "height": rails.high}
    near = (end, side, rails.low), "front", "back"
    far = (end, s["depth"] - side - thick, rails.low), "back", "front"
    comment = "It reaches to the middle of the legs, as a tenon does."
    yield from _facing(rails, "long", keys, [near, far] if rails.with_front else [far], comment)
    keys = {"width": thick, "depth": s["depth"] - 2 * end, "height": rails.high}
    left = (side, end, rails.low), "left", "right"
    right = (s["width"] - side - thick, end, rails.low), "right", "left"
    yield from _facing(rails, "side", keys, [left, right])


def _facing(
    rails: Rails,
    sort: str,
    keys: dict[str, Any],
    places: list[tuple[Step, str, str]],
    comment: str = "",
) -> Iterator[Block]:
    """Yield the rails of opposite sides: as one row, or each alone where its inside is apart.

    Args:
        rails: the rails.
        sort: what both are called where they are one row.
        keys: their sizes.
        places: where each is [mm], on which side of the piece, and which of its faces is inside.
        comment: a comment above the first.
    """
    if rails.with_inside and len(places) == 2:
        aside = [far - near for near, far in zip(places[0][0], places[1][0], strict=True)]
        place = {"at": places[0][0], **_pair((aside[0], aside[1], aside[2]), rails)}
        yield Block(f"{sort} {rails.name}", "board", {**keys, **place}, {rails.zone: ()}, comment)
        return
    for at, where, inner in places:
        zones: dict[str, tuple[str, ...]] = {rails.zone: ()}
        if not rails.with_inside:
            zones["underside"] = (inner,)
        yield Block(f"{where} {rails.name}", "board", {**keys, "at": at}, zones, comment)
        comment = ""


def _pair(aside: Step, rails: Rails) -> dict[str, Any]:
    """Return the row of two rails, on one level or on several."""
    if rails.levels == 1:
        return row(2, aside)
    return {"row": {"of": (2, rails.levels), "apart": (aside, (ZERO, ZERO, rails.apart))}}


def _drawers_in_front(s: Sizes, drawers: int) -> Iterator[Block]:
    """Yield a rail above and one below the drawers, uprights between them, and the drawers."""
    high, leg, thick = s["apron"], s["leg-thickness"], _thickness(s)
    rail = min(s.common("3/4"), s.part_of(high, 4))
    low = s["height"] - s["top-thickness"] - high
    end, front = s["overhang"] + s.part_of(leg, 2), s["overhang"] + s.part_of(leg - thick, 2)
    keys = {"width": s["width"] - 2 * end, "depth": thick, "height": rail, "at": (end, front, low)}
    comment = "One above and one below the drawers. The thickness is common practice."
    steps = row(2, (ZERO, ZERO, high - rail))
    yield Block("front rail", "board", {**keys, **steps}, {"base": ()}, comment)
    between = s["width"] - 2 * (s["overhang"] + leg)
    wide = s.part_of(between - (drawers - 1) * rail, drawers)
    if drawers > 1:
        at = (s["overhang"] + leg + wide, front, low + rail)
        keys = {"width": rail, "depth": thick, "height": high - 2 * rail, "at": at}
        steps = row(drawers - 1, (wide + rail, ZERO, ZERO))
        yield Block("upright", "board", {**keys, **steps}, {"base": ()}, "Between the drawers.")
    play = s.common(PLAY)
    deep = s["depth"] - 2 * s["overhang"] - leg - s.common("1")
    size = wide - play, deep, high - 2 * rail - play
    yield drawer(s, size, row(drawers, (wide + rail, ZERO, ZERO)))


def chair(s: Sizes) -> Iterator[Block]:
    """Yield a seat on front legs and back posts, its rails and rungs, and its back."""
    thick, leg, back = s["top-thickness"], s["leg-thickness"], s["back-height"]
    under = s["height"] - thick
    at = (ZERO, ZERO, under)
    keys = {"width": s["width"], "depth": s["depth"], "height": thick, "at": at}
    yield Block("seat", "board", keys, {"seat": (), "underside": ("bottom",)})
    pair = row(2, (s["width"] - leg, ZERO, ZERO))
    zones = {"frame": (), "underside": ("bottom",)}
    keys = {"height": under, "width": leg, **pair}
    yield Block("front leg", "leg", keys, zones, "Square. A turned leg: surfacecalc guide parts")
    high = s["height"] + back if back else under
    keys = {"height": high, "width": leg, "at": (ZERO, s["depth"] - leg, ZERO), **pair}
    yield Block(
        "back post", "leg", keys, zones, "Goes straight up through the seat." if back else ""
    )
    yield from _seat_rails(s, under)
    if back:
        yield from _chair_back(s, back)


def _seat_rails(s: Sizes, under: Fraction) -> Iterator[Block]:
    high, rungs = s["apron"], s.count("rungs")
    if high:
        yield from _rails_round(s, Rails("seat rail", "frame", ZERO, under - high, high))
    if rungs:
        pitch = s.part_of(under - high, rungs + 1)
        thick = min(_thickness(s), s.part_of(under - high, 3 * rungs))
        yield from _rails_round(s, Rails("rung", "frame", ZERO, pitch, thick, rungs, pitch))


def _chair_back(s: Sizes, back: Fraction) -> Iterator[Block]:
    leg, thick, slats = s["leg-thickness"], _thickness(s), s.count("slats")
    end, crest = s.part_of(leg, 2), s["top-rail"]
    top = s["height"] + back
    if crest:
        at = (end, s["depth"] - leg + s.part_of(leg - thick, 2), top - crest)
        keys = {"width": s["width"] - 2 * end, "depth": thick, "height": crest, "at": at}
        yield Block("top rail", "board", keys, {"frame": ()}, "From post to post.")
    if slats:
        between = s["width"] - 2 * leg
        wide = min(s.common("2"), s.part_of(between, 2 * slats + 1))
        air = s.part_of(between - slats * wide, slats + 1)
        deep = s.part_of(thick * 2, 3)
        at = (leg + air, s["depth"] - leg + s.part_of(leg - deep, 2), s["height"])
        keys = {"width": wide, "depth": deep, "height": back - crest, "at": at}
        steps = row(slats, (wide + air, ZERO, ZERO))
        comment = "Upright and evenly spaced. The width and thickness are common practice."
        yield Block("slat", "board", {**keys, **steps}, {"frame": ()}, comment)
