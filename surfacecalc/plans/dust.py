"""Dust that falls on what is still wet: one zone is sanded while the coat on another dries.

A plan keeps dust off the wet films of a joined body unless the file allows it. Loose parts may dry
elsewhere: the file does not say where, so the order of the work stays and a note warns.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import assert_never

from surfacecalc.model.step_facts import abrading_of, coat_left
from surfacecalc.model.steps import SandWord, Step
from surfacecalc.work.sittings import Sitting
from surfacecalc.work.task_words import format_clock, format_moment


def dust_of(step: Step, sitting: Sitting) -> str:
    """Return what makes dust in a sitting, such as "sanded"; empty for nothing, as in wet work."""
    if sitting.is_denib:
        return "sanded"
    abrading = abrading_of(step)
    return _made_by(abrading.do) if abrading is not None and abrading.product is None else ""


def _made_by(word: SandWord) -> str:
    match word:
        case "sand":
            return "sanded"
        case "strip":
            return "stripped"
        case "rub out":
            return "rubbed out"
        case "distress":
            return "distressed"
        case _:
            assert_never(word)


def wet_of(step: Step, sitting: Sitting) -> str:
    """Return the product that a sitting leaves wet where dust would stay in it; else empty."""
    coat = coat_left(step)
    return "" if coat is None or sitting.is_denib else coat.product


@dataclass(frozen=True)
class DustSpan:
    """A task in the plan, as far as dust goes.

    Attributes:
        zone: its zone.
        starts: when it begins.
        dust: what makes dust in it, empty for nothing.
        wet: the product that is wet after it, empty for none.
        dry_from: when that is dry.
    """

    zone: str
    starts: datetime
    dust: str
    wet: str
    dry_from: datetime


DustCase = tuple[DustSpan, DustSpan]
"""A task that makes dust, and one whose coat is wet then."""


def dust_cases(spans: Sequence[DustSpan]) -> list[DustCase]:
    """Return where dust falls on a wet coat.

    Args:
        spans: the tasks of a plan, in the order in which they are done.
    """
    return [
        (dusty, wet)
        for k, dusty in enumerate(spans)
        for wet in spans[:k]
        if dusty.dust and wet.wet and wet.zone != dusty.zone and dusty.starts < wet.dry_from
    ]


def remark_on_dust(cases: Sequence[DustCase], bodies: Mapping[str, Collection[int]]) -> str:
    """Return what to do where dust falls on a wet coat; empty where none does.

    It names one case only: a plan marks every one.

    Args:
        cases: where it does, the first one first.
        bodies: the joined bodies that each zone is on; zones of one body dry in one place, and
            only a file that allows it has dust there.
    """
    if not cases:
        return ""
    joined = [
        (dusty, wet)
        for dusty, wet in cases
        if set(bodies.get(dusty.zone, ())).intersection(bodies.get(wet.zone, ()))
    ]
    case = (joined or cases)[0]
    if len({(dusty.zone, dusty.starts) for dusty, _ in cases}) > 1:
        text = f"Dust falls on a wet coat; for example, {_case_words(*case)}"
    else:
        text = f"Dust: {_case_words(*case)}"
    if joined:
        return f"{text}. Your file allows this."
    return f"{text}. Let it dry in another room, or wait."


def _case_words(dusty: DustSpan, wet: DustSpan) -> str:
    dry = wet.dry_from
    is_same_day = dry.date() == dusty.starts.date()
    until = format_clock(dry) if is_same_day else format_moment(dry)
    return (
        f'"{dusty.zone}" is {dusty.dust} {format_moment(dusty.starts)} while "{wet.zone}" is wet'
        f" until {until}"
    )
