"""What each --json prints, field by field; the files in surfacecalc/schemas are made of this.

A field may be added. None is renamed, removed or given another meaning without a new SCHEMA.
Amounts are metric: m2, m, L, kg, hours, degrees Celsius; money is in the currency beside it; shares
and chances are fractions of one. Times are local, without a zone, as 2027-03-01T09:00.
"""

import json
from typing import Literal, TypedDict

from surfacecalc.reports.area_shapes import AreasData, AreasOfFilesData, ProblemsData
from surfacecalc.reports.task_shapes import TaskData

SCHEMA: Literal[1] = 1


class NeedData(TypedDict):
    """A need: 19 jobs in 20 need at least low, 19 in 20 at most high; half need at most likely.

    `buy_for` is bought for, which is enough in a share `bought_at` of all jobs; null for what has
    no range.
    """

    low: float
    likely: float
    high: float
    buy_for: float
    bought_at: float | None


class ZoneNeedData(TypedDict):
    """The likely need of one zone."""

    zone: str
    likely: float


class PackData(TypedDict):
    """Packs to buy: their size, how many, and the price of one."""

    size: float
    unit: str
    count: int
    price: float | None


class LargerChoiceData(TypedDict):
    """Packs that hold much more for little more: what they cost more, how many times they hold."""

    buy: list[PackData]
    costs_more: float
    holds_times: float


class MoreCoatsData(TypedDict):
    """Packs for one coat less than `coats`, for `coats`, and what is left to buy for the last one.

    `zones` are those where the number of coats is in doubt; empty where there is only one number.
    """

    coats: int
    zones: list[str]
    fewer: list[PackData]
    more: list[PackData]
    later: list[PackData]


class SupplyData(TypedDict):
    """One line of the supply list; amounts are in its unit: L, kg, m, m2 or each."""

    supply: str
    kind: str
    grit: int | None
    unit: str
    need: NeedData
    by_zone: list[ZoneNeedData]
    on_hand: float
    buy: list[PackData]
    mixed: float
    cost: float | None
    left_over: float
    larger: LargerChoiceData | None
    more_coats: MoreCoatsData | None
    why: list[str]
    assumed: list[str]


class PieceNeedData(TypedDict):
    """How much of a supply one of several pieces needs."""

    piece: str
    buy_for: float


class SharedSupplyData(SupplyData):
    """One line of the list for several pieces."""

    by_piece: list[PieceNeedData]


class CautionData(TypedDict):
    """A caution: what to do, the whole text, what it applies to, and its sources one by one.

    `source` has the sources in one text, as before there was a list of them.
    """

    headline: str
    text: str
    source: str
    because: str
    sources: list[str]


class NeededTooData(TypedDict):
    """What the work needs and no step lists; count and price where a record of it is kept."""

    name: str
    uses: list[str]
    on_hand: int
    count: int | None
    price: float | None


class SuppliesData(TypedDict):
    """What supplies prints of one file."""

    schema: Literal[1]
    piece: str
    count: int
    currency: str | None
    total_cost: float | None
    unpriced: list[str]
    chance_all_lasts: float
    supplies: list[SupplyData]
    needed_too: list[NeededTooData]
    cautions: list[CautionData]


class SuppliesTogetherData(TypedDict):
    """What supplies prints of several files."""

    schema: Literal[1]
    pieces: list[str]
    counts: list[int]
    currency: str | None
    total_cost: float | None
    unpriced: list[str]
    chance_all_lasts: float
    remarks: list[str]
    supplies: list[SharedSupplyData]
    needed_too: list[NeededTooData]
    cautions: list[CautionData]


class SafetyData(TypedDict):
    """What safety prints."""

    schema: Literal[1]
    pieces: list[str]
    cautions: list[CautionData]
    closing: str


class CoatsData(TypedDict):
    """How sure a jar is to last through so many coats [L or kg; chance from 0 to 1]."""

    coats: int
    likely: float
    buy_for: float
    chance: float


class JarData(TypedDict):
    """What is on hand of a product [L or kg]."""

    supply: str
    unit: str
    on_hand: float
    sure_coats: int
    will_do: bool
    assumed: list[str]
    coats: list[CoatsData]


class PartData(TypedDict):
    """What is on hand of a product in a mix [L or kg]: for it there is what other uses leave."""

    supply: str
    unit: str
    on_hand: float
    other_uses: float
    for_mix: float
    whole_batch: float
    missing: float


class MixedData(TypedDict):
    """How much of a mix leftovers make [L or kg], and how far that and what is mixed already go."""

    made: float
    on_hand: float
    sure_coats: int
    will_do: bool
    coats: list[CoatsData]


class TinData(TypedDict):
    """One pack of a supply."""

    supply: str
    pack: PackData


class MixData(TypedDict):
    """What leftovers make of a mix; `poured` is all of them in one colour that is not the recipe's.

    `poured` is null where it is no more than by the recipe or that is enough, `one_tin` where no
    single one will do.
    """

    supply: str
    unit: str
    on_hand: float
    batch: float
    makes_whole_batch: bool
    limited_by: str
    parts: list[PartData]
    by_recipe: MixedData
    poured: MixedData | None
    one_tin: TinData | None
    assumed: list[str]


class JarsData(TypedDict):
    """What jars prints."""

    schema: Literal[1]
    piece: str
    count: int
    confidence: float
    jars: list[JarData]
    mixes: list[MixData]


class ClosedData(TypedDict):
    """Days on which nobody works, from the first to the last."""

    first: str
    last: str


class PlanData(TypedDict):
    """What plan prints; the times of an empty plan are null.

    `..._by`: by when, in that share of the cases which `cases` gives; null where a drying time is
    not known. `rules_cost_days`: how many days sooner it could be handled if dust might fall on wet
    coats and each zone was worked by itself.
    """

    schema: Literal[1]
    piece: str
    count: int
    working_hours: str
    working_hours_assumed: bool
    hands_on_h: float
    hands_on_each_h: float
    hands_on_low_h: float | None
    hands_on_high_h: float | None
    set_up_h: float
    days: int
    shortest: bool
    rules_cost_days: int
    worked: str | None
    handled: str | None
    delivered: str | None
    used: str | None
    cases: float
    worked_by: str | None
    handled_by: str | None
    delivered_by: str | None
    used_by: str | None
    closed: list[ClosedData]
    clock_changes: list[str]
    tasks: list[TaskData]
    drying_unknown: list[str]
    mind: list[str]
    assumed: list[str]


class StatementData(TypedDict):
    """The price from top to bottom, for a wanted rate or as given; whole coins but for rates."""

    rate: float | None
    rate_with_margin: float | None
    piece: float | None
    supplies: float | None
    work: float | None
    overhead: float | None
    cost: float | None
    margin: float | None
    price: float | None
    delivery: float | None
    net: float | None
    tax: float | None
    total: float | None
    total_each: float | None
    deposit: float | None
    balance: float | None


class MaterialData(TypedDict):
    """What a supply is worth; null where it has no price."""

    supply: str
    grit: int | None
    unit: str
    amount: float | None
    price_of_one: float | None
    used: float | None
    charged: float | None
    bought: float | None
    on_hand: float | None
    kept: float | None


class QuoteData(TypedDict):
    """What quote prints."""

    schema: Literal[1]
    piece: str
    count: int
    currency: str | None
    coin: float | None
    hours: float | None
    hours_from: Literal["plan", "piece file"]
    charged: Literal["used", "bought"]
    overhead: float | None
    margin: float | None
    tax: float | None
    deposit: float | None
    wanted: StatementData | None
    asked: StatementData | None
    difference: float | None
    supplies: list[MaterialData]
    not_counted: list[str]
    assumed: list[str]


class ValueData(TypedDict):
    """A range and where it comes from."""

    low: float
    likely: float
    high: float
    source: str


class KindData(TypedDict):
    """A kind of product; covers in m2 a unit."""

    kind: str
    family: str
    spellings: list[str]
    unit: str
    chemistry: str
    cleanup: str
    film: bool
    covers: ValueData | None
    first_coat: ValueData | None
    dry_h: ValueData | None
    recoat_h: ValueData | None
    cure_h: ValueData | None
    rub_out_h: ValueData | None
    min_temp_c: ValueData | None


class KindsData(TypedDict):
    """What kinds prints."""

    schema: Literal[1]
    kinds: list[KindData]


Printed = (
    ProblemsData | AreasData | AreasOfFilesData | SuppliesData | SuppliesTogetherData | JarsData
    | PlanData | QuoteData | KindsData | SafetyData
)  # fmt: skip
"""Every object that --json prints."""


def printed(value: Printed, *, ascii_only: bool = True) -> str:
    """Return an object as the text of JSON."""
    return json.dumps(value, indent=2, ensure_ascii=ascii_only, allow_nan=False)
