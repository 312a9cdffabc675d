"""The page: nothing fetched, nothing refused, a piece on the canvas that turns."""

import html
import json
import re
import shutil
import subprocess
from html.parser import HTMLParser
from pathlib import Path

import pytest

from surfacecalc.pictures.page import page
from surfacecalc.units.display import Units, format_area

BROWSER = shutil.which("chromium") or shutil.which("chromium-browser")
FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP * ~NOTFOUND",  # whatever is asked for, nothing is reached
    "--enable-logging=stderr",
    "--window-size=1200,800",
    "--virtual-time-budget=30000",
]
needs_browser = pytest.mark.skipif(BROWSER is None, reason="chromium is not installed")
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
PROBE = """<script>
const say = (key, value) => document.body.setAttribute("data-" + key, value);
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
const canvas = document.getElementById("piece");
const seen = document.getElementById("seen");
const press = (key) => canvas.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true,
  cancelable: true }));
const rest = () => new Promise((done) => setTimeout(done, 400));
(async () => {
  canvas.setPointerCapture = () => {};
  say("share", inked()[0]);
  say("start", seen.textContent);
  const before = inked()[1];
  for (let k = 0; k < 9; k++) press("ArrowLeft");
  await rest();
  say("turned", seen.textContent);
  say("changed", inked()[1] !== before);
  press("Home");
  await rest();
  say("home", inked()[1] === before);
  document.getElementById("back").click();
  for (let k = 0; k < 8 && seen.textContent !== "Seen from the back"; k++) await rest();
  say("back", seen.textContent);
  say("pressed", document.getElementById("back").getAttribute("aria-pressed"));
  press("Home");
  await rest();
  const drag = (type, clientX) => canvas.dispatchEvent(new PointerEvent(type, { pointerId: 1,
    clientX, clientY: 200, bubbles: true }));
  drag("pointerdown", 300); drag("pointermove", 120); drag("pointerup", 120);
  await rest();
  say("dragged", seen.textContent);
  say("wide", document.documentElement.scrollWidth <= window.innerWidth);
})();
</script>"""


def browse(file: Path, folder: Path, *flags: str) -> tuple[str, str, list[str]]:
    """Return the page's tree after its scripts ran, what was logged, and what it asked for.

    The browser asks for things of its own as well; those have no page as their initiator.
    """
    log = folder / "net.json"
    command = [BROWSER, *FLAGS, *flags, f"--user-data-dir={folder / 'profile'}"]
    command += [f"--log-net-log={log}", "--dump-dom", file.as_uri()]
    run = subprocess.run(command, capture_output=True, text=True, timeout=120, check=True)
    lines = log.read_text(errors="replace").splitlines()
    events = [json.loads(line.rstrip(",")) for line in lines if '"initiator"' in line]
    asked = [
        event["params"]["url"]
        for event in events
        if event["params"]["initiator"] != "not an origin"
    ]
    return run.stdout, run.stderr, asked


def without_policy(text: str) -> str:
    return re.sub(r'<meta http-equiv="Content-Security-Policy"[^>]*>', "", text)


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


def tree(text: str) -> Tree:
    found = Tree()
    found.feed(text)
    found.close()
    assert found.open == []
    return found


@pytest.mark.parametrize("units", list(Units))
def test_the_page_says_every_zone_with_its_area(example, units):
    piece, measured = example
    text = page(piece, measured, units)
    rows = re.findall(r"<bdi>([^<]*)</bdi>.*?</th><td>([^<]*)</td>", text)
    expected = [(zone.zone.name, format_area(zone.area_m2, units)) for zone in measured.zones]
    assert expected == rows[: len(expected)]


def test_the_page_refers_to_nothing_outside_itself(example):
    text = re.sub(r'id="model">.*?</script>', "", page(*example, Units.METRIC))
    assert re.findall(r"(?:https?|wss?|ftp):|//[a-z]", text) == []
    assert not re.search(r"\b(src|srcset|action|@import|fetch|XMLHttpRequest)\b\s*[=(]", text)
    assert re.findall(r'href="([^"]*)"', text) == ["data:,"]


def test_the_policy_allows_the_pages_own_script_and_style_only(example):
    text = page(*example, Units.METRIC)
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', text)[1]
    assert policy.startswith("default-src 'none'")
    assert "unsafe" not in policy


def test_tags_are_closed_and_a_reader_without_scripts_is_told(example):
    found = tree(page(*example, Units.METRIC))
    assert found.tags.count("noscript") == 1
    assert not [name for name in found.attributes if name.startswith("on") or name == "style"]


@pytest.mark.parametrize(
    "hostile",
    ["</script><script>x()</script>", "\"'><img src=x onerror=x()>", "a\u202eb\u2067c\u0007"],
)
def test_text_of_a_user_stays_text(read_text, hostile):
    quoted = json.dumps(hostile)
    text = page(*read_text(PIECE.format(name=quoted)), Units.METRIC)
    plain = page(*read_text(PIECE.format(name='"plain"')), Units.METRIC)
    assert tree(text).tags == tree(plain).tags
    assert not re.search("[\x00-\x09\x0b-\x1f\x7f\u202a-\u202e\u2066-\u2069]", text)


def test_the_model_holds_a_look_for_every_zone_and_one_for_none(read_example):
    piece, measured = read_example("writing-table")
    text = page(piece, measured, Units.US)
    model = json.loads(html.unescape(re.search(r'id="model">(.*?)</script>', text)[1]))
    assert len(model["looks"]) == len(measured.zones) + 1


@needs_browser
def test_a_browser_shows_it_turns_it_and_asks_for_nothing(read_example, tmp_path):
    file = tmp_path / "piece.html"
    text = page(*read_example("writing-table"), Units.US)
    file.write_text(without_policy(text).replace("</body>", f"{PROBE}</body>"), encoding="utf-8")
    shown, logged, asked = browse(file, tmp_path)
    assert "CONSOLE" not in logged
    assert asked == []
    found = dict(re.findall(r'data-(\w+)="([^"]*)"', re.search(r"<body[^>]*>", shown)[0]))
    # a table and a drawer with air around them: neither blank nor full
    assert 0.05 < float(found["share"]) < 0.7
    assert found["start"] == "Seen from the front right, a little from above"
    assert found["turned"] == "Seen from the back right, a little from above"
    assert found["back"] == "Seen from the back"
    assert found["dragged"] == "Seen from the back right, a little from above"
    for key in ("changed", "home", "pressed", "wide"):
        assert found[key] == "true", key


@needs_browser
def test_under_its_own_policy_the_page_runs_without_a_word(read_text, tmp_path):
    file = tmp_path / "piece.html"
    name = json.dumps("</script><script>document.title = 'taken'</script>")
    file.write_text(page(*read_text(PIECE.format(name=name)), Units.METRIC), encoding="utf-8")
    shown, logged, asked = browse(file, tmp_path)
    assert "CONSOLE" not in logged
    assert asked == []
    assert 'data-drawn="yes"' in shown
    assert "<title>taken" not in shown


@needs_browser
def test_a_request_would_have_been_noticed(tmp_path):
    file = tmp_path / "piece.html"
    file.write_text('<title>x</title><img src="http://elsewhere.invalid/x.png" alt="">')
    _, logged, asked = browse(file, tmp_path)
    assert "http://elsewhere.invalid/x.png" in asked
    assert "CONSOLE" not in logged or "ERR_NAME_NOT_RESOLVED" in logged


@needs_browser
def test_who_wants_no_motion_gets_none(read_example, tmp_path):
    file = tmp_path / "piece.html"
    probe = """<script>
      document.getElementById("back").click();
      const first = requestAnimationFrame;
      let frames = 0;
      window.requestAnimationFrame = (step) => { frames++; return first(step); };
      setTimeout(() => document.body.setAttribute("data-frames", frames), 800);
    </script>"""
    text = without_policy(page(*read_example("writing-table"), Units.US))
    file.write_text(text.replace("</body>", f"{probe}</body>"), encoding="utf-8")
    frames = []
    for flags in ((), ("--force-prefers-reduced-motion",)):
        shown, _, _ = browse(file, tmp_path, *flags)
        frames.append(int(re.search(r'data-frames="(\d+)"', shown)[1]))
    assert frames[0] > 2
    assert frames[1] == 0
