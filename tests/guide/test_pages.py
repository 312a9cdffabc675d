"""README and guide: short, complete, with links that lead somewhere."""

import ast
import re
from importlib import resources
from pathlib import Path

from surfacecalc.guide import topic_meant, topics

ROOT = Path(__file__).parents[2]
FOLDER = Path("surfacecalc") / "guide"
LINK = re.compile(r"\]\(([^)]+)\)")
MOST_LINES = 180
LONGEST_LINE = 200
LONGEST_CODE = 76
"""Characters that fit, with their margin, into a terminal of 80 columns."""


def test_readme_is_short(pages: dict[str, str]) -> None:
    assert len(pages["README"].splitlines()) <= MOST_LINES


def test_lines_are_short(page_name: str, pages: dict[str, str]) -> None:
    assert [] == [line for line in pages[page_name].splitlines() if len(line) > LONGEST_LINE]


def test_index_lists_every_page_and_nothing_else() -> None:
    files = {file.name for file in resources.files("surfacecalc.guide").iterdir()}
    pages = {name.removesuffix(".md") for name in files if name.endswith(".md")}
    names = [topic.name for topic in topics()]
    assert sorted(pages - {"index"}) == sorted(names)


def test_readme_leads_to_the_guide(pages: dict[str, str]) -> None:
    assert f"({(FOLDER / 'index.md').as_posix()})" in pages["README"]


def test_links_lead_to_files(page_name: str, pages: dict[str, str]) -> None:
    folder = ROOT if page_name == "README" else ROOT / FOLDER
    links = [link for link in LINK.findall(pages[page_name]) if "://" not in link]
    assert [] == [link for link in links if not (folder / link).is_file()]


def test_tables_of_the_guide_have_two_columns(page_name: str, pages: dict[str, str]) -> None:
    """More do not fit into a terminal."""
    rows = [line for line in pages[page_name].splitlines() if line.startswith("|")]
    assert [] == [row for row in rows if len(re.findall(r"(?<!\\)\|", row)) != 3]


def test_code_of_the_guide_fits_a_terminal(page_name: str, pages: dict[str, str]) -> None:
    if page_name == "README":
        return
    blocks = re.findall(r"```\w+\n(.*?)```", pages[page_name], re.DOTALL)
    lines = [line for block in blocks for line in block.splitlines()]
    assert [] == [
        line for line in lines if len(line) > LONGEST_CODE and not line.startswith("my-shelf.toml:")
    ]


def test_guide_lists_every_example(pages: dict[str, str]) -> None:
    listed = re.findall(r"^\| `([a-z-]+\.toml)` \|", pages["a-piece-file-by-hand"], re.MULTILINE)
    assert sorted(file.name for file in (ROOT / "examples").glob("*.toml")) == sorted(listed)


def test_program_names_topics_that_are_there_and_no_readme() -> None:
    """An installed copy has no README; `surfacecalc guide` it has."""
    named, readmes = set(), []
    for file in (ROOT / "surfacecalc").rglob("*.py"):
        tree = ast.parse(file.read_text())
        prose = {
            ast.get_docstring(node, clean=False)
            for node in ast.walk(tree)
            if isinstance(node, ast.Module | ast.FunctionDef | ast.ClassDef)
        }
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                named |= set(re.findall(r"surfacecalc guide ([a-z-]+)", node.value))
                is_said = node.value not in prose and "README" in node.value
                readmes += [file.name] if is_said else []
    assert named
    unknown = {name for name in named if topic_meant(name, topics()) is None}
    assert (set(), []) == (unknown, readmes)
