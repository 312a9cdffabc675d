"""Every example, and what the README shows, is what the program prints today.

Run as a script it writes the outputs anew: `python tests/test_examples.py`.
"""

import re
from pathlib import Path

import pytest
from typer.testing import CliRunner

from surfacecalc.commands import app

ROOT = Path(__file__).parents[1]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
COMMANDS = {
    "areas": ("areas",),
    "jars": ("jars",),
    "supplies": ("supplies",),
    "why": ("supplies", "--why"),
}
MISTAKES = (
    ('"23 1/2 in"', '"23,5 in"'),
    ('with = "disc"', 'with = "disk"'),
    ("coats = 2", "coats = 2.5"),
)


def printed(arguments: tuple[str, ...], file: Path) -> str:
    """Return what a command prints about a file, on 80 columns, the file named as in the shop."""
    run = CliRunner().invoke(
        app, [*arguments, str(file)], env={"COLUMNS": "80", "NO_COLOR": "1"}, catch_exceptions=False
    )
    shown = run.output.replace(str(file.parent), "examples" if file in EXAMPLES else "")
    return "\n".join(line.rstrip() for line in shown.replace("/my-shelf", "my-shelf").split("\n"))


def output_file(example: Path, name: str) -> Path:
    return example.with_suffix(f".{name}.txt")


def readme_with_outputs(folder: Path) -> str:
    """Return the README with the program's output put into its blocks."""
    text = (ROOT / "README.md").read_text()
    piece = re.search(r"<!-- first piece -->\n```toml\n(.*?)```", text, re.DOTALL)[1]
    for right, wrong in MISTAKES:
        assert right in piece
        piece = piece.replace(right, wrong)
    file = folder / "my-shelf.toml"
    file.write_text(piece)
    text = _with_block(text, "<!-- mistakes -->", printed(("check",), file))
    for name in re.findall(r"<!-- output: examples/(.+?) -->", text):
        shown = (ROOT / "examples" / name).read_text()
        text = _with_block(text, f"<!-- output: examples/{name} -->", shown)
    return text


def _with_block(text: str, mark: str, shown: str) -> str:
    start = text.index(mark) + len(mark) + 1
    end = text.index("<!-- end -->", start)
    return f"{text[:start]}```text\n{shown}```\n{text[end:]}"


@pytest.mark.parametrize("name", COMMANDS)
@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_example_prints_what_stands_beside_it(example: Path, name: str) -> None:
    assert output_file(example, name).read_text() == printed(COMMANDS[name], example)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_example_has_nothing_to_mend(example: Path) -> None:
    assert printed(("check",), example).endswith("Nothing to mend.\n")


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_example_fits_80_columns(example: Path) -> None:
    for name in COMMANDS:
        longest = max(output_file(example, name).read_text().split("\n"), key=len)
        assert len(longest) <= 80 or longest.startswith("examples/"), longest


def test_readme_shows_what_the_program_prints(tmp_path: Path) -> None:
    assert readme_with_outputs(tmp_path) == (ROOT / "README.md").read_text()


def test_readmes_first_piece_has_nothing_to_mend(tmp_path: Path) -> None:
    text = (ROOT / "README.md").read_text()
    file = tmp_path / "my-shelf.toml"
    file.write_text(re.search(r"<!-- first piece -->\n```toml\n(.*?)```", text, re.DOTALL)[1])
    assert printed(("check",), file) == "Nothing to mend.\n"


if __name__ == "__main__":
    import tempfile

    for path in EXAMPLES:
        for output, command in COMMANDS.items():
            output_file(path, output).write_text(printed(command, path))
    with tempfile.TemporaryDirectory() as scratch:
        (ROOT / "README.md").write_text(readme_with_outputs(Path(scratch)))
