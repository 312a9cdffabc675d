"""An answer to a question, a doubt about it, and the question itself."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

Value = Fraction | str


class AnswerError(ValueError):
    """A text is no answer to a question; says in one sentence why and what would be."""


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
    """What a text was understood as.

    Attributes:
        value: a length [mm], a count, or a word.
        words: how it is said and kept; read again, it gives the same answer.
        doubt: what has to be confirmed first, None for nothing.
    """

    value: Value
    words: str
    doubt: Doubt | None = None


@dataclass(frozen=True)
class Question:
    """One question.

    Attributes:
        key: what the answer is kept under.
        wanted: what it asks for, such as "the width".
        option: how the command line answers it, such as --width.
        example: an answer, for a message that asks for the option.
        told: what is said before it, each a paragraph; empty for nothing.
        prompt: what stands before the cursor.
        proposed: the answer that an empty line gives, None where there is none.
        read: returns the answer of a text, or raises AnswerError.
        explained: what is said to whoever asks what is meant.
        general: another name under which the command line may have answered it; empty for none.
    """

    key: str
    wanted: str
    option: str
    example: str
    told: tuple[str, ...]
    prompt: str
    proposed: str | None
    read: Callable[[str], Answer]
    explained: str
    general: str = ""

    @property
    def names(self) -> tuple[str, ...]:
        """Names under which the command line may have answered it, the closest first."""
        return (self.key, self.general) if self.general else (self.key,)
