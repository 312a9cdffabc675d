"""A page of the guide in a terminal: nothing wider than it, nothing lost, code as it is."""

import re

import pytest

from surfacecalc.guide import page, topics
from surfacecalc.guide.terminal import NARROWEST, WIDEST, plain_text

NAMES = ["index", *(topic.name for topic in topics())]


@pytest.mark.parametrize("width", [79, 200])
@pytest.mark.parametrize("name", NAMES)
def test_lines_are_no_wider_than_the_terminal(name: str, width: int) -> None:
    """But for code, which is never broken, and for terms of a table, which are code too."""
    text = plain_text(page(name), width)
    code = set(re.findall(r"`([^`\n]+)`|^(?: {4})(.+)$", page(name), re.MULTILINE))
    known = " ".join(one or other for one, other in code)
    blocks = re.findall(r"```\w+\n(.*?)```", page(name), re.DOTALL)
    for line in text.splitlines():
        wide = len(line) > min(width, WIDEST)
        assert not wide or line.strip() in known or any(line.strip() in b for b in blocks), line


@pytest.mark.parametrize("name", NAMES)
def test_no_word_is_lost(name: str) -> None:
    text = re.sub(
        r"<!--.*?-->|\]\([^)]*\)|^\| key \| meaning \|$", "", page(name), flags=re.MULTILINE
    )
    words = re.findall(r"\w+", re.sub(r"^```\w*$", "", text, flags=re.MULTILINE))
    shown = re.findall(r"\w+", plain_text(page(name), 79))
    assert [] == [word for word in words if word not in shown]
    assert len(words) <= len(shown)


def test_table_shows_terms_and_meanings() -> None:
    table = "| key | meaning |\n|---|---|\n| `name` | what you call it |\n"
    assert f"  {'name':24}what you call it\n" == plain_text(table, 79)


def test_long_term_has_a_line_of_its_own() -> None:
    table = "| write | for |\n|---|---|\n| `{ rounded = [400, 300], radius = 30 }` | rounded |\n"
    assert [
        f"  {'write':24}for", f"  {'-----':24}---",
        "  { rounded = [400, 300], radius = 30 }", f"{'':26}rounded",
    ] == plain_text(table, 79).splitlines()  # fmt: skip


def test_code_keeps_its_lines_and_spaces() -> None:
    text = "Type\n\n    $ surfacecalc   new\n\n```toml\na  = 1\n\n# b\n```\n"
    assert "Type\n\n    $ surfacecalc   new\n\n    a  = 1\n\n    # b\n" == plain_text(text, 79)


def test_list_is_indented_and_code_is_not_broken() -> None:
    text = "* one two three four five six seven `eight nine`\n  ten\n* eleven\n"
    assert [
        "* one two three four five six seven", "  `eight nine` ten", "* eleven",
    ] == plain_text(text, NARROWEST + 1).splitlines()  # fmt: skip
