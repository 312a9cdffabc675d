"""The line of every table and key of a document, by its path."""

Path = tuple[str | int, ...]
Lines = dict[Path, int]


def line_of(lines: Lines, path: Path) -> int:
    """Return the line of a path, or of the nearest table around it."""
    while path not in lines:
        path = path[:-1]
    return lines[path]


def lines_moved(lines: Lines, path: Path, to: Path, shift: int = 0) -> Lines:
    """Return the lines of all that is at a path, as if it were at another one.

    Args:
        lines: the lines of a document.
        path: where something is.
        to: where it is to be found as well.
        shift: how many items are before it there, where both are lists.
    """
    moved: Lines = {}
    for found, line in lines.items():
        if found[: len(path)] != path:
            continue
        rest = found[len(path) :]
        if rest and isinstance(rest[0], int):
            rest = (rest[0] + shift, *rest[1:])
        moved[*to, *rest] = line
    return moved
