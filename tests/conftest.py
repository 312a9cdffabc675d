"""What all tests share: a browser, and that none reads the products of whoever runs them."""

import json
import os
import select
import shutil
import signal
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from time import monotonic
from typing import IO, Any

import pytest

from surfacecalc.catalogue.own import FOLDER_VARIABLE

BROWSER = shutil.which("chromium") or shutil.which("chromium-browser")
FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP * ~NOTFOUND",  # whatever is asked for, nothing is reached
    "--window-size=1200,800",
    "--no-proxy-server",
    "--remote-debugging-pipe",
]
# The browser reads what it is to do at 3 and answers at 4.
PIPED = ["sh", "-c", 'exec "$@" 3<&0 4>&1 </dev/null >/dev/null', "sh"]
LIMIT_S = 60  # for all a test does with its browser; assumed: it is done in 4 s when not disturbed
EMPTY_FOLDER = pytest.StashKey[str]()


def pytest_configure(config: pytest.Config) -> None:
    """Put an empty folder in the place of the user's configuration folder.

    Workers that share the tests inherit the environment, and with it the folder.
    """
    if not hasattr(config, "workerinput"):
        config.stash[EMPTY_FOLDER] = tempfile.mkdtemp(prefix="surfacecalc-tests-")
        os.environ[FOLDER_VARIABLE] = config.stash[EMPTY_FOLDER]


def pytest_unconfigure(config: pytest.Config) -> None:
    """Take the empty folder away."""
    if EMPTY_FOLDER in config.stash:
        shutil.rmtree(config.stash[EMPTY_FOLDER], ignore_errors=True)


@dataclass(frozen=True)
class Visit:
    """What became of a page: what the probe found, what was logged, which addresses were asked for.

    The page's own address is not among them, nor is data that stands in the page itself.
    """

    found: Any
    logged: list[str]
    asked: list[str]


class Browser:
    """A chromium that is told what to do over its DevTools protocol, in real time."""

    def __init__(self, orders: IO[bytes], answers: IO[bytes]) -> None:
        self._orders = orders
        self._answers = answers
        self._end_s = monotonic() + LIMIT_S
        self._unread = b""
        self._count = 0
        self._events: list[dict[str, Any]] = []

    def visit(self, file: Path, probe: str, *, wants_motion: bool = True) -> Visit:
        """Open a page, wait until it is loaded, and run the probe in it.

        Args:
            file: the page.
            probe: the body of an async function; what it returns is found.
            wants_motion: whether the page is told that motion is welcome.
        """
        target = self._tell("Target.createTarget", url="about:blank")["targetId"]
        session = self._listen(target)
        motion = {
            "name": "prefers-reduced-motion",
            "value": "no-preference" if wants_motion else "reduce",
        }
        self._tell("Emulation.setEmulatedMedia", session, features=[motion])
        self._events.clear()
        loader = self._tell("Page.navigate", session, url=file.as_uri())["loaderId"]
        while not self._is_loaded(loader):
            self._events.append(self._next("the end of loading"))
        code = f"(async () => {{ {probe} }})()"
        how = {"awaitPromise": True, "returnByValue": True}
        answer = self._tell("Runtime.evaluate", session, expression=code, **how)
        assert "exceptionDetails" not in answer, answer
        self._tell("Target.closeTarget", targetId=target)
        asked = [url for url in self._asked() if url != file.as_uri()]
        return Visit(answer["result"].get("value"), self._logged(), asked)

    def _listen(self, target: str) -> str:
        attached = self._tell("Target.attachToTarget", targetId=target, flatten=True)
        session = str(attached["sessionId"])
        for part in ("Page", "Runtime", "Log", "Network"):
            self._tell(f"{part}.enable", session)
        self._tell("Page.setLifecycleEventsEnabled", session, enabled=True)
        return session

    def _is_loaded(self, loader: str) -> bool:
        steps = self._happened("Page.lifecycleEvent")
        return any((loader, "load") == (step["loaderId"], step["name"]) for step in steps)

    def _tell(self, method: str, session: str | None = None, **how: Any) -> dict[str, Any]:
        """Return the answer; events that come before it are kept."""
        self._count += 1
        message = {"id": self._count, "method": method, "params": how}
        message |= {"sessionId": session} if session else {}
        with suppress(BrokenPipeError):  # that no answer comes is told below
            self._orders.write(json.dumps(message).encode() + b"\0")
        while (answer := self._next(method)).get("id") != self._count:
            self._events.append(answer)
        assert "error" not in answer, f"{method}: {answer['error']}"
        return dict(answer["result"])

    def _next(self, awaited: str) -> dict[str, Any]:
        while b"\0" not in self._unread:
            left_s = max(0, self._end_s - monotonic())
            if not select.select([self._answers], [], [], left_s)[0]:
                pytest.fail(f"the browser was not done within {LIMIT_S} s: waited for {awaited}")
            if not (more := os.read(self._answers.fileno(), 65536)):
                pytest.fail(f"the browser stopped: waited for {awaited}")
            self._unread += more
        message, _, self._unread = self._unread.partition(b"\0")
        return dict(json.loads(message))

    def _happened(self, method: str) -> list[dict[str, Any]]:
        return [event["params"] for event in self._events if event["method"] == method]

    def _logged(self) -> list[str]:
        calls = self._happened("Runtime.consoleAPICalled")
        said = [str([one.get("value") for one in call["args"]]) for call in calls]
        thrown = [str(one["exceptionDetails"]) for one in self._happened("Runtime.exceptionThrown")]
        return said + thrown + [one["entry"]["text"] for one in self._happened("Log.entryAdded")]

    def _asked(self) -> list[str]:
        sent = [one["request"]["url"] for one in self._happened("Network.requestWillBeSent")]
        sockets = [one["url"] for one in self._happened("Network.webSocketCreated")]
        return [url for url in sent + sockets if not url.startswith("data:")]


@pytest.fixture
def browser(tmp_path: Path) -> Iterator[Browser]:
    """A browser of the test's own, which ends with the test whatever happens."""
    if BROWSER is None:
        pytest.skip("chromium is not installed")
    command = [*PIPED, BROWSER, *FLAGS, f"--user-data-dir={tmp_path / 'profile'}"]
    with subprocess.Popen(
        command,
        bufsize=0,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    ) as process:
        try:
            assert process.stdin
            assert process.stdout
            yield Browser(process.stdin, process.stdout)
        finally:
            os.killpg(process.pid, signal.SIGKILL)  # its own group: the browser and all it started
