"""Steps of a finish schedule as the file gives them, with every default filled in.

What a step does to a zone is one of a few things: it puts a product on (`Coat`), abrades (`Sand`),
washes (`Wash`), fills holes (`Fill`), masks what must stay clean (`Mask`), tries things out first
(`Trial`), or or is work by the piece on joints and hardware (`Handwork`); masking that must be off
before a coat is taken off (`Unmask`). The word of the trade stands in `do`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from surfacecalc.model.ranges import Factor
from surfacecalc.model.shelf import Basis

Method = Literal["brush", "roller", "cloth", "spray"]
Gun = Literal["hvlp", "airless", "conventional"]
CoatWord = Literal[
    "coat", "block", "condition", "fill grain", "dye", "glaze", "seal", "prime", "stain",
    "top coat", "wax", "lime wax", "wax hardware", "strip",
]  # fmt: skip
SandWord = Literal["sand", "rub out", "strip", "distress"]
HandWord = Literal["repair", "decal", "decorate", "take off", "refit", "dust off"]
OtherWord = Literal["wash", "fill", "mask", "unmask", "test"]
StepWord = CoatWord | SandWord | HandWord | OtherWord
"""Every word of `do`."""
Change = Literal["dark to light", "to clear red"]


@dataclass(frozen=True)
class Work:
    """What the hands do in a step, and what the next step waits for.

    Attributes:
        time_h: hands-on time in each zone [h]; None where it follows from the rate.
        rate_m2_per_h: area done in an hour, each coat or grit; None where area says nothing.
        wait_h: until the next coat or step [h]; None where the product's class tells.
        sides: how many times the piece is turned over for one coat, 1 for not at all.
        after: zones that must be done before.
        uses: names of consumables it takes.
    """

    time_h: Factor | None = None
    rate_m2_per_h: Factor | None = None
    wait_h: Factor | None = None
    sides: int = 1
    after: tuple[str, ...] = ()
    uses: tuple[str, ...] = ()


@dataclass(frozen=True)
class Sand:
    """Sanding with one grit after another, one pass each.

    Attributes:
        grits: in order.
        abrasive: its name.
        line: where the step stands.
        do: "sand", "rub out", "strip" where it goes down to bare wood, or "distress" where edges
            are worn on purpose.
        by: by machine or by hand.
        product: what it is rubbed out with, None for dry.
        worn: share of the zone that is abraded, None for all of it.
        work: what the hands do.
    """

    grits: tuple[int, ...]
    abrasive: str
    line: int
    do: SandWord = "sand"
    by: Literal["machine", "hand"] = "machine"
    product: str | None = None
    worn: Factor | None = None
    work: Work = field(default_factory=Work)


@dataclass(frozen=True)
class Between:
    """Denibbing: one light pass with a fine grit after each coat of a step but the last.

    Attributes:
        grit: the grit.
        abrasive: its name.
    """

    grit: int
    abrasive: str


@dataclass(frozen=True)
class Addition:
    """What is stirred into a product before it is used, as a share of it.

    Attributes:
        product: name of what is added; None for the product's own thinner or hardener.
        share: of the product.
        role: "thinner", "tint" or "hardener".
        by: what a hardener's share is measured by; the others go by what they are sold by.
    """

    product: str | None
    share: Factor
    role: Literal["thinner", "tint", "hardener"]
    by: Basis = "volume"


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
        do: the word of the trade.
        more_coats: coats more for a strong change of colour, None for none.
        spot: share of the zone that it is put on, None for the whole zone.
        between: denibbing between its coats.
        tint: what it is tinted with.
        stays_behind: what tray, roller, cup or brush keep of each coat [L or kg], None for nothing.
        gun: what it is sprayed with, None where the file does not say.
        cup: what the gun's cup holds [L], None where nothing is filled.
        sprayed_past: share that flies past slender parts of what would land on broad ones, None
            where the loss includes it.
        hardware: name of the hardware that it is put on instead of the zone.
        hardener: what makes it set once it is mixed in; it is part of what the coverage is of.
        pot_life: how long a batch stays usable once it is mixed [h], None where it does not set.
        together: a word that steps have which are put on in one session; empty for none.
        work: what the hands do.
    """

    product: str
    coats: Factor
    by: Method
    loss: Factor
    allowance: Factor
    first_coat: Factor
    thin: Factor | None
    line: int
    do: CoatWord = "coat"
    more_coats: Factor | None = None
    spot: Factor | None = None
    between: Between | None = None
    tint: Addition | None = None
    stays_behind: Factor | None = None
    gun: Gun | None = None
    cup: Factor | None = None
    sprayed_past: Factor | None = None
    hardware: str | None = None
    hardener: Addition | None = None
    pot_life: Factor | None = None
    together: str = ""
    work: Work = field(default_factory=Work)


@dataclass(frozen=True)
class Wash:
    """Washing with a cleaner in water, and rinsing.

    Attributes:
        product: the cleaner's name.
        covers: area that a litre of solution washes [m2/L].
        strength: share of the solution that is cleaner.
        times: how often.
        rinse: area that a litre of rinse water does [m2/L], None for no rinse.
        line: where the step stands.
        hardware: name of the hardware that is washed instead of the zone.
        work: what the hands do.
    """

    product: str
    covers: Factor
    strength: Factor
    times: int
    rinse: Factor | None
    line: int
    hardware: str | None = None
    work: Work = field(default_factory=Work)


@dataclass(frozen=True)
class Hole:
    """Holes of one kind.

    Attributes:
        kind: "pit" (half an ellipsoid), "gouge" (half an ellipse in section) or "groove" (square).
        count: how many.
        length_mm: along it; the diameter of a pit.
        width_mm: across it; the diameter of a pit.
        depth_mm: its depth.
    """

    kind: Literal["pit", "gouge", "groove"]
    count: int
    length_mm: float
    width_mm: float
    depth_mm: float


@dataclass(frozen=True)
class Fill:
    """Filling holes.

    Attributes:
        product: the filler's name.
        holes: what is filled.
        loss: share of what is used that is smeared or sanded away.
        shrinkage: share of its volume that the filler loses in setting.
        applications: how often the holes are gone over.
        hardener: what is mixed in on top of the filler.
        batch: the most that is mixed at once [kg or L], None where it does not set.
        line: where the step stands.
        hardware: name of the hardware whose holes they are, None for others.
        work: what the hands do.
    """

    product: str
    holes: tuple[Hole, ...]
    loss: Factor
    shrinkage: Factor
    applications: int
    hardener: Addition | None
    batch: float | None
    line: int
    hardware: str | None = None
    work: Work = field(default_factory=Work)


@dataclass(frozen=True)
class Mask:
    """Masking along the lines where a zone meets others, on their side.

    Attributes:
        tape: name of the tape.
        against: the zones it is put on; empty for all that the zone meets.
        overlap: extra length for corners and ends.
        film_m2: area covered with film or paper [m2], 0 for none.
        film: name of the film, None for none.
        line: where the step stands.
        work: what the hands do.
    """

    tape: str
    against: tuple[str, ...]
    overlap: Factor
    film_m2: float
    film: str | None
    line: int
    work: Work = field(default_factory=Work)


@dataclass(frozen=True)
class Unmask:
    """Taking tape off before the last coat that follows.

    Attributes:
        tape: name of the tape; None for all that is on the zone's lines.
        line: where the step stands.
        work: what the hands do.
    """

    tape: str | None
    line: int
    work: Work = field(default_factory=Work)


@dataclass(frozen=True)
class Trial:
    """A test patch or a sample board, before anything else is bought.

    Attributes:
        patch_m2: its area [m2].
        products: names of what is tried on it, one coat each.
        line: where the step stands.
        work: what the hands do.
    """

    patch_m2: float
    products: tuple[str, ...]
    line: int
    work: Work = field(default_factory=Work)


@dataclass(frozen=True)
class Decor:
    """How much of a zone is decorated, and how often what it is done with goes over that.

    Attributes:
        area_m2: its area [m2], None where it is a share of the zone.
        share: share of the zone, None where it is an area.
        coats: how often its product goes on.
        loss: share of the product that never lands on it.
    """

    area_m2: float | None
    share: Factor | None
    coats: int
    loss: Factor


@dataclass(frozen=True)
class Handwork:
    """Work by the piece: repairs, decoration, hardware off and on again, dusting off.

    Attributes:
        do: the word of the trade.
        what: what is worked on.
        count: how many.
        product: name of the glue or the like, None for none.
        each: what one takes of it [L or kg].
        hardware: names of the hardware it is about.
        line: where the step stands.
        work: what the hands do; its time is for all of them.
        decor: how much of a zone is decorated, None for all other work.
    """

    do: HandWord
    what: str
    count: int
    product: str | None
    each: Factor | None
    hardware: tuple[str, ...]
    line: int
    work: Work = field(default_factory=Work)
    decor: Decor | None = None


Step = Sand | Coat | Wash | Fill | Mask | Unmask | Trial | Handwork


@dataclass(frozen=True)
class Uneven:
    """What makes some faces of a zone take more or less, paint or work, than the rest.

    Attributes:
        thirst: times the coverage's need that the first coat on a bare face takes, by face.
        no_film: faces that get no film because they slide or close.
        effort: how many times its area a face counts as work, in place of what its shape tells.
    """

    thirst: Mapping[tuple[str, str], float] = field(default_factory=dict)
    no_film: frozenset[tuple[str, str]] = frozenset()
    effort: Mapping[tuple[str, str], float] = field(default_factory=dict)
