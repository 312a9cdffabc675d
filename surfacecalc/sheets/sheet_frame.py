"""The frame of every sheet: head, style, script, and a policy that lets nothing be fetched."""

import base64
import hashlib
import os
import re
from collections.abc import Mapping
from dataclasses import dataclass
from importlib.resources import files
from typing import Literal

from surfacecalc.pictures.marks import safe
from surfacecalc.units.display import Units

Paper = Literal["a4", "letter"]
MARK = '<meta name="generator" content="surfacecalc sheet">'
"""By which a sheet is known, so that no other file is written over without a word."""
LETTER_COUNTRIES = frozenset(
    [
        "BZ",
        "CA",
        "CL",
        "CO",
        "CR",
        "GT",
        "MX",
        "NI",
        "PA",
        "PH",
        "PR",
        "SV",
        "US",
        "VE",
    ]  # the paper sizes of CLDR, from memory
)
LOCALE_VARIABLES = ("LC_ALL", "LC_PAPER", "LANG")
LONG_TITLE = 60
"""Above so many letters, a title is set smaller: two lines on paper are enough for a name."""
_FRACTION = re.compile(r"(?<=\d) (?=\d+/\d)")
_UNBROKEN = "\N{NO-BREAK SPACE}"
_PAGE_SIZES = {"a4": "A4", "letter": "letter"}


@dataclass(frozen=True)
class SheetSection:
    """A part of a sheet.

    Attributes:
        key: its id, unlike any other in the sheet.
        title: its heading.
        body: its content as HTML, safe already.
    """

    key: str
    title: str
    body: str


def paper_for(units: Units, environment: Mapping[str, str] = os.environ) -> Paper:
    """Return the paper of the country that the locale names, else that which suits the units."""
    for variable in LOCALE_VARIABLES:
        named = environment.get(variable, "").partition(".")[0].partition("@")[0]
        country = named.partition("_")[2].upper()
        if country:
            return "letter" if country in LETTER_COUNTRIES else "a4"
        if named:  # "C", or a language alone: it goes before the variables that follow
            break
    return "letter" if units is Units.US else "a4"


def is_sheet(content: bytes) -> bool:
    """Whether the content of a file is a sheet."""
    return MARK.encode() in content[:2000]


def page(title: str, kind: str, lead: str, sections: list[SheetSection], paper: Paper) -> str:
    """Return a whole sheet as the text of an HTML file.

    Args:
        title: name of the piece, as the user wrote it.
        kind: what the sheet is, such as "Shop sheet".
        lead: what stands under the heading, HTML that is safe already.
        sections: its parts in order; those without a body are left out.
        paper: what it is printed on.
    """
    style = f"@page {{ size: {_PAGE_SIZES[paper]}; }}\n{_part('sheet.css')}"
    script = _part("ticks.js")
    shown = [section for section in sections if section.body]
    long = " data-long" if len(title) > LONG_TITLE else ""
    links = "".join(f'<li><a href="#{part.key}">{part.title}</a></li>' for part in shown)
    return f"""<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
{MARK}
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; \
script-src '{_digest(script)}'; style-src '{_digest(style)}'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="icon" href="data:,">
<title>{safe(title)}: {kind.lower()}</title>
<style>{style}</style>
</head>
<body>
<header>
<p class="kind">{kind}</p>
<h1{long}><bdi>{safe(title)}</bdi></h1>
{_FRACTION.sub(_UNBROKEN, lead)}
</header>
<nav aria-label="Parts of this sheet"><ul>{links}</ul></nav>
<main>
{_FRACTION.sub(_UNBROKEN, "".join(_section(part) for part in shown))}
</main>
<script>{script}</script>
</body>
</html>
"""


def facts(pairs: list[tuple[str, str]]) -> str:
    """Return names and values side by side; the values are safe already."""
    inner = "".join(f"<div><dt>{name}</dt><dd>{value}</dd></div>" for name, value in pairs)
    return f'<dl class="facts">{inner}</dl>'


def tick(key: str, count: int, words: str) -> str:
    """Return a box to tick with its label.

    Args:
        key: by which the browser remembers it: the piece and the line.
        count: number of the box in the sheet.
        words: its label, HTML that is safe already.
    """
    kept = hashlib.sha256(key.encode()).hexdigest()[:20]
    return (
        f'<input type="checkbox" id="tick-{count}" data-kept="{kept}">'
        f'<label for="tick-{count}">{words}</label>'
    )


def folded(title: str, lines: list[str]) -> str:
    """Return lines that are shown when asked for; they are safe already. Nothing for no lines."""
    if not lines:
        return ""
    inner = "".join(f"<li>{line}</li>" for line in lines)
    return f"<details><summary>{title}</summary><ul>{inner}</ul></details>"


def _section(part: SheetSection) -> str:
    return (
        f'<section aria-labelledby="{part.key}">\n<h2 id="{part.key}">{part.title}</h2>\n'
        f"{part.body}\n</section>\n"
    )


def _part(name: str) -> str:
    return files("surfacecalc.sheets").joinpath(name).read_text(encoding="utf-8")


def _digest(text: str) -> str:
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"
