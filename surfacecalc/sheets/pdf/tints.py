"""Patterns of the drawing on a ground of one piece.

A pattern is printed tile by tile. Where each tile has its own ground, viewers leave fine white
lines between them; so the ground is laid under the whole face, and the tiles hold marks alone.
"""

import re

_PATTERN = re.compile(
    r'<pattern id="(?P<id>[\w-]+)"(?P<size>[^>]*)>'
    r'<rect width="[\d.]+" height="[\d.]+" fill="(?P<tint>#[0-9a-f]{6})"/>(?P<marks>.*?)</pattern>'
)
_FACE = re.compile(r'<(?:path|rect)\b[^>]*fill="url\(#(?P<id>[\w-]+)\)"[^>]*/>')


def with_whole_grounds(drawing: str) -> str:
    """Return a drawing of ours, the tint of each face laid under its pattern in one piece."""
    patterns = {found["id"]: found for found in _PATTERN.finditer(drawing)}

    def face(found: re.Match[str]) -> str:
        pattern = patterns.get(found["id"])
        if pattern is None:
            return found[0]
        ground = found[0].replace(f"url(#{found['id']})", pattern["tint"])
        return ground + (found[0] if pattern["marks"] else "")

    without = _PATTERN.sub(r'<pattern id="\g<id>"\g<size>>\g<marks></pattern>', drawing)
    return _FACE.sub(face, without)
