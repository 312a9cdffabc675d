"""What people read is plain English: none of the worn phrases of a translation is left in it.

It reads all strings of the package that are sentences, the help of the commands, the pages, the
catalogue, the README, the guide and the examples. The patterns are those of the house's glossary.
"""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import surfacecalc

PACKAGE = Path(surfacecalc.__file__).parent
ROOT = Path(__file__).parents[1]
WORN = {
    r"\bstands?\b": "is, goes, is put",
    r"\bstanding\b": "is, is put",
    r"(?<!here )\b(is|are) no \w": "is not a",
    r"(?<!here )\b(is|are) none\b": "is not one of",
    r"\bnames no\b": "matches no",
    r"\bhas it\b": "does it have",
    r"\bknown are\b": "use one of",
    r"\bmend(s|ed|ing)?\b": "fix, correct",
    r"\b[Ss]lips?\b": "mistake, typo",
    r"\bamiss\b": "wrong",
    r"\b([Tt]ells?|told)\b": "lists, warns about, says",
    r"\b[Rr]emarks?\b": "comment (in a file), note (in a report)",
    r"\b[Ll]eft out\b": "default: ..., if you leave it off",
    r"\b[Ss]hall\b": "should, do you want",
    r"\banew\b": "again, over",
    r"\bblanks?\b": "space",
    r"^Mind\b|\bmind the\b": "Safety, check, watch",
    r"\bstays? behind\b": "left in the tools",
    r"\b[Ww]ill it do\b|\bit will do\b": "is there enough, enough",
    r"\bstays on the shelf\b": "left over",
    r"\broom for\b": "holds",
    r"\brests? on assumed\b": "uses assumed figures",
    r"\bhands on\b": "hands-on time",
    r"\bsetting out\b": "set-up and clean-up",
    r"\b[Rr]ub(bed)? down\b": "sand lightly between coats",
    r"\bby cloth\b": "with a cloth",
    r"\balike\b": "of these, the same",
    r"\b(in all|all in)\b(?! \w+ cases)": "total",
    r"\bupper (side|face)\b": "top",
    r"\bover all\b": "overall",
    r"\btypefaces?\b": "font",
    r"\b[Aa]ir the room\b": "ventilate",
    r"\bcannot be[;:,]": "is not possible",
    r"\ba sign\b|\bevery sign\b": "a character",
    r"\b(a|every|each) text (in|with)\b": "words in quotes",
    r"\ba figure (behind|belongs)\b|\bin figures\b": "digit, number",
    r"\ban? ending\b": "extension",
    r"\bgo on with\b|\bto go on\b": "continue",
    r"\bgoes on\)|, goes on\b": "(continued)",
    r"\bhas no place\b": "does not apply to, does not fit",
    r"\ball the same\b": "anyway",
    r"\bspread over the cores\b|\bbootstrap\b": "leave it to DEVELOPERS.md",
    r"\bfrom memory\b|\bweak source\b|\bno source\b": "common practice",
}
FINE = re.compile(r"\b([Pp]lant|[Nn]ight|[Ww]ash|[Mm]usic)[ -]stands?\b|[Ww]ashstands?")
"""Furniture that is called so."""
PAGES = (".md", ".toml", ".js", ".typ")
NEVER_SHOWN = ("inputs.py",)
"""Modules whose strings seed random draws; what is shown is made from fields elsewhere."""


def _is_sentence(text: str) -> bool:
    return len(re.findall(r"[A-Za-z]{2,}", text)) > 1 and " " in text.strip()


def _docstrings(tree: ast.AST) -> set[int]:
    """Return the ids of strings that are for developers: those that are a statement."""
    return {
        id(node.value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    }


def _strings(path: Path) -> Iterator[tuple[int, str]]:
    """Yield line and words of the strings of a module that people may read."""
    if path.name in NEVER_SHOWN:
        return
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for_developers = set() if path.parent.name == "commands" else _docstrings(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            for_developers.update(id(part) for part in node.values)
            words = "".join(
                str(p.value) if isinstance(p, ast.Constant) else "Xx" for p in node.values
            )
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            words = "" if id(node) in for_developers else node.value
        else:
            continue
        if _is_sentence(words):
            yield node.lineno, words


def _lines(path: Path) -> Iterator[tuple[int, str]]:
    yield from enumerate(path.read_text(encoding="utf-8").split("\n"), start=1)


def _read(path: Path) -> list[str]:
    """Return the worn phrases of a file, each with its line and what to write instead."""
    found = _strings(path) if path.suffix == ".py" else _lines(path)
    return [
        f"{path.relative_to(ROOT) if ROOT in path.parents else path}:{line}: {hit[0]!r} in"
        f" {text.strip()[:80]!r}; write: {plain}"
        for line, text in found
        for worn, plain in WORN.items()
        if (hit := re.search(worn, FINE.sub("", text)))
    ]


def rooms() -> list[str]:
    """Return the rooms of the package, and its own modules."""
    return sorted(path.name for path in PACKAGE.iterdir() if path.suffix in ("", ".py"))


@pytest.mark.parametrize("room", [name for name in rooms() if not name.startswith("__")])
def test_room_speaks_plainly(room: str) -> None:
    place = PACKAGE / room
    files = [place] if place.is_file() else sorted(place.rglob("*"))
    texts = [file for file in files if file.suffix == ".py" or file.suffix in PAGES]
    assert [] == [hit for file in texts for hit in _read(file)]


@pytest.mark.parametrize("folder", ["README.md", "examples"])
def test_papers_speak_plainly(folder: str) -> None:
    place = ROOT / folder
    files = [place] if place.is_file() else sorted(place.glob("*.t*"))
    assert [] == [hit for file in files for hit in _read(file)]


@pytest.mark.parametrize(
    "text", ["No steps are left out.", "it is no paint", "Nothing to mend.", "What shall it be?"]
)
def test_worn_phrases_are_found(text: str, tmp_path: Path) -> None:
    page = tmp_path / "page.md"
    page.write_text(text, encoding="utf-8")
    assert 1 == len(_read(page))
