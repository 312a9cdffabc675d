"""The hardener that is stirred into a product, and how long the mix stays usable."""

import re
from collections.abc import Iterator
from typing import Any

from surfacecalc.catalogue.step_defaults import hardener_share, usual_pot_life
from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.shelf import Basis, Product
from surfacecalc.model.steps import Addition
from surfacecalc.reading.steps.shares import assumed, part_of_one, read_share
from surfacecalc.reading.steps.stock import Stock, read_product
from surfacecalc.reading.tables import Table, shown

KEYS = ("product", "share", "parts", "by")
BASES: tuple[Basis, Basis] = ("volume", "weight")
FILLER_EXAMPLE = '{ product = "hardener", share = "2 %" }'
COAT_EXAMPLE = '{ product = "hardener", parts = "4 : 1" }'
LEAST_POT_LIFE_H, MOST_POT_LIFE_H = 1 / 60, 30 * 24.0
"""Nobody puts a coat on in less than a minute, and what keeps for a month does not set."""
_SPOKEN = re.compile(r"\s*(\d+(?:\.\d+)?)\s+to\s+(\d+(?:\.\d+)?)\s*")
"""Parts as they are said, "4 to 1", which anywhere else is a range."""
_PARTS = re.compile(r"\s*(\d+(?:\.\d+)?)\s*:\s*(\d+(?:\.\d+)?)\s*")


def filler_hardener(table: Table, filler: Product | None, stock: Stock) -> Addition | None:
    """Return the hardener of a filler, by weight and on top of the filler unless it says else."""
    inner = table.table("hardener", FILLER_EXAMPLE) if "hardener" in table else None
    if inner is None:
        return None
    return _read(inner, filler, stock, hardener_share(), usual_by="weight", is_coat=False)


def coat_hardener(table: Table, product: Product | None, stock: Stock) -> Addition | None:
    """Return the hardener of a coat: as written, or what its class needs.

    `hardener = false` says that the product is ready to use.
    """
    written = table.values.get("hardener")
    if written is False:
        return None
    usual = product.hardener if product else None
    if written is None:
        known = usual is not None and product is not None and product.basis == "volume"
        return Addition(None, usual, "hardener") if known and usual is not None else None
    inner = table.table("hardener", COAT_EXAMPLE)
    if inner is None:
        return None
    basis = product.basis if product else "volume"
    return _read(inner, product, stock, usual, usual_by=basis, is_coat=True)


def pot_life(table: Table, product: Product | None, hardener: Addition | None) -> Factor | None:
    """Return how long a batch stays usable once it is mixed [h], None where it does not set."""
    name = product.name if product else ""
    usual = product.pot_life if product else None
    if usual is None or hardener is None:
        what = Input("pot life", of=name)
        usual = assumed(what, usual_pot_life(), "h") if hardener else None
    if "pot_life" not in table:
        return usual

    def read(value: Any, *keys: str | int) -> float | None:
        return table.amount(value, "time", *keys)

    written = table.range("pot_life", read, _check_pot_life)
    what = Input("pot life", of=name, where=table.where)
    return None if written is None else Factor(what, written, "piece file", unit="h")


def _check_pot_life(value: float) -> str | None:
    if LEAST_POT_LIFE_H <= value <= MOST_POT_LIFE_H:
        return None
    return "must be from 1 min to 30 days; check the unit"


def _read(
    inner: Table,
    product: Product | None,
    stock: Stock,
    usual: Factor | None,
    *,
    usual_by: Basis,
    is_coat: bool,
) -> Addition | None:
    """Return a hardener from its table.

    Args:
        inner: the table.
        product: what it is stirred into, None where that has a mistake.
        stock: what may be stirred in.
        usual: the share where the table gives none; None where it has to.
        usual_by: what the share is measured by where the table does not say.
        is_coat: whether the hardener is part of what the coverage is of.
    """
    inner.only(KEYS)
    hardener = read_product(inner, "product", stock, '"hardener"')
    by = next(b for b in BASES if b == inner.choice("by", BASES)) if "by" in inner else usual_by
    share = _share(inner, product, usual)
    if hardener is None or share is None:
        return None
    if product is not None and hardener.name == product.name:
        inner.refuse("product", "is what the step puts on; name the product that hardens it")
    for message in _densities(product, hardener, by, is_coat=is_coat):
        inner.mend(message)
    return Addition(hardener.name, share, "hardener", by)


def _share(inner: Table, product: Product | None, usual: Factor | None) -> Factor | None:
    """Return the hardener as a share of what it is stirred into."""
    if "parts" in inner and "share" in inner:
        inner.refuse("share", "is given beside parts; keep one of them")
    if "parts" not in inner:
        if usual is None and not inner.has("parts" if "share" not in inner else "share", '"4 : 1"'):
            return None
        name = product.name if product else ""
        default = usual or assumed(Input("coat hardener", of=name), Range.fixed(1.0))
        return read_share(inner, "share", default, part_of_one)

    written = _parts(inner)
    name = product.name if product else ""
    default = usual or assumed(Input("coat hardener", of=name), Range.fixed(1.0))
    return None if written is None else default.written(written, inner.where)


def _parts(inner: Table) -> Range | None:
    """Return the hardener to one part of the product, or None after recording a mistake."""
    value = inner.values["parts"]
    said = _SPOKEN.fullmatch(value) if isinstance(value, str) else None
    if said is None:

        def read(value: Any, *keys: str | int) -> float | None:
            return _in_parts(inner, value, *keys)

        return inner.range("parts", read, _check_parts)
    share = float(said[2]) / float(said[1]) if float(said[1]) else 0.0
    wrong = _check_parts(share)
    if wrong:
        inner.refuse("parts", wrong)
        return None
    return Range.fixed(share)


def _in_parts(table: Table, value: Any, *keys: str | int) -> float | None:
    """Return the hardener to one part of the product, or None after recording a mistake."""
    found = _PARTS.fullmatch(value) if isinstance(value, str) else None
    if found is None or float(found[1]) == 0:
        table.mend(
            f'parts = {shown(value)} must be two numbers, as on the tin: "4 : 1" is four parts of'
            " the product to one of hardener",
            *keys,
        )
        return None
    return float(found[2]) / float(found[1])


def _check_parts(share: float) -> str | None:
    if 0 < share <= 1:
        return None
    return 'has no hardener or more of it than of the product; the product comes first, "4 : 1"'


def _densities(
    product: Product | None, hardener: Product, by: Basis, *, is_coat: bool
) -> Iterator[str]:
    """Yield what is missing to turn a share by weight into litres, or one by volume into kilos."""
    wrong = product is not None and product.basis != by
    across = hardener.basis != by or (is_coat and wrong)
    key = "product" if is_coat else "filler"
    for part, word, is_asked in ((product, key, wrong), (hardener, "hardener", across)):
        if part is None or not is_asked or part.density_kg_per_l is not None:
            continue
        packs = " or packs by volume" if by == "volume" and not part.packs else ""
        other = "volume" if part.basis == "weight" else "weight"
        sold = f'the {word} "{part.name}" is sold by {part.basis}'
        if part.basis == by:
            sold = f'the {key} is sold by {other}, and the density of "{part.name}" is not known'
        yield (
            f"has a share by {by}, but {sold}; add"
            f' density = "{_likely_density(word)} kg/L"{packs} to the product on line {part.line}'
        )


def _likely_density(word: str) -> str:
    return "1.6" if word == "filler" else "1.1"
