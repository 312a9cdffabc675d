"""Steps that put a product on: paint, primer, stain, varnish, wax, stripper ..."""

from dataclasses import replace
from typing import Any, assert_never, get_args

from surfacecalc.catalogue.entries import first_coat_share, sprayed_past
from surfacecalc.catalogue.step_defaults import loss_of, more_coats, stays_behind, usual_loss
from surfacecalc.model.inputs import Input, InputUnit
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.shelf import Product
from surfacecalc.model.step_facts import coat_nature, may_go_on_hardware
from surfacecalc.model.steps import Addition, Change, Coat, CoatWord, Method
from surfacecalc.reading.steps.hardeners import coat_hardener, pot_life
from surfacecalc.reading.steps.sand_step import read_between
from surfacecalc.reading.steps.shares import (
    assumed,
    below_one,
    part_of_one,
    read_amount,
    read_loss,
    read_share,
    small_amount,
    zero_or_more,
)
from surfacecalc.reading.steps.spray_keys import read_cup, read_gun
from surfacecalc.reading.steps.stock import Stock, read_product, read_worked_hardware
from surfacecalc.reading.steps.work import WORK_KEYS, read_work
from surfacecalc.reading.tables import Table

METHODS: tuple[Method, ...] = get_args(Method)
CHANGES: tuple[Change, ...] = get_args(Change)
KEYS = ("do", "product", "coats", "by", "loss", "allowance", "first_coat", "thin", "change",
        "spot", "between", "tint", "stays_behind", "gun", "cup", "hardener",
        "pot_life")  # fmt: skip
MOST_COATS = 50


def read_coating(table: Table, do: CoatWord, stock: Stock) -> Coat | None:
    """Return a step that puts a product on, None where it has a mistake."""
    is_left = coat_nature(do) != "stripper"
    goes_on_hardware = may_go_on_hardware(do)
    table.only(
        [
            *KEYS,
            *(["hardware"] if goes_on_hardware else []),
            *(["together"] if is_left else []),
            *WORK_KEYS,
        ]
    )
    product = read_product(table, "product", stock, '"shellac"')
    if product is not None and not product.stays_on:
        table.refuse("product", _no_coat(product))
    by = _method(table, do)
    gun = read_gun(table, by)
    coats = _coats(table, do)
    family = product.family if product else "paint"
    name = product.name if product else ""
    first = _first_coat(product, name, family)
    no_extra = assumed(Input("allowance"), Range.fixed(0.0))
    hardener = coat_hardener(table, product, stock)
    step = Coat(
        product=name,
        coats=coats,
        by=by,
        loss=read_loss(
            table,
            "loss",
            usual_loss(by, gun) if "loss" in table else loss_of(product, by, gun),
            below_one,
        ),
        allowance=read_share(table, "allowance", no_extra, zero_or_more),
        first_coat=read_share(table, "first_coat", first, part_of_one),
        thin=_thin(table, product),
        line=table.line,
        do=do,
        more_coats=_more_coats(table),
        spot=_spot(table),
        between=read_between(table, stock),
        tint=_tint(table, product, stock),
        stays_behind=_stays_behind(table, product, by, stock),
        gun=gun,
        cup=read_cup(table, gun),
        sprayed_past=sprayed_past() if by == "spray" and "loss" not in table else None,
        hardware=read_worked_hardware(table, stock) if goes_on_hardware else None,
        hardener=hardener,
        pot_life=pot_life(table, product, hardener),
        together=_together(table) if is_left else "",
        work=read_work(table, stock),
    )
    return step if table.is_sound and product is not None else None


def _first_coat(product: Product | None, name: str, family: str) -> Factor:
    """Return what the first coat reaches: by the product's class, of a mix by its family."""
    if product is not None and product.first_coat is not None:
        return product.first_coat
    return assumed(Input("first coat", of=name), first_coat_share(family))


def _no_coat(product: Product) -> str:
    if product.family == "filler":
        return (
            "is sold by volume, but the usual coverage of its kind is by weight; add its own"
            ' covers, or its density, such as density = "1.6 kg/L"'
        )
    return "leaves nothing on the wood; for a coat, name a product that stays on it"


def _method(table: Table, do: CoatWord) -> Method:
    usual = _usual_method(do)
    if "by" not in table and usual is not None:
        return usual
    by = table.choice("by", METHODS)
    return next(method for method in METHODS if method == by)


def _usual_method(word: CoatWord) -> Method | None:
    """Return how a word alone says that it is put on; None for one that needs to say how."""
    match word:
        case (
            "condition"
            | "fill grain"
            | "dye"
            | "glaze"
            | "stain"
            | "wax"
            | "lime wax"
            | "wax hardware"
        ):
            return "cloth"  # wiped on and off
        case "strip":
            return "brush"
        case "coat" | "block" | "seal" | "prime" | "top coat":
            return None
        case _:
            assert_never(word)


def _is_one_coat(word: CoatWord) -> bool:
    """Whether one coat is meant where the step gives no number."""
    match word:
        case "coat" | "top coat":
            return False
        case (
            "block" | "condition" | "fill grain" | "dye" | "glaze" | "seal" | "prime" | "stain"
            | "wax" | "lime wax" | "wax hardware" | "strip"
        ):  # fmt: skip
            return True
        case _:
            assert_never(word)


def _coats(table: Table, do: CoatWord) -> Factor:
    what = Input("coats", where=table.where)
    one = Factor(what, Range.fixed(1.0), "piece file", unit="coats")
    if "coats" not in table and _is_one_coat(do):
        return one
    if not table.has("coats", "2"):
        return one

    def read(value: Any, *keys: str | int) -> float | None:
        number = table.number(value, *keys)
        return None if number is None else float(number)

    def rule(value: float) -> str | None:
        if value.is_integer() and 1 <= value <= MOST_COATS:
            return None
        return f"must be a whole number of coats from 1 to {MOST_COATS}"

    coats = table.range("coats", read, rule)
    return one if coats is None else replace(one, range=coats)


def _thin(table: Table, product: Product | None) -> Factor | None:
    if "thin" not in table:
        return None
    if product is not None and product.basis == "weight":
        table.refuse(
            "thin", "is a share by volume, but this product is sold by weight; take thin out"
        )
    return read_share(table, "thin", assumed(Input("thinner"), Range.fixed(0.0)), zero_or_more)


def _more_coats(table: Table) -> Factor | None:
    """Return the coats that a strong change of colour takes beyond the usual ones."""
    if "change" not in table:
        return None
    change = next(word for word in CHANGES if word == table.choice("change", CHANGES))
    return assumed(Input("extra coats", by=change), more_coats(change), "coats")


def _spot(table: Table) -> Factor | None:
    if "spot" not in table:
        return None
    return read_share(table, "spot", assumed(Input("spots"), Range.fixed(1.0)), part_of_one)


def _tint(table: Table, product: Product | None, stock: Stock) -> Addition | None:
    inner = (
        table.table("tint", '{ product = "deep green", share = "5 %" }')
        if "tint" in table
        else None
    )
    if inner is None:
        return None
    inner.only(("product", "share"))
    tint = read_product(inner, "product", stock, '"deep green"')
    share = assumed(Input("tint"), Range.fixed(0.0))
    if inner.has("share", '"5 %"'):
        share = read_share(inner, "share", share, zero_or_more)
    if tint is None:
        return None
    if product is not None and tint.basis != product.basis:
        inner.refuse("product", f"must be sold by {product.basis}, like the product that it tints")
    return Addition(tint.name, share, "tint")


def _stays_behind(table: Table, product: Product | None, by: Method, stock: Stock) -> Factor | None:
    value = table.values.get("stays_behind", stock.stays_behind)
    basis = product.basis if product else "volume"
    unit: InputUnit = "kg" if basis == "weight" else "L"
    what = Input("left in the tools", by=by)
    if isinstance(value, bool):
        return assumed(what, stays_behind(by), unit) if value else None
    return read_amount(table, "stays_behind", what, basis, small_amount)


def _together(table: Table) -> str:
    """Return the word of a session that several steps share; only a zone can have one."""
    if "together" not in table:
        return ""
    if "hardware" in table:
        table.mend("has both together and hardware; keep one of them", "together")
    return table.text("together", '"clear"').strip()
