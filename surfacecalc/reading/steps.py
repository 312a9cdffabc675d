"""Steps of a finish schedule, in a zone or in a schedule with a name."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, get_args

from surfacecalc.catalogue.entries import first_coat_share, loss_share
from surfacecalc.pieces import Abrasive, Coat, Method, Product, Sand, Step
from surfacecalc.problems import suggestion
from surfacecalc.ranges import Factor, Range
from surfacecalc.reading.abrasives import nearest_grit, read_grit
from surfacecalc.reading.tables import Table, shown

SAND_KEYS = ("do", "grits", "with")
COAT_KEYS = ("do", "product", "coats", "by", "loss", "allowance", "first_coat", "thin")
METHODS: tuple[Method, ...] = get_args(Method)
MOST_COATS = 50


@dataclass(frozen=True)
class Shelf:
    """What steps may use.

    Attributes:
        products: by name.
        abrasives: by name.
        product_names: all names in the file, also of products with a mistake.
        abrasive_names: all names in the file, also of abrasives with a mistake.
    """

    products: Mapping[str, Product]
    abrasives: Mapping[str, Abrasive]
    product_names: Mapping[str, int]
    abrasive_names: Mapping[str, int]


def read_steps(outer: Table, key: str, owner: str, shelf: Shelf) -> tuple[Step, ...]:
    """Return the steps in a list of tables; mistakes are recorded.

    Args:
        outer: the table that has them.
        key: the key under which they stand.
        owner: whose steps they are, such as 'zone "seat"'.
        shelf: what they may use.
    """
    steps = []
    for number, table in enumerate(outer.tables(key, _example(owner, key)), start=1):
        table.where = f"{owner} step {number}"
        if not table.has("do", '"sand" (or "coat")'):
            continue
        do = table.choice("do", ("sand", "coat"))
        if not table.is_sound:
            continue
        step = _sand(table, shelf) if do == "sand" else _coat(table, shelf)
        if step is not None:
            steps.append(step)
    return tuple(steps)


def _example(owner: str, key: str) -> str:
    return "[[zone.step]]" if owner.startswith("zone") else f"[[schedule.{key}]]"


def _sand(table: Table, shelf: Shelf) -> Sand | None:
    table.only(SAND_KEYS)
    grits = _grits(table)
    name = table.text("with", '"disc"')
    _check_known(table, "with", name, shelf.abrasive_names, "abrasive")
    abrasive = shelf.abrasives.get(name)
    for grit in dict.fromkeys(grits) if abrasive else ():
        if abrasive and grit not in abrasive.life:
            table.mend(f'abrasive "{name}" has no life for grit {grit}; add it there', "grits")
    return Sand(grits, name, table.line) if table.is_sound else None


def _grits(table: Table) -> tuple[int, ...]:
    if not table.has("grits", "[80, 120, 180]"):
        return ()
    value = table.values["grits"]
    if not isinstance(value, list) or not value:
        table.refuse("grits", "must be a list of grits, such as grits = [80, 120, 180]")
        return ()
    grits = []
    for number, item in enumerate(value):
        grit = read_grit(item)
        if grit is None:
            table.mend(
                f"grit {shown(item)} is no FEPA grade; {nearest_grit(item)}", "grits", number
            )
        else:
            grits.append(grit)
    return tuple(grits)


def _coat(table: Table, shelf: Shelf) -> Coat | None:
    table.only(COAT_KEYS)
    name = table.text("product", '"shellac"')
    _check_known(table, "product", name, shelf.product_names, "product")
    product = shelf.products.get(name)
    if product is not None and not product.coverage:
        table.refuse("product", "is a thinner; a coat needs something that stays on the wood")
    by = table.choice("by", METHODS)
    coats = _coats(table)
    factors = {
        "loss": _share(table, "loss", loss_share(by), _below_one, f"loss by {by}"),
        "allowance": _share(table, "allowance", Range.fixed(0.0), _zero_or_more, "allowance"),
        "first_coat": _share(
            table,
            "first_coat",
            first_coat_share(product.family if product else "paint"),
            _above_zero,
            f"first coat {name}",
        ),
    }
    thin = None
    if "thin" in table:
        thin = _share(table, "thin", Range.fixed(0.0), _zero_or_more, "thin")
        if product is not None and product.basis == "weight":
            table.refuse("thin", "is by volume, and this product is sold by weight")
    if not table.is_sound or coats is None or product is None:
        return None
    method = next(method for method in METHODS if method == by)
    return Coat(name, coats, method, **factors, thin=thin, line=table.line)


def _check_known(table: Table, key: str, name: str, known: Mapping[str, int], what: str) -> None:
    if not name or name in known:
        return
    hint = suggestion(name, known) if known else f"add one as [[{what}]]"
    table.refuse(key, f"is no {what} of this file; {hint}")


def _coats(table: Table) -> Factor | None:
    if not table.has("coats", "2"):
        return None

    def read(value: Any, *keys: str | int) -> float | None:
        number = table.number(value, *keys)
        return None if number is None else float(number)

    def rule(value: float) -> str | None:
        if value.is_integer() and 1 <= value <= MOST_COATS:
            return None
        return f"must be a whole number of coats from 1 to {MOST_COATS}"

    coats = table.range("coats", read, rule)
    return None if coats is None else Factor(f"{table.where} coats", coats, "piece file")


def _share(
    table: Table, key: str, default: Range, rule: Callable[[float], str | None], default_key: str
) -> Factor:
    """Return a share that is written, or its default, marked as assumed."""
    assumed = Factor(default_key, default, "assumed")
    if key not in table:
        return assumed
    written = table.range(key, table.share, rule)
    return assumed if written is None else Factor(f"{table.where} {key}", written, "piece file")


def _below_one(value: float) -> str | None:
    return None if 0 <= value < 1 else "must be from 0 % to below 100 %"


def _zero_or_more(value: float) -> str | None:
    return None if 0 <= value <= 10 else "must be from 0 % to 1000 %"


def _above_zero(value: float) -> str | None:
    return None if 0 < value <= 1 else "must be more than 0 % and at most 100 %"
