"""A need and the uses it is made of."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Literal

from surfacecalc.model.ranges import Evaluate, Factor, Number, likely
from surfacecalc.model.shelf import SupplyKey, What
from surfacecalc.model.steps import Step
from surfacecalc.needs.draws import Draws
from surfacecalc.needs.hand import Hand

Role = Literal[
    "step", "thinner", "tint", "hardener", "cleaner", "water", "rinse", "between", "rub out",
    "sample", "part of mix", "thrown away",
]  # fmt: skip


@dataclass(frozen=True)
class CoatConditions:
    """How a coat is laid in a zone.

    Attributes:
        bare: whether its first coat goes on a bare surface.
        extra_m2: area that thirsty faces count more in that coat.
        kept_by: share of the session that is the zone's, where tools keep some of each coat.
        slender: share of the area that spray flies past.
    """

    bare: bool = False
    extra_m2: float = 0.0
    kept_by: float = 0.0
    slender: float = 0.0


@dataclass(frozen=True)
class Use:
    """What one step in one zone takes of a supply.

    Attributes:
        zone: the zone.
        area_m2: the area it is used on.
        step: the step.
        role: what it is used as.
        share: of the product that it is added to, None where it is not added.
        likely: the amount with every factor at its likely value.
        drawn: the amount, one number or one for each draw.
        factors: the inputs of its arithmetic.
        text: name of the mix that it is a part of.
        batches: in how many batches a coat is mixed, 0 where nothing sets.
        laid: how a coat is laid; of no meaning for anything else.
        zone_share: the zone's share of what zones that share a schedule take once between them.
        amount: works the amount out again with other values; None for a part of a batch.
        first_coats: works out what the first coats alone take; None for what no coat takes.
    """

    zone: str
    area_m2: float
    step: Step
    role: Role
    share: Factor | None
    likely: float
    drawn: Number
    factors: tuple[Factor, ...]
    text: str = ""
    batches: int = 0
    laid: CoatConditions = CoatConditions()
    zone_share: float = 1.0
    amount: Callable[[Evaluate], Number] | None = field(default=None, compare=False, repr=False)
    first_coats: Callable[[Evaluate, int], Number] | None = field(
        default=None, compare=False, repr=False
    )


@dataclass
class Need:
    """What all zones take of one supply.

    Attributes:
        supplied: what is needed.
        uses: step by step.
    """

    supplied: SupplyKey
    uses: list[Use] = field(default_factory=list)

    @property
    def what(self) -> What:
        """The kind of thing."""
        return self.supplied.what

    @property
    def name(self) -> str:
        """The name of the supply."""
        return self.supplied.name

    @property
    def grit(self) -> int | None:
        """The grit of an abrasive, else None."""
        return self.supplied.grit

    @property
    def likely(self) -> float:
        """The amount with every factor at its likely value."""
        return sum(use.likely for use in self.uses)

    @property
    def drawn(self) -> Number:
        """The amount, one number or one for each draw."""
        total: Number = 0.0
        for use in self.uses:
            total = total + use.drawn
        return total

    @property
    def factors(self) -> tuple[Factor, ...]:
        """The inputs of its arithmetic, each once; several pieces may differ in one of them."""
        return tuple(dict.fromkeys(factor for use in self.uses for factor in use.factors))


Taken = tuple[SupplyKey, Use]
"""What a step takes, and of what."""


@dataclass(frozen=True)
class StepSite:
    """Where a step is done.

    Attributes:
        zone: the zone.
        area_m2: the area worked on.
        step: the step.
        draws: what evaluates factors.
        share: of the session that is this zone's, where zones share a schedule.
        tape: the measured area as a share of the true one, None for a perfect tape.
        hand: whose hand does it.
    """

    zone: str
    area_m2: float
    step: Step
    draws: Draws
    share: float = 1.0
    tape: Factor | None = None
    hand: Hand = field(default_factory=Hand)

    def use(
        self,
        amount: Callable[[Evaluate], Number],
        factors: Iterable[Factor],
        *,
        used_up: str = "",
        way: str = "",
        role: Role = "step",
        laid: CoatConditions | None = None,
        once: bool = False,
        first_coats: Callable[[Evaluate, int], Number] | None = None,
    ) -> Use:
        """Return a use whose amount is worked out twice: likely, and for each draw.

        Args:
            amount: works it out.
            factors: its inputs.
            used_up: name of the supply that the hand uses more or less of; empty where it is
                counted.
            way: how that is put on.
            role: what it is used as.
            laid: how a coat is laid.
            once: whether zones that share a schedule take it once between them.
            first_coats: works out what the first coats alone take.
        """
        zone_share = self.share if once else 1.0
        tape = (self.tape,) if self.tape and not once else ()
        times = (*tape, *self.hand.factors(used_up, way))

        def whole(evaluate: Evaluate) -> Number:
            return amount(self._given(evaluate)) * _product(zone_share, times, evaluate)

        def first(evaluate: Evaluate, coats: int) -> Number:
            assert first_coats is not None  # noqa: S101 - it is not handed on otherwise
            found = first_coats(self._given(evaluate), coats)
            return found * _product(zone_share, times, evaluate)

        drawn = whole(self.draws)
        return Use(
            zone=self.zone,
            area_m2=self.area_m2,
            step=self.step,
            role=role,
            share=None,
            likely=float(whole(likely)),
            drawn=float(drawn) if isinstance(drawn, int | float) else drawn,
            factors=(*map(self.hand.given, factors), *times),
            laid=laid or CoatConditions(),
            zone_share=zone_share,
            amount=whole,
            first_coats=first if first_coats else None,
        )

    def _given(self, evaluate: Evaluate) -> Evaluate:
        """Return an evaluator that takes single numbers as they are, where the hand is exact."""
        if evaluate is likely or not self.hand.is_exact:
            return evaluate  # a likely value has no band
        return lambda factor: evaluate(factor.as_given)


def _product(share: float, times: tuple[Factor, ...], evaluate: Evaluate) -> Number:
    """Return a share times the value of each factor."""
    if isinstance(evaluate, Draws):
        return evaluate.product(times) * share
    found: Number = share
    for factor in times:
        found = found * evaluate(factor)
    return found
