"""What `new` takes from the user's own file of products, before it writes a product of its own."""

import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Answer = Callable[..., Any]
OWN = """\
[[product]]
name = "oyster"
kind = "chalk-type furniture paint"
[[product]]
name = "moss"
kind = "waterborne furniture paint"
packs = [{ size = "1 quart", price = 31 }]
[[product]]
name = "hard coat"
kind = "two-part varnish"
[[abrasive]]
name = "gold"
form = "9 x 11 in sheet"
packs = [{ count = 10, price = 8 }]
"""
"""Two paints, the second of the very kind that a new file proposes; a varnish with a hardener."""
PAINT = ("--finish", "paint", "--condition", "painted", "--built", "1999")


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """Put a file of products beside the piece file and return it."""
    path = tmp_path / "surfacecalc-products.toml"
    path.write_text(OWN)
    return path


def file() -> dict[str, Any]:
    return tomllib.loads(Path("mirror.toml").read_text())


def coat() -> dict[str, Any]:
    """Return the step that puts the paint on."""
    (schedule,) = file()["schedule"].values()
    return next(dict(step) for step in schedule if step["do"] == "coat")


@pytest.mark.usefixtures("own")
def test_own_product_with_its_price_comes_before_one_that_is_made_up(
    answer: Answer, run_command: Answer
) -> None:
    result = answer("mirror", finished=PAINT, lists=True)
    assert 0 == result.exit_code
    assert ("moss", "gold") == (coat()["product"], coat()["between"]["with"])
    assert ["cleaner"] == [product["name"] for product in file()["product"]]
    assert "abrasive" not in file()
    (line,) = (row for row in result.stdout.splitlines() if row.startswith("moss"))
    assert line.endswith("31")
    assert '# In your own file surfacecalc-products.toml: "moss", "gold"' in (
        Path("mirror.toml").read_text()
    )
    assert "No mistakes. 1 note above.\n" in run_command("check", "mirror.toml").stdout


@pytest.mark.usefixtures("own")
def test_another_own_product_or_a_new_one_is_an_answer_away(answer: Answer) -> None:
    assert 0 == answer("mirror", "--product", "paint=oyster", finished=PAINT).exit_code
    assert "oyster" == coat()["product"]
    words = ("--product", "paint=new", "--replace", "--out", "mirror.toml")
    assert 0 == answer("mirror", *words, finished=PAINT).exit_code
    assert ["cleaner", "paint"] == [product["name"] for product in file()["product"]]
    assert "paint" == coat()["product"]


@pytest.mark.usefixtures("own")
def test_what_needs_a_hardener_and_sheets_of_another_form_are_not_proposed(answer: Answer) -> None:
    words = ("--finish", "clear", "--condition", "bare", "--built", "1999")
    assert 0 == answer("mirror", finished=words).exit_code
    assert "clear varnish" == coat()["product"]
    metric = answer("mirror", "--unit", "cm", "--replace", with_unit=True, finished=words)
    assert 0 == metric.exit_code
    assert ["sheet"] == [abrasive["name"] for abrasive in file()["abrasive"]]


@pytest.mark.usefixtures("own")
def test_which_product_is_asked_with_the_names_of_the_own_file(run_new: Answer) -> None:
    lines = ["mirror", "", "", "in", "24", "36", "3", "3/4", "paint", "painted", "leave", "1999"]
    result = run_new(lines=[*lines, "red", "2", "USD"])
    assert 0 == result.exit_code
    said = " ".join(result.stdout.split())
    assert "Your own list of products has these for the paint: 1 moss waterborne" in said
    assert "2 oyster chalk-type furniture paint 3 new none of these" in said
    assert '"red" is not on the list; use one of moss, oyster, new' in said
    assert "oyster" == coat()["product"]


@pytest.mark.usefixtures("own")
@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["moss"], "say once for each supply which one it is"),
        (["paint=moss", "paint=oyster"], "say once for each supply which one it is"),
        (["paint=red"], '--product: "red" is not on the list; use one of moss, oyster, new'),
        (["primer=moss"], 'your own list of products has nothing for "primer"'),
    ],
)
def test_wrong_product_is_refused(words: list[str], said: str, answer: Answer) -> None:
    options = [text for word in words for text in ("--product", word)]
    result = answer("mirror", *options, finished=PAINT)
    assert 2 == result.exit_code
    assert said in " ".join(result.stderr.split())
    assert not Path("mirror.toml").exists()


@pytest.mark.parametrize("text", ["[[product", "product = 3", "[[product]]\nname = 1\n", "", "x"])
def test_own_file_with_a_mistake_or_without_products_changes_nothing(
    text: str, own: Path, answer: Answer
) -> None:
    own.unlink()
    assert 0 == answer("mirror", finished=PAINT).exit_code
    without = Path("mirror.toml").read_bytes()
    own.write_text(text)
    assert 0 == answer("mirror", "--replace", finished=PAINT).exit_code
    assert without == Path("mirror.toml").read_bytes()
