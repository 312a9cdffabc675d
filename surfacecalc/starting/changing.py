"""`new --change`: the answers of a file are asked again, and only what they change is rewritten.

The file is written whole or not at all; what cannot be done is said, and then nothing is written.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from surfacecalc.problems import Problem, format_problem
from surfacecalc.reading.document import parse_document
from surfacecalc.reading.piece_file import read_piece_text
from surfacecalc.starting.answers import Answer, AnswerError
from surfacecalc.starting.conversation import is_terminal, say
from surfacecalc.starting.file_pieces import steps_by_schedule, taken_apart
from surfacecalc.starting.file_text import PieceDraft, piece_text
from surfacecalc.starting.finishes import AS_IN_FILE, PRODUCTS, ZONES
from surfacecalc.starting.interview import BACK, HELP, Interview, UnansweredError
from surfacecalc.starting.measurements import UNUSUAL
from surfacecalc.starting.merging import Merged, merged, step_matches
from surfacecalc.starting.own_products import NEW, fitting_products, product_key
from surfacecalc.starting.questions import finish_key, folder_of, kind_word, zones_found
from surfacecalc.starting.read_back import (
    EarlierAnswers,
    NotReadBackError,
    answers_in,
    names_in,
)
from surfacecalc.starting.start import Settled, check_all_used, draft_of
from surfacecalc.starting.targets import REPLACE, Targets
from surfacecalc.starting.wordings import label
from surfacecalc.writing import write_whole

FIXED = {
    "kind": "the kind of piece",
    "unit": "the unit",
    "mesh": "the mesh file",
    "mesh-unit": "the unit of the mesh file",
}
"""Answers that every part of the file follows from, so that another one means another file."""
UNREADABLE = "its answers cannot be read back, since what `new` wrote was changed by hand"
MAY_BE_MISSING = ("product ", "stripping")
"""Answers that a file need not have: products are read from the steps, and a step that takes an old
finish off may have been taken out."""
CONFIRMED = frozenset({UNUSUAL, REPLACE})
"""What an answer in the file has been confirmed as."""


class UnchangedError(Exception):
    """A file cannot be changed; it is as it was.

    Attributes:
        reasons: why, a clause each.
    """

    def __init__(self, target: Path, reasons: list[str]) -> None:
        super().__init__(f"{target} was not changed: {'; '.join(reasons)}")
        self.reasons = reasons


@dataclass(frozen=True)
class Changed:
    """What became of a file.

    Attributes:
        target: the file.
        is_changed: whether it was written.
        answers: the answers that are other than before: name, before, now.
        notes: what was left as it is, a clause each.
    """

    target: Path
    is_changed: bool
    answers: list[tuple[str, str, str]]
    notes: list[str]


def change(target: Path, given: Mapping[str, str], settled: Settled) -> Changed:
    """Ask the answers of a file again and write what they change.

    Raises:
        UnansweredError: an answer is wrong or does not fit, and nobody can be asked.
        UnchangedError: the file cannot be changed in this way.
        StoppedError: the person stopped; the file is as it was.
        OSError: the file cannot be read or written.
    """
    content = target.read_bytes()
    text, ends, mark = _plain(target, content)
    try:
        earlier = answers_in(text, target)
        _check_fixed(given, earlier.answers)
        old = _earlier(earlier)
    except (NotReadBackError, UnansweredError, AnswerError) as error:
        raise UnchangedError(target, [str(error)]) from None
    before = _draft_before(old, text)
    new = _asked(earlier, old, given, settled)
    result = merged(piece_text(before), piece_text(_draft_after(new, before)), text)
    _check(target, text, result)
    found = _differences(old.found, new.found)
    changed = Changed(target, result.text != text, found, result.notes)
    if changed.is_changed:
        if target.read_bytes() != content:
            raise UnchangedError(target, ["another program has changed it in the meantime"])
        write_whole(target, mark + result.text.replace("\n", ends).encode())
    return changed


def _plain(target: Path, content: bytes) -> tuple[str, str, bytes]:
    """Return a file's text with plain ends of lines, these ends, and the mark before the text."""
    found = parse_document(content)
    if isinstance(found, Problem):
        raise UnchangedError(target, [_told(found)])
    mark = b"\xef\xbb\xbf" if content.startswith(b"\xef\xbb\xbf") else b""
    text = content.removeprefix(mark).decode()
    ends = "\r\n" if "\r\n" in text else "\n"
    plain = text.replace("\r\n", "\n")
    if plain.replace("\n", ends) != text:
        raise UnchangedError(target, ["its lines end in two ways; save it again in a text editor"])
    mistake = _mistake_in(text, target)
    if mistake:
        raise UnchangedError(target, [f"it has a mistake: {mistake}"])
    return plain, ends, mark


def _mistake_in(text: str, target: Path) -> str:
    """Return the first mistake of a piece file's text, empty for none."""
    _, problems = read_piece_text(text, target.parent)
    return next((_told(problem) for problem in problems if problem.level == "mend"), "")


def _told(problem: Problem) -> str:
    """Return a mistake with its line, the file already being named."""
    line = "" if problem.line is None else f"line {problem.line}, "
    return f"{line}{format_problem(replace(problem, line=None, file=''), '')}"


def _check_fixed(given: Mapping[str, str], answers: Mapping[str, str]) -> None:
    """Refuse another kind, unit or mesh.

    Raises:
        UnansweredError: such an answer was given.
    """
    if "file" in given:
        raise UnansweredError("--change writes to the file itself; leave --out off")
    for key, what in FIXED.items():
        said = given.get(key)
        if said is not None and key == "kind":
            said = kind_word(said)
        if said is not None and said != answers.get(key):
            raise UnansweredError(
                f'{what} in this file is "{answers.get(key, "not asked")}"; for another one,'
                " start a new file"
            )


def _earlier(earlier: EarlierAnswers) -> Interview:
    """Return the answers of the file, read as if they had been typed.

    Raises:
        UnansweredError: one is missing or cannot be read any more.
    """
    interview = Interview({}, CONFIRMED, is_asking=False, targets=Targets(True), is_kept=False)
    interview.kept.update(earlier.answers)
    _fix(interview, earlier.answers)
    for zone in ZONES:
        if finish_key(zone) not in earlier.answers:  # taken out of the file, or never there
            interview.found[finish_key(zone)] = Answer(AS_IN_FILE, AS_IN_FILE)
    try:
        interview.run()
    except UnansweredError as error:
        raise UnansweredError(f"{UNREADABLE}: {str(error).partition(';')[0]}") from None
    there = [finish_key(zone.name) for zone in zones_found(interview.found)]
    for key in map(finish_key, ZONES):
        if key not in there:
            interview.found.pop(key, None)
    missing = [label(key) for key in interview.assumed if not key.startswith(MAY_BE_MISSING)]
    if missing:
        raise UnansweredError(f"{UNREADABLE}: {', '.join(missing)} is missing")
    interview.assumed.clear()
    interview.assumed.update(earlier.assumed)
    return interview


def _fix(interview: Interview, answers: Mapping[str, str]) -> None:
    """Answer beforehand what is not asked again: what is fixed, and zones made by hand."""
    for key, text in answers.items():
        if key in FIXED or key == "file" or text == AS_IN_FILE:
            interview.found[key] = Answer(text, text)


def _asked(
    earlier: EarlierAnswers, old: Interview, given: Mapping[str, str], settled: Settled
) -> Interview:
    """Return the answers, changed: by options alone where there are any, else asked one by one."""
    given = {key: text for key, text in given.items() if key not in FIXED}
    by_options = bool(given) and settled.ask is None
    asking = (is_terminal() and not by_options) if settled.ask is None else settled.ask
    flags = {UNUSUAL} if settled.is_unusual else set()
    interview = Interview(given, frozenset(flags), asking, Targets(True), is_kept=False)
    words = {key: answer.words for key, answer in old.found.items()}
    (interview.earlier if asking else interview.kept).update(words)
    interview.assumed.update(earlier.assumed)
    _fix(interview, words)
    interview.check_kind()
    if asking:
        say(
            f"{earlier.answers['name']}: each question shows in [brackets] what the file says;"
            f' press Enter to keep it. Type "{HELP[0]}" for help, "{BACK}" for the question before,'
            " or quit to leave the file as it is."
        )
    interview.run()
    for key in given:
        if key in interview.found and interview.found[key].words != words.get(key):
            interview.assumed.discard(key)
    check_all_used(interview, interview.found)
    return interview


def _draft_before(interview: Interview, text: str) -> PieceDraft:
    """Return what `new` wrote, its supplies called as the file calls them now.

    The answers about own products become what the steps of the file name.
    """
    plain = replace(draft_of(interview), names={}, own=())
    file, written = (steps_by_schedule(taken_apart(t)) for t in (text, piece_text(plain)))
    pairs = {name: step_matches(written[name], file.get(name, [])) for name in written}
    names = names_in(file, pairs, written)
    fitting = fitting_products(folder_of(interview.found))
    for supply, key in ((supply, product_key(supply)) for supply in PRODUCTS):
        if key in interview.found:
            name = names.get(supply, supply)
            own = name if name in fitting.get(supply, ()) else NEW
            interview.found[key] = Answer(own, own)
    return replace(plain, names=names, own=frozenset(set(names.values()) - _defined(text)))


def _draft_after(interview: Interview, before: PieceDraft) -> PieceDraft:
    """Return what `new` would write now, with the names that the file has for supplies."""
    draft = draft_of(interview)
    names = {**draft.names, **before.names}
    for supply in PRODUCTS:
        answer = interview.found.get(product_key(supply))
        if answer is not None and answer.value != NEW:
            names[supply] = str(answer.value)
        elif answer is not None and names.get(supply) in before.own:
            names[supply] = supply
    own = {name for name in names.values() if name in (*draft.own, *before.own)}
    return replace(draft, names=names, own=frozenset(own))


def _defined(text: str) -> set[str]:
    """Return the supplies that a file describes itself."""
    return {
        str(piece.identity[1])
        for piece in taken_apart(text)
        if piece.identity[:1] in (("product",), ("abrasive",), ("mix",))
    }


def _check(target: Path, text: str, result: Merged) -> None:
    """Refuse what was changed by hand in the same place, and a file that would have a mistake.

    Raises:
        UnchangedError: one of these.
    """
    if result.refused:
        raise UnchangedError(target, result.refused)
    if result.text == text:
        return
    mistake = _mistake_in(result.text, target)
    if mistake:
        raise UnchangedError(target, [f"with these answers it would have a mistake: {mistake}"])


def _differences(
    old: Mapping[str, Answer], new: Mapping[str, Answer]
) -> list[tuple[str, str, str]]:
    """Return the answers that are other than before, in words."""
    keys = dict.fromkeys([*new, *old])
    pairs = [(key, old.get(key), new.get(key)) for key in keys]
    return [
        (label(key), before.words if before else "-", now.words if now else "-")
        for key, before, now in pairs
        if (before.words if before else None) != (now.words if now else None)
    ]
