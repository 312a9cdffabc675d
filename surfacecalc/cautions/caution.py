"""A caution, and how a rule gives one its reason."""

from dataclasses import dataclass, replace


@dataclass(frozen=True)
class Caution:
    """What to mind.

    Attributes:
        text: what and why, and how it was decided where the file leaves that open.
        source: where the rule stands.
        because: what in the piece it applies to.
    """

    text: str
    source: str
    because: str = ""

    def applied(self, because: str, *more: str) -> "Caution":
        """Return the caution with what it applies to, and with sentences more."""
        return replace(self, because=because, text=" ".join([self.text, *filter(None, more)]))
