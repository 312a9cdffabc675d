"""The skin of solids joined into one, and which patch each triangle of it came from.

The union keeps both through explicit ids. Only what lies near another solid is given to the kernel;
see `stretches`. Triangles of a sealed void, and of whatever stands inside one, are marked: no brush
gets in.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import chain

import numpy as np
import numpy.typing as npt

from shapes.solids import Floats, Ints, Solid, sums, triangle_areas
from shapes.stretches import Bools, CutPiece, Stack, near_stretches, runs, stacks
from shapes.unions import United, united
from shapes.voids import sealed_triangles


@dataclass(frozen=True, eq=False)
class Whole:
    """Stretches of a solid that nothing comes near and that are left to see, whole.

    Attributes:
        stack: the solid.
        number: of the solid.
        place: where the corner of its box stands [grid units], shape (3,).
        first: the first stretch.
        last: the last stretch.
        sealed: whether they lie in a sealed void.
    """

    stack: Stack
    number: int
    place: Floats
    first: int
    last: int
    sealed: bool

    def areas(self) -> Floats:
        """Return the area of its triangles by patch of the solid [square grid units]."""
        stretches = self.stack.stretch_of_patch
        mine = (stretches >= self.first) & (stretches <= self.last)
        return np.where(mine, self.stack.solid.patch_mesh_areas, 0.0)

    def by_flatness(self) -> tuple[list["Whole"], list["Whole"]]:
        """Return its stretches without a flat patch, and those with one."""
        has_flat = self.stack.has_flat[self.first : self.last + 1]
        curved, flat = (
            [replace(self, first=self.first + low, last=self.first + high) for low, high in found]
            for found in (runs(~has_flat), runs(has_flat))
        )
        return curved, flat

    def piece(self) -> CutPiece:
        """Return its triangles, closed by lids."""
        return self.stack.piece(self.number, self.place, self.first, self.last)


@dataclass(frozen=True, eq=False)
class Skin:
    """The surface of several solids joined into one.

    Attributes:
        vertices: corners [grid units], shape (v, 3).
        triangles: corner numbers, outward, shape (t, 3).
        patch_of: patch of each triangle, counted through all solids; that of a lid, where a
            stretch was cut off, is the one after them all, shape (t,).
        sealed: whether a triangle lies in a sealed void, shape (t,).
        first_patches: the first patch of each solid, and the patch of the lids.
        whole: curved stretches without triangles here.
    """

    vertices: Floats
    triangles: Ints
    patch_of: Ints
    sealed: Bools
    first_patches: Ints
    whole: tuple[Whole, ...] = ()

    @property
    def patches(self) -> int:
        """How many patches the solids have."""
        return int(self.first_patches[-1])

    def patch_areas(self, *, sealed: bool) -> Floats:
        """Return the area of each patch that is exposed, or sealed [square grid units]."""
        chosen = self.sealed == sealed
        areas = triangle_areas(self.vertices, self.triangles[chosen])
        totals = sums(self.patch_of[chosen], areas, self.patches)[: self.patches]
        for cut in self.whole:
            if cut.sealed == sealed:
                first, after = self.first_patches[cut.number : cut.number + 2]
                totals[first:after] += cut.areas()
        return totals

    def with_all_triangles(self) -> "Skin":
        """Return the same skin with the triangles of all stretches, and without lids."""
        if not (self.patch_of == self.patches).any():
            return self
        full = _added(self, self.whole)
        left = full.patch_of < full.patches
        at_cuts = np.unique(full.triangles[~left])
        # the corners of a cut are there twice, to the last digit, since the kernel moves none
        _, first, same = np.unique(
            full.vertices[at_cuts], axis=0, return_index=True, return_inverse=True
        )
        number = np.arange(len(full.vertices))
        number[at_cuts] = at_cuts[first[same.ravel()]]
        return replace(
            full,
            triangles=number[full.triangles[left]],
            patch_of=full.patch_of[left],
            sealed=full.sealed[left],
        )


def joined_skin(
    solids: Sequence[Solid],
    places: npt.ArrayLike,
    *,
    at_once: int = 16,
    settle_flush: bool = True,
) -> Skin:
    """Return the skin of solids joined into one.

    Neighbours are joined first, some at once. That is faster than joining all at once in any order,
    and the kernel then seldom leaves faces back to back that should have vanished. Where solids
    stand in each other with faces flush, the shared patch belongs to the one whose corner is lower,
    then further front, then further left, then named first.

    Args:
        solids: the solids.
        places: where the corner of each one's box stands [grid units], shape (solids, 3).
        at_once: how many solids are joined in one call.
        settle_flush: whether whose a flush patch is, is settled first; else the kernel decides.

    Raises:
        KernelError: the kernel refused a solid.
    """
    corners = np.asarray(places, dtype=np.float64)
    if len(solids) > 1:
        return _joined(solids, corners, at_once, settle_flush=settle_flush)
    vertices, only = solids[0].vertices + corners[0], solids[0]
    sealed = np.zeros(len(only.triangles), dtype=np.bool_)
    if not only.is_open:
        sealed = sealed_triangles(vertices, only.triangles)
    first_patches = np.array([0, len(only.patches)])
    return Skin(vertices, only.triangles, only.patch_of, sealed, first_patches)


def has_inverted(skin: Skin, normals: Floats) -> bool:
    """Whether any exposed triangle of a flat patch looks into the wood: a fault of the union.

    Args:
        skin: the joined skin.
        normals: outward unit normals of the patches, NaN where curved, shape (patches, 3).
    """
    looked_at = ~skin.sealed & (skin.patch_of < skin.patches)
    triangles = skin.triangles[looked_at]
    outward = normals[skin.patch_of[looked_at]]
    first, second, third = (skin.vertices[triangles[:, k]] for k in range(3))
    facing = (np.cross(second - first, third - first) * outward).sum(axis=1)
    return bool((facing < -1).any())  # twice an area of less than a square unit is rounding


def _joined(solids: Sequence[Solid], places: Floats, at_once: int, *, settle_flush: bool) -> Skin:
    stacked, near = near_stretches(stacks(solids), places)
    pieces = [
        stack.piece(number, places[number], first, last)
        for number, stack in enumerate(stacked)
        for first, last in runs(near[number])
    ]
    found = united(pieces, solids, places, at_once, settle_flush=settle_flush)
    sealed = sealed_triangles(found.vertices, found.triangles)
    counts = np.array([len(solid.patches) for solid in solids])
    first_patches = np.cumsum([0, *counts])
    solid_of = np.array([piece.number for piece in pieces])[found.piece_of]
    is_lid = found.patch_of >= counts[solid_of]
    patch_of = np.where(is_lid, first_patches[-1], first_patches[solid_of] + found.patch_of)
    lids = _Lids(pieces, found, np.where(is_lid, found.patch_of - counts[solid_of], -1), sealed)
    split = [
        Whole(stack, number, places[number], first, last, is_sealed).by_flatness()
        for number, stack in enumerate(stacked)
        for first, last in runs(~near[number])
        if (is_sealed := lids.is_sealed(number, first, last)) is not None
    ]
    curved, flat = (
        (tuple(chain.from_iterable(found)) for found in zip(*split, strict=True))
        if split
        else ((), ())
    )
    skin = Skin(found.vertices, found.triangles, patch_of, sealed, first_patches)
    # what is flat may look at something across air, and two faces meet along its edge
    return replace(_added(skin, flat), whole=curved)


class _Lids:
    """What the union left of the lids, which says what became of the stretches behind them."""

    def __init__(
        self, pieces: Sequence[CutPiece], found: United, lid_of: Ints, sealed: Bools
    ) -> None:
        first = np.cumsum([0, *[len(piece.lids) for piece in pieces]])
        chosen = lid_of >= 0
        number = first[found.piece_of[chosen]] + lid_of[chosen]
        areas = triangle_areas(found.vertices, found.triangles[chosen])
        left = sums(number, areas, int(first[-1]))
        dark = sums(number, areas * sealed[chosen], int(first[-1]))
        whole = [lid.area for piece in pieces for lid in piece.lids]
        self._found: dict[tuple[int, int], Floats] = defaultdict(lambda: np.zeros(3))
        behind = [(piece.number, lid.stretch) for piece in pieces for lid in piece.lids]
        for key, areas in zip(behind, np.stack([whole, left, dark], axis=1), strict=True):
            self._found[key] += areas

    def is_sealed(self, solid: int, first: int, last: int) -> bool | None:
        """Return whether stretches without a part near them are sealed; None where hidden."""
        whole, left, dark = sum((self._found[solid, end] for end in {first, last}), np.zeros(3))
        return bool(dark > left / 2) if left > whole / 2 else None


def _added(skin: Skin, cuts: Sequence[Whole]) -> Skin:
    """Return a skin with the triangles of stretches and their lids."""
    pieces = [cut.piece() for cut in cuts]
    starts = np.cumsum([len(skin.vertices), *[len(piece.vertices) for piece in pieces]])
    patch_of = [
        np.where(
            piece.patch_of < len(cut.stack.solid.patches),
            piece.patch_of + skin.first_patches[cut.number],
            skin.patches,
        )
        for cut, piece in zip(cuts, pieces, strict=True)
    ]
    triangles = [piece.triangles + start for piece, start in zip(pieces, starts, strict=False)]
    sealed = [
        np.full(len(piece.triangles), cut.sealed) for cut, piece in zip(cuts, pieces, strict=True)
    ]
    return replace(
        skin,
        vertices=np.concatenate([skin.vertices, *[piece.vertices for piece in pieces]]),
        triangles=np.concatenate([skin.triangles, *triangles]),
        patch_of=np.concatenate([skin.patch_of, *patch_of]),
        sealed=np.concatenate([skin.sealed, *sealed]),
        whole=(),
    )
