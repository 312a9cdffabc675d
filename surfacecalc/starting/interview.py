"""Asking until everything is answered: by options, by answers kept earlier, by typing."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from surfacecalc.model.kind_names import with_article
from surfacecalc.starting import unfinished
from surfacecalc.starting.answers import Answer, AnswerError, Question
from surfacecalc.starting.conversation import INDENT, hear, is_confirmed, say, say_table
from surfacecalc.starting.measurements import UNUSUAL
from surfacecalc.starting.piece_kinds import kind_of, measure_keys, own_keys
from surfacecalc.starting.questions import next_question, strip_note
from surfacecalc.starting.targets import Targets
from surfacecalc.starting.wordings import label

BACK = "back"
HELP = ("?", "help")


class UnansweredError(Exception):
    """An answer is missing or wrong and nobody can be asked; says so in one sentence."""


@dataclass
class Interview:
    """The answers, and where they come from.

    Attributes:
        given: answers of the command line, by name.
        flags: what counts as confirmed beforehand.
        is_asking: whether somebody can be asked.
        targets: chooses the file.
        found: the answers so far, in the order of the questions.
        kept: answers of an earlier start, taken without asking again.
        earlier: answers that were taken back; they are proposed again.
        assumed: keys of the answers that were taken as proposed, not given.
        keeper: where the answers are kept now, None before there are any.
        is_kept: whether the answers are kept beside the file, to continue after a stop.
    """

    given: Mapping[str, str]
    flags: frozenset[str]
    is_asking: bool
    targets: Targets
    found: dict[str, Answer] = field(default_factory=dict)
    kept: dict[str, str] = field(default_factory=dict)
    earlier: dict[str, str] = field(default_factory=dict)
    assumed: set[str] = field(default_factory=set)
    keeper: Path | None = None
    is_kept: bool = True
    _used: set[str] = field(default_factory=set)
    _typed: set[str] = field(default_factory=set)
    _is_typing_explained: bool = False

    def run(self) -> dict[str, Answer]:
        """Return all answers.

        Raises:
            UnansweredError: one is missing or wrong and nobody can be asked.
            StoppedError: the person stopped; what was answered is kept.
        """
        while (question := next_question(self.found, self.targets)) is not None:
            answer = self._without_asking(question)
            if answer is None:
                answer = self._asked(question)
            if answer is None:
                self._go_back()
                continue
            self.found[question.key] = answer
            if question.key == "kind":
                self.check_kind()
            self.keep()
        return self.found

    def check_kind(self) -> None:
        """Refuse measures of the command line that the kind does not have."""
        kind = kind_of(self.found["kind"].words)
        own = own_keys(kind)
        strangers = [key for key in self.given if key in measure_keys() and key not in own]
        if strangers:
            takes = ", ".join(f"--{key}" for key in own)
            instead = ""
            if strangers[0] == "depth" and "board" in own:
                instead = "; its thickness from front to back is --board"
            raise UnansweredError(
                f"--{strangers[0]} does not apply to {with_article(kind.key)}; use {takes}{instead}"
            )

    def unused(self) -> list[str]:
        """Return the names of the command line's answers that no question took."""
        return [name for name in self.given if name not in self._used]

    def _without_asking(self, question: Question) -> Answer | None:
        """Return the answer of the command line, of an earlier start, or the proposed one."""
        for name in question.names:
            if name in self.given:
                self._used.add(name)
                return self._of_option(question, self.given[name])
        for name in question.names:
            if name in self.kept and question.key not in self.earlier:
                return self._of_kept(question, name)
        if self.is_asking:
            return None
        if question.proposed is None:
            raise UnansweredError(_missing(question))
        self.assumed.add(question.key)
        return self._of_option(question, question.proposed)

    def _of_option(self, question: Question, text: str) -> Answer | None:
        try:
            answer = question.read(text)
        except AnswerError as error:
            option = "" if question.key == "kind" else f"{question.option}: "
            raise UnansweredError(f"{option}{error}") from None
        if self.is_asking:
            say(f"{label(question.key)} = {answer.taken_as or answer.words}", indent=INDENT)
            return answer if self._is_taken(answer) else None
        if answer.taken_as:
            say(f'{label(question.key)} "{text}" is taken as {answer.taken_as}')
        doubt = answer.doubt
        if doubt is None or doubt.flag in self.flags:
            return answer
        raise UnansweredError(f"{question.option}: {doubt.found}; {_way_out(question, doubt.flag)}")

    def _of_kept(self, question: Question, name: str) -> Answer | None:
        """Return an answer of an earlier start, None where it no longer holds."""
        text = self.kept.pop(name) if name == question.key else self.kept[name]
        try:
            answer = question.read(text)
        except AnswerError as error:
            if not self.is_asking:
                raise UnansweredError(
                    f"{label(question.key)} no longer fits: {error}; give {question.option} too"
                ) from None
            return None
        if answer.doubt is not None and answer.doubt.flag != UNUSUAL:
            return None
        self._typed.add(question.key)
        return answer

    def _asked(self, question: Question) -> Answer | None:
        """Return the answer that is typed, None to go back."""
        question = self._with_earlier(question)
        _introduce(question)
        prompt = question.prompt + (f" [{question.proposed}]" if question.proposed else "")
        while True:
            text = hear(prompt)
            if text.lower() == BACK:
                return None
            if text.lower() in HELP:
                self._help(question)
                continue
            if not text and question.proposed is None:
                say(_nothing_typed(question), indent=INDENT)
                continue
            try:
                answer = question.read(text or str(question.proposed))
            except AnswerError as error:
                say(_sentence(str(error)), indent=INDENT)
                continue
            if not self._is_taken(answer):
                continue
            self._note(question, answer, is_assumed=not text)
            return answer

    def _help(self, question: Question) -> None:
        """Print what helps with a question; how lengths are typed once, as it is the same."""
        say(question.help, indent=INDENT)
        if question.how_to_type and not self._is_typing_explained:
            say(question.how_to_type, indent=INDENT)
            self._is_typing_explained = True
        say_table(question.choice_rows())

    def _note(self, question: Question, answer: Answer, *, is_assumed: bool) -> None:
        """Say how an answer was understood, and note how it was given."""
        key = question.key
        self._typed.add(key)
        if not is_assumed:
            self.assumed.discard(key)
        elif self.earlier.get(key) != answer.words:
            self.assumed.add(key)
        say(f"= {answer.taken_as or answer.words}", indent=INDENT)
        note = strip_note({**self.found, key: answer}, key)
        if note:
            say(note, indent=INDENT)

    def _is_taken(self, answer: Answer) -> bool:
        doubt = answer.doubt
        if doubt is None or doubt.flag in self.flags:
            return True
        say(_sentence(doubt.found), indent=INDENT)
        return is_confirmed(doubt.question, proposed=False)

    def _with_earlier(self, question: Question) -> Question:
        """Return a question that proposes the answer that was taken back, if it still holds."""
        text = self.earlier.get(question.key)
        if text is None:
            return question
        try:
            question.read(text)
        except AnswerError:
            return question
        return replace(question, proposed=text)

    def _go_back(self) -> None:
        """Take back the last answer that was typed, and what came after it."""
        typed = [key for key in self.found if key in self._typed]
        if not typed:
            say("This is the first question.", indent=INDENT)
            return
        keys = list(self.found)
        for key in keys[keys.index(typed[-1]) :]:
            self.earlier[key] = self.found.pop(key).words
            self._typed.discard(key)
        self.keep()

    def keep(self) -> None:
        """Keep the answers beside the file as soon as one was typed, since typing may stop."""
        if not self.is_kept:
            return
        if not self._typed:
            if not self.kept:  # what an earlier start kept waits for its questions
                self._forget()
            return
        path = self._place()
        waiting = {**self.kept, **self.given}
        words = {key: answer.words for key, answer in self.found.items()}
        words.update({key: text for key, text in waiting.items() if key not in words})
        earlier = {key: text for key, text in self.earlier.items() if key not in words}
        self.targets.own.add(path)
        try:
            unfinished.keep(path, unfinished.Kept(words, earlier, frozenset(self.assumed)))
        except OSError as error:
            reason = error.strerror or str(error)
            say(f"Your answers cannot be saved in {path}: {reason}.", indent=INDENT)
            return
        if self.keeper != path:
            self._forget()
        self.keeper = path

    def _place(self) -> Path:
        """Return where the answers are kept: beside the file, as far as it is known."""
        if "file" in self.found:
            return unfinished.kept_beside(Path(self.found["file"].words))
        if self.keeper is not None and "file" in self.kept:
            return self.keeper
        return unfinished.kept_beside(self.targets.proposed(self.found))

    def _forget(self) -> None:
        if self.keeper is not None:
            unfinished.forget(self.keeper)
        self.keeper = None


def _introduce(question: Question) -> None:
    """Print what is read before a question; rows of words and meanings as tables."""
    rows: list[tuple[str, str]] = []
    if question.before:
        say()
    for line in question.before:
        if isinstance(line, tuple):
            rows.append(line)
            continue
        say_table(rows)
        rows = []
        say(line)
    say_table(rows)
    if question.is_listed:
        say_table(question.choice_rows())


def _missing(question: Question) -> str:
    if question.key == "kind":
        return "say what kind of piece it is, such as: surfacecalc new dresser"
    value = f'"{question.example}"' if " " in question.example else question.example
    return f"{question.wanted} is missing; add it, such as {question.option} {value}"


def _nothing_typed(question: Question) -> str:
    if question.choices:
        return "Please type a word from the list, or its number."
    return f"Please type {question.answered_by}."


def _way_out(question: Question, flag: str) -> str:
    if flag == UNUSUAL:
        return "if it is correct, add --unusual"
    return f"add --{flag}, or choose another file with {question.option}"


def _sentence(text: str) -> str:
    """Return a clause as a sentence; what begins with the name of a file keeps its letters."""
    is_word = text.partition(" ")[0].isalpha()
    capital = text[:1].upper() + text[1:] if is_word else text
    return capital if capital.endswith(("?", ".")) else f"{capital}."
