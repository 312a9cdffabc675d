"""Shelves of several pieces as one: like goods are joined, unlike goods are kept apart by name."""

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.shelf import (
    Abrasive,
    Component,
    Consumable,
    Goods,
    Hardware,
    Pack,
    Product,
    Shelf,
    SupplyKey,
    Tape,
    record_file,
)
from surfacecalc.supplies.shared_shelf import SharedShelf, free_name

ONE = Factor(Input("consumable life"), Range.fixed(1.0), "piece file")
PAINT = Product("paint", "paint", "paint", "volume", (ONE,), (), 0.0, None, 1)
DISC = Abrasive("disc", "125 mm disc", {120: ONE}, (), {120: 3, 180: 1}, 1)
TAPE = Tape("tape", "m", 25.0, (), 0.0, 1)
PULLS = Hardware("pulls", 4, "keep", (90.0, 20.0, 25.0), (), 0, 1)
CLOTH = Consumable("cloth", ONE, "area", (), 0, 1)


def shelf(*goods: Goods) -> Shelf:
    kinds = (Product, Abrasive, Tape, Hardware, Consumable)
    by_kind: list[Any] = [
        {one.name: one for one in goods if isinstance(one, kind)} for kind in kinds
    ]
    return Shelf(*by_kind)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (PAINT, replace(PAINT, kind="stain")),
        (PAINT, replace(PAINT, basis="weight")),
        (PAINT, replace(PAINT, batch_step=0.1)),
        (DISC, replace(DISC, form="sheet")),
        (TAPE, replace(TAPE, width_mm=50.0)),
        (TAPE, replace(TAPE, unit="m2")),
        (PULLS, replace(PULLS, plan="replace")),
        (PULLS, replace(PULLS, size_mm=(90.0, 20.0, 30.0))),
    ],
)
def test_unlike_goods_of_one_name_are_kept_apart(one: Goods, other: Goods) -> None:
    shared = SharedShelf()
    assert {} == shared.add(shelf(one), "desk")
    renamed = shared.add(shelf(other), "chair")
    assert [f"{one.name} (chair)"] == list(renamed.values())
    assert {one.name, f"{one.name} (chair)"} == {goods.name for goods in shared.shelf().goods()}


@pytest.mark.parametrize("one", [PAINT, DISC, TAPE, PULLS, CLOTH])
def test_like_goods_are_joined_with_all_their_packs(one: Goods) -> None:
    small, large = Pack(1.0, "", Decimal(3)), Pack(2.0, "", None)
    dearer = Pack(1.0 + 1e-12, "", Decimal(4))
    shared = SharedShelf()
    shared.add(shelf(replace(one, packs=(small,))), "desk")
    assert {} == shared.add(shelf(replace(one, packs=(dearer, large))), "chair")
    (joined,) = shared.shelf().goods()
    assert [(1.0, 4), (2.0, None)] == [(pack.size, pack.price) for pack in joined.packs]
    assert f'"{one.name}" has two prices; the higher one is used' in shared.remarks


def test_of_two_amounts_on_hand_the_larger_counts() -> None:
    shared = SharedShelf()
    shared.add(shelf(replace(PAINT, on_hand=0.2), DISC), "desk")
    shared.add(shelf(replace(PAINT, on_hand=0.5), replace(DISC, on_hand={120: 1, 240: 7})), "chair")
    found = shared.shelf()
    assert 0.5 == found.products["paint"].on_hand
    assert {120: 3, 180: 1, 240: 7} == found.abrasives["disc"].on_hand


def test_mix_knows_the_new_name_of_its_part_whatever_the_order() -> None:
    def mixed(part: Product) -> Shelf:
        mix = Product("mix", "mix", "mix", "volume", (), (), 0.0, None, 1)
        return shelf(replace(mix, recipe=(Component(part, 1.0),)), part)

    shared = SharedShelf()
    shared.add(mixed(PAINT), "desk")
    shared.add(mixed(replace(PAINT, kind="stain")), "chair")
    mixes = [product for product in shared.shelf().products.values() if product.recipe]
    parts = {mix.name: mix.recipe[0].product.name for mix in mixes}
    assert {"mix": "paint", "mix (chair)": "paint (chair)"} == parts


def test_same_name_in_two_tables_is_two_things() -> None:
    hooks = replace(CLOTH, name="pulls")
    shared = SharedShelf()
    shared.add(shelf(PULLS), "desk")
    renamed = shared.add(shelf(replace(PULLS, plan="replace"), hooks), "chair")
    assert {("hardware", "pulls"): "pulls (chair)"} == renamed
    shared.add(shelf(replace(hooks, name="pulls")), "bench")
    assert ["pulls"] == list(shared.shelf().consumables)


@pytest.mark.parametrize(
    ("what", "goods"),
    [("product", PAINT), ("abrasive", DISC), ("tape", TAPE), ("hardware", PULLS),
     ("consumable", CLOTH)],
)  # fmt: skip
def test_shelf_finds_what_a_key_names_and_nothing_else(what: Any, goods: Goods) -> None:
    found = shelf(PAINT, DISC, TAPE, PULLS, CLOTH)
    assert goods is found.find(SupplyKey(what, goods.name))
    assert None is found.find(SupplyKey(what, "another"))
    assert None is found.find(SupplyKey("water", goods.name))
    assert None is found.find(SupplyKey("thinner", goods.name))
    assert (goods if what == "product" else None) is found.product(SupplyKey(what, goods.name))


def test_only_products_and_abrasives_come_from_records_of_ones_own() -> None:
    assert "own.toml" == record_file(replace(PAINT, file="own.toml"))
    assert "own.toml" == record_file(replace(DISC, file="own.toml"))
    assert ["", "", ""] == [record_file(goods) for goods in (TAPE, PULLS, CLOTH)]


@pytest.mark.parametrize(
    ("first", "second", "is_said"),
    [({80: 2}, {320: 1}, False), ({80: 2}, {80: 1, 320: 1}, True), ({80: 0}, {80: 1}, False),
     ({80: 2, 320: 1}, {320: 1}, True)],
)  # fmt: skip
def test_only_the_same_grit_is_on_hand_twice(
    first: dict[int, int], second: dict[int, int], is_said: bool
) -> None:
    """Two sheets P80 here and one P320 there are three sheets; nothing is counted once."""
    shared = SharedShelf()
    shared.add(shelf(replace(DISC, on_hand=first)), "desk")
    shared.add(shelf(replace(DISC, on_hand=second)), "chair")
    said = '"disc" is on hand in more than one file; it is counted once'
    assert is_said == (said in shared.remarks)


def test_nothing_on_hand_of_a_grit_stays_nothing() -> None:
    shared = SharedShelf()
    shared.add(shelf(replace(DISC, on_hand={120: 3, 180: 0})), "desk")
    shared.add(shelf(replace(DISC, on_hand={120: 1, 240: 0})), "chair")
    assert {120: 3, 180: 0, 240: 0} == shared.shelf().abrasives["disc"].on_hand


def test_one_price_in_both_files_needs_no_word() -> None:
    pack = Pack(1.0, "", Decimal(3))
    for one, other in ((pack, pack), (pack, replace(pack, price=None))):
        shared = SharedShelf()
        shared.add(shelf(replace(CLOTH, packs=(one,))), "desk")
        shared.add(shelf(replace(CLOTH, packs=(other,))), "chair")
        assert [] == shared.remarks
        assert (pack,) == shared.shelf().consumables["cloth"].packs


@pytest.mark.parametrize(
    ("one", "other", "differs"),
    [
        (PAINT, replace(PAINT, kind="stain"), "another kind or recipe"),
        (DISC, replace(DISC, form="sheet", on_hand={}), "another form"),
    ],
)
def test_what_is_kept_apart_is_said_with_its_reason(one: Any, other: Any, differs: str) -> None:
    """What is on hand of it may be the jar of the other file."""
    name = one.name
    listed = f'"{name}" has {differs} in chair; it is listed separately'
    for on_hand, more in (
        (other.on_hand, []),
        (
            0.5 if one is PAINT else {80: 1},
            [f'make sure the "{name} (chair)" on hand is not counted twice'],
        ),
    ):
        shared = SharedShelf()
        shared.add(shelf(one), "desk")
        shared.add(shelf(replace(other, on_hand=on_hand)), "chair")
        assert [listed, *more] == shared.remarks


def test_a_taken_name_gets_the_next_free_number() -> None:
    taken: dict[str, int] = {"paint (chair)": 1, "paint (chair) (2)": 1}
    assert "paint" == free_name("paint", taken)
    assert "paint (chair) (3)" == free_name("paint (chair)", taken)
