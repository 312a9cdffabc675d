"""The shelves of several pieces become one: like goods are joined, unlike goods kept apart."""

from dataclasses import dataclass, field, replace
from typing import TypeVar, assert_never

from surfacecalc.closeness import SAME_SIZE_PLACES
from surfacecalc.model.shelf import (
    COLOURED,
    Abrasive,
    Component,
    Consumable,
    Goods,
    Hardware,
    Pack,
    Product,
    Shelf,
    Tape,
    What,
)

Renamed = dict[tuple[What, str], str]
"""The new name of what is kept apart, by kind and old name."""
Kept = TypeVar("Kept", Product, Abrasive, Tape, Hardware, Consumable)


@dataclass
class SharedShelf:
    """The shelves of all pieces so far.

    Attributes:
        products: products and mixes, by name.
        abrasives: by name.
        tapes: by name.
        hardware: by name.
        consumables: by name.
        remarks: what was kept apart, and what was decided.
        apart: names of what was kept apart, by kind and the name in its file.
    """

    products: dict[str, Product] = field(default_factory=dict)
    abrasives: dict[str, Abrasive] = field(default_factory=dict)
    tapes: dict[str, Tape] = field(default_factory=dict)
    hardware: dict[str, Hardware] = field(default_factory=dict)
    consumables: dict[str, Consumable] = field(default_factory=dict)
    remarks: list[str] = field(default_factory=list)
    apart: dict[tuple[What, str], list[str]] = field(default_factory=dict)

    def shelf(self) -> Shelf:
        """Return what is there so far."""
        return Shelf(self.products, self.abrasives, self.tapes, self.hardware, self.consumables)

    def add(self, shelf: Shelf, label: str) -> Renamed:
        """Put a piece's shelf in; return the new names of what is kept apart.

        Args:
            shelf: the shelf.
            label: the name of its piece.
        """
        renamed: Renamed = {}
        # what mixes are made of first, so that mixes know its new names
        for product in sorted(shelf.products.values(), key=lambda product: bool(product.recipe)):
            moved = with_new_parts(product, renamed)
            self._put(self.products, "product", moved, label, renamed)
        for abrasive in shelf.abrasives.values():
            self._put(self.abrasives, "abrasive", abrasive, label, renamed)
        for tape in shelf.tapes.values():
            self._put(self.tapes, "tape", tape, label, renamed)
        for hardware in shelf.hardware.values():
            self._put(self.hardware, "hardware", hardware, label, renamed)
        for item in shelf.consumables.values():
            self._put(self.consumables, "consumable", item, label, renamed)
        return renamed

    def _put(
        self, known: dict[str, Kept], what: What, goods: Kept, label: str, renamed: Renamed
    ) -> None:
        """Put one entry in: new, joined with its like, or apart under a name with its piece."""
        if goods.name not in known:
            known[goods.name] = goods
            return
        apart: list[str] = self.apart.setdefault((what, goods.name), [])
        for name in (goods.name, *apart):
            if not _difference(known[name], goods):
                known[name] = self._joined(known[name], goods)
                break
        else:
            differs = _difference(known[goods.name], goods)
            name = free_name(f"{goods.name} ({label})", known)
            self.remarks.append(f'"{goods.name}" has {differs} in {label}; it is listed separately')
            if goods.on_hand:
                self.remarks.append(f'make sure the "{name}" on hand is not counted twice')
            known[name] = replace(goods, name=name)
            apart.append(name)
        if name != goods.name:
            renamed[what, goods.name] = name

    def _joined(self, known: Kept, goods: Kept) -> Kept:
        """Return one entry for two: all packs, the dearer of two prices, the more on hand."""
        packs, is_dearer = _all_packs(known.packs, goods.packs)
        if is_dearer:
            self.remarks.append(f'"{goods.name}" has two prices; the higher one is used')
        if isinstance(known, Product) and known.family in COLOURED:
            self.remarks.append(
                f'"{goods.name}" counts as one colour for every piece; if the colours differ, give'
                " each its own name"
            )
        if _is_twice_on_hand(known, goods):
            self.remarks.append(
                f'"{goods.name}" is on hand in more than one file; it is counted once'
            )
        if isinstance(known, Abrasive) and isinstance(goods, Abrasive):
            return replace(known, packs=packs, on_hand=_more_on_hand(known, goods))
        return replace(known, packs=packs, on_hand=max(known.on_hand, goods.on_hand))


def free_name(name: str, taken: dict[str, Kept] | dict[str, int]) -> str:
    """Return a name, with a number where it is taken."""
    number, free = 2, name
    while free in taken:
        number, free = number + 1, f"{name} ({number})"
    return free


def with_new_parts(product: Product, renamed: Renamed) -> Product:
    """Return a mix with the new names of what it is mixed from."""
    recipe = tuple(
        Component(
            replace(
                part.product, name=renamed.get(("product", part.product.name), part.product.name)
            ),
            part.per_unit,
        )
        for part in product.recipe
    )
    return replace(product, recipe=recipe)


def _more_on_hand(one: Abrasive, other: Abrasive) -> dict[int, int]:
    grits = {*one.on_hand, *other.on_hand}
    return {grit: max(one.on_hand.get(grit, 0), other.on_hand.get(grit, 0)) for grit in grits}


def _is_twice_on_hand(one: Goods, other: Goods) -> bool:
    """Whether two files have the same thing on hand; of an abrasive, the same grit."""
    if isinstance(one, Abrasive) and isinstance(other, Abrasive):
        return any(one.on_hand[grit] and other.on_hand.get(grit, 0) for grit in one.on_hand)
    return bool(one.on_hand and other.on_hand)


def _difference(one: Goods, other: Goods) -> str:
    """Return what keeps two things of the same name apart, or nothing."""
    if _nature(one) != _nature(other):
        return "another kind or recipe" if isinstance(one, Product) else "another form"
    return ""


def _nature(goods: Goods) -> tuple[object, ...]:
    """Return what must be equal in two things that are one on the list."""
    match goods:
        case Product():
            parts = tuple(
                (part.product.name, round(part.per_unit, SAME_SIZE_PLACES)) for part in goods.recipe
            )
            return (goods.kind.casefold(), goods.basis, parts, goods.batch_step)
        case Abrasive():
            return (goods.form,)
        case Tape():
            return (goods.unit, goods.width_mm)
        case Hardware():
            return (goods.size_mm, goods.plan)
        case Consumable():
            return ()
        case _:
            assert_never(goods)


def _all_packs(one: tuple[Pack, ...], other: tuple[Pack, ...]) -> tuple[tuple[Pack, ...], bool]:
    """Return the packs of both, the higher of two prices each, and whether any two differ."""
    packs, is_dearer = {_size(pack): pack for pack in one}, False
    for pack in other:
        same = packs.setdefault(_size(pack), pack)
        known = [found.price for found in (same, pack) if found.price is not None]
        is_dearer = is_dearer or len(set(known)) > 1
        packs[_size(pack)] = replace(same, price=max(known, default=None))
    return tuple(packs.values()), is_dearer


def _size(pack: Pack) -> float:
    """Return the size of a pack without the last digits, in which two files may differ."""
    return round(pack.size, SAME_SIZE_PLACES)
