"""A piece as its file describes it, checked, with every default filled in.

Lengths of parts are kept in the parts themselves; coverages are m2/L or m2/kg, amounts L or kg,
shares fractions of one.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from shapes.parts import FaceKey, Part
from surfacecalc.ranges import Factor

Method = Literal["brush", "roller", "cloth", "spray"]
Surface = Literal["bare", "sealed", "varnished", "painted"]
Basis = Literal["volume", "weight"]


@dataclass(frozen=True)
class Pack:
    """A size in which a supply is sold.

    Attributes:
        size: L, kg or a count.
        text: the size as it was written; empty for a count.
        price: for one, None where unknown.
    """

    size: float
    text: str
    price: Decimal | None


@dataclass(frozen=True)
class Product:
    """A product that is sold by volume or by weight.

    Attributes:
        name: its name.
        kind: its generic class.
        family: what the class belongs to: paint, stain, wax ...
        basis: whether it is sold by volume or by weight.
        coverage: what its coverage is worked out from: one factor (m2/L or m2/kg), or volume
            solids (a share) and dry film (um); empty for a thinner.
        packs: the sizes it is sold in.
        on_hand: what is there already [L or kg].
        thinner: name of the product it is thinned with, None where it is not said.
        line: where it stands.
    """

    name: str
    kind: str
    family: str
    basis: Basis
    coverage: tuple[Factor, ...]
    packs: tuple[Pack, ...]
    on_hand: float
    thinner: str | None
    line: int


@dataclass(frozen=True)
class Abrasive:
    """An abrasive that is sold by the piece, grit by grit.

    Attributes:
        name: its name.
        form: its form and size.
        life: area one lasts [m2], by grit.
        packs: the counts it is sold in.
        on_hand: how many are there, by grit.
        line: where it stands.
    """

    name: str
    form: str
    life: Mapping[int, Factor]
    packs: tuple[Pack, ...]
    on_hand: Mapping[int, int]
    line: int


@dataclass(frozen=True)
class Sand:
    """Sanding with one grit after another, one pass each."""

    grits: tuple[int, ...]
    abrasive: str
    line: int


@dataclass(frozen=True)
class Coat:
    """Coats of a product.

    Attributes:
        product: its name.
        coats: how many.
        by: how it is put on.
        loss: share of what is used that never lands on the piece.
        allowance: extra for touch-up and the tin's walls.
        first_coat: share of its coverage that a coat reaches on a bare surface.
        thin: thinner by volume of the product, None for none.
        line: where the step stands.
    """

    product: str
    coats: Factor
    by: Method
    loss: Factor
    allowance: Factor
    first_coat: Factor
    thin: Factor | None
    line: int


Step = Sand | Coat


@dataclass(frozen=True)
class Zone:
    """Faces that get the same finish.

    Attributes:
        name: its name.
        selectors: what names its faces.
        surface: what it is like before the first step; None only where it is left as it is.
        leave: whether it is kept as it is.
        steps: its finish schedule, in order.
        line: where it stands.
    """

    name: str
    selectors: tuple[str, ...]
    surface: Surface | None
    leave: bool
    steps: tuple[Step, ...]
    line: int


@dataclass(frozen=True)
class Settings:
    """What [piece] says.

    Attributes:
        name: the piece's name.
        unit: unit of bare lengths in the file.
        gap_mm: air narrower than this counts as touching [mm].
        buy_for: the point of a need that is bought for, a fraction of one.
        built: the year it was made, "unknown", or None where the file does not say.
        currency: code of the prices' currency, None where the file does not say.
    """

    name: str
    unit: str
    gap_mm: float
    buy_for: float
    built: int | Literal["unknown"] | None
    currency: str | None


@dataclass(frozen=True)
class Piece:
    """A piece and everything its file says.

    Attributes:
        settings: what [piece] says.
        parts: its parts, rows and corners spelled out.
        part_lines: line of each part, by name.
        zones: its zones, in the order of the file.
        zone_of: the zone of each face that has one.
        products: by name.
        abrasives: by name.
    """

    settings: Settings
    parts: tuple[Part, ...]
    part_lines: Mapping[str, int]
    zones: tuple[Zone, ...]
    zone_of: Mapping[FaceKey, str]
    products: Mapping[str, Product]
    abrasives: Mapping[str, Abrasive]
