"""What goes into the cup for each coat, in the reader's own measures."""

from collections.abc import Iterable, Iterator

from surfacecalc.model.step_facts import coat_of, likely_coats, washing_of
from surfacecalc.needs.sessions import MixingSession
from surfacecalc.units.display import Units, format_amount
from surfacecalc.work.task_words import coat_words, format_hours, time_words


def mixing_lines(sessions: Iterable[MixingSession], units: Units) -> Iterator[str]:
    """Yield how each session is mixed that something is stirred into, or that sets."""
    for session in sessions:
        if session.pot_life or any(part.share for part in session.parts):
            yield session_words(session, units)


def session_words(session: MixingSession, units: Units) -> str:
    """Return what goes into the cup, such as "first coat of clear, by brush: 280 ml"."""
    parts = ", ".join(
        f"{format_amount(part.amount, part.unit, units)} {part.supply}" for part in session.parts
    )
    side = f", side {session.side}" if session.side else ""
    return f"{_task(session)}{side} ({', '.join(session.zones)}): {parts}{_sets(session)}"


def _task(session: MixingSession) -> str:
    coat, wash = coat_of(session.step), washing_of(session.step)
    if coat is not None:
        return coat_words(coat, session.coat, likely_coats(coat))
    return f"{'wash' if wash else 'fill'}{time_words(session.coat, session.count)}"


def _sets(session: MixingSession) -> str:
    """Return how soon a batch must be used up, and how many there are; nothing if none sets."""
    if session.pot_life is None:
        return ""
    within = f"used within {format_hours(session.pot_life.range.low)}"
    if session.batches == 1:
        return f", {within}"
    return f", in {session.batches} batches, each {within}"
