"""A page of the guide as plain text for a terminal, a file or a pipe.

It knows the Markdown that the guide is written in and no more: headings, paragraphs, lists, tables
of two columns, code, links and comments.
"""

import re
import textwrap
from collections.abc import Iterator

WIDEST, NARROWEST = 88, 40
"""Characters in a line; longer lines are hard to read, shorter ones fall apart."""
TERM = 24
"""Characters for the first column of a table; a longer term gets a line of its own."""
CODE = "    "
ITEM = re.compile(r"^(?P<mark>\*|\d+\.) +(?P<text>.*)$")
UNBROKEN = re.compile(r"`[^`]{1,50}`|\"[^\"\n]{1,24}\"")
"""Code, and words in quotes: not broken over two lines unless they are long."""
UNBROKEN_SPACE = "\0"
USUAL_HEADINGS = ("key", "meaning")
"""Headings of a table that go without saying."""
LINK = re.compile(r"\[([^\]\[]+)\]\(([^)]+)\)")
ROW = re.compile(r"^\|(?P<cells>.*)\|$")
BETWEEN_CELLS = re.compile(r"(?<!\\)\|")


def plain_text(markdown: str, width: int) -> str:
    r"""Return a page as lines that are at most so wide; code keeps its own lines.

    >>> print(plain_text("# Legs\n\nA leg is `round`, see [parts](parts.md).", 60), end="")
    Legs
    ====
    <BLANKLINE>
    A leg is `round`, see `surfacecalc guide parts`.
    """
    width = min(max(width, NARROWEST), WIDEST)
    blocks = ["\n".join(_shown(block, width)) for block in _blocks(markdown)]
    return "\n\n".join(blocks) + "\n"


def _blocks(markdown: str) -> Iterator[list[str]]:
    """Yield the lines of each paragraph, list, table or piece of code."""
    block: list[str] = []
    is_code = False
    for line in markdown.splitlines():
        if line.startswith("```"):
            is_code = not is_code
            block.append("```")
        elif is_code or (line.strip() and not line.startswith("<!--")):
            block.append(line)
        elif block:
            yield block
            block = []
    if block:
        yield block


def _shown(block: list[str], width: int) -> Iterator[str]:
    first = block[0]
    if first == "```":
        yield from (f"{CODE}{line}".rstrip() for line in block if line != "```")
    elif first.startswith(CODE):
        yield from block
    elif first.startswith("#"):
        title = first.lstrip("#").strip()
        yield title
        yield ("=" if first.startswith("# ") else "-") * len(title)
    elif ITEM.match(first):
        yield from _items(block, width)
    elif ROW.match(first):
        yield from _rows(block, width)
    else:
        yield from _wrapped(" ".join(block), width)


def _items(block: list[str], width: int) -> Iterator[str]:
    """Yield a list; a line that begins no item belongs to the one before."""
    items: list[tuple[str, str]] = []
    for line in block:
        found = ITEM.match(line)
        if found:
            items.append((found["mark"], found["text"]))
        else:
            mark, text = items.pop()
            items.append((mark, f"{text} {line.strip()}"))
    for mark, text in items:
        yield from _wrapped(text, width, first=f"{mark} ")


def _rows(block: list[str], width: int) -> Iterator[str]:
    """Yield a table of two columns: terms, and what they mean."""
    headings = _cells(block[0])
    if headings != USUAL_HEADINGS:
        term, meaning = headings
        yield f"  {term:<{TERM}}{meaning}"
        yield f"  {'-' * len(term):<{TERM}}{'-' * len(meaning)}"
    for term, meaning in map(_cells, block[2:]):
        first = f"  {term:<{TERM}}"
        if len(term) > TERM - 2:
            yield f"  {term}"
            first = " " * (TERM + 2)
        yield from _wrapped(meaning, width, first=first)


def _cells(line: str) -> tuple[str, str]:
    """Return a term without its backticks, and what it means."""
    found = ROW.match(line)
    cells = BETWEEN_CELLS.split(found["cells"]) if found else [line]
    term, meaning = (cell.strip().replace("\\|", "|") for cell in (*cells, "")[:2])
    return LINK.sub(r"\1", term).replace("`", ""), meaning


def _wrapped(text: str, width: int, *, first: str = "") -> list[str]:
    kept = UNBROKEN.sub(lambda found: found[0].replace(" ", UNBROKEN_SPACE), _linked(text))
    lines = textwrap.wrap(
        kept, width, initial_indent=first, subsequent_indent=" " * len(first),
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip
    return [line.replace(UNBROKEN_SPACE, " ") for line in lines]


def _linked(text: str) -> str:
    """Return text with the command to type in place of a link to a page, and the text of others."""

    def shown(link: re.Match[str]) -> str:
        name, is_page, _ = link[2].partition(".md")
        return f"`surfacecalc guide {name}`" if is_page and "/" not in name else link[1]

    return LINK.sub(shown, text)
