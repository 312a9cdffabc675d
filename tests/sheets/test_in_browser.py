"""Sheets in a browser: quiet, fetching nothing, fitting a phone, and remembering ticks."""

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


@pytest.mark.parametrize("for_client", [False, True], ids=["shop", "client"])
def test_nothing_is_wider_than_a_phone(browser, box, tmp_path, for_client):
    sheet, phone = tmp_path / "sheet.html", tmp_path / "phone.html"
    content = box("A-name-without-any-place-to-break-it-that-goes-on-and-on", for_client=for_client)
    # A frame as wide as a phone; the sheet measures itself, so its policy is taken out here.
    start = content.index('<meta http-equiv="Content-Security-Policy"')
    content = content[:start] + content[content.index(">", start) + 1 :]
    tell = "<script>onload=()=>parent.postMessage([document.documentElement.scrollWidth,innerWidth]"
    sheet.write_text(content.replace("</body>", f"{tell},'*')</script></body>"), encoding="utf-8")
    phone.write_text(
        "<!DOCTYPE html><script>window.seen=new Promise((d)=>{onmessage=(e)=>d(e.data)})</script>"
        '<iframe src="sheet.html" style="width:390px;height:800px;border:0"></iframe>',
        encoding="utf-8",
    )
    width, window = browser.visit(phone, "return await window.seen;").found
    assert 390 == window
    assert width <= window
