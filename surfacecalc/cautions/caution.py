"""A caution, and how a rule gives one its reason."""

from dataclasses import dataclass, replace


@dataclass(frozen=True)
class Caution:
    """What to do so that nobody is hurt.

    Attributes:
        text: what and why, and how it was decided where the file leaves that open.
        source: where the rule is written.
        because: what in the piece it applies to.
        headline: the whole of it in one short sentence; its first sentence where none is given.
    """

    text: str
    source: str
    because: str = ""
    headline: str = ""

    def __post_init__(self) -> None:
        if not self.headline:
            object.__setattr__(self, "headline", f"{self.text.partition('. ')[0].rstrip('.')}.")

    def applied(self, because: str, *more: str) -> "Caution":
        """Return the caution with what it applies to, and with sentences more."""
        return replace(self, because=because, text=" ".join([self.text, *filter(None, more)]))
