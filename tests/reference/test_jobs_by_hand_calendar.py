"""A calendar worked out by hand: what a phone shows of two sessions, two coats and their waits.

The shop is open on Saturday and Sunday from 9:00 to 17:00. Sanding takes 10 h: Saturday from 9:00
to 17:00 and Sunday until 11:00. Each of two coats takes an hour; the paint can be coated again 4 h
after and used 100 h after. Sunday: painted 11:00 to 12:00, again from 16:00 to 17:00; it can be
handled at 21:00, delivered when the shop opens on Saturday, and used on Thursday at 21:00.

The board has 1.3 m2. A coat takes 1.3 / 10 / (1 - 10 %) = 0.144 L, so 150 ml; the first one on bare
wood 0.144 / 75 % = 0.193 L, so 200 ml.
"""

import subprocess
import sys

import pytest

FILE = """
[piece]
name = "shelf"
unit = "m"

[workshop]
hours = ["sat-sun 09:00-17:00"]
start = 2026-11-28T09:00:00
set_up = "0 min"

[[part]]
name = "board"
shape = "board"
width = 1
depth = 0.5
height = 0.1

[[zone]]
name = "all"
faces = ["*"]
surface = "bare"

[[zone.step]]
do = "sand"
grits = [120]
with = "disc"
time = "10 h"

[[zone.step]]
do = "coat"
product = "paint"
coats = 2
by = "brush"
time = "2 h"

[[product]]
name = "paint"
kind = "waterborne furniture paint"
covers = "10 m2/L"
dry = "1 h"
recoat = "4 h"
cure = "100 h"

[[abrasive]]
name = "disc"
form = "125 mm disc"
"""

SAND = "shelf, all: sand P120, by machine"
THEN = "Then wait 4 h, until Sun 29 Nov"
BY_HAND = [  # begins, ends, what it is, what is written under it
    ("20261128T090000", "20261128T170000", SAND, "Step 1."),
    ("20261129T090000", "20261129T110000", f"{SAND} (continued)", "Step 1."),
    (
        "20261129T110000",
        "20261129T120000",
        None,
        f"Step 2.\\n200 ml for this coat.\\n{THEN} 16:00.",
    ),
    (
        "20261129T160000",
        "20261129T170000",
        None,
        f"Step 2.\\n150 ml for this coat.\\n{THEN} 21:00.",
    ),
    ("20261129T210000", None, "shelf: can be handled", None),
    ("20261203T210000", None, "shelf: can be used", None),
    ("20261205T090000", None, "shelf: can be delivered", None),
]


@pytest.fixture(scope="module")
def events(tmp_path_factory):
    """The events of the calendar that the command writes, each as its lines by name."""
    folder = tmp_path_factory.mktemp("calendar")
    file, calendar = folder / "shelf.toml", folder / "shelf.ics"
    file.write_text(FILE, "utf-8")
    asked = ["plan", str(file), "--calendar", str(calendar)]
    command = [sys.executable, "-m", "surfacecalc", *asked]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    text = calendar.read_text("utf-8").replace("\n ", "").replace("\\,", ",")
    found = text.split("BEGIN:VEVENT\n")[1:]
    return [dict(line.split(":", 1) for line in one.splitlines() if ":" in line) for one in found]


@pytest.mark.parametrize("number", range(len(BY_HAND)))
def test_events(events, number):
    begins, ends, words, written = BY_HAND[number]
    event = events[number]
    assert (begins, ends, written) == (
        event["DTSTART"],
        event.get("DTEND"),
        event.get("DESCRIPTION"),
    )
    assert words in (event["SUMMARY"], None)
    # what can be done from a moment on takes no time of the day
    assert (ends is None) == (event.get("TRANSP") == "TRANSPARENT")


def test_there_is_nothing_else_in_it(events):
    assert len(BY_HAND) == len(events)
