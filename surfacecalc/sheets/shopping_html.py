"""The supply list in the order in which one walks through a store."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from surfacecalc.elements import Content, Element, element, name
from surfacecalc.gear.needed_too import NeededToo
from surfacecalc.model.pieces import Piece
from surfacecalc.reports.arithmetic import AsWritten, WhyLine, why
from surfacecalc.reports.certainty import all_lasts
from surfacecalc.reports.choice_words import Choices, choices_of
from surfacecalc.reports.gear_screen import TITLE, about
from surfacecalc.sheets.rounded_words import need_text, packs_text, stock_text
from surfacecalc.sheets.sheet_frame import folded, tick
from surfacecalc.supplies.shopping import Supply, is_unpriced, total_cost, unpriced
from surfacecalc.units.display import Units, format_amount
from surfacecalc.units.money import money_with_sign

STAR = "*"
"""Marks an amount that uses assumed figures; one line under the list says so."""
GROUPS = (
    "Abrasives",
    "Cleaning and stripping",
    "Fillers and glue",
    "Finishes",
    "Tape and masking",
    "Hardware",
    "Used up in the work",
)
"""In the order of a walk through a store."""
_GROUP_OF_WHAT = {
    "abrasive": "Abrasives",
    "thinner": "Cleaning and stripping",
    "water": "Cleaning and stripping",
    "tape": "Tape and masking",
    "hardware": "Hardware",
    "consumable": "Used up in the work",
}
_GROUP_OF_FAMILY = {
    "cleaner": "Cleaning and stripping",
    "stripper": "Cleaning and stripping",
    "thinner": "Cleaning and stripping",
    "filler": "Fillers and glue",
    "glue": "Fillers and glue",
    "hardener": "Fillers and glue",
}


@dataclass(frozen=True)
class Walk:
    """A supply list for the store.

    Attributes:
        piece: the piece, or pieces taken together.
        supplies: what they need.
        units: which units are shown.
        as_written: which piece each use comes from, where there are several.
        too: what the work needs and no step lists.
    """

    piece: Piece
    supplies: list[Supply]
    units: Units
    as_written: AsWritten | None = None
    too: Sequence[NeededToo] = ()

    def body(self, first_tick: int) -> list[Content]:
        """Return the list, its boxes numbered from `first_tick` on."""
        parts: list[Content] = []
        count = first_tick
        for title, found in self._groups():
            items = [self._item(supply, number) for number, supply in enumerate(found, count)]
            count += len(items)
            parts.append([element("h3", title), element("ul", items, look="lines")])
        if parts and any(supply.assumed for supply in self.supplies):
            parts.append(element("p", f"{STAR} uses assumed figures", look="soft"))
        if parts:
            parts += self._total()
        return [*parts, *self._needed_too(count)]

    def _needed_too(self, first_tick: int) -> Iterator[Content]:
        """Yield what no step lists, each with a box; it is in no total."""
        items = [
            element("li", *self._thing(one, number))
            for number, one in enumerate(self.too, first_tick)
        ]
        if items:
            yield [element("h3", TITLE), element("ul", items, look="lines")]

    def _thing(self, one: NeededToo, count: int) -> tuple[Content, Content]:
        key = f"{self.piece.settings.name}|needed too|{one.name}"
        words = element("span", element("b", name(one.name)), look="buy")
        more = element("small", name(about(one, self.piece.settings.currency)))
        return tick(key, count, words), element("div", more, look="more")

    @cached_property
    def _choices(self) -> Choices:
        """What else could be bought of each supply."""
        return choices_of(self.piece, self.supplies)

    def _groups(self) -> Iterable[tuple[str, list[Supply]]]:
        """Yield what to buy by group, then what is mixed, then what is there already."""
        buy = [supply for supply in self.supplies if supply.missing and not supply.mixed]
        buy = [supply for supply in buy if supply.what != "water"]
        for title in GROUPS:
            yield from _some(title, [one for one in buy if self._group(one) == title])
        yield from _some("To mix", [one for one in self.supplies if one.mixed])
        taken = {id(one) for one in buy} | {id(one) for one in self.supplies if one.mixed}
        yield from _some("Nothing to buy", [one for one in self.supplies if id(one) not in taken])

    def _group(self, supply: Supply) -> str:
        product = self.piece.shelf.product(supply.key)
        if product is not None:
            return _GROUP_OF_FAMILY.get(product.family, "Finishes")
        return _GROUP_OF_WHAT.get(supply.what, "Finishes")

    def _item(self, supply: Supply, count: int) -> Element:
        title, get = supply.title, self._get(supply)
        key = f"{self.piece.settings.name}|supply|{title}|{get}"
        shown = f"{title}{STAR}" if supply.assumed else title
        words = element("span", element("b", name(shown)), element("span", get), look="buy")
        more = element("div", element("small", name(self._about(supply))), look="more")
        other = [
            element("div", element("small", name(f"{_capital(text)}.")), look="more")
            for text in self._choices.get(supply.key, ())
        ]
        is_there = supply.what == "water" or not (supply.missing or supply.mixed)
        line: Content = words if is_there else tick(key, count, words)
        return element("li", line, more, other, self._why(supply))

    def _get(self, supply: Supply) -> str:
        """Return what to put into the basket, mix or take off the shelf."""
        if supply.what == "water":
            return need_text(supply.need.buy_for, supply.unit, self.units)
        if supply.mixed:
            # as at the bench, where its parts are measured out: rounded up they would not add up
            return f"mix {format_amount(supply.mixed, supply.unit, self.units)}"
        if not supply.missing:
            return "you have enough"
        missing = need_text(supply.missing, supply.unit, self.units)
        return packs_text(supply.buy, supply.unit) or f"{missing}, no pack size given"

    def _about(self, supply: Supply) -> str:
        texts = [] if supply.kind in ("hardware", "used up") else [supply.kind]
        texts.append(f"needs {need_text(supply.need.buy_for, supply.unit, self.units)}")
        if supply.on_hand:
            texts.append(f"{stock_text(supply.on_hand, supply.unit, self.units)} on hand")
        if supply.buy:
            texts.append(_money(supply, self.piece.settings.currency))
        return " · ".join(texts)

    def _why(self, supply: Supply) -> Content:
        found = why(self.piece, supply, self.units, self.as_written)
        title: Content = ["Why ", element("span", name(supply.title), look="screen")]
        return folded(title, [_why_line(line) for line in found])

    def _total(self) -> Iterator[Element]:
        if not any(supply.buy for supply in self.supplies):
            return
        total = money_with_sign(total_cost(self.supplies), self.piece.settings.currency)
        if is_unpriced(self.supplies):
            total = "no price yet"
        yield element("p", element("span", "Total"), element("span", total), look="total")
        if any(not supply.is_exact for supply in self.supplies):
            yield element("p", all_lasts(self.piece, self.supplies), look="soft")
        if names := unpriced(self.supplies):
            yield element(
                "p", f"Not in the total, no price given: {', '.join(names)}.", look="soft"
            )


def _why_line(line: WhyLine) -> Content:
    """Return a line of an explanation, what is assumed in it marked."""
    return [line.known, element("span", line.assumed, look="assumed") if line.assumed else None]


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _some(title: str, found: list[Supply]) -> Iterable[tuple[str, list[Supply]]]:
    if found:
        yield title, found


def _money(supply: Supply, currency: str | None) -> str:
    if supply.cost is None:
        return "no price"
    return money_with_sign(supply.cost, currency)
