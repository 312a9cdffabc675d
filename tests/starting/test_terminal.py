"""A real terminal, real keys: the prompt, Ctrl-C, and going on the next time."""

import os
import select
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

pty = pytest.importorskip("pty")

ROOT = Path(__file__).parents[2]
LONGEST_S = 60
PRESS_EACH_S = 5


class Terminal:
    """A process that believes to run in a terminal."""

    def __init__(self, end: int, process: "subprocess.Popen[bytes]") -> None:
        self._end = end
        self.process = process

    def read_until(self, text: str, *, pressing: str = "") -> str:
        """Return what is printed up to and with a text.

        Keys in `pressing` are pressed until it comes, every few seconds: a Ctrl-C between the
        prompt and the reading of the answer is heard only with the next key, as in any program.
        """
        found, latest, next_press = "", time.monotonic() + LONGEST_S, 0.0
        while text not in found and time.monotonic() < latest:
            if pressing and time.monotonic() > next_press:
                self.type(pressing)
                next_press = time.monotonic() + PRESS_EACH_S
            if select.select([self._end], [], [], 0.1)[0]:
                try:
                    found += os.read(self._end, 65536).decode()
                except OSError:  # the process has ended
                    break
        assert text in found, found
        return found.replace("\r", "")

    def type(self, keys: str) -> None:
        """Press keys."""
        os.write(self._end, keys.encode())


@contextmanager
def terminal(folder: Path, *words: str) -> Iterator[Terminal]:
    end, other = pty.openpty()
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "NO_COLOR": "1", "TERM": "xterm"}
    process = subprocess.Popen(
        [sys.executable, "-m", "surfacecalc", "new", *words],
        stdin=other, stdout=other, stderr=other, cwd=folder, env=environment,
        start_new_session=True, preexec_fn=_take_terminal,  # noqa: PLW1509 - no threads here
    )  # fmt: skip
    os.close(other)
    try:
        yield Terminal(end, process)
    finally:
        process.kill()
        process.wait()
        os.close(end)


def _take_terminal() -> None:
    """Make standard input the terminal that Ctrl-C comes from, and let Ctrl-C be heard.

    A shell's background jobs start with their ears closed to it, and so would their children.
    """
    import fcntl
    import signal
    import termios

    signal.signal(signal.SIGINT, signal.default_int_handler)
    fcntl.ioctl(0, termios.TIOCSCTTY, 0)


def test_ctrl_c_keeps_the_answers_and_the_next_start_goes_on(tmp_path: Path) -> None:
    words = ["mirror", "--name", "Mirror", "--out", "mirror.toml", "--unit", "in"]
    with terminal(tmp_path, *words) as first:
        first.read_until("6 in to 60 in: ")
        first.type("24 1/2\n")
        first.read_until("6 in to 84 in: ")
        told = first.read_until("--out mirror.toml", pressing="\x03")
        assert "kept in mirror.toml.unfinished" in told
        assert 1 == first.process.wait(LONGEST_S)
    with terminal(tmp_path, "--finish", "wax", "--condition", "bare") as second:
        second.read_until("Go on with it? [Y/n]: ")
        second.type("\n")
        assert "24 1/2 in" in second.read_until("6 in to 84 in: ")
        second.type("36\n")
        second.read_until("1/2 in to 8 in: ")
        second.type("3\n")
        for question in ("[3/4 in]: ", "[leave]: ", "[unknown]: ", "[USD]: "):
            second.read_until(question)
            second.type("\n")
        second.read_until("Change mirror.toml in any text editor")
        assert 0 == second.process.wait(LONGEST_S)
    assert ["mirror.toml"] == [path.name for path in tmp_path.iterdir()]
