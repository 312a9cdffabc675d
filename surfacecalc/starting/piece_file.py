"""The text of a new piece file, with comments on what was measured and what may be changed."""

import json
import textwrap
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from surfacecalc.starting.blocks import Block, ZoneFaces, block_text
from surfacecalc.starting.finishes import (
    LEAVE,
    PRODUCTS,
    SHEET,
    SHEET_FORMS,
    SHEETS_IN_A_PACK,
    Coats,
    Sanding,
    Step,
    is_to_strip,
    steps,
)
from surfacecalc.starting.kinds import MESH
from surfacecalc.starting.scales import UNITS, Scale

NOT_MEASURED = "Not measured, taken as proposed (common practice, no source)"


@dataclass(frozen=True)
class Finish:
    """How a zone is to be finished, and what it is like now ("" where it is left)."""

    way: str
    condition: str = ""

    @property
    def schedule(self) -> str:
        """Name of its schedule."""
        return f"{self.way} on {self.condition}"


@dataclass(frozen=True)
class Draft:
    """What a new file says.

    Attributes:
        name: the piece's name.
        kind: its kind.
        scale: the tape.
        built: the year, or "unknown".
        currency: its code, "" for none.
        measured: what was measured, one text each.
        assumed: what was taken as proposed, one text each.
        blocks: the parts.
        zones: the zones with their selectors.
        finishes: how each zone is finished.
    """

    name: str
    kind: str
    scale: Scale
    built: str
    currency: str
    measured: Sequence[str]
    assumed: Sequence[str]
    blocks: Sequence[Block]
    zones: Sequence[ZoneFaces]
    finishes: Mapping[str, Finish]

    @property
    def system(self) -> str:
        """Sizes of packs: "us" or "metric"."""
        return "us" if self.scale.unit == "in" else "metric"


def piece_text(draft: Draft) -> str:
    """Return the whole file."""
    ways = dict.fromkeys(f for f in draft.finishes.values() if f.way != LEAVE)
    used = {finish.schedule: steps(finish.way, finish.condition) for finish in ways}
    coats = [step for found in used.values() for step in found if isinstance(step, Coats)]
    sanded = any(isinstance(step, Sanding) for found in used.values() for step in found)
    tables = [_head(draft), _ruler("what it is made of")]
    tables += [block_text(block, draft.scale) for block in draft.blocks]
    tables += [_ruler("how it is finished")]
    tables += [_zone(zone, draft.finishes[zone.name]) for zone in draft.zones]
    tables += _schedules(used)
    if used:
        tables += [_supplies_comment(draft)]
    tables += [_product(name, draft) for name in dict.fromkeys(step.product for step in coats)]
    tables += [_sheets(draft)] if sanded else []
    return "\n\n".join(tables) + "\n"


def _head(draft: Draft) -> str:
    lines = [f"# {draft.name}: a {draft.kind}, begun with `surfacecalc new`.", "#"]
    for title, texts in (("Measured", draft.measured), (NOT_MEASURED, draft.assumed)):
        if texts:
            lines += [f"# {title}:", *_comment(texts), "#"]
    lines += [
        f"# Plain numbers are {UNITS[draft.scale.unit]}. x runs from left to right, y from",
        "# front to back, z up from the floor. Change any measure; `surfacecalc check`",
        "# tells mistakes.",
        "",
        "[piece]",
        f"name = {_quoted(draft.name)}",
        *([] if draft.kind == MESH else [f"kind = {_quoted(draft.kind)}"]),
        f"unit = {_quoted(draft.scale.unit)}",
        f"built = {draft.built if draft.built.isdigit() else _quoted(draft.built)}",
    ]
    currency = [f"currency = {_quoted(draft.currency)}"] if draft.currency else []
    return "\n".join([*lines, *currency])


def _comment(texts: Sequence[str]) -> Iterator[str]:
    """Yield the lines of a comment, each text wrapped."""
    for text in texts:
        yield from textwrap.wrap(
            text, 80, initial_indent="#   ", subsequent_indent="#     ", break_on_hyphens=False
        )


def _ruler(what: str) -> str:
    return f"# ---- {what} ".ljust(80, "-")


def _zone(zone: ZoneFaces, finish: Finish) -> str:
    faces = ", ".join(_quoted(selector) for selector in zone.selectors)
    lines = ["[[zone]]", f"name = {_quoted(zone.name)}", f"faces = [{faces}]"]
    if finish.way == LEAVE:
        return "\n".join([*lines, "leave = true"])
    if is_to_strip(finish.way, finish.condition):
        comment = '# The old finish has to come off first. Once it is off: surface = "bare"'
        lines.insert(0, comment)
    lines += [f"surface = {_quoted(finish.condition)}", f"schedule = {_quoted(finish.schedule)}"]
    return "\n".join(lines)


def _schedules(used: Mapping[str, Sequence[Step]]) -> list[str]:
    texts = [_step(name, step) for name, found in used.items() for step in found]
    if texts:
        comment = "# Steps in order: common practice, to be changed to what the labels say."
        texts[0] = f"{comment}\n{texts[0]}"
    return texts


def _step(schedule: str, step: Step) -> str:
    lines = [f"[[schedule.{_quoted(schedule)}]]"]
    if isinstance(step, Sanding):
        lines += ['do = "sand"', f"grits = {list(step.grits)}", f"with = {_quoted(SHEET)}"]
    else:
        lines += ['do = "coat"', f"product = {_quoted(step.product)}"]
        lines += [f"coats = {step.coats}", f"by = {_quoted(step.by)}"]
    return "\n".join(lines)


def _supplies_comment(draft: Draft) -> str:
    is_us = draft.system == "us"
    covers, hand, pack = (
        ("90 ft2/quart", "6 fl oz", "1 quart") if is_us else ("10 m2/L", "200 ml", "750 ml")
    )
    ruler = _ruler("what it is finished with")
    return (
        f"{ruler}\n"
        "# No label was read yet: the list marks coverage as assumed. Write what it says:\n"
        f'#   covers = "{covers}"      what the label says\n'
        f'#   on_hand = "{hand}"          what is left in the tin\n'
        f'#   packs = [{{ size = "{pack}", price = 19 }}]      what a pack costs'
    )


def _product(name: str, draft: Draft) -> str:
    product = PRODUCTS[name]
    packs = product.us if draft.system == "us" else product.metric
    sizes = ", ".join(f"{{ size = {_quoted(size)} }}" for size in packs)
    lines = ["[[product]]", f"name = {_quoted(name)}", f"kind = {_quoted(product.kind)}"]
    return "\n".join([*lines, f"packs = [{sizes}]"])


def _sheets(draft: Draft) -> str:
    packs = ", ".join(f"{{ count = {count} }}" for count in SHEETS_IN_A_PACK)
    lines = ["[[abrasive]]", f"name = {_quoted(SHEET)}"]
    return "\n".join([*lines, f"form = {_quoted(SHEET_FORMS[draft.system])}", f"packs = [{packs}]"])


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
