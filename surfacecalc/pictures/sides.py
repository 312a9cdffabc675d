"""Both sides of surfaces that do not close: an imported sheet has no inside that nobody sees.

A closed body shows the outside of its triangles only. Into an open box one looks from above, and a
sheet may be wound either way, so each of its triangles is given a second one that faces back.
"""

from dataclasses import replace

import numpy as np

from shapes.solids import Ints
from shapes.surfaces import Surface


def with_both_sides(surface: Surface) -> Surface:
    """Return a surface with the back of its triangles too, if it does not close."""
    if not any(part.solid.is_open for part in surface.parts):
        return surface
    return replace(
        surface,
        triangles=np.concatenate([surface.triangles, surface.triangles[:, ::-1]]),
        face_of=np.tile(surface.face_of, 2),
        facet_of=_numbered_apart(surface.facet_of),
        sheet_of=_numbered_apart(surface.sheet_of),
    )


def _numbered_apart(numbers: Ints) -> Ints:
    """Return numbers twice, the second time with numbers of their own."""
    found: Ints = np.concatenate([numbers, numbers + int(numbers.max(initial=-1)) + 1])
    return found
