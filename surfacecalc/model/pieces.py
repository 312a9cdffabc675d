"""A piece as its file describes it, checked, with every default filled in.

Lengths of parts are kept in the parts themselves; coverages are m2/L or m2/kg, amounts L or kg,
shares fractions of one.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from shapes.parts import FaceKey, Part
from surfacecalc.model.pricing import Pricing
from surfacecalc.model.shelf import Shelf
from surfacecalc.model.steps import Step, Uneven
from surfacecalc.model.workshop import Workshop

Surface = Literal["bare", "sealed", "varnished", "painted", "waxed", "oiled", "laminate", "metal"]
NOT_SEALED: tuple[Surface, ...] = ("bare", "oiled")
"""Surfaces that still take something in."""
NO_OLD_COATING: tuple[Surface, ...] = ("bare", "laminate", "metal")
"""Surfaces on which nothing old lies that sanding would set free."""
MadeFor = Literal["nursery", "food"]
LeadAnswer = Literal["none found", "found"]
EARLIEST_YEAR, LATEST_YEAR = 1400, 2100
"""Years in which a piece may have been built. Older furniture is for museums; assumed."""


@dataclass(frozen=True)
class Wood:
    """What a zone is made of, as far as the file says.

    Attributes:
        species: the kind of wood, lower case, such as "oak"; empty where it is not said.
        is_veneer: whether it is veneer.
        veneer_mm: how thick the veneer is [mm], None where it is not said.
    """

    species: str = ""
    is_veneer: bool = False
    veneer_mm: float | None = None


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
        uneven: what makes some of its faces take more or less.
        has_knots: whether its wood has knots or resin streaks; `knots` in the file.
        wood: what it is made of.
    """

    name: str
    selectors: tuple[str, ...]
    surface: Surface | None
    leave: bool
    steps: tuple[Step, ...]
    line: int
    uneven: Uneven = field(default_factory=Uneven)
    has_knots: bool = False
    wood: Wood = field(default_factory=Wood)


@dataclass(frozen=True)
class Settings:
    """What [piece] says.

    Attributes:
        name: the piece's name.
        unit: unit of bare lengths in the file.
        gap_mm: air narrower than this counts as touching [mm].
        buy_for: the point of a need that is bought for, a fraction of one.
        buy_for_all: how likely all that is bought together shall last to the end, a fraction of
            one; None where only each supply by itself is asked about.
        built: the year it was made, "unknown", or None where the file does not say.
        currency: code of the prices' currency, None where the file does not say.
        made_for: what it is for where that asks more of its finish; `for` in the file.
        measured_to_mm: how much a measure of the piece may be off [mm].
        kind: what it is, as written or as its name tells, such as "dresser"; None where neither
            does.
        lead: what a test of the old finish for lead showed, None where the file does not say.
        is_built_in: whether it is fixed to the building, so that it cannot tip over.
        is_outdoor: whether it will stand outside.
        count: how many of these pieces there are; all are finished together.
    """

    name: str
    unit: str
    gap_mm: float
    buy_for: float
    built: int | Literal["unknown"] | None
    currency: str | None
    made_for: tuple[MadeFor, ...] = ()
    measured_to_mm: float = 0.0
    kind: str | None = None
    lead: LeadAnswer | None = None
    is_built_in: bool = False
    is_outdoor: bool = False
    buy_for_all: float | None = None
    count: int = 1

    @property
    def title(self) -> str:
        """The piece's name, and how many there are of it where it is a set."""
        return f"{self.name} ({self.count} of these)" if self.count > 1 else self.name


@dataclass(frozen=True)
class Piece:
    """A piece and everything its file says.

    Attributes:
        settings: what [piece] says.
        parts: its parts, rows and corners spelled out.
        part_lines: line of each part, by name.
        zones: its zones, in the order of the file.
        zone_of: the zone of each face that has one.
        shelf: everything that its steps may use.
        pricing: what [price] says, None where there is none.
        workshop: what [workshop] says.
        mesh_units: the unit of the file of each part that is a mesh, by name.
    """

    settings: Settings
    parts: tuple[Part, ...]
    part_lines: Mapping[str, int]
    zones: tuple[Zone, ...]
    zone_of: Mapping[FaceKey, str]
    shelf: Shelf
    pricing: Pricing | None = None
    workshop: Workshop = field(default_factory=Workshop)
    mesh_units: Mapping[str, str] = field(default_factory=dict)
