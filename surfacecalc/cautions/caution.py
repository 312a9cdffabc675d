"""A caution, and how a rule says what in the piece it applies to."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from surfacecalc.model.shelf import Product
from surfacecalc.problems import listing


@dataclass(frozen=True)
class Caution:
    """What can hurt somebody, and what to do about it.

    Attributes:
        headline: what to do, in one short sentence that is enough for a list of cautions.
        details: why, and what else to do, in whole sentences that follow the headline.
        sources: where the rule is published, or that it is common practice; never empty.
        in_use: what the owner of the finished piece should know, without limits of any rule;
            empty for a caution on the work.
        applies_to: what in the piece it applies to; empty as long as no rule has said it.
    """

    headline: str
    details: str
    sources: tuple[str, ...]
    in_use: str = ""
    applies_to: str = ""

    @property
    def text(self) -> str:
        """All of it."""
        return f"{self.headline} {self.details}"

    def applied(self, applies_to: str) -> "Caution":
        """Return the caution with what it applies to."""
        return replace(self, applies_to=applies_to)

    def adding(self, sentence: str, *sources: str) -> "Caution":
        """Return the caution with one more sentence, and the sources of that sentence."""
        details = f"{self.details} {sentence}"
        return replace(self, details=details, sources=(*self.sources, *sources))


def named(found: Iterable[Product]) -> str:
    """Return products as a caution names what it applies to: by name and kind."""
    return listing(sorted(f"{product.name} ({product.kind})" for product in found), 3)
