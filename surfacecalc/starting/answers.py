"""An answer to a question, a doubt about it, and the question itself."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

Value = Fraction | str
Line = str | tuple[str, str]
"""A paragraph to read, or a row of a table: a word and its meaning."""


class AnswerError(ValueError):
    """What was typed does not answer a question; says in one sentence why and what would."""


@dataclass(frozen=True)
class Doubt:
    """What has to be confirmed before an answer counts.

    Attributes:
        found: what is doubtful, a clause without a full stop.
        question: what is asked about it.
        flag: name of the option that confirms it beforehand.
    """

    found: str
    question: str
    flag: str


@dataclass(frozen=True)
class Answer:
    """How an answer was understood.

    Attributes:
        value: a length [mm], a count, or a word.
        words: how it is said and kept; read again, it gives the same answer.
        doubt: what has to be confirmed first, None for nothing.
        taken_as: what it was taken as, where that is not what was typed; empty if it is.
        spread_mm: how far two values are from the middle that was taken [mm]; 0 for one value.
    """

    value: Value
    words: str
    doubt: Doubt | None = None
    taken_as: str = ""
    spread_mm: Fraction = Fraction(0)


@dataclass(frozen=True)
class Question:
    """One question, with all that people read of it; a terminal or a page may ask it.

    Attributes:
        key: what the answer is kept under.
        wanted: what it asks for, such as "width".
        option: how the command line answers it, such as --width.
        example: an answer, for a message that asks for the option.
        before: what is read before it; empty for nothing.
        prompt: what goes before the cursor.
        proposed: the answer that an empty line gives, None where there is none.
        read: returns the answer that was typed, or raises AnswerError.
        help: what is read by whoever asks for help with it.
        how_to_type: what help adds the first time for all questions that have it; may be empty.
        answered_by: what an answer is, such as "a measurement".
        choices: the words to choose from, each with its meaning; empty where any may be typed.
        is_listed: whether the choices are shown before it is asked.
        general: another name under which the command line may have answered it; empty for none.
    """

    key: str
    wanted: str
    option: str
    example: str
    before: tuple[Line, ...]
    prompt: str
    proposed: str | None
    read: Callable[[str], Answer]
    help: str
    choices: Mapping[str, str] = field(default_factory=dict)
    is_listed: bool = False
    general: str = ""
    how_to_type: str = ""
    answered_by: str = "an answer"

    @property
    def names(self) -> tuple[str, ...]:
        """Names under which the command line may have answered it, the closest first."""
        return (self.key, self.general) if self.general else (self.key,)

    def choice_rows(self) -> list[tuple[str, str]]:
        """Return the choices with their numbers, and their meanings."""
        return [(f"{number:>2} {key}", text) for number, (key, text) in
                enumerate(self.choices.items(), 1)]  # fmt: skip
