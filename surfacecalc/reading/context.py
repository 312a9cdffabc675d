"""What the tables of one file share while it is read."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from surfacecalc.model.ranges import Source
from surfacecalc.problems import Problem
from surfacecalc.reading.examples import in_unit
from surfacecalc.reading.positions import Lines
from surfacecalc.units.display import Units, format_length
from surfacecalc.units.known import factor

DEFAULT_GAP_MM = 1.0


@dataclass
class Context:
    """What all tables of one file share.

    Attributes:
        lines: the line of each key.
        unit: unit of bare lengths, None where the file does not say.
        folder: where the piece file lies; other files are read from there only.
        problems: what was found so far.
        unsure: kinds of tables of which one may be missing; what refers to it is not recorded.
        file: name of the file, if it is not the piece file; else empty.
        currency: code that [piece] gives, None where it gives none.
        document: the whole file as it is written, where its entries may refer to each other.
        gap_mm: air narrower than this counts as touching.
    """

    lines: Lines
    unit: str | None = None
    folder: Path = field(default_factory=Path)
    problems: list[Problem] = field(default_factory=list)
    unsure: set[str] = field(default_factory=set)
    file: str = ""
    currency: str | None = None
    document: Mapping[str, Any] = field(default_factory=dict)
    gap_mm: float = DEFAULT_GAP_MM

    @property
    def label(self) -> Source:
        """Where what is copied off a label comes from: this job's file, or a record kept."""
        return "own record" if self.file else "label"

    def length_text(self, mm: float) -> str:
        """Return a length in the unit of the file, as finely as a tape measure shows it."""
        unit = self.unit or "mm"
        if unit in ("mm", "in"):
            return format_length(mm, Units.of(unit))
        return f"{mm / float(factor(unit)):.4g} {unit}"

    def example(self, example: str) -> str:
        """Return an example whose numbers are mm in the unit of the file."""
        return in_unit(example, self.unit)
