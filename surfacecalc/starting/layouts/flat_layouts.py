"""Flat pieces and pieces that were measured elsewhere: headboards, mirror frames, meshes."""

from collections.abc import Iterator

from surfacecalc.starting.layouts.case_layouts import ZERO
from surfacecalc.starting.measurements import Sizes
from surfacecalc.starting.part_blocks import Block, row


def headboard(s: Sizes) -> Iterator[Block]:
    """Yield a board, with or without a post on either side."""
    post, thick = s["post-thickness"], s["board"]
    high = s["board-height"]
    zones = {"front": (), "back and underside": ("back", "bottom")}
    at = (post, s.part_of(max(post - thick, ZERO), 2), s["height"] - high)
    keys = {"width": s["width"] - 2 * post, "depth": thick, "height": high, "at": at}
    yield Block("board", "board", keys, zones, "Flush with the tops of the posts." if post else "")
    if post:
        keys = {"height": s["height"], "width": post, **row(2, (s["width"] - post, ZERO, ZERO))}
        yield Block("post", "leg", keys, zones, "Square; for a turned post see the README.")


def mirror_frame(s: Sizes) -> Iterator[Block]:
    """Yield an open frame; its glass is not finished."""
    keys = {"form": "open", "width": s["width"], "depth": s["board"], "height": s["height"]}
    yield Block(
        "frame",
        "panel",
        {**keys, "frame": s["frame"]},
        {"front": ("front", "edge", "reveal"), "back": ("back",)},
        "Flat; a profiled or carved front has more area: see moulding and relief in the README.",
    )


def mesh(file: str, unit: str) -> list[Block]:
    """Return the one part that is a mesh from a file."""
    keys = {"file": file, "unit": unit, "loose": True}
    comment = (
        "Measured in the file. For parts of it that are finished otherwise see cuts in the "
        'README. A scan: add scan = true. If it lies on its back: up = "y".'
    )
    return [Block("model", "mesh", keys, {"surface": ()}, comment)]
