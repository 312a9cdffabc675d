"""What is done to a piece in words for its owner: no grits, no products of the shop, no hours."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import assert_never

from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.shelf import COLOURED
from surfacecalc.model.step_facts import coats_of, fits_hardware, handwork_of, likely_coats
from surfacecalc.model.steps import (
    Coat,
    CoatWord,
    Fill,
    HandWord,
    Handwork,
    Mask,
    Sand,
    SandWord,
    Step,
    Trial,
    Unmask,
    Wash,
)
from surfacecalc.sheets.rounded_words import plural, series

SHEENS = (
    ("semi-gloss", "semi-gloss"),
    ("semigloss", "semi-gloss"),
    ("high gloss", "high gloss"),
    ("eggshell", "eggshell"),
    ("satin", "satin"),
    ("silk", "silk"),
    ("matte", "matt"),
    ("matt", "matt"),
    ("flat", "flat"),
    ("gloss", "gloss"),
)
"""Words of a name or kind that tell its sheen; the first that is found counts."""
CLEAR = ("varnish", "shellac", "lacquer", "oil", "wax")
"""Families that protect what is under them."""


@dataclass(frozen=True)
class ZoneFinish:
    """What a zone looks like in the end.

    Attributes:
        zone: its name.
        colour: names of what gives it its colour; empty for the wood itself.
        finish: what lies on top; empty for nothing.
        sheen: its sheen, empty where neither name nor kind tells it.
    """

    zone: str
    colour: str
    finish: str
    sheen: str


def work_in_words(piece: Piece, zone: Zone) -> list[str]:
    """Return what is done in a zone, one sentence for each thing, none said twice."""
    if zone.leave or not zone.steps:
        return ["Left as it is."]
    found = dict.fromkeys(text for step in zone.steps for text in _step(piece, zone, step))
    return [f"{text[:1].upper()}{text[1:]}." for text in found]


def look_of_zone(piece: Piece, zone: Zone) -> ZoneFinish | None:
    """Return what a zone looks like in the end; None for one that gets no coat."""
    coats = [coat for coat in coats_of(zone.steps) if coat.hardware is None and _shows(coat.do)]
    names = list(dict.fromkeys(coat.product for coat in coats))
    if not names:
        return None
    families = {name: _family(piece, name) for name in names}
    colours = [name for name in names if families[name] in COLOURED]
    clear = [name for name in names if families[name] in CLEAR]
    on_top = clear[-1] if clear else names[-1]
    product = piece.shelf.products[on_top]
    return ZoneFinish(
        zone.name, series(colours), series(clear), sheen_of(product.name, product.kind)
    )


def sheen_of(name: str, kind: str) -> str:
    """Return the sheen that a name or else a kind says, or nothing.

    >>> sheen_of("flat varnish", "waterborne varnish"), sheen_of("moss green", "paint")
    ('flat', '')
    """
    words = (f" {text.lower()} " for text in (name, kind))
    return next((sheen for text in words for word, sheen in SHEENS if f" {word} " in text), "")


def families_on_top(piece: Piece) -> set[str]:
    """Return the families of what lies on top in each zone that gets a coat."""
    looks = (look_of_zone(piece, zone) for zone in piece.zones)
    found = set()
    for look in looks:
        if look is not None:
            zone = next(zone for zone in piece.zones if zone.name == look.zone)
            last = [coat for coat in coats_of(zone.steps) if not coat.hardware]
            found.add(_family(piece, last[-1].product))
    return found


def _family(piece: Piece, name: str) -> str:
    """Return the family of a product; a mix has that of its first part that stays on."""
    product = piece.shelf.products[name]
    parts = [part.product for part in product.recipe if part.product.stays_on]
    return parts[0].family if parts else product.family


def _step(piece: Piece, zone: Zone, step: Step) -> Iterator[str]:
    match step:
        case Coat():
            yield _coat(step)
        case Sand():
            yield _sanded(step.do)
        case Wash():
            yield _washed(step)
        case Fill():
            yield _holes(step, _in_total(piece, zone, step))
        case Trial():
            yield "tested first in a hidden spot"
        case Handwork():
            yield from _handwork(piece, zone, step)
        case Mask() | Unmask():
            pass  # nothing of it is left to see
        case _:
            assert_never(step)


def _shows(word: CoatWord) -> bool:
    """Whether a coat is seen in the end; the others are under what is."""
    match word:
        case "strip" | "block" | "prime" | "condition":
            return False
        case "coat" | "fill grain" | "dye" | "glaze" | "seal" | "stain" | "top coat" | "wax":
            return True
        case "lime wax" | "wax hardware":
            return True
        case _:
            assert_never(word)


def _sanded(word: SandWord) -> str:
    match word:
        case "sand":
            return "sanded smooth"
        case "rub out":
            return "rubbed to an even sheen"
        case "strip":
            return "the old finish is sanded off, down to the wood"
        case "distress":
            return "edges and corners are worn by hand, so that it looks used"
        case _:
            assert_never(word)


def _coat_done(word: CoatWord) -> str:
    """Return what a coat is there for; empty where it is its product that counts."""
    match word:
        case "block":
            return "stains and knots are sealed in"
        case "condition":
            return "the wood is conditioned, so that it colours evenly"
        case "fill grain":
            return "the grain is filled"
        case "seal":
            return "the wood is sealed"
        case "prime":
            return "primed"
        case "strip":
            return "the old finish is taken off"
        case "lime wax":
            return "white wax is rubbed into the grain"
        case "coat" | "dye" | "glaze" | "stain" | "top coat" | "wax" | "wax hardware":
            return ""
        case _:
            assert_never(word)


def _coat(coat: Coat) -> str:
    on = f" on the {coat.hardware}" if coat.hardware else ""
    done = _coat_done(coat.do)
    if done and not on:
        return done
    return f"{plural(likely_coats(coat), 'coat')} of {coat.product}{on}"


def _in_total(piece: Piece, zone: Zone, step: Step) -> str:
    """Return what a count needs where zones share a step, but are not finished alike."""
    others = [other for other in piece.zones if other.steps != zone.steps]
    is_shared = any(step.line == one.line for other in others for one in other.steps)
    return " in total" if is_shared else ""


def _holes(step: Fill, in_total: str) -> str:
    words = {"pit": "small hole", "gouge": "gouge", "groove": "groove"}
    counts: dict[str, int] = {}
    for hole in step.holes:
        counts[hole.kind] = counts.get(hole.kind, 0) + hole.count
    total = sum(counts.values())
    found = series(plural(count, words[kind]) for kind, count in counts.items())
    of = f" of the {step.hardware}" if step.hardware is not None else ""
    return f"{found}{of}{in_total} {'is' if total == 1 else 'are'} filled"


def _washed(step: Wash) -> str:
    if step.hardware is not None:
        return f"{step.hardware}: cleaned"
    return "washed and rinsed" if step.rinse is not None else "washed"


def _handwork(piece: Piece, zone: Zone, step: Handwork) -> Iterator[str]:
    done = _hand_done(step.do)
    if not done:
        return
    if step.decor is not None:
        yield f"decorated with {step.what}"
        return
    new = [name for name in step.hardware if piece.shelf.hardware[name].plan == "replace"]
    if not new:
        count = _counted(step.count, _in_total(piece, zone, step))
        yield f"{step.what}{count}: {done}" if step.what else done
        return
    for name in step.hardware:
        count = _counted(piece.shelf.hardware[name].count)
        if name not in new:
            yield f"{name}{count}: {done}"
        elif fits_hardware(step.do):
            yield f"{name}{count}: replaced with new ones"
        elif not _is_refitted(zone, name):
            yield f"{name}{count}: {done}"


def _counted(count: int, in_total: str = "") -> str:
    return f" ({count}{in_total})" if count > 1 else ""


def _is_refitted(zone: Zone, name: str) -> bool:
    """Whether a zone gets hardware on again; that it came off before says itself."""
    steps = [step for step in map(handwork_of, zone.steps) if step is not None]
    return any(fits_hardware(step.do) and name in step.hardware for step in steps)


def _hand_done(word: HandWord) -> str:
    """Return what was done, to what is counted or to the zone; empty if no owner need read it."""
    match word:
        case "repair":
            return "repaired"
        case "decal" | "decorate":
            return "put on"
        case "take off":
            return "taken off"
        case "refit":
            return "put back"
        case "dust off":
            return ""
        case _:
            assert_never(word)


def care(families: Iterable[str]) -> list[str]:
    """Return how to care for what lies on top.

    Source: common practice.
    """
    found = set(families)
    lines = ["Dust with a soft dry cloth. Wipe up water at once; set nothing hot or wet on it."]
    if found & {"varnish", "lacquer", "paint", "primer", "stain", "casein paint"}:
        lines.append(
            "Clean with a damp cloth and a drop of mild soap, then dry it. Do not scour it"
            " or use solvents."
        )
    if "shellac" in found:
        lines.append("Keep alcohol and hot water off it: both mark shellac.")
    if "oil" in found:
        lines.append("Clean with a damp cloth. Oil it again where it looks dry, about once a year.")
    if "wax" in found:
        lines.append("Buff it with a soft cloth. Wax it again when it loses its shine.")
    return lines
