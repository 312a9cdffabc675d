"""Every file is written whole or not at all, whenever the process that writes it is killed."""

import ast
import os
import signal
import stat
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from typer.testing import CliRunner

from surfacecalc.commands import app
from surfacecalc.writing import write_whole

pytestmark = pytest.mark.skipif(os.name != "posix", reason="kills and limits are those of POSIX")

ROOT = Path(__file__).parents[2]
MIRROR = ["new", "mirror", "--no-ask", "--out", "piece.toml", "--width", "24", "--height", "36",
          "--frame", "3", "--finish", "wax", "--condition", "bare"]  # fmt: skip
START = "import os, resource, signal, sys\nfrom pathlib import Path\n"
NO_ROOM = "resource.setrlimit(resource.RLIMIT_FSIZE, (20, 20))\n"
IN_THE_MIDDLE = f"signal.signal(signal.SIGXFSZ, signal.SIG_DFL)\n{NO_ROOM}"
"""The system ends the process at the 21st byte of any file that it writes."""
KILL = "os.kill(os.getpid(), signal.SIGKILL)"
BEFORE_THE_MOVE = f"os.replace = lambda *_: {KILL}\n"
AFTER_THE_MOVE = f"move = os.replace\nos.replace = lambda *paths: (move(*paths), {KILL})\n"
RUN = "from surfacecalc.__main__ import main\nmain()\n"
WRITE = "from surfacecalc.writing import write_whole\nwrite_whole(Path('file'), b'new' * 1000)\n"
OLD, NEW = b"old" * 1000, b"new" * 1000


def run_apart(code: str, *words: str, typed: str = "") -> "subprocess.CompletedProcess[str]":
    """Run code in a process of its own, in the folder of the test."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"}
    return subprocess.run(
        [sys.executable, "-c", START + code, *words],
        input=typed, capture_output=True, text=True, check=False, env=environment,
    )  # fmt: skip


def run(*words: str, typed: str = "") -> str:
    """Run a command undisturbed and return what it prints."""
    result = CliRunner().invoke(app, list(words), input=typed, catch_exceptions=False)
    return result.output


def names() -> list[str]:
    return sorted(path.name for path in Path().iterdir())


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder to work in."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture(scope="module")
def piece(tmp_path_factory: pytest.TempPathFactory) -> Iterator[bytes]:
    """The content of a small piece file."""
    folder = tmp_path_factory.mktemp("piece")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        run(*MIRROR)
        yield Path("piece.toml").read_bytes()


@pytest.mark.parametrize(
    ("words", "target", "end"),
    [
        ([*MIRROR, "--replace"], "piece.toml", b"]\n"),
        (["sheet", "piece.toml", "--to", "list.html", "--replace"], "list.html", b"</html>\n"),
        (["draw", "piece.toml", "--to", "piece.svg"], "piece.svg", b"</svg>\n"),
        (["plan", "piece.toml", "--calendar", "plan.ics", "--replace"], "plan.ics",
         b"END:VCALENDAR\r\n"),
    ],
    ids=["new", "sheet", "draw", "plan"],
)  # fmt: skip
def test_command_killed_while_it_writes_leaves_the_old_file_and_works_the_next_time(
    words: list[str], target: str, end: bytes, folder: Path, piece: bytes
) -> None:
    Path("piece.toml").write_bytes(piece)
    Path(target).write_bytes(piece)
    before = names()
    assert -signal.SIGXFSZ == run_apart(IN_THE_MIDDLE + RUN, *words).returncode
    assert piece == Path(target).read_bytes()
    assert sorted([*before, f".{target}.unwritten"]) == names()
    assert 20 == Path(f".{target}.unwritten").stat().st_size
    assert target in run(*words)
    assert Path(target).read_bytes().endswith(end)
    assert before == names()


def test_start_killed_while_it_keeps_answers_is_offered_the_next_time(folder: Path) -> None:
    kept = Path("my.toml.unfinished")
    run("new", "--ask", typed="mirror\nMy piece\nmy.toml\nin\n24 1/2\n")
    before = kept.read_bytes()
    killed = run_apart(IN_THE_MIDDLE + RUN, "new", "--ask", typed="y\n36\n")
    assert -signal.SIGXFSZ == killed.returncode
    assert before == kept.read_bytes()
    said = run("new", "--ask", typed="y\n36\n")
    assert "You started a mirror earlier; my.toml.unfinished has your 5 answers." in said
    assert "= 36 in" in said
    assert ["my.toml.unfinished"] == names()


def test_start_killed_at_its_first_answer_leaves_no_half_answers(folder: Path) -> None:
    killed = run_apart(IN_THE_MIDDLE + RUN, "new", "--ask", typed="mirror\n")
    assert -signal.SIGXFSZ == killed.returncode
    assert [".mirror.toml.unfinished.unwritten"] == names()
    assert "Go on with it?" not in run("new", "--ask", typed="mirror\n")
    assert ["mirror.toml.unfinished"] == names()


@pytest.mark.parametrize(
    ("moment", "found", "litter"),
    [(IN_THE_MIDDLE, OLD, 1), (BEFORE_THE_MOVE, OLD, 1), (AFTER_THE_MOVE, NEW, 0)],
    ids=["in the middle", "before the move", "after the move"],
)
def test_file_is_whole_whenever_its_writer_is_killed(
    moment: str, found: bytes, litter: int, folder: Path
) -> None:
    Path("file").write_bytes(OLD)
    for _ in range(3):
        assert 0 > run_apart(moment + WRITE).returncode
        assert found == Path("file").read_bytes()
        assert 1 + litter == len(names())
    write_whole(Path("file"), b"newer")
    assert b"newer" == Path("file").read_bytes()
    assert ["file"] == names()


def test_two_that_write_the_same_file_never_leave_a_mixture(folder: Path) -> None:
    code = "from surfacecalc.writing import write_whole\nfor _ in range(100):\n"
    code += "    write_whole(Path('file'), sys.argv[1].encode() * 20_000)\n"
    write_whole(Path("file"), b"c" * 20_000)
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    writers = [
        subprocess.Popen([sys.executable, "-c", START + code, letter], env=environment)
        for letter in "ab"
    ]
    seen = set()
    while any(writer.poll() is None for writer in writers):
        seen.add(Path("file").read_bytes())
    assert [0, 0] == [writer.wait() for writer in writers]
    assert seen <= {letter * 20_000 for letter in (b"a", b"b", b"c")}
    assert ["file"] == names()


def test_full_disk_is_told_in_one_sentence_and_leaves_nothing(folder: Path, piece: bytes) -> None:
    Path("piece.toml").write_bytes(piece)
    result = run_apart(NO_ROOM + RUN, "draw", "piece.toml", "--to", "piece.svg")
    assert (1, "") == (result.returncode, result.stdout)
    assert "piece.svg: cannot be written: File too large\n" == result.stderr
    assert ["piece.toml"] == names()


@pytest.mark.parametrize("mask", [0o022, 0o077])
def test_new_file_has_the_permissions_that_new_files_have(mask: int, folder: Path) -> None:
    before = os.umask(mask)
    try:
        write_whole(Path("file"), b"new")
    finally:
        os.umask(before)
    assert 0o666 & ~mask == stat.S_IMODE(Path("file").stat().st_mode)


def test_replaced_file_keeps_its_permissions(folder: Path) -> None:
    Path("file").write_bytes(b"old")
    Path("file").chmod(0o600)
    write_whole(Path("file"), b"new")
    assert 0o600 == stat.S_IMODE(Path("file").stat().st_mode)


def test_link_stays_a_link_and_leads_to_what_was_written(folder: Path) -> None:
    Path("kept").mkdir()
    Path("kept/file").write_bytes(b"old")
    Path("link").symlink_to("kept/file")
    write_whole(Path("link"), b"new")
    assert Path("link").is_symlink()
    assert b"new" == Path("kept/file").read_bytes()


WRITERS = {
    "write_text", "write_bytes", "fdopen", "mkstemp", "NamedTemporaryFile", "TemporaryFile",
    "save", "savez", "savez_compressed", "savetxt", "tofile", "export", "rename", "touch",
}  # fmt: skip
"""Names of functions that write files, of the standard library and of what is used here."""


def opens_to_write(call: ast.Call) -> bool:
    """Whether a call opens a file in a way that is not plainly one of reading."""
    is_method = isinstance(call.func, ast.Attribute)
    given = [*call.args[0 if is_method else 1 :], *(key.value for key in call.keywords)]
    modes = [str(value.value) for value in given if isinstance(value, ast.Constant)]
    return any(set(mode) & set("wax+") and set(mode) <= set("rwax+bt") for mode in modes)


def writers(source: str) -> Iterator[str]:
    """Yield the calls in a source that may write a file."""
    for node in ast.walk(ast.parse(source)):
        if not isinstance(node, ast.Call):
            continue
        name = getattr(node.func, "attr", getattr(node.func, "id", ""))
        text = ast.unparse(node)
        is_low = text.startswith("os.open(") and ("O_WRONLY" in text or "O_RDWR" in text)
        is_copy = text.startswith(("shutil.copy", "shutil.move"))
        if name in WRITERS or is_low or is_copy or (name == "open" and opens_to_write(node)):
            yield text


@pytest.mark.parametrize(
    "source",
    ["Path('a').write_text('b')", "open('a', 'w')", "open('a', mode='xb')", "p.open('r+')",
     "shutil.copy(a, b)", "os.open('a', os.O_WRONLY | os.O_CREAT)", "numpy.save('a', b)"],
)  # fmt: skip
def test_call_that_writes_a_file_is_found(source: str) -> None:
    assert 1 == len(list(writers(source)))


@pytest.mark.parametrize("source", ["open('wax')", "p.open('rb')", "open('a', 'r')", "p.open()"])
def test_call_that_reads_a_file_is_none(source: str) -> None:
    assert [] == list(writers(source))


def test_nothing_but_write_whole_writes_files() -> None:
    """Only the place of standard output, once nobody reads it, is opened to write."""
    found = {
        (path.relative_to(ROOT).as_posix(), call)
        for package in ("surfacecalc", "shapes")
        for path in sorted((ROOT / package).rglob("*.py"))
        for call in writers(path.read_text())
    }
    assert {
        ("surfacecalc/writing.py", "path.open('xb')"),
        ("surfacecalc/__main__.py", "os.open(os.devnull, os.O_WRONLY)"),
    } == found
