"""Several pieces, one trip to the store: needs are summed first, then packs are chosen once.

The same name with the same kind is one supply, in all the packs that any file gives. What differs
stays apart under a name with its piece, and a note says so. The shelf is taken to be one: what
several files have on hand counts once, at the largest amount that any of them gives.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np

from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import COLOURED, Abrasive, Component, Pack, Product
from surfacecalc.needs.draws import Draws
from surfacecalc.needs.job import job_needs
from surfacecalc.needs.mixing import add_components
from surfacecalc.needs.uses import Need, SupplyKey, Use
from surfacecalc.supplies.shopping import Supply, supplies_of
from surfacecalc.zones.areas import Measured

SHELVES = {
    "product": "products",
    "abrasive": "abrasives",
    "tape": "tapes",
    "hardware": "hardware",
    "consumable": "consumables",
}
"""Where a piece keeps each kind of thing."""


@dataclass(frozen=True)
class Trip:
    """What several pieces need together.

    Attributes:
        piece: the pieces' shelves as one; its name is that of all pieces.
        pieces: their names, unlike each other, in order.
        supplies: one list.
        by_piece: how much of each supply each piece takes, by supply, then by piece.
        remarks: what is listed separately, and what was decided.
        sources: for each zone, its piece and what that piece calls what was kept apart.
    """

    piece: Piece
    pieces: tuple[str, ...]
    supplies: list[Supply]
    by_piece: dict[SupplyKey, dict[str, float]]
    remarks: tuple[str, ...]
    sources: dict[str, "Source"]

    def taken(self, supply: Supply) -> dict[str, float]:
        """Return how much each piece takes of a supply, at the point that is bought for."""
        return self.by_piece[SupplyKey(supply.what, supply.name, supply.grit)]

    def as_written(self, supply: Supply, use: Use) -> tuple[Piece, Supply]:
        """Return the piece that a use comes from, and the supply by its name there."""
        source = self.sources[use.zone]
        return source.piece, replace(supply, name=source.names.get(supply.name, supply.name))


@dataclass(frozen=True)
class Source:
    """Where a use comes from.

    Attributes:
        piece: its piece.
        label: the piece's name, unlike the others'.
        names: the names there of what goes by another name on the list.
    """

    piece: Piece
    label: str
    names: dict[str, str]


@dataclass
class _Shelf:
    """The shelves of all pieces so far, and the notes on them."""

    things: dict[str, dict[str, Any]] = field(
        default_factory=lambda: {what: {} for what in SHELVES}
    )
    remarks: list[str] = field(default_factory=list)
    apart: dict[tuple[str, str], list[str]] = field(default_factory=dict)

    def add(self, piece: Piece, label: str) -> dict[tuple[str, str], str]:
        """Put a piece's shelf in; return the new names of what is kept apart, by kind and name."""
        renamed: dict[tuple[str, str], str] = {}
        for what, attribute in SHELVES.items():
            things = list(getattr(piece, attribute).values())
            if what == "product":  # what mixes are made of first, so that mixes know its new names
                things.sort(key=lambda product: bool(product.recipe))
            for thing in things:
                moved = _with_new_parts(thing, renamed) if what == "product" else thing
                name = self._put(what, moved, label)
                if name != thing.name:
                    renamed[what, thing.name] = name
        return renamed

    def _put(self, what: str, thing: Any, label: str) -> str:
        shelf = self.things[what]
        if thing.name not in shelf:
            shelf[thing.name] = thing
            return str(thing.name)
        apart = self.apart.setdefault((what, thing.name), [])
        for name in (thing.name, *apart):
            if not _difference(shelf[name], thing):
                shelf[name] = self._joined(shelf[name], thing)
                return str(name)
        differs = _difference(shelf[thing.name], thing)
        name = _free_name(f"{thing.name} ({label})", shelf)
        self.remarks.append(f'"{thing.name}" has {differs} in {label}; it is listed separately')
        if thing.on_hand:
            self.remarks.append(f'make sure the "{name}" on hand is not counted twice')
        shelf[name] = replace(thing, name=name)
        apart.append(name)
        return name

    def _joined(self, known: Any, thing: Any) -> Any:
        """Return one thing for two: all packs, the dearer of two prices, the more on hand."""
        packs, is_dearer = _all_packs(known.packs, thing.packs)
        if is_dearer:
            self.remarks.append(f'"{thing.name}" has two prices; the higher one is used')
        if isinstance(known, Product) and known.family in COLOURED:
            self.remarks.append(
                f'"{thing.name}" counts as one colour for every piece; if the colours differ, give'
                " each its own name"
            )
        if known.on_hand and thing.on_hand:
            self.remarks.append(
                f'"{thing.name}" is on hand in more than one file; it is counted once'
            )
        if isinstance(known, Abrasive):
            grits = {*known.on_hand, *thing.on_hand}
            both = {
                grit: max(known.on_hand.get(grit, 0), thing.on_hand.get(grit, 0)) for grit in grits
            }
            return replace(known, packs=packs, on_hand=both)
        return replace(known, packs=packs, on_hand=max(known.on_hand, thing.on_hand))


def together(jobs: Sequence[tuple[Piece, Measured]]) -> Trip:
    """Return what several pieces need together.

    Args:
        jobs: each piece with its measures; their currencies are the same.

    Raises:
        SupplyError: a need takes more packs than any job does.
    """
    labels = _labels([piece.settings.name for piece, _ in jobs])
    shelf = _Shelf()
    found: dict[SupplyKey, Need] = {}
    sources: dict[str, Source] = {}
    for label, (piece, measured) in zip(labels, jobs, strict=True):
        renamed = shelf.add(piece, label)
        source = Source(piece, label, {new: name for (_, name), new in renamed.items()})
        for supplied, use in _uses(piece, measured):
            name = renamed.get((supplied.what, supplied.name), supplied.name)
            placed = replace(use, zone=_place(use.zone, source, sources))
            at = replace(supplied, name=name)
            found.setdefault(at, Need(at)).uses.append(placed)
    whole = _whole(jobs, labels, shelf)
    add_components(whole, found)
    needs = _in_order(list(found.values()))
    supplies = supplies_of(whole, needs, Draws())
    shares = {need.supplied: _shares(need, sources, whole) for need in needs}
    return Trip(whole, labels, supplies, shares, tuple(dict.fromkeys(shelf.remarks)), sources)


def _uses(piece: Piece, measured: Measured) -> Iterator[tuple[SupplyKey, Use]]:
    """Yield what a piece takes but the parts of its mixes: batches are made for all pieces."""
    for need in job_needs(piece, measured, Draws()):
        for use in need.uses:
            if use.role != "part of mix":
                yield need.supplied, use


def _whole(jobs: Sequence[tuple[Piece, Measured]], labels: tuple[str, ...], shelf: _Shelf) -> Piece:
    first = jobs[0][0]
    buy_for = max(piece.settings.buy_for for piece, _ in jobs)
    if len({piece.settings.buy_for for piece, _ in jobs}) > 1:
        shelf.remarks.append(
            f"the files ask for different buy_for; {100 * buy_for:.4g} % is used for all"
        )
    currency = next((piece.settings.currency for piece, _ in jobs if piece.settings.currency), None)
    for label, (piece, _) in zip(labels, jobs, strict=True):
        if currency and not piece.settings.currency and _has_prices(piece):
            shelf.remarks.append(
                f"{label} has prices but no currency; they are taken as {currency}"
            )
    settings = replace(first.settings, name=" + ".join(labels), buy_for=buy_for, currency=currency)
    shelves: dict[str, Any] = {SHELVES[what]: things for what, things in shelf.things.items()}
    return replace(first, settings=settings, **shelves)


def _place(zone: str, source: Source, sources: dict[str, Source]) -> str:
    """Return a zone with its piece, unlike any of another piece, and keep where it comes from."""
    number, place = 2, f"{source.label}: {zone}"
    while sources.setdefault(place, source) is not source:
        number, place = number + 1, f"{source.label}: {zone} ({number})"
    return place


def _shares(need: Need, sources: dict[str, Source], whole: Piece) -> dict[str, float]:
    """Return what each piece takes of a supply, at the point that is bought for."""
    drawn: dict[str, Any] = {}
    for use in need.uses:
        label = sources[use.zone].label
        drawn[label] = drawn.get(label, 0.0) + use.drawn
    buy_for = whole.settings.buy_for
    return {label: float(np.quantile(amount, buy_for)) for label, amount in drawn.items()}


def _in_order(needs: list[Need]) -> list[Need]:
    """Return needs by first use, all grits of an abrasive where its first one stands."""
    first: dict[tuple[str, str], int] = {}
    for k, need in enumerate(needs):
        first.setdefault((need.what, need.name), k)
    return sorted(needs, key=lambda need: (first[need.what, need.name], need.grit or 0))


def _labels(names: Sequence[str]) -> tuple[str, ...]:
    """Return names, those that come again with a number.

    >>> _labels(["Chair", "Chair", "Desk"])
    ('Chair', 'Chair (2)', 'Desk')
    """
    found: dict[str, int] = {}
    for name in names:
        found[_free_name(name, found)] = 1
    return tuple(found)


def _free_name(name: str, taken: dict[str, Any]) -> str:
    number, free = 2, name
    while free in taken:
        number, free = number + 1, f"{name} ({number})"
    return free


def _with_new_parts(product: Product, renamed: dict[tuple[str, str], str]) -> Product:
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


def _has_prices(piece: Piece) -> bool:
    shelves = (getattr(piece, attribute).values() for attribute in SHELVES.values())
    return any(pack.price is not None for found in shelves for one in found for pack in one.packs)


def _difference(one: Any, other: Any) -> str:
    """Return what keeps two things of the same name apart, or nothing."""
    if _nature(one) != _nature(other):
        return "another kind or recipe" if isinstance(one, Product) else "another form"
    return ""


def _nature(thing: Any) -> tuple[Any, ...]:
    if isinstance(thing, Product):
        parts = tuple((part.product.name, round(part.per_unit, 9)) for part in thing.recipe)
        return (thing.kind.casefold(), thing.basis, parts, thing.batch_step)
    names = ("form", "unit", "width_mm", "size_mm", "plan")
    return tuple(getattr(thing, name, None) for name in names)


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
    return round(pack.size, 9)
