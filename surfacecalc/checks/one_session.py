"""Notes on coats that zones get in one session, and on tape that is on meanwhile."""

from collections.abc import Iterator

from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.step_facts import coat_of, coats_of, unmasking_of
from surfacecalc.model.steps import Coat
from surfacecalc.model.taped_steps import masks_on, masks_taken_off
from surfacecalc.problems import Problem, listing

Session = list[tuple[Zone, Coat]]


def check_one_session(piece: Piece) -> Iterator[Problem]:
    """Yield which zones get a coat in one session, or that only one does."""
    for word, found in _sessions(piece).items():
        first = found[0][1]
        where = f'together "{word}"'
        names = [f'"{zone.name}"' for zone, _ in found]
        if len(found) == 1:
            message = (
                f"is at this step of {names[0]} only, so nothing goes on with it; give the step of"
                " the other zone the same word, or take together out"
            )
        else:
            on = f"{listing(names[:-1])} and {names[-1]}"
            message = (
                f"{first.product} goes on {on} in one session: one set-up, one tool, and each zone"
                " waits until the others are ready for it"
            )
        yield Problem("note", first.line, where, message)


def check_coat_over_tape(piece: Piece) -> Iterator[Problem]:
    """Yield tape between two zones that is still on when both get a coat in one session."""
    for word, found in _sessions(piece).items():
        names = [zone.name for zone, _ in found]
        for zone, coat in found:
            place = zone.steps.index(coat)
            for mask in list(masks_on(zone.steps))[place]:
                meant = mask.against or names
                others = [f'"{one}"' for one in names if one in meant and one != zone.name]
                if others:
                    message = (
                        f"goes on {listing(others)} as well, where the tape of line {mask.line} is"
                        ' still on: put a step with do = "unmask" before it'
                    )
                    yield Problem("note", coat.line, f'together "{word}"', message)


def check_unmask(piece: Piece) -> Iterator[Problem]:
    """Yield tape that comes off before any coat has gone on beside it."""
    for zone in piece.zones:
        for place, step in enumerate(zone.steps):
            unmask = unmasking_of(step)
            lines = [m.line for m in masks_taken_off(zone.steps, unmask)] if unmask else []
            coats = [
                coat for coat in map(coat_of, zone.steps[:place]) if coat and not coat.hardware
            ]
            if lines and not any(coat.line > min(lines) for coat in coats):
                message = (
                    f"takes off the tape of line {min(lines)} before any coat has gone on: put it"
                    " after the coat that the tape is for"
                )
                yield Problem("note", step.line, "unmask", message)


def _sessions(piece: Piece) -> dict[str, Session]:
    """Return the coats that are put on together, each with its zone, by their word."""
    found: dict[str, Session] = {}
    for zone in piece.zones:
        for coat in coats_of(zone.steps):
            if coat.together:
                found.setdefault(coat.together, []).append((zone, coat))
    return found
