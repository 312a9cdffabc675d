"""Whatever stands in a name is a name: nothing of it runs, nothing of it is lost."""

import pytest

from surfacecalc.problems import printable

SHEETS = ("hostile-shop", "hostile-client", "hostile-trip")
KINDS = {
    "hostile-shop": (
        "piece",
        "outside",
        "seat",
        "body",
        "joints",
        "gloves",
        "disc",
        "tape",
        "colour",
        "varnish",
        "teal",
        "white",
        "glue",
        "metallic wax",
        "pulls",
    ),
    "hostile-client": ("piece", "outside", "seat", "joints", "colour", "varnish", "pulls"),
    "hostile-trip": ("piece", "gloves", "disc", "tape", "colour", "varnish", "teal", "glue"),
}
"""What has such a name, and is on the sheet."""
SEEN = """
const inner = [...document.querySelectorAll("body *")];
return {
  text: document.body.textContent,
  title: document.title,
  tags: [...new Set(inner.map((e) => e.tagName))],
  scripts: document.scripts.length,
  images: document.images.length,
  handlers: inner.flatMap((e) => e.getAttributeNames()).filter((name) => name.startsWith("on")),
  pictures: [...document.images].map((e) => [e.alt, e.complete && e.naturalWidth > 0]),
};
"""


@pytest.mark.parametrize("sheet", SHEETS)
def test_nothing_of_a_name_runs_and_nothing_is_lost(
    shared_browser, sheet_file, sheet, hostile_text
):
    # Without the policy, so that it is the text that is safe, not the browser that is careful.
    with shared_browser.open(sheet_file(sheet), keeps_policy=False) as tab:
        seen = tab.run(SEEN)
        assert ([], []) == (tab.logged(), tab.asked())  # a dialog would be logged
    shown = printable(hostile_text)
    assert "\\u202e" in shown
    for kind in KINDS[sheet]:
        assert f"{kind} {shown}".lower() in seen["text"].lower()
    assert f"piece {shown}" in seen["title"]
    assert "\u202e" not in seen["text"] + seen["title"]
    assert 1 == seen["scripts"]
    assert [] == seen["handlers"]
    drawings = 0 if "trip" in sheet else 1
    assert drawings == seen["images"] == len(seen["pictures"])
    for words, is_drawn in seen["pictures"]:
        assert is_drawn
        assert f"Drawing of piece {shown} with its dimensions" in words
        assert f"outside {shown}" in words


def test_names_make_no_tags(shared_browser, sheet_file):
    def tags(*names: str) -> set[str]:
        found = set()
        for name in names:
            with shared_browser.open(sheet_file(name)) as tab:
                found |= set(tab.run(SEEN)["tags"])
        return found

    assert tags(*SHEETS) <= tags("cupboard-shop", "cupboard-client", "trip")
