"""Coats that are put on in one session: what they must have in common."""

from collections.abc import Iterator, Sequence

from surfacecalc.model.pieces import Zone
from surfacecalc.model.step_facts import coats_of
from surfacecalc.model.steps import Coat
from surfacecalc.problems import Problem


def check_sessions(zones: Sequence[Zone]) -> Iterator[Problem]:
    """Yield each coat that cannot be put on in one session with others of its word."""
    first: dict[str, Coat] = {}
    for zone in zones:
        own: dict[str, int] = {}
        for coat in coats_of(zone.steps):
            if not coat.together:
                continue
            wrong = _wrong(coat, first.setdefault(coat.together, coat))
            if coat.together in own:
                wrong = (
                    f"is also at line {own[coat.together]} of the same zone; give one of the two"
                    " another word"
                )
            own.setdefault(coat.together, coat.line)
            if wrong:
                message = f'together = "{coat.together}" {wrong}'
                yield Problem("mend", coat.line, f'zone "{zone.name}"', message)


def _wrong(coat: Coat, first: Coat) -> str:
    """Return what keeps two coats from one session; empty for nothing."""
    pairs = zip(_common(coat), _common(first), strict=True)
    differs = next((key for (key, one), (_, other) in pairs if one != other), None)
    if differs is None:
        return ""
    return (
        f"makes one session of this step and line {first.line}, but they differ in {differs}; make"
        f" {differs} the same, or give one of them another word"
    )


def _common(coat: Coat) -> Iterator[tuple[str, object]]:
    """Yield what is the same for all that goes on in one session, by its key."""
    yield "do", coat.do
    yield "product", coat.product
    yield "coats", coat.coats.range
    yield "by", coat.by
    yield "thin", coat.thin and coat.thin.range
    yield "tint", coat.tint and (coat.tint.product, coat.tint.share.range)
    yield "hardener", coat.hardener and (coat.hardener.product, coat.hardener.share.range)
    yield "pot_life", coat.pot_life and coat.pot_life.range
    yield "change", coat.more_coats and coat.more_coats.what
    yield "between", coat.between
    yield "stays_behind", coat.stays_behind and coat.stays_behind.range
    yield "sides", coat.work.sides
    yield "wait", coat.work.wait_h and coat.work.wait_h.range
