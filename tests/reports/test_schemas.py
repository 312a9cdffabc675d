"""What --json prints is what its schema says, no field more and none less.

Run with tests/kit on the path, this writes the schemas anew:
`PYTHONPATH=tests/kit python -P tests/reports/test_schemas.py`.
"""

import json
import re
import shutil
from pathlib import Path
from typing import Any, get_args

import pytest
from json_schemas import schema_of, wrong_by_schema
from jsonschema import Draft202012Validator
from typer.testing import CliRunner

from surfacecalc.commands import app
from surfacecalc.reports import json_shapes

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
FOLDER = ROOT / "surfacecalc" / "schemas"
COMMANDS = ("areas", "supplies", "check", "jars", "plan", "quote", "safety")
SHAPE_OF = {"check": "problems"}
"""The shape of what a command prints, where it has another name."""
MISTAKES = {
    "no TOML": "[piece",
    "nothing": "",
    "a key": '[piece]\nname = "a"\nunit = "mm"\nheigth = 3\n',
    "no parts": '[piece]\nname = "a"\nunit = "mm"\n',
}


def name_of(shape: type) -> str:
    """Return the name of a shape's file: SuppliesTogetherData is in supplies-together."""
    words = re.findall("[A-Z][a-z]+", shape.__name__.removesuffix("Data"))
    return "-".join(words).lower()


def schemas() -> dict[str, dict[str, Any]]:
    """Return the schema of each shape by its name."""
    return {name_of(shape): schema_of(shape) for shape in get_args(json_shapes.Printed)}


def text_of(schema: dict[str, Any]) -> str:
    return json.dumps(schema, indent=2) + "\n"


def write_schemas() -> None:
    FOLDER.mkdir(exist_ok=True)
    for name, schema in schemas().items():
        (FOLDER / f"{name}.json").write_text(text_of(schema), encoding="utf-8")


def printed(*words: object) -> tuple[int, Any]:
    result = CliRunner().invoke(app, [*(str(word) for word in words), "--json"])
    return result.exit_code, json.loads(result.stdout)


def test_files_are_what_the_shapes_say() -> None:
    files = {file.stem: file.read_text("utf-8") for file in FOLDER.glob("*.json")}
    assert {name: text_of(schema) for name, schema in schemas().items()} == files


def test_schemas_are_schemas() -> None:
    for schema in schemas().values():
        Draft202012Validator.check_schema(schema)


def test_every_object_is_closed_and_every_field_is_required() -> None:
    """A field that an exporter forgets, or adds without a word here, is found."""
    for name, schema in schemas().items():
        assert [1] == schema["properties"]["schema"]["enum"], name
        for one in [schema, *schema.get("$defs", {}).values()]:
            assert sorted(one["properties"]) == sorted(one["required"]), name
            assert one["additionalProperties"] is False


@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_examples_are_printed_by_the_schema(command: str, example: Path) -> None:
    code, value = printed(command, example)
    name = SHAPE_OF.get(command, command) if code == 0 else "problems"
    assert [] == wrong_by_schema(name, value)


@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize("text", MISTAKES.values(), ids=MISTAKES)
def test_mistakes_are_printed_by_the_schema(command: str, text: str, tmp_path: Path) -> None:
    file = tmp_path / "piece.toml"
    file.write_text(text)
    code, value = printed(command, file)
    assert (1, []) == (code, wrong_by_schema("problems", value))


def test_several_files_are_printed_by_their_schemas(tmp_path: Path) -> None:
    pieces = [ROOT / "examples" / f"{name}.toml" for name in ("writing-table", "blanket-box")]
    for mesh in (ROOT / "examples").glob("*.obj"):
        shutil.copy(mesh, tmp_path)
    alike = []
    for piece in pieces:
        text = re.sub(r'(?m)^currency = "\w+"$', 'currency = "USD"', piece.read_text("utf-8"))
        alike.append(tmp_path / piece.name)
        alike[-1].write_text(text)
    code, value = printed("supplies", *alike)
    assert (0, []) == (code, wrong_by_schema("supplies-together", value))
    assert [] == wrong_by_schema(
        "areas-of-files", printed("areas", *alike, tmp_path / "none.toml")[1]
    )


def test_kinds_are_printed_by_the_schema() -> None:
    assert [] == wrong_by_schema("kinds", printed("kinds")[1])


def test_a_field_too_many_or_too_few_is_found() -> None:
    value = printed("areas", EXAMPLES[0])[1]
    assert wrong_by_schema("areas", {**value, "more": 1})
    assert wrong_by_schema("areas", {key: value[key] for key in value if key != "gaps"})
    value["zones"][0]["more"] = 1
    assert wrong_by_schema("areas", value)


if __name__ == "__main__":
    write_schemas()
