"""Where faults may be planted: every place of a room's functions, and a fair choice among them.

The choice depends on nothing but the text of the fault and the function that it is in, so that a
change elsewhere leaves it as it is.
"""

import ast
import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cache
from hashlib import sha256
from pathlib import Path

from fault_operators import OPERATORS, KeywordsWithDefaults, Operator, Source, defaults_in

ROOT = Path(__file__).parents[2]
BEFORE, AFTER, LONGEST = 34, 26, 60  # characters shown around a fault, and of what is replaced


@dataclass(frozen=True)
class Room:
    """A part of the source in which faults are planted.

    Attributes:
        name: as it is typed after the command.
        sources: folders and files, from the top of the project.
        tests: folders whose tests are asked first.
        each: the most faults in one function.
        most: the most faults in all.
    """

    name: str
    sources: tuple[str, ...]
    tests: tuple[str, ...]
    each: int = 4
    most: int = 400

    def files(self) -> list[str]:
        """Return the source files, from the top of the project."""
        found: list[Path] = []
        for source in self.sources:
            path = ROOT / source
            found += sorted(path.rglob("*.py")) if path.is_dir() else [path]
        return [str(path.relative_to(ROOT)) for path in found]


def _own(name: str, **more: int) -> Room:
    return Room(name, (f"surfacecalc/{name}",), (f"tests/{name}/", "tests/reference/"), **more)


EXPOSURE = (
    "shapes/exposure.py", "shapes/gaps.py", "shapes/surfaces.py", "shapes/relations.py",
    "shapes/fillers.py", "shapes/shared_patches.py", "shapes/skins.py", "shapes/seams.py",
)  # fmt: skip
PLANS = tuple(
    f"surfacecalc/plans/{name}.py"
    for name in ("waits", "drying", "dust", "tasks", "hours", "plan", "calendar", "assumed_hours")
)
"""Without what looks for the best order: any rule there gives a right one, some a longer one, and
`tests/plans/test_search.py` tries all orders."""
ROOMS = {
    room.name: room
    for room in (
        _own("units"),
        _own("zones"),
        Room("exposure", EXPOSURE, ("tests/shapes/",), each=2),
        _own("needs", each=3),
        _own("supplies"),
        _own("prices"),
        _own("gear"),
        Room("plans", PLANS, ("tests/plans/", "tests/reference/"), each=3),
        _own("reading", each=1, most=100),
        _own("checks", each=1, most=100),
        _own("sheets", each=1, most=60),
    )
}


@dataclass(frozen=True)
class Fault:
    """One small change of a source file.

    Attributes:
        file: from the top of the project.
        function: its name, with that of its class before it; "" outside of functions.
        text: the change as people read it, the old between [ and -> and the new after it.
        start: the byte at which it starts.
        end: the byte after what is replaced.
        new: what is put there.
        is_inside: whether it is in the body of a function, so that no import runs it.
    """

    file: str
    function: str
    text: str
    start: int
    end: int
    new: str
    is_inside: bool

    @property
    def key(self) -> tuple[str, str, str]:
        """What tells it from every other fault."""
        return self.file, self.function, self.text

    def planted(self) -> str:
        """Return the source of its file with the fault in it."""
        data = source_of(self.file).data
        return (data[: self.start] + self.new.encode() + data[self.end :]).decode()


@cache
def source_of(file: str) -> Source:
    """Return a source file, read once."""
    return Source((ROOT / file).read_text(encoding="utf-8"))


@cache
def operators() -> tuple[Operator, ...]:
    """Return all operators, with what the source says about defaults."""
    paths = [*ROOT.glob("surfacecalc/**/*.py"), *ROOT.glob("shapes/**/*.py")]
    trees = (source_of(str(path.relative_to(ROOT))).tree for path in paths)
    return *OPERATORS, KeywordsWithDefaults(
        frozenset(one for tree in trees for one in defaults_in(tree))
    )


class _Finder(ast.NodeVisitor):
    """Walks through what is run, and keeps away from texts, types and decorators."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.source = source_of(file)
        self.found: list[Fault] = []
        self._names: list[str] = []
        self._depth = 0

    def visit(self, node: ast.AST) -> None:
        for operator in operators():
            self.found += [self._fault(*edit) for edit in operator(node, self.source)]
        if not isinstance(node, ast.JoinedStr | ast.Raise | ast.Assert):
            super().visit(node)

    def _fault(self, start: int, end: int, new: str) -> Fault:
        text = _shown(self.source.data, start, end, new)
        return Fault(self.file, ".".join(self._names), text, start, end, new, self._depth > 0)

    def _enter(self, name: str, body: Iterable[ast.AST], *, is_function: bool) -> None:
        self._names.append(name)
        self._depth += is_function
        for statement in body:
            self.visit(statement)
        self._depth -= is_function
        self._names.pop()

    def visit_FunctionDef(self, node: ast.FunctionDef) -> None:
        defaults = [*node.args.defaults, *(one for one in node.args.kw_defaults if one)]
        self._names.append(node.name)
        for default in defaults:
            self.visit(default)
        self._names.pop()
        self._enter(node.name, node.body, is_function=True)

    def visit_ClassDef(self, node: ast.ClassDef) -> None:
        self._enter(node.name, node.body, is_function=False)

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        if node.value:
            self.visit(node.value)

    def visit_Assign(self, node: ast.Assign) -> None:
        if ast.unparse(node.targets[0]) != "__all__" and not _is_type(node.value):
            self.visit(node.value)

    def visit_If(self, node: ast.If) -> None:
        if ast.unparse(node.test) not in ("TYPE_CHECKING", "__name__ == '__main__'"):
            self.generic_visit(node)

    def visit_Call(self, node: ast.Call) -> None:
        name = ast.unparse(node.func)
        if name in ("isinstance", "issubclass", "cast", "TypeVar", "NewType"):
            return
        if name == "zip":
            node.keywords = []
        self.generic_visit(node)


def _is_type(node: ast.expr) -> bool:
    """Tell whether a value is the name of a type: `Length | Share`, `Literal[...]`."""
    if isinstance(node, ast.BinOp):
        return isinstance(node.op, ast.BitOr) and _is_type(node.left)
    return isinstance(node, ast.Subscript) and isinstance(node.value, ast.Name)


def _shown(data: bytes, start: int, end: int, new: str) -> str:
    """Return a change with what is around it, on one line."""
    before = _flat(data[max(0, start - 2 * BEFORE) : start])[-BEFORE:]
    after = _flat(data[end : end + 2 * AFTER])[:AFTER]
    old = _flat(data[start:end])
    old = old if len(old) <= LONGEST else old[:LONGEST] + "..."
    return f"{before.lstrip()}[{old.strip()} -> {_flat(new.encode()).strip()}]{after.rstrip()}"


def _flat(data: bytes) -> str:
    return re.sub(r"\s+", " ", data.decode(errors="ignore"))


def faults_in(file: str) -> list[Fault]:
    """Return every fault that can be planted in a file, each with a text of its own."""
    finder = _Finder(file)
    finder.visit(finder.source.tree)
    seen: Counter[tuple[str, str, str]] = Counter()
    return [_counted(fault, seen) for fault in finder.found if _compiles(fault)]


def _counted(fault: Fault, seen: Counter[tuple[str, str, str]]) -> Fault:
    seen[fault.key] += 1
    count = seen[fault.key]
    return fault if count == 1 else replace(fault, text=f"{fault.text} (no. {count})")


def _compiles(fault: Fault) -> bool:
    try:
        compile(fault.planted(), fault.file, "exec")
    except SyntaxError:
        return False
    return True


def chosen(room: Room) -> list[Fault]:
    """Return the faults that are planted in a room, in the order of its files."""
    every = [fault for file in room.files() for fault in faults_in(file)]
    groups: defaultdict[tuple[str, str], list[Fault]] = defaultdict(list)
    for fault in every:
        groups[fault.file, fault.function].append(fault)
    some = [fault for group in groups.values() for fault in _sample(group, room.each)]
    kept = set(sorted(some, key=_lot)[: room.most])
    return [fault for fault in some if fault in kept]


def _sample(group: list[Fault], most: int) -> Iterator[Fault]:
    """Yield one fault for each of some places of a function, in the order of its text."""
    by_place: defaultdict[tuple[int, int], list[Fault]] = defaultdict(list)
    for fault in group:
        by_place[fault.start, fault.end].append(fault)
    one_each = sorted((min(place, key=_lot) for place in by_place.values()), key=_lot)
    yield from sorted(one_each[:most], key=lambda fault: fault.start)


def _lot(fault: Fault) -> str:
    return sha256("\n".join(fault.key).encode()).hexdigest()
