"""The text of a new piece file, with comments on what was measured and what may be changed."""

import json
import textwrap
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import assert_never

from surfacecalc.catalogue.own import FILE_NAME
from surfacecalc.model.kind_names import with_article
from surfacecalc.starting.finishes import (
    AS_IN_FILE,
    DENIB_GRIT,
    LEAVE,
    PRODUCTS,
    SHEET,
    SHEET_FORMS,
    SHEETS_IN_A_PACK,
    Coats,
    Dusting,
    Sanding,
    Step,
    Washing,
    steps,
    wears_old_finish,
)
from surfacecalc.starting.name_questions import may_have_lead
from surfacecalc.starting.part_blocks import Block, ZoneFaces, block_text
from surfacecalc.starting.piece_kinds import MESH
from surfacecalc.starting.scales import UNITS, Scale

LEAD_TEST = """\
# Once a test has shown no lead, you can write lead = "none found" in [piece].
[[consumable]]
name = "lead test"
lasts = "1 job\""""
BUILT_IN = ("doors",)
"""Kinds that are fixed to the building."""
MEASURED = "Measured"
NOT_MEASURED = "Not measured; these are usual sizes (common practice)"


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
class PieceDraft:
    """What a new file says.

    Attributes:
        name: the piece's name.
        kind: its kind.
        scale: the tape.
        built: the year, or "unknown".
        stripping: how an old finish comes off.
        currency: its code, "" for none.
        measured: what was measured, one text each.
        assumed: what was taken as proposed, one text each.
        spread_mm: how far the values of the widest span are from its middle [mm], 0 for no span.
        blocks: the parts.
        zones: the zones with their selectors.
        finishes: how each zone is finished.
        names: what supplies are called, where that is not what a new file calls them.
        own: names that are in the user's own file of products.
    """

    name: str
    kind: str
    scale: Scale
    built: str
    stripping: str
    currency: str
    measured: Sequence[str]
    assumed: Sequence[str]
    spread_mm: Fraction
    blocks: Sequence[Block]
    zones: Sequence[ZoneFaces]
    finishes: Mapping[str, Finish]
    names: Mapping[str, str] = field(default_factory=dict)
    own: Collection[str] = ()

    def called(self, supply: str) -> str:
        """Return what a supply is called."""
        return self.names.get(supply, supply)

    @property
    def tests_lead(self) -> bool:
        """Whether an old finish on it may contain lead."""
        return may_have_lead(self.built)

    @property
    def system(self) -> str:
        """Sizes of packs: "us" or "metric"."""
        return self.scale.system


def piece_text(draft: PieceDraft) -> str:
    """Return the whole file."""
    ways = dict.fromkeys(f for f in draft.finishes.values() if f.way not in (LEAVE, AS_IN_FILE))
    used = {
        finish.schedule: steps(finish.way, finish.condition, draft.stripping) for finish in ways
    }
    tested = {f.schedule for f in ways if draft.tests_lead and wears_old_finish(f.way, f.condition)}
    taken = [step for found in used.values() for step in found]
    products = {step.product: None for step in taken if isinstance(step, Washing | Coats)}
    tables = [_head(draft), _ruler("parts")]
    tables += [block_text(block, draft.scale) for block in draft.blocks]
    tables += [_ruler("finish")]
    tables += [_zone(zone, draft.finishes[zone.name]) for zone in draft.zones]
    tables += _schedules(used, tested, draft)
    supplies = [name for name in PRODUCTS if name in products]
    supplies += [SHEET] if any(map(_sands, taken)) else []
    if used:
        tables += [_supplies_comment(draft, supplies)]
    written = [supply for supply in supplies if draft.called(supply) not in draft.own]
    tables += [_sheets(draft) if supply == SHEET else _product(supply, draft) for supply in written]
    tables += [LEAD_TEST] if tested else []
    return "\n\n".join(tables) + "\n"


def _head(draft: PieceDraft) -> str:
    about = f"{draft.name}: {with_article(draft.kind)}, started with `surfacecalc new`."
    lines = [*_wrapped(about), "#"]
    for title, texts in ((MEASURED, draft.measured), (NOT_MEASURED, draft.assumed)):
        if texts:
            lines += [f"# {title}:", *_comment(texts), "#"]
    lines += [
        f"# Plain numbers are {UNITS[draft.scale.unit]}. x runs from left to right, y from front",
        "# to back, z up from the floor. You can change any measurement;",
        "# `surfacecalc check` lists mistakes.",
        "",
        "[piece]",
        f"name = {_quoted(draft.name)}",
        *([] if draft.kind == MESH else [f"kind = {_quoted(draft.kind)}"]),
        f"unit = {_quoted(draft.scale.unit)}",
        *(["built_in = true"] if draft.kind in BUILT_IN else []),
        f"built = {draft.built if draft.built.isdigit() else _quoted(draft.built)}",
    ]
    currency = [f"currency = {_quoted(draft.currency)}"] if draft.currency else []
    return "\n".join([*lines, *currency, *_measured_to(draft)])


def _measured_to(draft: PieceDraft) -> list[str]:
    """Return how far a measurement may be off, where one was given as two values."""
    if not draft.spread_mm:
        return []
    comment = _wrapped(
        "You gave a measurement as two values. The parts have the middle, and every area gets a"
        " range as if any measurement could be off by as much as that one."
    )
    return [*comment, f"measured_to = {draft.scale.toml(draft.spread_mm)}"]


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
    if finish.way == AS_IN_FILE:
        return "\n".join(lines)
    if finish.way == LEAVE:
        return "\n".join([*lines, "leave = true"])
    lines += [f"surface = {_quoted(finish.condition)}", f"schedule = {_quoted(finish.schedule)}"]
    return "\n".join(lines)


def _schedules(
    used: Mapping[str, Sequence[Step]], tested: Collection[str], draft: PieceDraft
) -> list[str]:
    """Return the schedules; those to test for lead first use the test with their first step."""
    texts = [
        "\n".join(
            [
                *_step_comment(step, found[:number]),
                _step(name, step, draft, is_tested=name in tested and number == 0),
            ]
        )
        for name, found in used.items()
        for number, step in enumerate(found)
    ]
    if texts:
        comment = "# The steps, in order: common practice. Change them where a label differs."
        texts[0] = f"{comment}\n{texts[0]}"
    return texts


def _sands(step: Step) -> bool:
    match step:
        case Sanding():
            return True
        case Coats():
            return step.denibs
        case Washing() | Dusting():
            return False
        case _:
            assert_never(step)


def _step(schedule: str, step: Step, draft: PieceDraft, *, is_tested: bool) -> str:
    sheet = _quoted(draft.called(SHEET))
    lines = [f"[[schedule.{_quoted(schedule)}]]", f"do = {_quoted(_word(step))}"]
    match step:
        case Sanding():
            lines += [f"grits = {list(step.grits)}", f"with = {sheet}", 'by = "hand"']
        case Washing():
            lines += [f"product = {_quoted(draft.called(step.product))}"]
            lines += [f"strength = {_quoted(step.strength)}"]
        case Dusting():
            pass
        case Coats():
            lines += [f"product = {_quoted(draft.called(step.product))}"]
            lines += [f"coats = {step.coats}", f"by = {_quoted(step.by)}"]
            if step.denibs:
                lines += [f"between = {{ grit = {DENIB_GRIT}, with = {sheet} }}"]
        case _:
            assert_never(step)
    if is_tested:
        lines += ['uses = ["lead test"] # before anything is sanded or stripped']
    return "\n".join(lines)


def _word(step: Step) -> str:
    match step:
        case Washing():
            return "wash"
        case Dusting():
            return "dust off"
        case Sanding() | Coats():
            return step.do
        case _:
            assert_never(step)


def _strips(step: Step) -> bool:
    return isinstance(step, Coats) and step.do == "strip"


def _step_comment(step: Step, before: Sequence[Step]) -> list[str]:
    """Return the comment on a step of which somebody may wonder why it is there."""
    if isinstance(step, Washing) and any(map(_strips, before)):
        return _wrapped("Wash off what is left of the stripper, as its label says.")
    if isinstance(step, Washing):
        return _wrapped(
            "Wash off grease, polish and wax: finish does not stick to them, and sanding"
            " rubs them in."
        )
    if isinstance(step, Sanding) and step.do == "strip":
        return _wrapped(
            "Sand to bare wood. To use a chemical stripper instead, delete the lines grits and"
            ' with, add product = "its name" and write by = "brush". If the old finish is already'
            ' off, write surface = "bare" in the zone and delete this step.'
        )
    return []


def _wrapped(text: str) -> list[str]:
    """Return a comment as lines of at most 80 columns."""
    return textwrap.wrap(
        text, 80, initial_indent="# ", subsequent_indent="# ", break_on_hyphens=False
    )


def _supplies_comment(draft: PieceDraft, supplies: Sequence[str]) -> str:
    """Return where labels and prices go, and which supplies are in the user's own file."""
    own = [_quoted(name) for name in map(draft.called, supplies) if name in draft.own]
    if own:
        text = f"In your own file {FILE_NAME}: {', '.join(own)}."
        return "\n".join([_ruler("supplies"), *_wrapped(text), *_lines_to_add(draft)])
    return "\n".join([_ruler("supplies"), *_lines_to_add(draft)])


def _lines_to_add(draft: PieceDraft) -> list[str]:
    is_us = draft.system == "us"
    covers, hand, pack = (
        ("90 ft2/quart", "6 fl oz", "1 quart") if is_us else ("10 m2/L", "200 ml", "750 ml")
    )
    lines = (
        (f'covers = "{covers}"', "coverage, from the label"),
        (f'on_hand = "{hand}"', "how much you have left"),
        (f'packs = [{{ size = "{pack}", price = 19 }}]', "pack sizes and prices"),
    )
    return [
        "# Nothing is filled in from your labels yet, so the list uses assumed coverage.",
        "# You can add these lines to a product:",
        *(f"#   {line:<43} # {meaning}" for line, meaning in lines),
    ]


def _product(name: str, draft: PieceDraft) -> str:
    product = PRODUCTS[name]
    packs = product.us if draft.system == "us" else product.metric
    sizes = ", ".join(f"{{ size = {_quoted(size)} }}" for size in packs)
    lines = [
        "[[product]]",
        f"name = {_quoted(draft.called(name))}",
        f"kind = {_quoted(product.kind)}",
    ]
    if product.named_by:
        lines[:0] = _wrapped(
            f"Give it a name that says its {product.named_by}, here and in its steps: the client"
            " sees this name on the sheet."
        )
    return "\n".join([*lines, f"packs = [{sizes}]"])


def _sheets(draft: PieceDraft) -> str:
    packs = ", ".join(f"{{ count = {count} }}" for count in SHEETS_IN_A_PACK)
    lines = ["[[abrasive]]", f"name = {_quoted(draft.called(SHEET))}"]
    return "\n".join([*lines, f"form = {_quoted(SHEET_FORMS[draft.system])}", f"packs = [{packs}]"])


def _quoted(text: str) -> str:
    """Return words in quotes: in single ones where that leaves double ones as they were typed."""
    if '"' in text and "'" not in text and "\\" not in text and text.isprintable():
        return f"'{text}'"
    return json.dumps(text, ensure_ascii=False)
