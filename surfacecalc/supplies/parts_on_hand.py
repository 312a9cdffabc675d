"""Leftovers that are parts of a mix: how large a batch they make, and how far it goes.

What other uses and other mixes take of a jar is taken off first, at the point that is bought for.
So the jars make the whole batch just where the supply list buys none of its parts.
"""

from dataclasses import dataclass, replace

from surfacecalc.closeness import ROUNDING, whole_down
from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import Component, Pack, Product, SupplyKey
from surfacecalc.needs.draws import Draws, points
from surfacecalc.needs.jars import Jar, is_coated, jar_of
from surfacecalc.needs.job import job_needs
from surfacecalc.needs.mixing import batch
from surfacecalc.needs.uses import Need, Use
from surfacecalc.supplies.shopping import Supply, supplies_of
from surfacecalc.zones.areas import Measured


@dataclass(frozen=True)
class PartJar:
    """What is on hand of a product that is part of a mix; amounts as it is sold [L or kg].

    Attributes:
        product: the product.
        elsewhere: what other uses take of it, at the point that is bought for.
        needed: what the whole batch takes of it.
        missing: what must be bought of it.
        buy: the packs that the supply list buys for that.
        per_unit: what a litre or kilo of the mix holds of it.
        is_from_tap: whether it is water.
    """

    product: Product
    elsewhere: float
    needed: float
    missing: float
    buy: tuple[tuple[Pack, int], ...]
    per_unit: float
    is_from_tap: bool

    @property
    def free(self) -> float:
        """What is there of it for the mix."""
        return max(0.0, self.product.on_hand - self.elsewhere)

    @property
    def makes(self) -> float:
        """How much of the mix it is enough for [L or kg of the mix]."""
        return self.free / self.per_unit


@dataclass(frozen=True)
class MixOnHand:
    """What jars of its parts make of a mix [L or kg].

    Attributes:
        mix: the mix.
        batch: what must be made of it beyond what is there.
        parts: what is on hand of each product in it.
        made: how much the jars make in the recipe's ratio, in whole measures.
        by_recipe: how far that goes, with what is mixed already.
        poured: how much all jars make together whatever the ratio; 0 where that is no more, or
            the recipe's ratio makes the whole batch.
        together: how far that goes, with what is mixed already; None in the same cases.
        one_tin: the product and the pack that make the whole batch; None where no single one does.
    """

    mix: Product
    batch: float
    parts: tuple[PartJar, ...]
    made: float
    by_recipe: Jar
    poured: float
    together: Jar | None
    one_tin: tuple[Product, Pack] | None

    @property
    def limited_by(self) -> Product:
        """The part that runs out first."""
        return min(self._limiting, key=lambda part: part.makes).product

    @property
    def makes_whole_batch(self) -> bool:
        """Whether the jars make all that must be made; then nothing of its parts is bought."""
        return not self.short

    @property
    def short(self) -> tuple[PartJar, ...]:
        """The parts of which something must be bought."""
        return tuple(part for part in self._limiting if part.missing)

    @property
    def _limiting(self) -> tuple[PartJar, ...]:
        return tuple(part for part in self.parts if not part.is_from_tap)


def mixes_on_hand(
    piece: Piece, measured: Measured, needs: list[Need], draws: Draws
) -> list[MixOnHand]:
    """Return what jars of their parts make of the mixes that the job coats with and must make.

    Args:
        piece: the piece, at the point that is bought for.
        measured: its areas.
        needs: what the job needs, with batches for that point.
        draws: what the needs were drawn with.
    """
    found = []
    for need in needs:
        mix = piece.shelf.product(need.supplied)
        if mix is None or not has_parts_on_hand(mix) or not is_coated(need):
            continue
        made = batch(mix, need, piece.settings.buy_for)
        if made:
            found.append(_Bench(piece, measured, needs, draws).mixed(mix, need, made))
    return found


def has_parts_on_hand(mix: Product) -> bool:
    """Whether there is a jar of what a mix colours the wood with; no for what is no mix."""
    return any(
        part.per_unit > 0 and part.product.stays_on and part.product.on_hand > 0
        for part in mix.recipe
    )


@dataclass(frozen=True)
class _Bench:
    """What mixing is worked out with."""

    piece: Piece
    measured: Measured
    needs: list[Need]
    draws: Draws

    def mixed(self, mix: Product, need: Need, made: float) -> MixOnHand:
        """Return what the jars make of a mix.

        Args:
            mix: the mix.
            need: what the job takes of it.
            made: what must be made of it [L or kg].
        """
        supplies = {one.key: one for one in supplies_of(self.piece, self._parts(mix), self.draws)}
        parts = tuple(self._part(mix, part, supplies, made) for part in mix.recipe if part.per_unit)
        limits = [part.makes for part in parts if not part.is_from_tap]
        whole = _measured_down(min(limits), mix)
        poured, pour = self._poured(mix, parts)
        is_more = whole < made and poured > whole  # both in whole measures
        return MixOnHand(
            mix=mix,
            batch=made,
            parts=parts,
            made=whole,
            by_recipe=self._jar(mix, need, mix.on_hand + whole),
            poured=poured if is_more else 0.0,
            together=self._poured_jar(pour, mix.on_hand + poured) if is_more else None,
            one_tin=_one_tin(parts),
        )

    def _parts(self, mix: Product) -> list[Need]:
        names = {part.product.name for part in mix.recipe}
        return [one for one in self.needs if one.what == "product" and one.name in names]

    def _part(
        self, mix: Product, part: Component, supplies: dict[SupplyKey, Supply], made: float
    ) -> PartJar:
        product = self.piece.shelf.products[part.product.name]
        supply = supplies[SupplyKey("product", product.name)]
        elsewhere = sum((use.drawn for use in supply.uses if not _is_part_of(use, mix)), 0.0)
        return PartJar(
            product=product,
            elsewhere=points(elsewhere, self.piece.settings.buy_for).buy_for,
            needed=made * part.per_unit,
            missing=supply.missing,
            buy=supply.buy,
            per_unit=part.per_unit,
            is_from_tap=_is_water(product),
        )

    def _poured(self, mix: Product, parts: tuple[PartJar, ...]) -> tuple[float, Product]:
        """Return how much all jars make that stay on the wood, and what that is a mix of.

        Thinner and water are left out; one jar by itself is no mix, but it is with what is mixed
        already.
        """
        jars = [part for part in parts if part.product.stays_on and part.free > 0]
        poured = sum(_as_mix(mix, part.product, part.free) for part in jars)
        if len(jars) + (mix.on_hand > 0) < 2:
            return 0.0, mix
        whole = mix.on_hand + poured
        held = {part.product.name: part.per_unit * mix.on_hand for part in mix.recipe}
        recipe = tuple(
            Component(part.product, (held[part.product.name] + part.free) / whole)
            for part in parts
            if part in jars or held[part.product.name]
        )
        return _measured_down(poured, mix), replace(mix, recipe=recipe)

    def _poured_jar(self, pour: Product, amount: float) -> Jar:
        """Return how far another ratio goes, which covers as its own parts do."""
        shelf = self.piece.shelf
        products = {**shelf.products, pour.name: pour}
        piece = replace(self.piece, shelf=replace(shelf, products=products))
        needs = job_needs(piece, self.measured, self.draws)
        need = next(one for one in needs if one.supplied == SupplyKey("product", pour.name))
        return self._jar(pour, need, amount)

    def _jar(self, mix: Product, need: Need, amount: float) -> Jar:
        confidence = self.piece.settings.buy_for
        return jar_of(replace(mix, on_hand=amount), need, self.draws, confidence)


def _one_tin(parts: tuple[PartJar, ...]) -> tuple[Product, Pack] | None:
    """Return the cheapest single pack that makes up for the one part that is short."""
    short = [part for part in parts if part.missing and not part.is_from_tap]
    if len(short) != 1:
        return None
    least = short[0].missing * (1 - ROUNDING)
    enough = [pack for pack in short[0].product.packs if pack.size >= least]
    if not enough:
        return None
    return short[0].product, min(enough, key=_price_then_size)


def _price_then_size(pack: Pack) -> tuple[bool, float, float]:
    return pack.price is None, float(pack.price or 0), pack.size


def _is_part_of(use: Use, mix: Product) -> bool:
    return use.role == "part of mix" and use.text == mix.name


def _is_water(product: Product) -> bool:
    """Whether a part comes from the tap, so that no jar of it is ever short."""
    is_waterborne = product.nature is not None and product.nature.chemistry == "waterborne"
    return product.family == "thinner" and is_waterborne


def _as_mix(mix: Product, product: Product, amount: float) -> float:
    """Return how much of a mix an amount of a part of it is [L or kg of the mix]."""
    if product.basis == mix.basis:
        return amount
    density = product.density_kg_per_l or 1.0
    return amount / density if mix.basis == "volume" else amount * density


def _measured_down(amount: float, mix: Product) -> float:
    """Return an amount in whole measures, as batches are made."""
    return whole_down(amount / mix.batch_step) * mix.batch_step
