"""Every piece of a piece file in README and guide is read without a mistake."""

import json
import re
import shutil
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from typer.testing import CliRunner

from surfacecalc.commands import app
from surfacecalc.guide import page, topics

ROOT = Path(__file__).parents[2]
BLOCK = re.compile(r"```toml\n(.*?)```", re.DOTALL)
NAMES = [topic.name for topic in topics()]
BLOCKS = [
    pytest.param(block, id=f"{name}-{number}")
    for name in NAMES
    for number, block in enumerate(BLOCK.findall(page(name)))
]
SPAN = re.compile(r"`([^`\n]+ = [^`\n]+)`")
REST = {
    "piece": ['[piece]\nname = "Specimen"\nunit = "in"\n'],
    "part": [
        '[[part]]\nname = "case"\nshape = "board"\nwidth = 30\ndepth = 15\nheight = 1\n',
        '[[part]]\nname = "leg"\nshape = "leg"\nwidth = 2\nheight = 9\n'
        'corners = { of = "case", set_in = 0 }\n',
        '[[part]]\nname = "drawer"\nshape = "drawer"\nwidth = 9\ndepth = 9\nheight = 5\n'
        'front = 1\nboard = 0.5\nrow = { of = 2, apart = [0, 0, 9] }\n',
    ],
    "zone": [
        '[[zone]]\nname = "all"\nfaces = ["*"]\nsurface = "bare"\n[[zone.step]]\ndo = "sand"\n'
        'grits = [120]\nwith = "disc"\n'
    ],
    "abrasive": ['[[abrasive]]\nname = "disc"\nform = "5 in disc"\n'],
    "product": [
        f'[[product]]\nname = "{name}"\nkind = "{kind}"\n'
        for name, kind in {
            "paint": "waterborne paint", "oil": "oil", "cleaner": "alkaline cleaner",
        }.items()
    ],
}  # fmt: skip
"""What a piece file needs besides, table by table; each is used where a block has no such name."""


def whole(block: str) -> str:
    """Return a block made whole: with all that it needs and does not have itself."""
    has = tomllib.loads(block)
    return "\n".join([block, *_missing(has)])


def _missing(has: dict) -> Iterator[str]:
    for table, texts in REST.items():
        if table in ("piece", "part", "zone") and table in has:
            continue
        found = has.get(table, [])
        names = {entry["name"] for entry in found if isinstance(entry, dict)}
        for text in texts:
            entry = tomllib.loads(text)[table]
            if table == "piece" or entry[0]["name"] not in names:
                yield text


def mistakes(text: str, folder: Path) -> list[str]:
    for mesh in (ROOT / "examples").glob("*.obj"):
        shutil.copy(mesh, folder)
    file = folder / "piece.toml"
    file.write_text(text)
    result = CliRunner().invoke(app, ["check", "--json", str(file)])
    problems = json.loads(result.output)["problems"]
    return [problem["message"] for problem in problems if problem["level"] != "note"]


@pytest.mark.parametrize("block", BLOCKS)
def test_block_is_read_without_a_mistake(block: str, tmp_path: Path) -> None:
    assert [] == mistakes(whole(block), tmp_path)


def test_mistake_in_a_block_would_be_found(tmp_path: Path) -> None:
    block = BLOCK.findall(page("parts"))[0].replace("profile =", "profil =")
    assert mistakes(whole(block), tmp_path)


@pytest.mark.parametrize("name", NAMES)
def test_values_in_the_running_text_are_toml(name: str) -> None:
    """What is written in a sentence or a table can be copied, but for dots and names in a list."""
    for span in SPAN.findall(BLOCK.sub("", page(name))):
        if "..." not in span and not re.search(r"\[(x|width), ", span):
            assert tomllib.loads(f"value = {span}" if span[0] in "[{" else span)
