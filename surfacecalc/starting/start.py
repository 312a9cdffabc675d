"""The guided start as a whole: take up or begin, ask, write."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from surfacecalc.model.kind_names import with_article
from surfacecalc.starting import unfinished
from surfacecalc.starting.answers import Answer, AnswerError
from surfacecalc.starting.conversation import (
    QUIT,
    StoppedError,
    is_confirmed,
    is_terminal,
    say,
    say_table,
)
from surfacecalc.starting.file_text import Finish, PieceDraft, piece_text
from surfacecalc.starting.finishes import NEED_BARE_WOOD, SHEET
from surfacecalc.starting.interview import BACK, HELP, Interview, UnansweredError
from surfacecalc.starting.measurements import UNUSUAL
from surfacecalc.starting.own_products import NEW, fitting_sheet, product_key
from surfacecalc.starting.part_blocks import ZoneFaces
from surfacecalc.starting.questions import (
    NOT_ASKED,
    blocks_found,
    condition_key,
    finish_key,
    folder_of,
    kind_word,
    measured_lines,
    scale_of,
    supplies_found,
    word,
    zones_found,
)
from surfacecalc.starting.targets import REPLACE, Targets
from surfacecalc.starting.unfinished import Kept
from surfacecalc.starting.wordings import label
from surfacecalc.writing import write_whole

MOST_OFFERED = 3
"""Starts that were not finished and are offered, the latest first."""


@dataclass(frozen=True)
class Settled:
    """What is settled before the first question.

    Attributes:
        is_replacing: a file that is there may be replaced.
        is_unusual: measures beyond their usual range are correct.
        ask: whether to ask; None where that depends on whether there is a terminal.
    """

    is_replacing: bool
    is_unusual: bool
    ask: bool | None


def answers_given(
    single: Mapping[str, str],
    finishes: Sequence[str],
    conditions: Sequence[str],
    products: Sequence[str] = (),
) -> dict[str, str]:
    """Return the command line's answers by name; "zone=way" answers for that zone only.

    Raises:
        UnansweredError: a zone or a product is answered twice, or which product is not said.
    """
    given = dict(single)
    for texts, key_of, option in (
        (finishes, finish_key, "--finish"),
        (conditions, condition_key, "--condition"),
    ):
        for text in texts:
            zone, _, way = text.rpartition("=")
            key = key_of(" ".join(zone.split()))
            if key in given:
                what = f'the zone "{zone.strip()}"' if zone else "all zones"
                raise UnansweredError(f"{option} is given twice for {what}; keep one of them")
            given[key] = way.strip()
    for text in products:
        supply, _, name = text.partition("=")
        key = product_key(supply.strip())
        if not name or key in given:
            raise UnansweredError(
                f'--product {text}: say once for each supply which one it is: "paint=moss green"'
            )
        given[key] = name.strip()
    return given


def start(given: Mapping[str, str], settled: Settled) -> tuple[Path, bool]:
    """Ask what is not given, and write the piece file.

    Returns:
        The file, and whether it replaced another one.

    Raises:
        UnansweredError: an answer is missing or wrong and nobody can be asked.
        StoppedError: the person stopped; it says where the answers are kept.
        OSError: the file cannot be written.
    """
    interview = _interview(given, settled)
    try:
        if interview.is_asking:
            _greet()
            _offer_begun(interview)
        found = interview.run()
    except (StoppedError, KeyboardInterrupt) as stop:
        if isinstance(stop, StoppedError) and stop.is_earlier:
            raise
        interview.keep()  # Ctrl-C may have fallen between an answer and the keeping of it
        raise StoppedError(interview.keeper) from None
    check_all_used(interview, found)
    target = Path(found["file"].words)
    is_there = target.exists()
    if is_there and found["file"].doubt is None:
        raise UnansweredError(
            f"another program has written {target} in the meantime; choose another file with --out"
        )
    write_whole(target, piece_text(draft_of(interview)).encode())
    unfinished.forget(unfinished.kept_beside(target))
    return target, is_there


def _interview(given: Mapping[str, str], settled: Settled) -> Interview:
    flags = {UNUSUAL: settled.is_unusual, REPLACE: settled.is_replacing}
    asking = is_terminal() if settled.ask is None else settled.ask
    confirmed = frozenset(flag for flag, is_set in flags.items() if is_set)
    return Interview(given, confirmed, asking, Targets(settled.is_replacing))


def _greet() -> None:
    say(
        "Here are a few questions about your piece, one at a time. Press Enter to use the answer in"
        f' [brackets]. Type "{HELP[0]}" for help with a question, "{BACK}" for the question before,'
        f' or "{QUIT}" to stop (Ctrl-C works too); your answers are saved.'
    )


def _offer_begun(interview: Interview) -> None:
    """Offer to continue a start that was not finished."""
    for path, kept in _begun(interview.given):
        kind = kept.answers.get("kind", "piece")
        count = len(kept.answers)
        say()
        answers = f"answer{'s' * (count > 1)}"
        say(f"You started {with_article(kind)} earlier; {path} has your {count} {answers}.")
        try:
            if is_confirmed("Continue with it?", proposed=True):
                _take_up(interview, path, kept)
                return
        except (StoppedError, KeyboardInterrupt):
            raise StoppedError(path, is_earlier=True) from None


def _begun(given: Mapping[str, str]) -> Iterator[tuple[Path, Kept]]:
    """Yield what may be continued: beside the file that is named, else in the folder."""
    if "file" in given:
        paths = [unfinished.kept_beside(Path(given["file"]).expanduser())]
    else:
        paths = unfinished.begun(Path(given["mesh"]).parent if "mesh" in given else Path())
    for path in paths[:MOST_OFFERED]:
        kept = unfinished.load(path) if path.is_file() else None
        if kept is None and path.is_file():
            say()
            say(f"{path} cannot be read as saved answers, so it is left unchanged.")
        elif kept is not None and _is_of_kind(kept, given):
            yield path, kept


def _is_of_kind(kept: Kept, given: Mapping[str, str]) -> bool:
    try:
        return "kind" not in given or kind_word(given["kind"]) == kept.answers.get("kind")
    except AnswerError:
        return False


def _take_up(interview: Interview, path: Path, kept: Kept) -> None:
    interview.kept.update(kept.answers)
    interview.earlier.update(kept.earlier)
    interview.assumed.update(kept.assumed)
    interview.keeper = path
    interview.targets.own.add(path)
    say()
    say_table([(label(key), text) for key, text in kept.answers.items()])


def check_all_used(interview: Interview, found: Mapping[str, Answer]) -> None:
    """Say which answers of the command line had no question.

    Raises:
        UnansweredError: the same, where nobody is asked.
    """
    notes = [_unused_text(name, found) for name in interview.unused()]
    notes = [note for note in notes if note]
    if notes and not interview.is_asking:
        raise UnansweredError("; ".join(notes))
    for note in notes:
        say(f"Not used: {note}.")


def _unused_text(name: str, found: Mapping[str, Answer]) -> str:
    if name.startswith("product "):
        supply = name.removeprefix("product ")
        return (
            f'--product: your own list of products has nothing for "{supply}", or the steps do not'
            " use it"
        )
    for option in ("finish", "condition"):
        if name == option:
            return ""  # each zone has its own answer
        if name.startswith(f"{option} "):
            zones = [zone.name for zone in zones_found(found)]
            zone = name.removeprefix(f"{option} ")
            if zone in zones:
                return f'--{option}: the zone "{zone}" gets no finish, so it does not need one'
            return f'--{option}: there is no zone "{zone}"; use one of {", ".join(zones)}'
    if name == "stripping":
        ways = " or ".join(NEED_BARE_WOOD)
        return (
            f"--stripping: an old finish comes off only where {ways} replaces it, which is nowhere"
            " here; leave it off"
        )
    return f"--{name} does not fit the other answers; leave it off"


def draft_of(interview: Interview) -> PieceDraft:
    """Return what the file says, once everything is answered."""
    found, assumed = interview.found, interview.assumed
    zones = zones_found(found)
    names = _own_names(found, zones)
    return PieceDraft(
        name=word(found, "name"),
        kind=word(found, "kind"),
        scale=scale_of(found),
        built=word(found, "built"),
        stripping=word(found, "stripping") if "stripping" in found else "sanding",
        currency=word(found, "currency"),
        measured=measured_lines(found, assumed=assumed, wanted=False),
        assumed=measured_lines(found, assumed=assumed, wanted=True),
        spread_mm=max(answer.spread_mm for answer in found.values()),
        blocks=blocks_found(found),
        zones=zones,
        finishes={zone.name: _finish(found, zone.name) for zone in zones},
        names=names,
        own=frozenset(names.values()),
    )


def _own_names(found: Mapping[str, Answer], zones: Sequence[ZoneFaces]) -> dict[str, str]:
    """Return which supplies are products of the user's own file."""
    keys = {supply: product_key(supply) for supply in supplies_found(found, zones)}
    chosen = {supply: word(found, key) for supply, key in keys.items() if key in found}
    names = {supply: name for supply, name in chosen.items() if name != NEW}
    sheet = fitting_sheet(folder_of(found), scale_of(found).system)
    return {**names, SHEET: sheet} if sheet else names


def _finish(found: Mapping[str, Answer], zone: str) -> Finish:
    way = word(found, finish_key(zone))
    return Finish(way) if way in NOT_ASKED else Finish(way, word(found, condition_key(zone)))
