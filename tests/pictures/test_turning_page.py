"""The page: nothing fetched, nothing refused, a piece on the canvas that turns."""

import html
import json
import re
from html.parser import HTMLParser

import pytest

from surfacecalc.model.pieces import Piece
from surfacecalc.pictures.turning_page import page
from surfacecalc.units.display import Units
from surfacecalc.units.shown_areas import format_area
from surfacecalc.zones.area_words import exposed_text
from surfacecalc.zones.areas import Measured

VOID = {"meta", "link", "br"}
PIECE = """
[piece]
name = {name}
unit = "mm"

[[part]]
name = "box"
shape = "board"
width = 400
depth = 300
height = 200

[[zone]]
name = {name}
faces = ["box.front"]
leave = true
"""
# A browser on a busy machine is slow, so the probes wait for what is to come, not for a time. What
# never comes is given up early enough for the probe to say what it saw instead.
COMMON = """
const canvas = document.getElementById("piece");
const seen = document.getElementById("seen");
const back = document.getElementById("back");
const pause = () => new Promise((done) => setTimeout(done, 50));
const until = async (isDone) => { while (!isDone() && performance.now() < 30000) await pause(); };
const sees = (text) => until(() => seen.textContent === text);
const inked = () => {
  const copy = document.createElement("canvas");
  copy.width = canvas.width;
  copy.height = canvas.height;
  const pen = copy.getContext("2d", { willReadFrequently: true });
  pen.drawImage(canvas, 0, 0);
  const data = pen.getImageData(0, 0, copy.width, copy.height).data;
  let count = 0, sum = 0;
  for (let k = 0; k < data.length; k += 4) {
    if (data[k] + data[k + 1] + data[k + 2] < 750) { count++; sum = (sum * 31 + k) % 1e9; }
  }
  return [count / (data.length / 4), sum];
};
const press = (key) => canvas.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true,
  cancelable: true }));
canvas.setPointerCapture = () => {};
const drag = (type, clientX) => canvas.dispatchEvent(new PointerEvent(type, { pointerId: 1,
  clientX, clientY: 200, bubbles: true }));
"""
TURNING = """
const found = { share: inked()[0], start: seen.textContent };
const before = inked()[1];
for (let k = 0; k < 9; k++) press("ArrowLeft");
await sees("Seen from the back right, a little from above");
found.turned = seen.textContent;
found.changed = inked()[1] !== before;
press("Home");
await until(() => inked()[1] === before);
found.home = inked()[1] === before;
back.click();
await until(() => back.getAttribute("aria-pressed") === "true");
found.back = seen.textContent;
found.pressed = back.getAttribute("aria-pressed");
press("Home");
await sees("Seen from the front right, a little from above");
drag("pointerdown", 300); drag("pointermove", 120); drag("pointerup", 120);
await sees("Seen from the back right, a little from above");
found.dragged = seen.textContent;
found.wide = document.documentElement.scrollWidth <= window.innerWidth;
return found;
"""
# Frames further apart than the page waits before it takes the piece to be at rest.
SLOW = """
window.requestAnimationFrame = (step) => setTimeout(() => step(performance.now()), 200);
window.cancelAnimationFrame = clearTimeout;
"""


class Tree(HTMLParser):
    """Collects tags and checks that each one that opens is closed."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[str] = []
        self.attributes: list[str] = []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += [name for name, _ in attrs]
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag


def page_of(read: tuple[Piece, Measured], units: Units = Units.METRIC) -> str:
    piece, measured = read
    return page(piece, measured, units)


def tree(text: str) -> Tree:
    found = Tree()
    found.feed(text)
    found.close()
    assert found.open == []
    return found


@pytest.mark.parametrize("units", list(Units))
def test_the_page_says_every_zone_with_its_area_and_refers_to_nothing_outside(read_example, units):
    for example in ("writing-table", "linen-cupboard", "plant-stand"):
        piece, measured = read_example(example)
        text = page(piece, measured, units)
        says_every_zone_with_its_area(text, measured, units)
        refers_to_nothing_outside_itself(re.sub(r'id="model">.*?</script>', "", text))
        allows_its_own_script_and_style_only(text)
        found = tree(text)
        assert found.tags.count("noscript") == 1
        assert not [name for name in found.attributes if name.startswith("on") or name == "style"]


def says_every_zone_with_its_area(text: str, measured: Measured, units: Units) -> None:
    rows = re.findall(r"<bdi>([^<]*)</bdi>.*?</th><td>([^<]*)</td>", text)
    expected = [(zone.zone.name, format_area(zone.area_m2, units)) for zone in measured.one.zones]
    assert expected == rows[: len(expected)]
    assert f"Total exposed</th><td>{exposed_text(measured, units)}</td>" in text


def refers_to_nothing_outside_itself(text: str) -> None:
    assert re.findall(r"(?:https?|wss?|ftp):|//[a-z]", text) == []
    assert not re.search(r"\b(src|srcset|action|@import|fetch|XMLHttpRequest)\b\s*[=(]", text)
    assert re.findall(r'href="([^"]*)"', text) == ["data:,"]


def allows_its_own_script_and_style_only(text: str) -> None:
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', text)[1]
    assert policy.startswith("default-src 'none'")
    assert "unsafe" not in policy


@pytest.mark.parametrize(
    "hostile",
    ["</script><script>x()</script>", "\"'><img src=x onerror=x()>", "a\u202eb\u2067c\u0007"],
)
def test_text_of_a_user_stays_text(read_text, hostile):
    quoted = json.dumps(hostile)
    text = page_of(read_text(PIECE.format(name=quoted)))
    plain = page_of(read_text(PIECE.format(name='"plain"')))
    assert tree(text).tags == tree(plain).tags
    assert not re.search("[\x00-\x09\x0b-\x1f\x7f\u202a-\u202e\u2066-\u2069]", text)


def test_the_model_holds_a_look_for_every_zone_and_one_for_none(read_example):
    piece, measured = read_example("writing-table")
    text = page(piece, measured, Units.US)
    model = json.loads(html.unescape(re.search(r'id="model">(.*?)</script>', text)[1]))
    assert len(model["looks"]) == len(measured.zones) + 1


@pytest.fixture
def table(read_example, tmp_path):
    """The page of a table with a drawer, as a file."""
    file = tmp_path / "piece.html"
    file.write_text(page_of(read_example("writing-table"), Units.US), encoding="utf-8")
    return file


def test_a_browser_shows_it_turns_it_and_asks_for_nothing(browser, table):
    visit = browser.visit(table, COMMON + TURNING)
    assert visit.logged == []
    assert visit.asked == []
    # a table and a drawer with air around them: neither blank nor full
    assert 0.05 < visit.found.pop("share") < 0.7
    expected = {
        "start": "Seen from the front right, a little from above",
        "turned": "Seen from the back right, a little from above",
        "changed": True,
        "home": True,
        "back": "Seen from the back",
        "pressed": "true",
        "dragged": "Seen from the back right, a little from above",
        "wide": True,
    }
    assert expected == visit.found


def test_a_turn_is_told_once_when_it_is_over_however_slow_the_frames(browser, table):
    probe = """
      const told = [];
      new MutationObserver(() => told.push(seen.textContent)).observe(seen, { childList: true });
      back.click();
      await sees("Seen from the back");
      return told;
    """
    assert ["Seen from the back"] == browser.visit(table, COMMON + SLOW + probe).found


@pytest.mark.parametrize("stop", ['drag("pointerdown", 300)', 'press("ArrowLeft")'])
def test_a_turn_that_is_stopped_settles_where_it_stands(browser, table, stop):
    probe = f"""
      back.click();
      seen.textContent = "";
      {stop};
      await until(() => seen.textContent !== "");
      const side = seen.textContent;
      const drawn = inked()[1];
      await new Promise((done) => setTimeout(done, 800)); // longer than the turn would have taken
      return [side, seen.textContent, drawn === inked()[1]];
    """
    side = "Seen from the front right, a little from above"
    assert [side, side, True] == browser.visit(table, COMMON + SLOW + probe).found


def test_a_press_that_stops_nothing_leaves_the_picture_alone(browser, table):
    probe = """
      let frames = 0;
      window.requestAnimationFrame = () => { frames++; };
      drag("pointerdown", 300); drag("pointerup", 300);
      return frames;
    """
    assert browser.visit(table, COMMON + probe).found == 0


def test_under_its_own_policy_a_name_stays_a_name(browser, read_text, tmp_path):
    file = tmp_path / "piece.html"
    name = json.dumps("</script><script>document.title = 'taken'</script>")
    file.write_text(page_of(read_text(PIECE.format(name=name))), encoding="utf-8")
    visit = browser.visit(file, COMMON + "return [canvas.dataset.drawn, document.title];")
    assert visit.logged == []
    assert visit.asked == []
    drawn, title = visit.found
    assert drawn == "yes"
    assert "taken" in title
    assert title != "taken"


def test_a_request_would_have_been_noticed(browser, tmp_path):
    file = tmp_path / "piece.html"
    file.write_text('<title>x</title><img src="http://elsewhere.invalid/x.png" alt="">')
    visit = browser.visit(file, "")
    assert visit.asked == ["http://elsewhere.invalid/x.png"]
    assert visit.logged == ["Failed to load resource: net::ERR_NAME_NOT_RESOLVED"]


def test_a_word_in_the_console_or_a_mistake_would_have_been_noticed(browser, tmp_path):
    file = tmp_path / "piece.html"
    file.write_text("<title>x</title><script>console.log('a word'); mistaken();</script>")
    said, thrown = browser.visit(file, "").logged
    assert said == "['a word']"
    assert "mistaken is not defined" in thrown


def test_who_wants_no_motion_gets_none(browser, table):
    probe = """
      const nextFrame = window.requestAnimationFrame;
      let frames = 0;
      window.requestAnimationFrame = (step) => { frames++; return nextFrame(step); };
      back.click();
      await until(() => back.getAttribute("aria-pressed") === "true");
      return frames;
    """
    moving = browser.visit(table, COMMON + probe).found
    still = browser.visit(table, COMMON + probe, wants_motion=False).found
    assert moving > 2  # two at the start, and as many on the way as the machine is fast for
    assert still == 1  # the piece as it is seen at the end
