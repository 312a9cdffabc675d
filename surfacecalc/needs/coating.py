"""How much of a product a coating step takes."""

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Protocol

import numpy as np

from surfacecalc.catalogue.step_defaults import full_tool
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Evaluate, Factor, Number, likely
from surfacecalc.model.shelf import Product, SupplyKey, What
from surfacecalc.model.step_facts import likely_coats
from surfacecalc.model.steps import Addition, Between, Coat
from surfacecalc.needs.coverage import coverage, coverage_factors
from surfacecalc.needs.sanding import sanding_count
from surfacecalc.needs.two_part import hardener_key, hardener_per_unit, product_share
from surfacecalc.needs.uses import CoatConditions, Role, StepSite, Taken, Use
from surfacecalc.work.rates import life_between_coats


def coat_count(coat: Coat, evaluate: Evaluate) -> Number:
    """Return how many coats a step takes, more where the colour changes strongly."""
    if evaluate is likely:  # the likely sum may differ from the sum of what is likely
        return float(likely_coats(coat))
    more = evaluate(coat.more_coats) if coat.more_coats else 0.0
    return evaluate(coat.coats) + more


def coat_amount(
    area_m2: float,
    coat: Coat,
    product: Product,
    evaluate: Evaluate,
    *,
    bare: bool,
    at_most: int | None = None,
    extra_m2: float = 0.0,
    kept_by: float = 0.0,
    slender: float = 0.0,
) -> Number:
    """Return what the coats of a step take, its hardener with it [L or kg].

    Args:
        area_m2: area of the zone.
        coat: the step.
        product: its product.
        evaluate: turns factors into numbers.
        bare: whether the first of its coats goes on a bare surface.
        at_most: count only this many of its coats, the first ones.
        extra_m2: area that thirsty faces count more in the first coat on a bare surface.
        kept_by: share of each session's rest in tray and brush that is this zone's.
        slender: share of the area that spray flies past.

    Source: practical coverage = theoretical x (1 - loss), common practice, a loss being a share of
    what is used; a first coat that reaches a share of its coverage counts as 1 / share coats.
    """
    first = evaluate(coat.first_coat) if bare else 1.0
    number = coat_count(coat, evaluate)
    if at_most is not None:
        number = np.minimum(number, at_most)
    covered = area_m2 * (1 / first + number - 1) + (extra_m2 / first if bare else 0.0)
    put_on = covered / coverage(product, evaluate)
    if coat.sprayed_past is not None and slender:
        put_on = put_on * (1 - slender + slender / (1 - evaluate(coat.sprayed_past)))
    taken = put_on / (1 - evaluate(coat.loss)) * (1 + evaluate(coat.allowance))
    if coat.stays_behind is None or not kept_by:
        return taken
    return taken + kept_in_tools(coat, put_on, number, kept_by, evaluate)


def kept_in_tools(
    coat: Coat, put_on: Number, number: Number, kept_by: float, evaluate: Evaluate
) -> Number:
    """Return what tray, brush or cloth keep of all coats [L or kg].

    A cloth that little is put on with keeps so much less of it; an amount that the file gives is
    taken as it is.

    Args:
        coat: the step.
        put_on: what lands on the zone in all coats [L or kg].
        number: of coats.
        kept_by: as in `coat_amount`.
        evaluate: turns factors into numbers.
    """
    assert coat.stays_behind is not None  # noqa: S101 - its only caller asks
    full = full_tool(coat.by) if coat.stays_behind.source == "assumed" else 0.0
    loads = np.minimum(number, put_on / (full * kept_by)) if full else number
    return loads * evaluate(coat.stays_behind) * kept_by


def thinner_name(product: Product) -> str:
    """Return what the thinner of a product is called on the list."""
    return product.thinner or f"thinner for {product.name}"


def coat_uses(
    piece: Piece,
    coat: Coat,
    place: StepSite,
    *,
    bare: bool,
    extra_m2: float = 0.0,
    slender: float = 0.0,
) -> Iterator[Taken]:
    """Yield what a coating step takes: its product, what is stirred in, what it is denibbed with.

    Hardware is coated once for all zones that share the schedule.

    Args:
        piece: the piece.
        coat: the step.
        place: where it goes, with the area that is coated.
        bare: whether its first coat goes on a bare surface.
        extra_m2: area that thirsty faces count more in that coat.
        slender: share of the area that spray flies past.
    """
    product = piece.shelf.products[coat.product]
    once = coat.hardware is not None
    if coat.sprayed_past is None:
        slender = 0.0
    where = CoatConditions(bare, extra_m2, 1.0 if once else place.share, slender)

    def amount(evaluate: Evaluate, coats: int | None = None) -> Number:
        return coat_amount(
            place.area_m2,
            coat,
            product,
            evaluate,
            bare=bare,
            at_most=coats,
            extra_m2=extra_m2,
            kept_by=where.kept_by,
            slender=slender,
        )

    def use(of_it: _ByCoats, inputs: list[Factor], role: Role) -> Use:
        return place.use(
            of_it,
            inputs,
            used_up=product.name,  # what is stirred in goes up and down with it
            way=coat.by,
            role=role,
            laid=where,
            once=once,
            first_coats=of_it,
        )

    factors = coat_factors(product, coat, bare=bare)
    if coat.sprayed_past is not None and slender:
        factors.append(coat.sprayed_past)
    yield from _product_uses(piece, coat, amount, factors, use)
    for added in _additions(coat):
        part = use(_share_of(amount, added), [*factors, added.share], added.role)
        yield _supplied_addition(product, added), replace(part, share=added.share)
    if coat.between is not None:
        yield _between_use(piece, coat, coat.between, place)


class _ByCoats(Protocol):
    """Works out what coats take, all of them or only the first ones."""

    def __call__(self, evaluate: Evaluate, coats: int | None = None) -> Number:
        """Return the amount [L or kg]."""
        ...


_MakesUse = Callable[[_ByCoats, list[Factor], Role], Use]


def _product_uses(
    piece: Piece, coat: Coat, mixed: _ByCoats, factors: list[Factor], use: _MakesUse
) -> Iterator[Taken]:
    """Yield the product, and the hardener that is part of what is put on."""
    product, added = piece.shelf.products[coat.product], coat.hardener
    supplied = SupplyKey("product", product.name)
    if added is None:
        yield supplied, use(mixed, factors, "step")
        return
    hardener = piece.shelf.products[added.product] if added.product else None

    def plain(evaluate: Evaluate, coats: int | None = None) -> Number:
        return mixed(evaluate, coats) * product_share(product, hardener, added, evaluate)

    def hardening(evaluate: Evaluate, coats: int | None = None) -> Number:
        return plain(evaluate, coats) * hardener_per_unit(product, hardener, added, evaluate)

    inputs = [*factors, added.share]
    yield supplied, use(plain, inputs, "step")
    made = use(hardening, inputs, "hardener")
    yield hardener_key(product, added), replace(made, share=added.share)


def _share_of(amount: _ByCoats, added: Addition) -> _ByCoats:
    def part(evaluate: Evaluate, coats: int | None = None) -> Number:
        return amount(evaluate, coats) * evaluate(added.share)

    return part


def coat_factors(product: Product, coat: Coat, *, bare: bool) -> list[Factor]:
    """Return the inputs of what a coating step takes."""
    extras = [coat.more_coats, coat.first_coat if bare else None]
    found = [*coverage_factors(product), coat.coats, *(factor for factor in extras if factor)]
    found += [coat.loss, coat.allowance]
    return [*found, coat.stays_behind] if coat.stays_behind else found


def _additions(coat: Coat) -> Iterator[Addition]:
    if coat.thin is not None:
        yield Addition(None, coat.thin, "thinner")
    if coat.tint is not None:
        yield coat.tint


def _supplied_addition(product: Product, added: Addition) -> SupplyKey:
    if added.product is not None:
        return SupplyKey("product", added.product)
    what: What = "product" if product.thinner else "thinner"
    return SupplyKey(what, thinner_name(product))


def _between_use(piece: Piece, coat: Coat, between: Between, place: StepSite) -> Taken:
    """Return what is worn out in denibbing after each coat but the last."""
    abrasive = piece.shelf.abrasives[between.abrasive]

    lighter = _lighter(abrasive.life[between.grit])

    def count(evaluate: Evaluate) -> Number:
        passes = coat_count(coat, evaluate) - 1
        worn = sanding_count(place.area_m2, abrasive, between.grit, evaluate)
        return passes * worn / math.prod(float(evaluate(times)) for times in lighter)

    more = [coat.more_coats] if coat.more_coats else []
    factors = [abrasive.life[between.grit], *lighter, coat.coats, *more]
    supplied = SupplyKey("abrasive", abrasive.name, between.grit)
    once = coat.hardware is not None
    use = place.use(count, factors, used_up=abrasive.name, role="between", once=once)
    return supplied, use


def _lighter(life: Factor) -> list[Factor]:
    """Return how much further a pad goes between coats; a life in the file is taken as it is."""
    return [life_between_coats()] if life.source == "assumed" else []
