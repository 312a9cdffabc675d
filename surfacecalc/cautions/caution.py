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
        things: the same one by one where it is about products; empty for all else.
    """

    headline: str
    details: str
    sources: tuple[str, ...]
    in_use: str = ""
    applies_to: str = ""
    things: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        """All of it."""
        return f"{self.headline} {self.details}"

    def applied(self, applies_to: str) -> "Caution":
        """Return the caution with what it applies to, in words."""
        return replace(self, applies_to=applies_to, things=())

    def applied_to(self, found: Iterable[Product]) -> "Caution":
        """Return the caution with the products that it applies to, by name and kind."""
        things = tuple(sorted(f"{product.name} ({product.kind})" for product in found))
        return replace(self, applies_to=listing(things, 3), things=things)

    def adding(self, sentence: str, *sources: str) -> "Caution":
        """Return the caution with one more sentence, and the sources of that sentence."""
        details = f"{self.details} {sentence}"
        return replace(self, details=details, sources=(*self.sources, *sources))
