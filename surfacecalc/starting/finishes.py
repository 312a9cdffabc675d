"""Zones of a new piece, the ways to finish them, and what each way takes.

Steps, coats and grits are common practice; a user changes them where a label says
otherwise. Products are generic, their coverage is left to the catalogue.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Literal

LEAVE = "leave"
FINISHES = {
    "paint": "painted",
    "stain": "stained and clear-coated",
    "clear": "clear-coated: varnish only, no colour",
    "oil": "oiled",
    "wax": "waxed",
    LEAVE: "no new finish",
}
AS_IN_FILE = "as in the file"
"""How a zone is finished whose finish somebody wrote by hand; nobody is asked about it."""
CONDITIONS = {
    "bare": "bare wood",
    "sealed": "sealed with shellac or sanding sealer",
    "varnished": "varnished, lacquered, oiled or waxed",
    "painted": "painted",
}
STRIPPING = {
    "stripper": "with a chemical stripper, brushed on and scraped off wet: makes no dust",
    "sanding": "by sanding: only where a test has shown no lead",
}
"""How an old finish comes off."""
NEED_BARE_WOOD = ("stain", "oil")
"""Finishes that soak in: what is on the wood has to come off first."""


@dataclass(frozen=True)
class ZoneKind:
    """A zone that pieces have.

    Attributes:
        meaning: which faces it is.
        is_hidden: whether it is usually left as it is.
    """

    meaning: str
    is_hidden: bool = False


ZONES: Mapping[str, ZoneKind] = {
    "outside": ZoneKind("the outside of the case, its front edges and its legs"),
    "top": ZoneKind("the top and its edges"),
    "lid": ZoneKind("the lid and its edges; its underside belongs to the inside"),
    "seat": ZoneKind("the seat and its edges"),
    "front": ZoneKind("the front and the edges"),
    "base": ZoneKind("the legs and the rails between them"),
    "frame": ZoneKind("legs, posts, rails, rungs and slats"),
    "doors": ZoneKind("the doors, except their inside faces"),
    "drawer fronts": ZoneKind("the fronts of the drawers and their edges"),
    "inside and shelves": ZoneKind("the inside of the case and the shelves"),
    "inside": ZoneKind("the inside, and the faces you see when it is open"),
    "behind the drawers": ZoneKind("the inside of the case, behind the drawers", is_hidden=True),
    "inside of the drawers": ZoneKind("the boxes of the drawers, inside and out", is_hidden=True),
    "back and underside": ZoneKind("the back, the bottom and the feet", is_hidden=True),
    "underside": ZoneKind("the underside, and the bottoms of the legs", is_hidden=True),
    "back": ZoneKind("the back", is_hidden=True),
    "fronts": ZoneKind("the front faces, with the edges if you finish them"),
    "inside faces": ZoneKind("the faces you see when the doors and drawers are open"),
    "faces left alone": ZoneKind("the faces you said you do not finish", is_hidden=True),
    "surface": ZoneKind("the whole model"),
}
"""Every zone; questions and files have them in this order."""
OUTSIDE = "outside"
OUTSIDE_UNDER = {
    "top": "the outside of the case under its top: sides, front edges, legs",
    "lid": "the outside of the box under its lid, and its legs",
}
"""The outside of a case beside the zone of what covers it."""


def meaning_of(zone: str, zones: Collection[str]) -> str:
    """Return which faces a zone of a piece is, beside its other zones."""
    covers = [cover for cover in OUTSIDE_UNDER if cover in zones]
    return OUTSIDE_UNDER[covers[0]] if zone == OUTSIDE and covers else ZONES[zone].meaning


@dataclass(frozen=True)
class Washing:
    """Washing with a product in water.

    Attributes:
        product: the cleaner.
        strength: its share of the water.
    """

    product: str
    strength: str


@dataclass(frozen=True)
class Sanding:
    """Sanding by hand with one grit after another.

    Attributes:
        grits: the grits.
        do: "strip" where the old finish has to come off, so that what follows goes on bare wood.
    """

    grits: tuple[int, ...]
    do: Literal["sand", "strip"] = "sand"


@dataclass(frozen=True)
class Dusting:
    """Taking the dust of sanding off before a coat goes on."""


@dataclass(frozen=True)
class Coats:
    """Coats of a product.

    Attributes:
        product: the product.
        coats: how many.
        by: "brush" or "cloth".
        do: the word of the trade for it.
        denibs: whether it is sanded lightly between the coats.
    """

    product: str
    coats: int
    by: str
    do: Literal["coat", "prime", "stain", "wax", "strip"] = "coat"
    denibs: bool = False


@dataclass(frozen=True)
class ProposedSupply:
    """A product that a new file offers.

    Attributes:
        kind: its generic class.
        us: sizes it is sold in, for a piece in inches.
        metric: the same for a metric piece.
        named_by: what its own name should say to a client, empty for nothing.
    """

    kind: str
    us: tuple[str, ...]
    metric: tuple[str, ...]
    named_by: str = ""


Step = Washing | Sanding | Dusting | Coats

PRODUCTS = {
    "stripper": ProposedSupply("paint stripper", ("1 quart", "1 gallon"), ("750 ml", "2.5 L")),
    "cleaner": ProposedSupply("degreasing cleaner", ("1 pint", "1 quart"), ("500 ml", "1 L")),
    "primer": ProposedSupply(
        "waterborne primer", ("1 quart", "1 gallon"), ("375 ml", "750 ml", "2.5 L")
    ),
    "paint": ProposedSupply(
        "waterborne furniture paint",
        ("1 pint", "1 quart"),
        ("375 ml", "750 ml", "2.5 L"),
        "colour",
    ),
    "stain": ProposedSupply(
        "penetrating stain", ("1/2 pint", "1 quart"), ("250 ml", "750 ml"), "colour"
    ),
    "clear varnish": ProposedSupply(
        "oil varnish", ("1/2 pint", "1 pint", "1 quart"), ("375 ml", "750 ml"), "sheen"
    ),
    "oil": ProposedSupply(
        "hardwax oil", ("1/2 pint", "1 pint", "1 quart"), ("125 ml", "375 ml", "750 ml")
    ),
    "wax": ProposedSupply("paste wax", ("8 oz", "16 oz"), ("150 g", "400 g")),
}
SHEET = "sheet"
SHEET_FORMS = {"us": "9 x 11 in sheet", "metric": "230 x 280 mm sheet"}
SHEETS_IN_A_PACK = (5, 25)


WASH = Washing("cleaner", "3 %")
OLD_FILMS = ("varnished", "painted")
"""Conditions in which polish, wax and the grease of hands have settled on the surface."""
SCUFF = Sanding((220,))
"""Old finish that stays is dulled, so that a clear coat sticks to it."""
STRIP = Sanding((80,), "strip")
BY_STRIPPER = Coats("stripper", 1, "brush", "strip")
DENIB_GRIT = 320
"""Between coats: common practice, from P240 to P360."""


def steps(finish: str, condition: str, stripping: str = "sanding") -> tuple[Step, ...]:
    """Return the steps of a finish on a surface in a condition.

    Args:
        finish: the finish.
        condition: what is on the surface now.
        stripping: how an old finish comes off, where it has to.
    """
    found = (*_preparation(finish, condition, stripping), *_coats(finish, condition))
    dusted: list[Step] = []
    for step in found:
        if dusted and isinstance(dusted[-1], Sanding) and isinstance(step, Coats):
            dusted.append(Dusting())
        dusted.append(step)
    return tuple(dusted)


def is_to_strip(finish: str, condition: str) -> bool:
    """Whether the old finish has to come off before the new one goes on."""
    return finish in NEED_BARE_WOOD and condition != "bare"


def wears_old_finish(finish: str, condition: str) -> bool:
    """Whether an old finish is sanded or stripped."""
    found = _preparation(finish, condition, "sanding")
    return condition != "bare" and any(isinstance(step, Sanding) for step in found)


def _preparation(finish: str, condition: str, stripping: str) -> tuple[Step, ...]:
    """Return what comes before the first coat; grease is washed off before it is sanded in."""
    bare = Sanding((120, 180) if finish in ("paint", "oil") else (120, 180, 220))
    if condition == "bare":
        return (bare,)
    if is_to_strip(finish, condition):
        return (BY_STRIPPER, WASH, bare) if stripping == "stripper" else (STRIP, bare)
    washed = (WASH,) if condition in OLD_FILMS else ()
    on_old_finish: Mapping[str, tuple[Sanding, ...]] = {
        "paint": (Sanding((180, 220)),), "clear": (SCUFF,)
    }  # fmt: skip
    return (*washed, *on_old_finish.get(finish, ()))


def _coats(finish: str, condition: str) -> tuple[Step, ...]:
    if finish == "paint":
        primed = (Coats("primer", 1, "brush", "prime"), Sanding((220,)))
        paint = Coats("paint", 2, "brush", denibs=True)
        return (paint,) if condition == "painted" else (*primed, paint)
    if finish == "clear":
        return (Coats("clear varnish", 3 if condition == "bare" else 2, "brush", denibs=True),)
    if finish == "stain":
        clear = Coats("clear varnish", 3, "brush", denibs=True)
        return Coats("stain", 1, "cloth", "stain"), clear
    return (Coats(finish, 2, "cloth", "wax" if finish == "wax" else "coat"),)
