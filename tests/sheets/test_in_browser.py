"""Sheets in a browser: quiet, fetching nothing, and remembering ticks."""

import pytest

TICK = """
const boxes = [...document.querySelectorAll("input[data-kept]")];
const before = boxes.map((box) => box.checked);
boxes[1].click();
return [before, boxes.map((box) => box.checked)];
"""
READ = "return [...document.querySelectorAll('input[data-kept]')].map((box) => box.checked);"


@pytest.fixture
def file(box, tmp_path):
    path = tmp_path / "box.html"
    path.write_text(box(), encoding="utf-8")
    return path


def test_a_tick_is_remembered_and_nothing_is_said_or_asked_for(browser, file):
    first = browser.visit(file, TICK)
    before, after = first.found
    assert [False] * len(before) == before
    assert [1] == [k for k, ticked in enumerate(after) if ticked]
    assert after == browser.visit(file, READ).found
    assert ([], []) == (first.logged, first.asked)


def test_ticks_are_cleared_at_once(browser, file):
    browser.visit(file, TICK)
    left = browser.visit(file, f"document.getElementById('clear').click(); {READ}").found
    assert not any(left)
    assert not any(browser.visit(file, READ).found)


def test_boxes_tick_where_the_browser_keeps_nothing(browser, file, tmp_path):
    refuses = "Object.defineProperty(window, 'localStorage', { get() { throw new Error('no'); } });"
    visit = browser.visit(file, f"{refuses} {TICK}")
    assert [1] == [k for k, ticked in enumerate(visit.found[1]) if ticked]
    assert [] == visit.logged
