"""Several pieces, one trip to the store: needs are summed first, then packs are chosen once.

The same name with the same kind is one supply, in all the packs that any file gives. What differs
stays apart under a name with its piece, and a note says so. The shelf is taken to be one: what
several files have on hand counts once, at the largest amount that any of them gives.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Number
from surfacecalc.model.shelf import Shelf, SupplyKey
from surfacecalc.needs.draws import Draws
from surfacecalc.needs.job import job_needs
from surfacecalc.needs.mixing import add_components
from surfacecalc.needs.uses import Need, Use
from surfacecalc.supplies.all_enough import bought_for
from surfacecalc.supplies.shared_shelf import SharedShelf, free_name
from surfacecalc.supplies.shopping import Supply, supplies_of
from surfacecalc.zones.areas import Measured


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
        counts: how many there are of each piece, in order.
    """

    piece: Piece
    pieces: tuple[str, ...]
    supplies: list[Supply]
    by_piece: dict[SupplyKey, dict[str, float]]
    remarks: tuple[str, ...]
    sources: dict[str, "Source"]
    counts: tuple[int, ...] = ()

    def taken(self, supply: Supply) -> dict[str, float]:
        """Return how much each piece takes of a supply, at the point that is bought for."""
        return self.by_piece[supply.key]

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


def together(jobs: Sequence[tuple[Piece, Measured]]) -> Trip:
    """Return what several pieces need together.

    Args:
        jobs: each piece with its measures; their currencies are the same.

    Raises:
        SupplyError: a need takes more packs than any job does.
    """
    labels = _labels([piece.settings.title for piece, _ in jobs])
    shelf = SharedShelf()
    found: dict[SupplyKey, Need] = {}
    sources: dict[str, Source] = {}
    for label, (piece, measured) in zip(labels, jobs, strict=True):
        renamed = shelf.add(piece.shelf, label)
        source = Source(piece, label, {new: name for (_, name), new in renamed.items()})
        for supplied, use in _uses(piece, measured, label):
            name = renamed.get((supplied.what, supplied.name), supplied.name)
            placed = replace(use, zone=_place(use.zone, source, sources))
            at = replace(supplied, name=name)
            found.setdefault(at, Need(at)).uses.append(placed)
    whole = _whole(jobs, labels, shelf)
    add_components(whole, found)
    draws = Draws()
    whole, needs = bought_for(whole, _in_order(list(found.values())), draws)
    supplies = supplies_of(whole, needs, draws)
    shares = {need.supplied: _shares(need, sources, whole) for need in needs}
    remarks = tuple(dict.fromkeys(shelf.remarks))
    counts = tuple(piece.settings.count for piece, _ in jobs)
    return Trip(whole, labels, supplies, shares, remarks, sources, counts)


def _uses(piece: Piece, measured: Measured, label: str) -> Iterator[tuple[SupplyKey, Use]]:
    """Yield what a piece takes but the parts of its mixes: batches are made for all pieces."""
    for need in job_needs(piece, measured, Draws(), label):
        for use in need.uses:
            if use.role != "part of mix":
                yield need.supplied, use


def _whole(
    jobs: Sequence[tuple[Piece, Measured]], labels: tuple[str, ...], shelf: SharedShelf
) -> Piece:
    first = jobs[0][0]
    buy_for = max(piece.settings.buy_for for piece, _ in jobs)
    if len({piece.settings.buy_for for piece, _ in jobs}) > 1:
        shelf.remarks.append(
            f"the files ask for different buy_for; {100 * buy_for:.4g} % is used for all"
        )
    for_all = [piece.settings.buy_for_all for piece, _ in jobs]
    buy_for_all = max((share for share in for_all if share is not None), default=None)
    if len(set(for_all)) > 1:
        shelf.remarks.append(
            f"the files ask for different buy_for_all; {100 * (buy_for_all or 0):.4g} % is used"
        )
    currency = next((piece.settings.currency for piece, _ in jobs if piece.settings.currency), None)
    for label, (piece, _) in zip(labels, jobs, strict=True):
        if currency and not piece.settings.currency and _has_prices(piece.shelf):
            shelf.remarks.append(
                f"{label} has prices but no currency; they are taken as {currency}"
            )
    settings = replace(
        first.settings,
        name=" + ".join(labels),
        buy_for=buy_for,
        buy_for_all=buy_for_all,
        currency=currency,
        count=1,
    )
    return replace(first, settings=settings, shelf=shelf.shelf())


def _place(zone: str, source: Source, sources: dict[str, Source]) -> str:
    """Return a zone with its piece, unlike any of another piece, and keep where it comes from."""
    number, place = 2, f"{source.label}: {zone}"
    while sources.setdefault(place, source) is not source:
        number, place = number + 1, f"{source.label}: {zone} ({number})"
    return place


def _shares(need: Need, sources: dict[str, Source], whole: Piece) -> dict[str, float]:
    """Return what each piece takes of a supply, at the point that is bought for."""
    drawn: dict[str, Number] = {}
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
        found[free_name(name, found)] = 1
    return tuple(found)


def _has_prices(shelf: Shelf) -> bool:
    return any(pack.price is not None for goods in shelf.goods() for pack in goods.packs)
