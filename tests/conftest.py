"""What all tests share: a browser, and that none reads the products of whoever runs them."""

import json
import os
import select
import shutil
import signal
import subprocess
import tempfile
import time
from base64 import b64decode
from collections.abc import Iterator
from contextlib import contextmanager, suppress
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
LIMIT_S = 60  # for all a test does with a page; assumed: it is done in 4 s when not disturbed
EMPTY_FOLDER = pytest.StashKey[str]()


def pytest_configure(config: pytest.Config) -> None:
    """Put an empty folder in the place of the user's configuration folder, and UTC as the zone.

    Plans count waits by the clock of the computer; what the tests expect must not depend on where
    it is. Workers that share the tests inherit the environment.
    """
    os.environ["TZ"] = "UTC"
    if hasattr(time, "tzset"):
        time.tzset()
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
        with self.open(file, wants_motion=wants_motion) as tab:
            return Visit(tab.run(probe), tab.logged(), tab.asked())

    @contextmanager
    def open(
        self, file: Path, *, wants_motion: bool = True, keeps_policy: bool = True
    ) -> "Iterator[Tab]":
        """Open a page and wait until it is loaded; it is closed at the end. One at a time.

        Args:
            file: the page.
            wants_motion: whether the page is told that motion is welcome.
            keeps_policy: whether the page's content security policy holds for the test as well.
        """
        self._end_s = monotonic() + LIMIT_S
        target = self.tell("Target.createTarget", url="about:blank")["targetId"]
        tab = Tab(self, self._listen(target), file)
        motion = "no-preference" if wants_motion else "reduce"
        features = [{"name": "prefers-reduced-motion", "value": motion}]
        tab.tell("Emulation.setEmulatedMedia", features=features)
        tab.tell("Page.setBypassCSP", enabled=not keeps_policy)
        self._events.clear()
        loader = tab.tell("Page.navigate", url=file.as_uri())["loaderId"]
        while not self._is_loaded(loader):
            self._events.append(self._next("the end of loading"))
        yield tab
        self.tell("Target.closeTarget", targetId=target)

    def _listen(self, target: str) -> str:
        attached = self.tell("Target.attachToTarget", targetId=target, flatten=True)
        session = str(attached["sessionId"])
        for part in ("Page", "Runtime", "Log", "Network"):
            self.tell(f"{part}.enable", session)
        self.tell("Page.setLifecycleEventsEnabled", session, enabled=True)
        return session

    def _is_loaded(self, loader: str) -> bool:
        steps = self.happened("Page.lifecycleEvent")
        return any((loader, "load") == (step["loaderId"], step["name"]) for step in steps)

    def tell(self, method: str, session: str | None = None, **how: Any) -> dict[str, Any]:
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

    def happened(self, method: str) -> list[dict[str, Any]]:
        """Return every event of a kind since a page was opened."""
        return [event["params"] for event in self._events if event["method"] == method]


@dataclass(frozen=True)
class Tab:
    """An open page.

    Attributes:
        browser: in which it is open.
        session: by which the browser knows it.
        file: what it shows.
    """

    browser: Browser
    session: str
    file: Path

    def tell(self, method: str, **how: Any) -> dict[str, Any]:
        """Return the browser's answer to an order that concerns this page."""
        return self.browser.tell(method, self.session, **how)

    def run(self, probe: str) -> Any:
        """Return what the body of an async function returns in the page."""
        code = f"(async () => {{ {probe} }})()"
        how = {"awaitPromise": True, "returnByValue": True}
        answer = self.tell("Runtime.evaluate", expression=code, **how)
        assert "exceptionDetails" not in answer, answer
        return answer["result"].get("value")

    def resize(self, width: int, height: int, *, is_phone: bool = False) -> None:
        """Show the page in a window of this size [CSS px]."""
        size = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": is_phone}
        self.tell("Emulation.setDeviceMetricsOverride", **size)

    def press(self, key: str) -> None:
        """Press a key and let it go, as a person does: "Tab", or a letter."""
        code = 9 if key == "Tab" else ord(key.upper())
        text = {} if key == "Tab" else {"text": key}
        how = {"key": key, "windowsVirtualKeyCode": code}
        self.tell("Input.dispatchKeyEvent", type="keyDown", **how, **text)
        self.tell("Input.dispatchKeyEvent", type="keyUp", **how)

    def printed(self) -> bytes:
        """Return the page as PDF, on the paper that it asks for, without colours behind text."""
        return b64decode(self.tell("Page.printToPDF", preferCSSPageSize=True)["data"])

    def logged(self) -> list[str]:
        """Return what was logged or thrown, and what the page asked in a dialog."""
        happened = self.browser.happened
        calls = happened("Runtime.consoleAPICalled")
        said = [str([one.get("value") for one in call["args"]]) for call in calls]
        said += [str(one["exceptionDetails"]) for one in happened("Runtime.exceptionThrown")]
        said += [one["message"] for one in happened("Page.javascriptDialogOpening")]
        return said + [one["entry"]["text"] for one in happened("Log.entryAdded")]

    def asked(self) -> list[str]:
        """Return the addresses that were asked for, without the page itself and data in it."""
        happened = self.browser.happened
        urls = [one["request"]["url"] for one in happened("Network.requestWillBeSent")]
        urls += [one["url"] for one in happened("Network.webSocketCreated")]
        own = self.file.as_uri()
        return [url for url in urls if not url.startswith("data:") and url != own]


@contextmanager
def started(profile: Path) -> Iterator[Browser]:
    """Start a browser, which ends whatever happens."""
    if BROWSER is None:
        pytest.skip("chromium is not installed")
    command = [*PIPED, BROWSER, *FLAGS, f"--user-data-dir={profile}"]
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


@pytest.fixture
def browser(tmp_path: Path) -> Iterator[Browser]:
    """A browser of the test's own: what a page keeps in it, no other test finds."""
    with started(tmp_path / "profile") as found:
        yield found


@pytest.fixture(scope="module")
def shared_browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """One browser for the tests of a module, for pages that are only looked at."""
    with started(tmp_path_factory.mktemp("profile")) as found:
        yield found
