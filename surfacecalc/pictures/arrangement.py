"""Where views are on the sheet, and at which scale.

The top view is over the front view and the right side beside it (third angle of ISO 5456-2).
The pictorial view is in the corner between them or, for a tall piece, to the right of both.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from surfacecalc.pictures.layout import (
    DIMENSION_ROOM,
    GUTTER,
    HEAD_HEIGHT,
    LABEL_HEIGHT,
    LABEL_WIDTH,
    LEAST_PICTURE_SHARE,
    LEAST_VIEW_WIDTH,
    LOOSE_GAP,
    LOOSE_HEIGHT_ALONE,
    LOOSE_LABEL_HEIGHT,
    LOOSE_SHARES,
    MARGIN,
    PICTURE_HEIGHT,
    SCALES,
    SHEET_HEIGHT,
    SHEET_WIDTH,
    SMALL_DRAWING,
)
from surfacecalc.pictures.marks import Point
from surfacecalc.pictures.scenes import Scene
from surfacecalc.units.display import Units

INNER_WIDTH = SHEET_WIDTH - 2 * MARGIN


@dataclass(frozen=True, eq=False)
class Placed:
    """A view with its place.

    Attributes:
        scene: what it shows.
        scale: sheet mm for each mm of the piece.
        at: left, top corner of what it shows, on the sheet [mm].
    """

    scene: Scene
    scale: float
    at: Point

    @property
    def size(self) -> Point:
        """Width and height on the sheet [mm]."""
        width, height = self.scene.size
        return width * self.scale, height * self.scale

    @property
    def origin(self) -> Point:
        """Where the origin of the projection is on the sheet [mm]."""
        left, _, _, top = self.scene.box
        return self.at[0] - left * self.scale, self.at[1] + top * self.scale


@dataclass(frozen=True, eq=False)
class Elevations:
    """The views of the joined piece, placed.

    Attributes:
        reduction: n of the scale 1:n.
        front: the front view.
        right: the right side.
        top: the top view.
        picture: the pictorial view.
        bottom: where the next thing may start on the sheet [mm].
    """

    reduction: int
    front: Placed
    right: Placed
    top: Placed
    picture: Placed
    bottom: float


def arrange(
    front: Scene, right: Scene, top: Scene, picture: Scene, units: Units, *, room: float
) -> Elevations:
    """Return the views placed at the largest scale at which they fit.

    Args:
        front: the front view.
        right: the right side.
        top: the top view.
        picture: the pictorial view.
        units: which row of scales to choose from.
        room: height that is taken below by other things [mm].
    """
    for reduction in SCALES[units]:
        for is_tall in (False, True):
            found = _placed(front, right, top, picture, reduction, is_tall=is_tall)
            share = found.picture.scale * reduction
            if share >= LEAST_PICTURE_SHARE and found.bottom + room <= SHEET_HEIGHT:
                return found
    return found


def _placed(
    front: Scene, right: Scene, top: Scene, picture: Scene, reduction: int, *, is_tall: bool
) -> Elevations:
    scale = 1 / reduction
    wide, high = (length * scale for length in front.size)
    deep = top.size[1] * scale
    left = MARGIN + DIMENSION_ROOM
    second = left + max(wide, LEAST_VIEW_WIDTH) + GUTTER
    upper = HEAD_HEIGHT + LABEL_HEIGHT
    natural = picture.size[1] * scale
    row = deep if is_tall else max(deep, min(natural, PICTURE_HEIGHT))
    lower = upper + row + GUTTER + LABEL_HEIGHT
    bottom = lower + high + DIMENSION_ROOM + 2
    third = second + max(right.size[0] * scale, LEAST_VIEW_WIDTH) + GUTTER
    corner = third if is_tall else second
    box = SHEET_WIDTH - MARGIN - corner, (lower + high if is_tall else upper + row) - upper
    fits_beside = third - GUTTER <= SHEET_WIDTH - MARGIN
    share = min(box[0] / picture.size[0] / scale, box[1] / natural, 1.0) if fits_beside else -1.0
    shown = Placed(picture, scale * share, (corner, upper))
    shown = replace(shown, at=(corner + (box[0] - shown.size[0]) / 2, upper))
    return Elevations(
        reduction,
        Placed(front, scale, (left, lower)),
        Placed(right, scale, (second, lower)),
        Placed(top, scale, (left, upper + row - deep)),
        shown,
        bottom,
    )


def flow(
    scenes: Sequence[Scene], labels: Sequence[float], scale: float, start: float, room: float
) -> tuple[list[Placed], float]:
    """Return loose parts placed in rows, and where the rows end; smaller where they take too much.

    Args:
        scenes: what is to be shown.
        labels: how wide each one's label is [mm].
        scale: sheet mm for each mm, as of the piece.
        start: where the rows start on the sheet [mm].
        room: height that the rows may take [mm].
    """
    for share in LOOSE_SHARES:
        placed, end = _rows(scenes, labels, scale * share, start)
        if _is_modest(placed, end - start, room):
            break
    return placed, end


def loose_reduction(scenes: Sequence[Scene], units: Units) -> int:
    """Return n of the largest scale 1:n at which a piece of loose parts only fits the sheet."""
    for reduction in SCALES[units]:
        placed, end = _rows(scenes, [LABEL_WIDTH] * len(scenes), 1 / reduction, 0.0)
        if _is_modest(placed, end, LOOSE_HEIGHT_ALONE):
            break
    return reduction


def _is_modest(placed: Sequence[Placed], height: float, room: float) -> bool:
    """Whether rows of loose parts fit the sheet's width and their room, or are small already."""
    wide = max((one.size[0] for one in placed), default=0.0)
    high = max((one.size[1] for one in placed), default=0.0)
    return wide <= INNER_WIDTH and (height <= room or high <= SMALL_DRAWING)


def _rows(
    scenes: Sequence[Scene], labels: Sequence[float], scale: float, start: float
) -> tuple[list[Placed], float]:
    rows: list[list[tuple[Scene, float]]] = [[]]
    x = MARGIN
    for scene, label in zip(scenes, labels, strict=True):
        wide = max(scene.size[0] * scale, label)
        if rows[-1] and x + wide > SHEET_WIDTH - MARGIN:
            rows.append([])
            x = MARGIN
        rows[-1].append((scene, x))
        x += wide + LOOSE_GAP
    placed: list[Placed] = []
    y = start
    for row in rows:
        high = max((scene.size[1] * scale for scene, _ in row), default=0.0)
        placed += [Placed(s, scale, (x, y + high - s.size[1] * scale)) for s, x in row]
        y += high + LOOSE_LABEL_HEIGHT
    return placed, y
