"""`new --change`: answers read back from a file, asked again, and only their lines rewritten."""

import difflib
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from surfacecalc.model.kind_names import KIND_NAMES
from surfacecalc.starting import changing, merging
from surfacecalc.starting.start import Settled

# pytest-xdist runs threads; what is started here is another program at once
pytestmark = pytest.mark.filterwarnings("ignore:.*forkpty:DeprecationWarning")

Run = Callable[..., Any]
FILE = Path("my.toml")
ENTER = [""] * 40
EXAMPLE = Path(__file__).parents[2] / "examples" / "oak-table.toml"
BY_HAND = (
    ('name = "paint"\nkind', 'name = "moss"\nkind'),
    ('product = "paint"', 'product = "moss"'),
    ('packs = [{ size = "1 pint" }, { size = "1 quart" }]\n\n[[abrasive]]',
     'packs = [{ size = "1 pint", price = 12 }] # corner shop\n\n[[abrasive]]'),
    ('[[schedule."paint on varnished"]]\ndo = "prime"',
     '# my own step\n[[schedule."paint on varnished"]]\ndo = "sand"\ngrits = [150]\n'
     'with = "sheet"\nby = "hand"\n\n[[schedule."paint on varnished"]]\ndo = "dust off"\n\n'
     '[[schedule."paint on varnished"]]\ndo = "prime"'),
    ('faces = ["case", "leg", "rail.front"', 'faces = ["case", "plinth", "leg", "rail.front"'),
    ("# ---- finish", '# mine\n[[part]]\nname = "plinth"\nshape = "board"\nwidth = 20\ndepth = 2\n'
     'height = 1\nloose = true\n\n# ---- finish'),
    ("depth = 18\n", "depth   = 18 # measured twice\n"),
    ('currency = "USD"', 'currency = "USD"\nbuy_for = "80 %"'),
)  # fmt: skip
"""What somebody writes into a file: a name, a price, two steps, a part, a key and comments."""


@pytest.fixture
def begun(answer: Run) -> Run:
    """Return a function that writes the piece of a kind to my.toml and returns its bytes."""

    def begin(kind: str, *words: str, **changes: str) -> bytes:
        assert 0 == answer(kind, "--out", "my.toml", *words, **changes).exit_code
        content: bytes = FILE.read_bytes()
        return content

    return begin


@pytest.fixture
def by_hand(begun: Run) -> bytes:
    """Write a dresser to my.toml, changed by hand, and return its bytes."""
    text: str = begun("dresser").decode()
    for before, after in BY_HAND:
        assert before in text
        text = text.replace(before, after)
    FILE.write_text(text)
    return text.encode()


def differences(before: bytes, after: bytes) -> set[str]:
    """Return the lines that are only in one of two files, marked by - and +."""
    lines = difflib.ndiff(before.decode().splitlines(), after.decode().splitlines())
    return {line for line in lines if line[0] in "+-"}


@pytest.mark.parametrize("kind", KIND_NAMES)
def test_enter_at_every_question_changes_no_byte(kind: str, begun: Run, run_new: Run) -> None:
    before = begun(kind)
    result = run_new("--change", "my.toml", lines=ENTER)
    assert 0 == result.exit_code
    assert "Nothing to change: my.toml has these answers already." in result.stdout
    assert before == FILE.read_bytes()
    assert ["my.toml"] == [path.name for path in Path().iterdir()]


@pytest.mark.parametrize(
    ("kind", "words"),
    [("mirror", ["--width", "24 to 25", "--currency", "none", "--built", "unknown"]),
     ("dresser", ["--finish", "top=stain", "--finish", "outside=leave", "--name", 'My "own"']),
     ("bench", ["--finish", "seat=oil", "--stripping", "sanding", "--unit", "cm",
                "--width", "99"])],
)  # fmt: skip
def test_every_sort_of_answer_is_read_back(kind: str, words: list[str], answer: Run) -> None:
    changes = {"with_unit": True} if "--unit" in words else {}
    assert 0 == answer(kind, "--out", "my.toml", *words, **changes).exit_code
    before = FILE.read_bytes()
    target = changing.change(FILE, {}, Settled(False, False, False))
    assert ([], False) == (target.answers, target.is_changed)
    assert before == FILE.read_bytes()


def test_one_row_of_drawers_more_is_one_answer(begun: Run, run_new: Run, at_terminal: Run) -> None:
    """At a terminal: Enter, but for the number of rows; the file is as if begun with it."""
    expected = begun("dresser", drawers="4")
    begun("dresser", "--replace")
    typist = at_terminal("--change", "my.toml")
    typist.types("", "", "", "", "", "", "", "", "4", "")
    typist.types("back", "", *[""] * 11)
    typist.reads("drawers: 3 before, 4 now")
    assert 0 == typist.leaves()
    assert expected == FILE.read_bytes()


def test_hand_additions_stay_where_an_answer_changes_what_is_around_them(
    by_hand: bytes, run_new: Run, run_command: Run
) -> None:
    result = run_new("--change", "my.toml", "--drawers", "4", "--across", "1", "--no-ask")
    assert 0 == result.exit_code
    found = differences(by_hand, FILE.read_bytes())
    assert '- faces = ["case", "plinth", "leg", "rail.front", "upright.front"]' in found
    assert '+ faces = ["case", "plinth", "leg", "rail.front"]' in found
    assert "+ #   Rows of drawers: 4" in found
    own = ("moss", "corner shop", "my own step", "mine", "measured twice", "buy_for", "[150]")
    assert [] == [line for line in found if any(text in line for text in own)]
    assert "No mistakes.\n" == run_command("check", "my.toml").stdout
    file = tomllib.loads(FILE.read_text())
    assert {"plinth", "rail"} < {part["name"] for part in file["part"]} - {"upright"}


def test_size_by_its_line_keeps_the_comment_behind_it(by_hand: bytes, run_new: Run) -> None:
    assert 0 == run_new("--change", "my.toml", "--depth", "20", "--no-ask").exit_code
    found = differences(by_hand, FILE.read_bytes())
    assert {"- depth   = 18 # measured twice", "+ depth   = 20 # measured twice"} <= found


def test_schedule_and_supplies_that_somebody_changed_stay_although_no_zone_needs_them(
    by_hand: bytes, run_new: Run, run_command: Run
) -> None:
    words = ["--finish", "wax", "--condition", "bare", "--no-ask"]
    result = run_new("--change", "my.toml", *words)
    assert 0 == result.exit_code
    said = " ".join(result.stdout.split())
    assert 'Note: the schedule "paint on varnished" stays in the file' in said
    file = tomllib.loads(FILE.read_text())
    before = tomllib.loads(by_hand.decode())["schedule"]["paint on varnished"]
    assert {"paint on varnished", "wax on bare"} == set(file["schedule"])
    assert before == file["schedule"]["paint on varnished"]
    assert by_hand.count(b"[150]") == FILE.read_bytes().count(b"[150]") == 1
    assert "12" in FILE.read_text().partition("corner shop")[0][-20:]
    assert "mistake" not in run_command("check", "my.toml").stdout.replace("No mistakes", "")


def test_schedule_that_nobody_changed_goes_with_the_last_zone_that_needs_it(
    begun: Run, run_new: Run
) -> None:
    """Also where somebody wrote into that zone."""
    text = begun("mirror").decode()
    FILE.write_text(text.replace('surface = "varnished"', 'surface = "varnished" # old'))
    words = ["--finish", "wax", "--no-ask"]
    assert 0 == run_new("--change", "my.toml", *words).exit_code
    assert ["wax on varnished"] == list(tomllib.loads(FILE.read_text())["schedule"])
    assert '"varnished" # old' in FILE.read_text()


def test_product_with_a_price_stays_although_no_step_needs_it(begun: Run, run_new: Run) -> None:
    text = begun("mirror").decode()
    priced = 'size = "1 gallon", price = 60 }'
    FILE.write_text(text.replace('size = "1 gallon" }', priced))
    words = ["--finish", "wax", "--condition", "bare", "--no-ask"]
    result = run_new("--change", "my.toml", *words)
    assert 'Note: the product "primer" stays in the file' in " ".join(result.stdout.split())
    assert priced in FILE.read_text()
    names = [product["name"] for product in tomllib.loads(FILE.read_text())["product"]]
    assert ["primer", "wax"] == sorted(names)


def test_name_of_a_product_is_used_in_the_steps_that_come(by_hand: bytes, run_new: Run) -> None:
    words = ["--condition", "top=bare", "--no-ask"]
    assert 0 == run_new("--change", "my.toml", *words).exit_code
    steps = tomllib.loads(FILE.read_text())["schedule"]["paint on bare"]
    assert "moss" in [step.get("product") for step in steps]
    assert b'name = "paint"' not in FILE.read_bytes()


def test_zone_with_a_schedule_of_ones_own_is_not_asked_about(begun: Run, run_new: Run) -> None:
    text = begun("mirror").decode().replace("paint on varnished", "my way")
    FILE.write_text(text)
    result = run_new("--change", "my.toml", lines=ENTER)
    assert (0, text) == (result.exit_code, FILE.read_text())
    assert 'Zone "front"' not in result.stdout
    assert 'Zone "back"' in result.stdout
    assert 0 == run_new("--change", "my.toml", "--frame", "2", "--no-ask").exit_code
    assert {"- frame = 3", "+ frame = 2"} < differences(text.encode(), FILE.read_bytes())


def test_ends_of_lines_and_the_mark_before_the_text_stay(begun: Run, run_new: Run) -> None:
    mark = b"\xef\xbb\xbf"
    before = mark + begun("mirror").replace(b"\n", b"\r\n")
    FILE.write_bytes(before)
    assert 0 == run_new("--change", "my.toml", "--frame", "2", "--no-ask").exit_code
    after = FILE.read_bytes()
    assert after.startswith(mark + b"# Mirror")
    assert after.count(b"\n") == after.count(b"\r\n") == before.count(b"\n")
    assert b"\r\nframe = 2\r\n" in after


def test_mesh_gets_another_finish(box: str, answer: Run, run_new: Run) -> None:
    pytest.importorskip("trimesh")
    pytest.importorskip("embreex")
    words = ["--mesh", box, "--mesh-unit", "mm", "--finish", "oil", "--condition", "bare"]
    assert 0 == run_new("mesh", *words, "--out", "my.toml").exit_code
    before = FILE.read_bytes()
    assert 0 == run_new("--change", "my.toml", lines=ENTER).exit_code
    assert before == FILE.read_bytes()
    assert 0 == run_new("--change", "my.toml", "--finish", "wax", "--no-ask").exit_code
    assert b'schedule = "wax on bare"' in FILE.read_bytes()


def test_own_product_can_be_chosen_and_left_again(begun: Run, run_new: Run) -> None:
    before = begun("mirror")
    own = Path("surfacecalc-products.toml")
    own.write_text('[[product]]\nname = "oyster"\nkind = "waterborne furniture paint"\n')
    assert 0 == run_new("--change", "my.toml", lines=ENTER).exit_code
    assert before == FILE.read_bytes()
    assert 0 == run_new("--change", "my.toml", "--product", "paint=oyster", "--no-ask").exit_code
    chosen = FILE.read_bytes()
    assert b'product = "oyster"' in chosen
    assert b'name = "paint"' not in chosen
    assert 0 == run_new("--change", "my.toml", lines=ENTER).exit_code
    assert chosen == FILE.read_bytes()
    assert 0 == run_new("--change", "my.toml", "--product", "paint=new", "--no-ask").exit_code
    assert before == FILE.read_bytes()


@pytest.mark.parametrize("lines", [["", "quit"], [], ["", "", "back"]])
def test_stopped_half_way_the_file_is_as_it_was(lines: list[str], begun: Run, run_new: Run) -> None:
    before = begun("mirror")
    result = run_new("--change", "my.toml", lines=lines)
    assert 1 == result.exit_code
    assert "Stopped. my.toml is as it was." in result.stdout
    assert before == FILE.read_bytes()
    assert ["my.toml"] == [path.name for path in Path().iterdir()]


def edited(*changes: tuple[str, str]) -> Callable[[str], str]:
    def edit(text: str) -> str:
        for before, after in changes:
            assert before in text
            text = text.replace(before, after)
        return text

    return edit


REFUSED = [
    (edited(), ["cabinet", "--frame", "2"], 'the kind of piece in this file is "mirror"'),
    (edited(), ["--unit", "cm"], 'the unit in this file is "in"; for another one,'),
    (edited(), ["--out", "b.toml"], "--change writes to the file itself; leave --out off"),
    (edited(), ["--drawers", "2"], "--drawers does not apply to a mirror"),
    (edited(), ["--width", "7"], "frame no longer fits: 3 in is not possible"),
    (edited(), ["--width", "500"], "--width: 500 in is not possible"),
    (edited(), ["--finish", "top=oil"], 'there is no zone "top"'),
    (edited(("width = 24", "width = 25")), ["--width", "26"],
     'width of the part "frame" was changed by hand: it is 25 in the file, 24 by the earlier'),
    (edited(("#   Frame width: 3 in,", "#   Frame width: about 3 in,")), ["--frame", "2"],
     "was changed by hand: frame no longer fits"),
    (edited(("#   Frame width: 3 in,", "#   Frame width:  3 in,")), ["--frame", "2"],
     "the list of measurements at the top was changed by hand, in the line"),
    (edited(("#   Frame width: 3 in,", "#   Fraim: 3 in,")), ["--frame", "2"],
     "was changed by hand: the frame width"),
    (edited(("with `surfacecalc new`", "by me")), ["--frame", "2"],
     "it does not begin with the list of measurements that `new` writes"),
    (edited(('kind = "mirror"', 'kind = "chair"')), ["--frame", "2"],
     "do not say the same kind of piece"),
    (edited(("frame = 3", "frame = ")), ["--frame", "2"], "there is nothing after frame ="),
    (edited(("frame = 3", 'frame = "3 lbs"')), ["--frame", "2"], "it has a mistake: line"),
    (edited(("depth = ", "depth = \n")), [], "cannot be read"),
    (edited(("\n# ----", "\r\n# ----")), ["--frame", "2"], "its lines end in two ways"),
]  # fmt: skip


@pytest.mark.parametrize(("edit", "words", "said"), REFUSED, ids=[row[2] for row in REFUSED])
def test_what_cannot_be_changed_is_said_and_nothing_is_written(
    edit: Callable[[str], str], words: list[str], said: str, begun: Run, run_new: Run
) -> None:
    text = edit(begun("mirror").decode()).encode()
    FILE.write_bytes(text)
    result = run_new(*words, "--change", "my.toml", "--no-ask")
    assert result.exit_code in (1, 2)
    assert said in " ".join(result.stderr.split())
    assert "Traceback" not in result.stderr
    assert text == FILE.read_bytes()
    assert ["my.toml"] == [path.name for path in Path().iterdir()]


def test_part_that_something_of_ones_own_needs_is_not_taken_out(
    by_hand: bytes, run_new: Run
) -> None:
    text = by_hand.decode().replace("loose = true\n\n# ----", 'on = "rail 1"\n\n# ----')
    assert text.encode() != by_hand
    FILE.write_text(text)
    result = run_new("--change", "my.toml", "--drawers", "1", "--no-ask")
    assert 1 == result.exit_code
    assert "my.toml was not changed: " in result.stderr
    assert text == FILE.read_text()


@pytest.mark.parametrize("name", ["nothing.toml", ".", "oak.toml"])
def test_other_files_are_left_alone(name: str, run_new: Run) -> None:
    Path("oak.toml").write_bytes(EXAMPLE.read_bytes())
    result = run_new("--change", name, "--width", "30", "--no-ask")
    assert 1 == result.exit_code
    assert name in result.stderr
    assert EXAMPLE.read_bytes() == Path("oak.toml").read_bytes()


def test_file_that_changes_while_it_is_asked_about_is_not_overwritten(
    begun: Run, run_new: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun("mirror")
    merge = merging.merged

    def meanwhile(*texts: str) -> Any:
        FILE.write_text("somebody else was here")
        return merge(*texts)

    monkeypatch.setattr(changing, "merged", meanwhile)
    result = run_new("--change", "my.toml", "--frame", "2", "--no-ask")
    assert 1 == result.exit_code
    assert "another program has changed it in the meantime" in " ".join(result.stderr.split())
    assert "somebody else was here" == FILE.read_text()
