"""What stands on the shelf: products, abrasives, tape, hardware and what is used up in the work.

Coverages are m2/L or m2/kg, amounts L or kg, shares fractions of one.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal, assert_never

from surfacecalc.model.ranges import Factor

Basis = Literal["volume", "weight"]
Chemistry = Literal["waterborne", "drying oil", "evaporating solvent", "two-part", "wax"]
What = Literal[
    "product", "abrasive", "thinner", "hardener", "water", "tape", "hardware", "consumable",
]  # fmt: skip
Cleanup = Literal["water", "spirits", "alcohol", "lacquer thinner"]
COLOURED = ("paint", "casein paint", "stain")
"""Families that give a colour; their tins differ a little in it."""


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
class Drying:
    """How a product dries at its reference temperature.

    Attributes:
        dry_h: until it can be touched and turned over [h].
        recoat_h: until the next coat [h].
        cure_h: until it can be used [h].
        coldest_c: the coldest it may be put on [degrees Celsius], None where nothing is known.
        rub_out_h: until the film is rubbed out or waxed [h], None where that waits for the recoat.
    """

    dry_h: Factor
    recoat_h: Factor
    cure_h: Factor
    coldest_c: Factor | None
    rub_out_h: Factor | None = None


@dataclass(frozen=True)
class Nature:
    """What a product is made like.

    Attributes:
        chemistry: how it hardens, or what it is thinned with where it does not.
        cleanup: what cleans a brush of it.
        forms_film: whether a film stays on the wood.
    """

    chemistry: Chemistry
    cleanup: Cleanup
    forms_film: bool


@dataclass(frozen=True)
class Component:
    """A product in a mix.

    Attributes:
        product: the product.
        per_unit: what a litre or kilo of the mix holds of it, in what the product is sold by.
    """

    product: "Product"
    per_unit: float


@dataclass(frozen=True)
class Product:
    """A product that is sold by volume or by weight.

    Attributes:
        name: its name.
        kind: its generic class.
        family: what the class belongs to: paint, stain, wax ...
        basis: whether it is sold by volume or by weight.
        coverage: what its coverage is worked out from: one factor (m2/L or m2/kg), or volume
            solids (a share) and dry film (um); empty for a thinner, and for a mix whose coverage
            follows from what is in it.
        packs: the sizes it is sold in.
        on_hand: what is there already [L or kg].
        thinner: name of the product it is thinned with, None where it is not said.
        line: where it stands.
        density_kg_per_l: its density, None where it is not said.
        recipe: what it is mixed from; empty where it is bought as it is.
        batch_step: a batch of it is rounded up to a multiple of this [L or kg].
        drying: how it dries; None for what is never left on the wood.
        nature: what it is made like.
        file: where its record is kept, if not in the piece file; else empty.
        first_coat: share of the coverage that its first coat reaches on bare wood, None for a mix.
        thin_most: the most thinner that its label allows, a share of it; None where not said.
        hardener: the hardener that its class needs, a share of it by volume; None where its class
            needs none.
        pot_life: how long it stays usable once it is mixed [h]; None where its class does not say.
        is_practical: whether its coverage was published from whole jobs, what is lost in it.
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
    density_kg_per_l: float | None = None
    recipe: tuple[Component, ...] = ()
    batch_step: float = 0.0
    drying: Drying | None = None
    nature: Nature | None = None
    file: str = ""
    first_coat: Factor | None = None
    thin_most: float | None = None
    hardener: Factor | None = None
    pot_life: Factor | None = None
    is_practical: bool = False

    @property
    def stays_on(self) -> bool:
        """Whether anything of it stays on the wood."""
        return bool(self.coverage or self.recipe)

    @property
    def counts_loss(self) -> bool:
        """Whether what brush and cloth lose is in its coverage already, of a mix in all of it."""
        if self.coverage or not self.recipe:
            return self.is_practical
        return all(part.product.counts_loss for part in self.recipe if part.product.stays_on)

    @property
    def published_in(self) -> str:
        """Where its coverage was published, of a mix that of its first part; else empty."""
        if self.coverage or not self.recipe:
            return next((factor.reference for factor in self.coverage), "")
        return next(part.product.published_in for part in self.recipe if part.product.stays_on)


@dataclass(frozen=True)
class Tape:
    """Masking tape, film or paper that is sold by the roll.

    Attributes:
        name: its name.
        unit: "m" for tape, "m2" for film or paper.
        width_mm: of the tape, None where it is not said.
        packs: the lengths or areas it is sold in.
        on_hand: what is there [m or m2].
        line: where it stands.
    """

    name: str
    unit: Literal["m", "m2"]
    width_mm: float | None
    packs: tuple[Pack, ...]
    on_hand: float
    line: int


@dataclass(frozen=True)
class Hardware:
    """Pulls, knobs, hinges and the like.

    Attributes:
        name: its name.
        count: how many.
        plan: whether they are kept, renewed (cleaned, waxed, painted) or replaced.
        size_mm: width, height and depth of one, None where it is not said.
        packs: what they are replaced by.
        on_hand: how many new ones are there.
        line: where it stands.
        on: names of the zones that it is fitted to; empty for all that have a step about it.
    """

    name: str
    count: int
    plan: Literal["keep", "renew", "replace"]
    size_mm: tuple[float, float, float] | None
    packs: tuple[Pack, ...]
    on_hand: int
    line: int
    on: tuple[str, ...] = ()


@dataclass(frozen=True)
class Consumable:
    """What is used up or worn out in the work: cloths, gloves, brushes, cartridges.

    Attributes:
        name: its name.
        lasts: how long one lasts.
        by: what that counts: area [m2], hands-on time [h], sessions (one for each coat or grit of a
            step) or jobs.
        packs: the counts it is sold in.
        on_hand: how many are there.
        line: where it stands.
        file: where its record is kept, if not in the piece file; else empty.
    """

    name: str
    lasts: Factor
    by: Literal["area", "time", "sessions", "jobs"]
    packs: tuple[Pack, ...]
    on_hand: int
    line: int
    file: str = ""


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
        file: where its record is kept, if not in the piece file; else empty.
    """

    name: str
    form: str
    life: Mapping[int, Factor]
    packs: tuple[Pack, ...]
    on_hand: Mapping[int, int]
    line: int
    file: str = ""


Goods = Product | Abrasive | Tape | Hardware | Consumable
"""One entry of the shelf."""


@dataclass(frozen=True)
class SupplyKey:
    """What is needed: one line of the supply list.

    Attributes:
        what: the kind of thing.
        name: of the supply.
        grit: of an abrasive, else None.
    """

    what: What
    name: str
    grit: int | None = None


@dataclass(frozen=True)
class Shelf:
    """Everything that steps may use, by name.

    Attributes:
        products: products and mixes.
        abrasives: abrasives.
        tapes: tape, film and paper.
        hardware: hardware.
        consumables: what is used up or worn out.
        kept: what the user's own files have of it besides, which no step of the piece names.
    """

    products: Mapping[str, Product] = field(default_factory=dict)
    abrasives: Mapping[str, Abrasive] = field(default_factory=dict)
    tapes: Mapping[str, Tape] = field(default_factory=dict)
    hardware: Mapping[str, Hardware] = field(default_factory=dict)
    consumables: Mapping[str, Consumable] = field(default_factory=dict)
    kept: Mapping[str, Consumable] = field(default_factory=dict)

    def find(self, key: SupplyKey) -> Goods | None:
        """Return the entry that a key names; None for water, and what a product alone tells of."""
        match key.what:
            case "product":
                return self.products.get(key.name)
            case "abrasive":
                return self.abrasives.get(key.name)
            case "tape":
                return self.tapes.get(key.name)
            case "hardware":
                return self.hardware.get(key.name)
            case "consumable":
                return self.consumables.get(key.name)
            case "thinner" | "hardener" | "water":
                return None
            case _:
                assert_never(key.what)

    def product(self, key: SupplyKey) -> Product | None:
        """Return the product that a key names, None where it names something else."""
        found = self.find(key)
        return found if isinstance(found, Product) else None

    def goods(self) -> Iterator[Goods]:
        """Yield every entry, table by table."""
        yield from self.products.values()
        yield from self.abrasives.values()
        yield from self.tapes.values()
        yield from self.hardware.values()
        yield from self.consumables.values()


def record_file(goods: Goods) -> str:
    """Return the user's own file that an entry is kept in; empty for the piece file itself."""
    return goods.file if isinstance(goods, Product | Abrasive | Consumable) else ""
