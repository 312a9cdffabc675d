"""Sheets for everyone: no rule broken, keys in the order of reading, a name for every control.

The rules are those of axe-core; `.ci/run` installs it and tells in SURFACECALC_AXE where it lies.
Without it, the tests that need it skip.
"""

import os
from itertools import pairwise
from pathlib import Path

import pytest

UNFOLD = "for (const one of document.querySelectorAll('details')) one.open = true;"
RULES_BROKEN = """
const { violations, passes } = await axe.run(document);
return [passes.length, violations.map((one) =>
  `${one.impact} ${one.id}: ${one.help}: ${one.nodes.map((node) => node.html.slice(0, 120))}`)];
"""
# What Tab stops at, in the order of the text, and how far down it stands.
STOPS = """
window.stops = [...document.querySelectorAll("a, button, input, summary, [tabindex='0']")]
  .filter((e) => e.checkVisibility());
return stops.map((e) => Math.round(e.getBoundingClientRect().top + scrollY));
"""
STOPPED_AT = "return stops.indexOf(document.activeElement);"
TICKED = "return document.activeElement.checked;"
UNNAMED_TABLES = """
const named = (e) => e.caption?.textContent.trim() || e.closest("[aria-label]") ||
  document.getElementById(e.getAttribute("aria-labelledby"))?.textContent;
const tables = [...document.querySelectorAll("table")];
return [tables.length, tables.filter((e) => !named(e) || !e.querySelector("thead th[scope=col]"))
  .map((e) => e.textContent)];
"""
HEADINGS = "return [...document.querySelectorAll('h1,h2,h3,h4,h5,h6')].map((e) => +e.tagName[1]);"
NAMED_ROLES = {"checkbox", "link", "button", "DisclosureTriangle", "image", "table", "region"}


@pytest.fixture(scope="module")
def axe():
    path = os.environ.get("SURFACECALC_AXE")
    if not path:
        pytest.skip("SURFACECALC_AXE does not tell where axe.min.js lies")
    return Path(path).read_text(encoding="utf-8")


def test_sheet_breaks_no_rule_of_accessibility(shared_browser, sheet_file, sheet, axe):
    with shared_browser.open(sheet_file(sheet), keeps_policy=False) as tab:
        tab.run(axe)
        for width, unfold in ((1200, ""), (390, UNFOLD)):
            tab.resize(width, 844, is_phone=width < 500)
            kept, broken = tab.run(unfold + RULES_BROKEN)
            assert kept > 20
            assert [] == broken, f"{width} px wide"


def test_rule_that_is_broken_is_found(shared_browser, sheet_file, axe):
    spoil = (
        "document.querySelector('main').before(document.createElement('img'));"
        "document.querySelector('.soft, small').style.color = '#cccccc';"
        "document.documentElement.lang = '';"
    )
    with shared_browser.open(sheet_file("cupboard-client"), keeps_policy=False) as tab:
        tab.run(axe)
        words = " ".join(tab.run(spoil + RULES_BROKEN)[1])
    for rule in ("image-alt", "color-contrast", "html-has-lang"):
        assert rule in words


def test_tab_goes_through_a_sheet_in_the_order_of_reading(shared_browser, sheet_file, sheet):
    with shared_browser.open(sheet_file(sheet)) as tab:
        tab.resize(390, 844, is_phone=True)  # one column, so that reading goes straight down
        tops = tab.run(STOPS)
        assert len(tops) >= 5
        assert sorted(tops) == tops
        reached = []
        for _ in tops:
            tab.press("Tab")
            reached.append(tab.run(STOPPED_AT))
        assert list(range(len(tops))) == reached


def test_space_ticks_a_box_and_unticks_it(shared_browser, sheet_file):
    with shared_browser.open(sheet_file("cupboard-shop")) as tab:
        tab.run("document.querySelector('input').focus();")
        tab.press(" ")
        assert tab.run(TICKED)
        tab.press(" ")
        assert not tab.run(TICKED)


def test_names_headings_tables_and_language_tell_what_is_what(shared_browser, sheet_file, sheet):
    with shared_browser.open(sheet_file(sheet)) as tab:
        nodes = tab.tell("Accessibility.getFullAXTree")["nodes"]
        levels, (count, unnamed) = tab.run(HEADINGS), tab.run(UNNAMED_TABLES)
        assert "en" == tab.run("return document.documentElement.lang;")
    found = [
        (node["role"]["value"], node.get("name", {}).get("value", "").strip())
        for node in nodes
        if not node["ignored"] and node["role"]["value"] in NAMED_ROLES
    ]
    assert {"link", "region"} <= {role for role, _ in found}
    assert [] == [role for role, name in found if not name]
    assert [1] == [level for level in levels if level == 1] == levels[:1]
    assert all(after <= before + 1 for before, after in pairwise(levels))
    assert count >= 1
    assert [] == unnamed
