"""Looks of zones: a tint, an ink and a pattern each, told apart by the pattern alone.

Zones take the looks in the order of the file. A zone that is left as it is stays plain; faces in no
zone are crossed. After twelve zones the patterns come again, closer, with other tints.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from surfacecalc.zones.areas import Measured

Point = tuple[float, float]


@dataclass(frozen=True)
class Pattern:
    """A tile that is repeated over a face.

    Attributes:
        size: its side on paper [mm].
        strokes: lines from corner to corner of each, in shares of the side.
        dots: centre and radius of filled dots, in shares of the side.
    """

    size: float
    strokes: tuple[tuple[Point, ...], ...] = ()
    dots: tuple[tuple[float, float, float], ...] = ()

    @property
    def has_marks(self) -> bool:
        """Whether anything is on its tile."""
        return bool(self.strokes or self.dots)


@dataclass(frozen=True)
class ZoneLook:
    """How a zone is shown.

    Attributes:
        name: the zone's name, None for faces in no zone.
        tint: colour of its faces, #rrggbb.
        ink: colour of its pattern, #rrggbb.
        pattern: its pattern.
    """

    name: str | None
    tint: str
    ink: str
    pattern: Pattern


_RISING = (((-0.1, 0.1), (0.1, -0.1)), ((0.0, 1.0), (1.0, 0.0)), ((0.9, 1.1), (1.1, 0.9)))
_FALLING = tuple(tuple((1 - x, y) for x, y in line) for line in _RISING)
_LEVEL = (((0.0, 0.5), (1.0, 0.5)),)
_UPRIGHT = (((0.5, 0.0), (0.5, 1.0)),)
_PLUS = (((0.28, 0.5), (0.72, 0.5)), ((0.5, 0.28), (0.5, 0.72)))
_ZIGZAG = (((0.0, 0.75), (0.5, 0.25), (1.0, 0.75)),)
_BRICK = (
    ((0.0, 0.25), (1.0, 0.25)), ((0.0, 0.75), (1.0, 0.75)),
    ((0.25, 0.25), (0.25, 0.75)), ((0.75, 0.0), (0.75, 0.25)), ((0.75, 0.75), (0.75, 1.0)),
)  # fmt: skip
_DASHES = (((0.03, 0.25), (0.48, 0.25)), ((0.53, 0.75), (0.98, 0.75)))
_PAIRS = (((0.35, 0.0), (0.35, 1.0)), ((0.6, 0.0), (0.6, 1.0)))
_RINGS = (
    ((0.38, 0.2), (0.62, 0.2), (0.8, 0.38), (0.8, 0.62), (0.62, 0.8), (0.38, 0.8),
     (0.2, 0.62), (0.2, 0.38), (0.38, 0.2)),
)  # fmt: skip
_CROSS = (((0.3, 0.3), (0.7, 0.7)), ((0.3, 0.7), (0.7, 0.3)))

PATTERNS = (
    Pattern(2.6, _RISING),
    Pattern(2.4, dots=((0.25, 0.25, 0.11), (0.75, 0.75, 0.11))),
    Pattern(1.9, _LEVEL),
    Pattern(3.2, (*_RISING, *_FALLING)),
    Pattern(1.9, _UPRIGHT),
    Pattern(3.4, _ZIGZAG),
    Pattern(2.6, _FALLING),
    Pattern(3.6, _BRICK),
    Pattern(2.8, _PLUS),
    Pattern(3.4, _DASHES),
    Pattern(3.9, _RINGS),
    Pattern(3.6, _PAIRS),
)
TINTS = (
    ("#eedfb6", "#6f5310"),
    ("#c6d9e6", "#24506f"),
    ("#d2dfc0", "#43602a"),
    ("#efcdb9", "#84401f"),
    ("#dbcbe0", "#643a6b"),
    ("#bcdcd6", "#1d605a"),
    ("#f0cfd2", "#8a3444"),
    ("#dcd9b0", "#5b5a1c"),
    ("#cdcdea", "#474489"),
    ("#dad3c8", "#5a5044"),
    ("#cfe3ee", "#2a5f80"),
    ("#f1e3cf", "#75501f"),
    ("#d3e2d6", "#335c43"),
)
"""Thirteen tints for twelve patterns, so that a pattern that comes again has another tint."""

PLAIN = ("#f6f4ef", "#5a5650", Pattern(4.0))
"""Look of zones that are left as they are."""
CROSSED = ("#ffffff", "#9c2f1e", Pattern(4.6, _CROSS))
"""Look of faces in no zone."""
CLOSER = 0.72
"""How much smaller a pattern is each time it comes again."""


def looks(measured: Measured) -> list[ZoneLook]:
    """Return the look of each zone in the order of the file, and last that of no zone."""
    found = []
    number = 0
    for area in measured.zones:
        if area.zone.leave:
            found.append(ZoneLook(area.zone.name, *PLAIN))
        else:
            found.append(_numbered_look(area.zone.name, number))
            number += 1
    return [*found, ZoneLook(None, *CROSSED)]


def look_of(found: Iterable[ZoneLook]) -> dict[str | None, ZoneLook]:
    """Return the looks by the zone's name."""
    return {look.name: look for look in found}


def _numbered_look(name: str, number: int) -> ZoneLook:
    tint, ink = TINTS[number % len(TINTS)]
    pattern = PATTERNS[number % len(PATTERNS)]
    size = pattern.size * CLOSER ** (number // len(PATTERNS))
    return ZoneLook(name, tint, ink, Pattern(size, pattern.strokes, pattern.dots))
