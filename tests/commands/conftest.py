"""Two worked pieces, and how tests run the commands: here, or in a process of their own."""

import contextlib
import json
import os
import pty
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from surfacecalc.catalogue.own import FOLDER_VARIABLE
from surfacecalc.commands import app

ROOT = Path(__file__).parents[2]

CHEST = """\
[piece]
name = "Chest on legs"
unit = "mm"

[[part]]
name = "body"
shape = "case"
width = 1000
depth = 500
height = 600
board = 18
at = [0, 0, 200]

[[part]]
name = "leg"
shape = "leg"
width = 60
height = 200
corners = { of = "body", set_in = 0 }

[[zone]]
name = "body"
faces = ["body"]
surface = "bare"

[[zone.step]]
do = "sand"
grits = [120, 180]
with = "disc"

[[zone.step]]
do = "dust off"

[[zone.step]]
do = "coat"
product = "body paint"
coats = 3
by = "brush"
first_coat = "80 %"
loss = "10 %"
allowance = "5 %"

[[zone]]
name = "legs"
faces = ["leg *"]
surface = "bare"

[[zone.step]]
do = "sand"
grits = [80, 120, 180]
with = "disc"

[[zone.step]]
do = "dust off"

[[zone.step]]
do = "coat"
product = "leg stain"
coats = 1
by = "cloth"
first_coat = "100 %"
loss = "0 %"
allowance = "0 %"

[[product]]
name = "body paint"
kind = "waterborne furniture paint"
covers = "10 m2/L"
packs = [
  { size = "250 ml", price = 12 }, { size = "500 ml", price = 20 }, { size = "1 L", price = 34 },
]
on_hand = "300 ml"

[[product]]
name = "leg stain"
kind = "water-based gel stain"
covers = "12 m2/L"
packs = [{ size = "125 ml", price = 11 }, { size = "500 ml", price = 29 }]

[[abrasive]]
name = "disc"
form = "125 mm disc"
life = "0.5 m2"
packs = [{ count = 5, price = 6 }, { count = 25, price = 22 }]
"""

BENCH = """\
[piece]
name = "Piano bench"
unit = "in"

[[part]]
name = "top"
shape = "board"
width = "40 1/2 in"
depth = "16-1/2\\""
height = 1
at = [0, 0, 20]

[[part]]
name = "front post"
shape = "leg"
width = 1.5
height = 20
at = [0.75, 0.25, 0]
row = { of = 2, apart = [37.5, 0, 0] }

[[part]]
name = "back post"
shape = "leg"
width = 1.5
height = 20
at = [0.75, 14.75, 0]
row = { of = 2, apart = [37.5, 0, 0] }

[[part]]
name = "long rail"
shape = "board"
width = 36
depth = 0.875
height = 4.25
at = [2.25, 0.5625, 15.75]
row = { of = 2, apart = [0, 14.5, 0] }

[[part]]
name = "end rail"
shape = "board"
width = 0.875
depth = 13
height = 4.25
at = [1.0625, 1.75, 15.75]
row = { of = 2, apart = [37.5, 0, 0] }

[[part]]
name = "lower rail"
shape = "board"
width = 0.875
depth = 13
height = 2.5
at = [1.375, 1.75, 2.25]
row = { of = 2, apart = [36.875, 0, 0] }

[[part]]
name = "stretcher"
shape = "board"
width = 36
depth = 0.875
height = 3.75
at = [2.25, 7.8125, 1.625]

[[part]]
name = "left slat"
shape = "board"
width = 0.375
depth = 1.25
height = 11
at = [1.5, 4.375, 4.75]
row = { of = 3, apart = [0, 3.25, 0] }

[[part]]
name = "right slat"
shape = "board"
width = 0.375
depth = 1.25
height = 11
at = [38.6875, 4.375, 4.75]
row = { of = 3, apart = [0, 3.25, 0] }

[[zone]]
name = "seat"
faces = ["top"]
surface = "bare"
schedule = "oil, shellac, wax"

[[zone]]
name = "frame"
faces = ["*"]
surface = "bare"
schedule = "oil, shellac, wax"

[[schedule."oil, shellac, wax"]]
do = "coat"
product = "boiled linseed oil"
coats = 1
by = "cloth"

[[schedule."oil, shellac, wax"]]
do = "coat"
product = "shellac"
coats = 1
by = "brush"

[[schedule."oil, shellac, wax"]]
do = "sand"
grits = [220]
with = "sheet"

[[schedule."oil, shellac, wax"]]
do = "coat"
product = "paste wax"
coats = 3
by = "cloth"

[[product]]
name = "boiled linseed oil"
kind = "drying oil"
covers = ["8 m2/L", "10 m2/L", "14 m2/L"]
packs = [{ size = "250 ml", price = 9 }, { size = "1 L", price = 21 }]

[[product]]
name = "shellac"
kind = "shellac"
covers = ["300 ft2/gallon", "350 ft2/gallon", "400 ft2/gallon"]
packs = [{ size = "1 pint", price = 14 }, { size = "1 quart", price = 23 }]

[[product]]
name = "paste wax"
kind = "paste wax"
covers = "250 ft2/lb"
packs = [{ size = "8 oz", price = 12 }, { size = "16 oz", price = 19 }]

[[abrasive]]
name = "sheet"
form = "9 x 11 in sheet"
life = "0.8 m2"
packs = [{ count = 5, price = 5 }]
"""

PRICE = """
[price]
rate = 30
"""
CHEST += PRICE
BENCH += PRICE
WITH_MISTAKES = CHEST.replace("height = 600", "height = -600").replace("coats = 3", "coats = 0")


@pytest.fixture(scope="session")
def chest() -> str:
    """Return the chest on four legs, in millimetres, without ranges."""
    return CHEST


@pytest.fixture(scope="session")
def bench() -> str:
    """Return the piano bench, in inches, with ranges."""
    return BENCH


@pytest.fixture
def files(tmp_path: Path) -> Path:
    """Return a folder with chest.toml, bench.toml and mistakes.toml, which has two mistakes."""
    texts = {"chest": CHEST, "bench": BENCH, "mistakes": WITH_MISTAKES}
    for name, text in texts.items():
        (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")
    return tmp_path


@pytest.fixture(scope="session")
def run() -> Callable[..., Any]:
    """Return a function that runs a command in this process; a crash is raised."""

    def run_command(*arguments: object) -> Any:
        words = [str(argument) for argument in arguments]
        return CliRunner().invoke(app, words, catch_exceptions=False)

    return run_command


@pytest.fixture(scope="session")
def run_json(run: Callable[..., Any]) -> Callable[..., Any]:
    """Return a function that runs a command with --json and returns the object it prints."""

    def run_command(*arguments: object) -> Any:
        return json.loads(run(*arguments, "--json").stdout)

    return run_command


@pytest.fixture(scope="session")
def environment() -> dict[str, str]:
    """Return the environment of a plain terminal that is 80 columns wide and not a terminal."""
    keys = ("PATH", "HOME", "SYSTEMROOT", FOLDER_VARIABLE)
    kept = {key: os.environ[key] for key in keys if key in os.environ}
    return {
        **kept,
        "PYTHONPATH": str(ROOT),
        "PYTHONDONTWRITEBYTECODE": "1",
        "TERM": "xterm-256color",
    }


@pytest.fixture(scope="session")
def run_process(environment: dict[str, str]) -> Callable[..., subprocess.CompletedProcess[str]]:
    """Return a function that runs a command in a process of its own."""

    def run_command(*arguments: object, **more: str) -> subprocess.CompletedProcess[str]:
        words = [sys.executable, "-m", "surfacecalc", *(str(argument) for argument in arguments)]
        return subprocess.run(
            words, capture_output=True, text=True, timeout=60, check=False,
            encoding="utf-8", env={**environment, **more},
        )  # fmt: skip

    return run_command


@pytest.fixture(scope="session")
def run_in_terminal(environment: dict[str, str]) -> Callable[..., str]:
    """Return a function that runs a command in a terminal, and returns what is on its screen."""

    def run_command(*arguments: object, columns: int, folder: Path) -> str:
        words = [sys.executable, "-m", "surfacecalc", *(str(argument) for argument in arguments)]
        ours, its = pty.openpty()
        process = subprocess.Popen(
            words, stdin=its, stdout=its, stderr=its, cwd=folder,
            env={**environment, "COLUMNS": str(columns), "NO_COLOR": "1"},
        )  # fmt: skip
        os.close(its)
        found = b""
        with contextlib.suppress(OSError):  # it is how a terminal says that all was read
            while part := os.read(ours, 4096):
                found += part
        os.close(ours)
        process.wait(timeout=60)
        return found.decode().replace("\r\n", "\n")

    return run_command
