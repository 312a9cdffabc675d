"""The line of every table and key of a TOML document.

The standard parser gives values without their places; `tree-sitter` gives places. The values are
never taken from here, so where its grammar and the standard parser should differ, only a line
number can be off.
"""

import tomllib
from collections.abc import Iterator

import tree_sitter_toml
from tree_sitter import Language, Node, Parser

Path = tuple[str | int, ...]
Lines = dict[Path, int]


def line_index(text: str) -> Lines:
    """Return the line of each table, key and array element, by its path."""
    tree = Parser(Language(tree_sitter_toml.language())).parse(text.encode())
    lines: Lines = {(): 1}
    counts: dict[Path, int] = {}
    for node in tree.root_node.named_children:
        if node.type == "pair":
            _add_pair(node, (), lines)
        elif node.type in ("table", "table_array_element"):
            _add_table(node, lines, counts)
    return lines


def line_of(lines: Lines, path: Path) -> int:
    """Return the line of a path, or of the nearest table around it."""
    while path not in lines:
        path = path[:-1]
    return lines[path]


def lines_moved(lines: Lines, path: Path, to: Path, shift: int = 0) -> Lines:
    """Return the lines of all that stands at a path, as if it stood at another one.

    Args:
        lines: the lines of a document.
        path: where something stands.
        to: where it shall be found too.
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


def _add_table(node: Node, lines: Lines, counts: dict[Path, int]) -> None:
    header, *rest = node.named_children
    path: Path = ()
    keys = list(_keys(header))
    for key in keys[:-1]:
        path = (*path, key)
        if path in counts:
            path = (*path, counts[path] - 1)
    path = (*path, keys[-1])
    line = node.start_point.row + 1
    if node.type == "table_array_element":
        counts[path] = counts.get(path, 0) + 1
        lines.setdefault(path, line)
        path = (*path, counts[path] - 1)
    _add_with_parents(path, line, lines)
    for child in rest:
        if child.type == "pair":
            _add_pair(child, path, lines)


def _add_pair(node: Node, path: Path, lines: Lines) -> None:
    key, *rest = node.named_children
    path = (*path, *_keys(key))
    _add_with_parents(path, node.start_point.row + 1, lines)
    for value in rest:
        _add_value(value, path, lines)


def _add_value(node: Node, path: Path, lines: Lines) -> None:
    if node.type == "inline_table":
        for child in node.named_children:
            if child.type == "pair":
                _add_pair(child, path, lines)
    elif node.type == "array":
        items = [child for child in node.named_children if child.type != "comment"]
        for number, item in enumerate(items):
            lines[(*path, number)] = item.start_point.row + 1
            _add_value(item, (*path, number), lines)


def _add_with_parents(path: Path, line: int, lines: Lines) -> None:
    for length in range(1, len(path)):
        lines.setdefault(path[:length], line)
    lines[path] = line


def _keys(node: Node) -> Iterator[str]:
    """Yield the keys of a dotted key, unquoted."""
    if node.type == "dotted_key":
        for child in node.named_children:
            yield from _keys(child)
        return
    text = (node.text or b"").decode()
    yield next(iter(tomllib.loads(f"{text} = 0"))) if node.type == "quoted_key" else text
