"""The supply list in the order in which one walks through a store."""

from collections.abc import Iterable
from dataclasses import dataclass

from surfacecalc.model.pieces import Piece
from surfacecalc.pictures.marks import safe
from surfacecalc.reports.arithmetic import AsWritten, WhyLine, why
from surfacecalc.sheets.rounded_words import need_text, packs_text
from surfacecalc.sheets.sheet_frame import folded, tick
from surfacecalc.supplies.shopping import Supply, is_unpriced, total_cost, unpriced
from surfacecalc.units.display import Units, format_money

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
    """

    piece: Piece
    supplies: list[Supply]
    units: Units
    as_written: AsWritten | None = None

    def body(self, first_tick: int) -> str:
        """Return the list as HTML, its boxes numbered from `first_tick` on."""
        parts, count = [], first_tick
        for title, found in self._groups():
            items = []
            for supply in found:
                items.append(self._item(supply, count))
                count += 1
            parts.append(f'<h3>{title}</h3>\n<ul class="lines">{"".join(items)}</ul>')
        return "\n".join([*parts, self._total()]) if parts else ""

    def _groups(self) -> Iterable[tuple[str, list[Supply]]]:
        """Yield what to buy by group, then what is mixed, then what is there already."""
        buy = [supply for supply in self.supplies if supply.missing and not supply.mixed]
        buy = [supply for supply in buy if supply.what != "water"]
        for title in GROUPS:
            yield from _some(title, [one for one in buy if self._group(one) == title])
        yield from _some("To be mixed", [one for one in self.supplies if one.mixed])
        taken = {id(one) for one in buy} | {id(one) for one in self.supplies if one.mixed}
        yield from _some("Nothing to buy", [one for one in self.supplies if id(one) not in taken])

    def _group(self, supply: Supply) -> str:
        product = self.piece.products.get(supply.name) if supply.what == "product" else None
        if product is not None:
            return _GROUP_OF_FAMILY.get(product.family, "Finishes")
        return _GROUP_OF_WHAT.get(supply.what, "Finishes")

    def _item(self, supply: Supply, count: int) -> str:
        name, get = supply.title, self._get(supply)
        key = f"{self.piece.settings.name}|supply|{name}|{get}"
        words = f'<span class="buy"><b><bdi>{safe(name)}</bdi></b><span>{safe(get)}</span></span>'
        return (
            f'<li>{tick(key, count, words)}<div class="more"><small>{self._about(supply)}</small>'
            f"</div>{self._why(supply, name)}</li>"
        )

    def _get(self, supply: Supply) -> str:
        """Return what to put into the basket, mix or take off the shelf."""
        if supply.what == "water":
            return "from the tap"
        if supply.mixed:
            return f"mix {need_text(supply.mixed, supply.unit, self.units)}"
        if not supply.missing:
            return "enough on hand"
        missing = need_text(supply.missing, supply.unit, self.units)
        return packs_text(supply.buy, supply.unit) or f"{missing}, no pack is given"

    def _about(self, supply: Supply) -> str:
        texts = [] if supply.kind in ("hardware", "used up") else [supply.kind]
        texts.append(f"takes {need_text(supply.need.buy_for, supply.unit, self.units)}")
        if supply.on_hand:
            texts.append(f"{_at_most(supply, self.units)} on hand")
        if supply.buy:
            texts.append(_money(supply, self.piece.settings.currency))
        mark = ""
        if supply.assumed:
            mark = ' <span class="assumed">assumed values</span>'
        return f"<bdi>{safe(' · '.join(texts))}</bdi>{mark}"

    def _why(self, supply: Supply, name: str) -> str:
        found = why(self.piece, supply, self.units, self.as_written)
        lines = [why_html(line) for line in found]
        return folded(f'Why <span class="screen"><bdi>{safe(name)}</bdi></span>', lines)

    def _total(self) -> str:
        bought = [supply for supply in self.supplies if supply.buy]
        if not bought:
            return ""
        currency = safe(self.piece.settings.currency or "")
        total = f"{format_money(total_cost(self.supplies))} {currency}"
        if is_unpriced(self.supplies):
            total = "no price yet"
        open_names = unpriced(self.supplies)
        missing = ""
        if open_names:
            missing = f'<p class="soft">Without a price: {safe(", ".join(open_names))}.</p>'
        return f'<p class="total"><span>All of it</span><span>{total}</span></p>{missing}'


def why_html(line: WhyLine) -> str:
    """Return a line of an explanation as HTML, what is assumed in it marked."""
    mark = f'<span class="assumed">{safe(line.assumed)}</span>' if line.assumed else ""
    return f"{safe(line.known)}{mark}"


def _some(title: str, found: list[Supply]) -> Iterable[tuple[str, list[Supply]]]:
    if found:
        yield title, found


def _at_most(supply: Supply, units: Units) -> str:
    """Return what is on hand; the same words as for a need, which are rounded up."""
    text = need_text(supply.on_hand, supply.unit, units)
    return text if supply.unit == "each" else f"about {text}"


def _money(supply: Supply, currency: str | None) -> str:
    if supply.cost is None:
        return "no price"
    return f"{format_money(supply.cost)} {currency or ''}".rstrip()
