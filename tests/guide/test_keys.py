"""Every key, word and option that the program reads is explained in the guide.

The lists come from the program: keys from the readers' tables of KEYS, and from their calls of
`only` and `SolidPlan`; words from their calls of `choice`. A key that is added there and explained
nowhere fails here.
"""

import ast
import importlib
import pkgutil
import re
from collections.abc import Iterator
from types import ModuleType
from typing import Any

import pytest
import typer

from surfacecalc import reading
from surfacecalc.catalogue.entries import family_words
from surfacecalc.commands import app
from surfacecalc.guide import page, topics
from surfacecalc.model.kind_names import KIND_NAMES
from surfacecalc.reading import made_for, piece_file, price_table
from surfacecalc.reading.solids import (
    leg_solids,
    panel_solids,
    profile_tables,
    solid,
)
from surfacecalc.reading.solids.solid_plans import SolidPlan
from surfacecalc.reading.steps import step
from surfacecalc.units import known

PAGES = {
    "piece_": "a-piece-file-by-hand", "part_": "parts", "solids": "parts",
    "zone_": "zones-and-steps", "wood": "zones-and-steps", "uneven": "zones-and-steps",
    "steps": "zones-and-steps",
    "workshop_": "plan-and-price", "price_": "plan-and-price",
}  # fmt: skip
"""Where keys are explained, by how the name of their reader begins; all others are in products."""
HANDED_ON = {"other_keys", "plan.keys", "sizes"}
"""Keys that a reader hands on; each is found where it comes from."""
MODULES = [
    importlib.import_module(found.name)
    for found in pkgutil.walk_packages(reading.__path__, f"{reading.__name__}.")
]
CODE = re.compile(r"`([^`\n]+)`|^#+ (.+)$", re.MULTILINE)


def room(module: ModuleType) -> str:
    """Return the name of a module, or of its folder, below `reading`."""
    return module.__name__.removeprefix(f"{reading.__name__}.").split(".")[0]


def page_of(module: ModuleType) -> str:
    found = [page for begin, page in PAGES.items() if room(module).startswith(begin)]
    return found[0] if found else "products"


def calls(module: ModuleType, name: str) -> Iterator[ast.Call]:
    """Yield the calls of a function or a method in a module."""
    with open(str(module.__file__), encoding="utf-8") as source:
        tree = ast.parse(source.read())
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and name == getattr(
            node.func, "attr", getattr(node.func, "id", "")
        ):
            yield node


def texts(module: ModuleType, node: ast.AST) -> Iterator[str]:
    """Yield the texts that an expression is made of, those of the module's constants as well."""
    if isinstance(node, ast.Constant):
        if isinstance(node.value, str):
            yield node.value
    elif isinstance(node, ast.Name | ast.Attribute):
        yield from _named(module, ast.unparse(node))
    elif isinstance(node, ast.Call):
        assert ast.unparse(node) == "tuple(table.values)"  # of a table with a mistake: all keys
    elif isinstance(node, ast.IfExp):  # what is read in some cases only
        yield from texts(module, node.body)
        yield from texts(module, node.orelse)
    else:
        for inner in ast.iter_child_nodes(node):
            yield from texts(module, inner)


def _named(module: ModuleType, name: str) -> Iterator[str]:
    if name.rpartition(".")[2].lstrip("_").isupper():
        value: Any = module
        for step_name in name.split("."):
            value = getattr(value, step_name)
        yield from (text for text in value if isinstance(text, str))
    elif name == "keys":
        yield from _assigned(module, name)
    else:
        assert name in HANDED_ON, f"{module.__name__}: {name} is read, but what is in it?"


def _assigned(module: ModuleType, name: str) -> Iterator[str]:
    """Yield the texts in what is assigned to a local name."""
    with open(str(module.__file__), encoding="utf-8") as source:
        tree = ast.parse(source.read())
    for node in ast.walk(tree):
        if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == name:
            yield from texts(module, node.value)


def keys_read(module: ModuleType) -> set[str]:
    """Return the keys that a module reads."""
    found = {text for call in calls(module, "only") for text in texts(module, call.args[0])}
    plans = {
        text
        for call in calls(module, SolidPlan.__name__)
        if call.args
        for text in texts(module, call.args[0])
    }
    tables = {
        text for name, value in vars(module).items() if name.endswith("KEYS") for text in value
    }
    return (found | plans | tables) - set(price_table.MARK_UPS) - set(piece_file.TABLES)


def words_read(module: ModuleType) -> set[str]:
    """Return the words that a module knows for some key."""
    return {
        text
        for call in calls(module, "choice")
        if ast.unparse(call.args[1]) not in ("words", "forms", "known")
        for text in texts(module, call.args[1])
    }


def code(name: str) -> str:
    """Return all that is written as code in a page, and its headings."""
    text = re.sub(r"```.*?```", "", page(name), flags=re.DOTALL)
    return "\n".join(span or heading for span, heading in CODE.findall(text))


def is_named(key: str, text: str) -> bool:
    return re.search(rf"(?<![\w-]){re.escape(key)}(?![\w-])", text) is not None


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__)
def test_keys_are_explained(module: ModuleType) -> None:
    text = code(page_of(module))
    assert [] == sorted(key for key in keys_read(module) if not is_named(key, text))


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__)
def test_words_are_named(module: ModuleType) -> None:
    text = page(page_of(module))
    assert [] == sorted(word for word in words_read(module) if f'"{word}"' not in text)


def test_lists_are_those_of_the_program() -> None:
    """The readers are really looked into: some keys and words of each sort are found."""
    keys = {key for module in MODULES for key in keys_read(module)}
    words = {word for module in MODULES for word in words_read(module)}
    assert {"thirsty", "row", "solids", "bevel", "profile", "all_round", "parts", "gap"} <= keys
    assert {"grit", "shrinkage", "tint", "asked", "set_up", "cuts", "centre", "lean"} <= keys
    assert {"sand", "tapered", "raised", "left-right", "two-part", "replace", "used"} <= words


@pytest.mark.parametrize("table", piece_file.TABLES)
def test_tables_are_named(table: str) -> None:
    guide = "\n".join(page(topic.name) for topic in topics())
    assert re.search(rf"^## .*\[{table}\]|^#+ .*\[\[{table}\]\]|`\[\[{table}", guide, re.MULTILINE)


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("parts", solid._SHAPES), ("parts", leg_solids._FORMS), ("parts", panel_solids._FORMS),
        ("parts", profile_tables._profile_forms()), ("zones-and-steps", step.WORDS),
        ("a-piece-file-by-hand", KIND_NAMES), ("a-piece-file-by-hand", made_for.WORDS),
        ("a-piece-file-by-hand", piece_file.UNITS), ("products", family_words()),
    ],
    ids=["shapes", "legs", "panels", "profiles", "steps", "kinds", "uses", "units", "families"],
)  # fmt: skip
def test_lists_of_words_are_complete(name: str, words: Any) -> None:
    assert [] == [word for word in words if f'"{word}"' not in page(name)]


def test_sizes_of_profiles_are_explained() -> None:
    sizes = {size for _, sizes in profile_tables._profile_forms().values() for size in sizes}
    assert [] == [size for size in sizes if not is_named(size, code("parts"))]


def test_units_are_listed() -> None:
    text = page("measures").partition("## ")[0]
    assert [] == [unit.name for unit in known.UNITS if not is_named(unit.name, text)]


def test_commands_and_their_options_are_explained() -> None:
    """But for the questions of `new`: each of them has an option, which its help lists."""
    text = code("commands")
    group = typer.main.get_command(app)
    for name, command in group.commands.items():  # type: ignore[attr-defined]
        assert is_named(f"surfacecalc {name}", text)
        options = [opt for one in command.params for opt in (*one.opts, *one.secondary_opts)]
        flags = [opt for opt in options if opt.startswith("--")]
        for flag in flags if name != "new" else ("--ask", "--no-ask", "--unusual", "--replace"):
            assert flag in flags
            assert is_named(flag, text), f"{name} {flag}"
