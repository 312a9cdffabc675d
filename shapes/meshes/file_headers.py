"""What the beginning of a mesh file claims, checked against the file before anything is built.

A file that says it holds a thousand million triangles must hold the bytes for them. Everything here
takes time and memory in proportion to the file at most.
"""

import re
from collections.abc import Callable

from shapes.meshes.imported import MeshError

STL_HEAD, STL_TRIANGLE = 84, 50
"""Bytes before the triangles of a binary STL file, and of each."""
LEAST_OFF_LINE = 5
"""Fewest bytes a line of an OFF file takes: three digits with blanks between."""
MOST_TRIANGLES = 5_000_000
"""Triangles taken from one file: five times the largest scan foreseen. A million were measured to
take 0.8 GB at the peak, so these take some 4 GB."""

SIZES = {
    **dict.fromkeys(("char", "uchar", "int8", "uint8"), 1),
    **dict.fromkeys(("short", "ushort", "int16", "uint16"), 2),
    **dict.fromkeys(("int", "uint", "int32", "uint32", "float", "float32"), 4),
    **dict.fromkeys(("double", "float64"), 8),
}
"""Bytes of the number types of PLY."""

SIGNS: tuple[tuple[str, Callable[[bytes], object]], ...] = (
    ("glb", lambda head: head.startswith(b"glTF")),
    ("ply", lambda head: re.match(rb"ply\s", head)),
    ("3mf", lambda head: head.startswith(b"PK\x03\x04")),
    ("off", lambda head: re.match(rb"\s*(?:#[^\n]*\n\s*)*C?OFF\b", head)),
    ("gltf", lambda head: re.match(rb"(?:\xef\xbb\xbf)?\s*\{", head)),
    ("obj", lambda head: re.search(rb"(?m)^[ \t]*v[ \t]+[-+.\d]", head)),
    ("stl", lambda head: head.lstrip().startswith(b"solid")),
)
"""How the contents of each kind of file show; binary STL has no sign but its length."""


def check_kind(source: str, kind: str, data: bytes) -> None:
    """Raise MeshError where the contents are not of the kind that the file's ending says."""
    if not data:
        raise MeshError(source, "empty file")
    head = data[:65_536]
    if kind == "stl" and _is_binary_stl(data):
        return
    signs = dict(SIGNS)
    if kind == "obj" and not signs["glb"](head) and not signs["3mf"](head):
        is_kind = bool(re.search(rb"(?m)^[ \t]*v[ \t]", data))
    else:
        is_kind = bool(signs[kind](head))
    if is_kind:
        return
    others = [other for other, sign in SIGNS if other != kind and sign(head)]
    if kind == "stl" and not others:
        check_stl(source, data)
    looks = f": it looks like {others[0].upper()}" if others else ""
    raise MeshError(source, f"is not {kind.upper()}, whatever its name{looks}")


def check_stl(source: str, data: bytes) -> int:
    """Return how many triangles a binary STL file declares, 0 for text.

    Raises:
        MeshError: it does not hold what it declares, or its text has no end.
    """
    if _is_binary_stl(data):
        return int.from_bytes(data[80:84], "little")
    if _is_text_stl(data):
        if b"endsolid" in data[-4096:].lower():
            return 0
        raise MeshError(source, "truncated: no endsolid")
    if len(data) < STL_HEAD:
        raise MeshError(source, "truncated: too short for an STL file")
    declared = int.from_bytes(data[80:84], "little")
    held = (len(data) - STL_HEAD) / STL_TRIANGLE
    cut = "truncated: " if declared > held else ""
    raise MeshError(source, f"{cut}declares {declared} triangles and holds {held:.15g}")


def _is_binary_stl(data: bytes) -> bool:
    count = int.from_bytes(data[80:84], "little")
    return len(data) >= STL_HEAD and len(data) == STL_HEAD + STL_TRIANGLE * count


def _is_text_stl(data: bytes) -> bool:
    if not data.lstrip().startswith(b"solid") or b"\x00" in data[:1024]:
        return False
    return b"facet" in data[:65_536] or b"endsolid" in data[-65_536:]


def check_ply(source: str, data: bytes) -> int:
    """Return how many faces a PLY header declares.

    Raises:
        MeshError: it declares more than the file can hold.
    """
    end = re.search(rb"(?m)^end_header[ \t]*\r?\n", data[:1_048_576])
    if end is None:
        raise MeshError(source, "truncated: no end of the header")
    header = data[: end.start()].decode("ascii", "replace")
    is_text = "format ascii" in header
    least = faces = 0
    for element in re.split(r"(?m)^element ", header)[1:]:
        match = re.match(r"\S+ (\d+)", element)
        if match is None:
            raise MeshError(source, "a count in the header is not a number")
        faces += int(match[1]) if element.startswith("face") else 0
        least += int(match[1]) * _least_bytes(source, element, is_text)
    if least > len(data) - end.end() + is_text:
        raise MeshError(source, "truncated: declares more corners or triangles than it holds")
    return faces


def _least_bytes(source: str, element: str, is_text: bool) -> int:
    """Return the fewest bytes that one element takes."""
    total = 0
    for words in re.findall(r"(?m)^property (.+?)\s*$", element):
        kinds = words.split()
        first = kinds[1] if kinds[0] == "list" and len(kinds) > 1 else kinds[0]
        if first not in SIZES:
            raise MeshError(source, f"a property of the unknown type {first}")
        total += 2 if is_text else SIZES[first]
    return max(total, 1)


def check_off(source: str, data: bytes) -> int:
    """Return how many faces an OFF header declares.

    Raises:
        MeshError: it declares more than the file can hold.
    """
    text = re.sub(rb"#[^\n]*", b"", data[:65_536])
    match = re.match(rb"\s*C?OFF\s+(\d+)\s+(\d+)", text)
    if match is None:
        raise MeshError(source, "no counts of corners and faces at its beginning")
    lines = data.count(b"\n") + 1
    declared = int(match[1]) + int(match[2])
    if declared > lines or declared * LEAST_OFF_LINE > len(data):
        raise MeshError(source, "truncated: declares more corners or faces than it holds")
    return int(match[2])
