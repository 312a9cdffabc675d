"""Faults that could have been typed: one small change each, at an exact place in a source file.

Every function in `OPERATORS` looks at one node of the syntax tree and yields the edits that it
knows.
Nothing is changed in docstrings, types, decorators, texts and the arguments of an error.
"""

import ast
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

Edit = tuple[int, int, str]
"""From which byte to which, and what is put there."""


class Source:
    """A source file: its bytes, and where a node of its syntax tree lies in them."""

    def __init__(self, text: str) -> None:
        self.data = text.encode()
        self.tree = ast.parse(text)
        lines = self.data.splitlines(keepends=True)
        self._starts = [0]
        for line in lines:
            self._starts.append(self._starts[-1] + len(line))

    def start(self, node: ast.AST) -> int:
        """Return the byte at which a node starts."""
        return self._starts[node.lineno - 1] + int(node.col_offset)  # type: ignore[attr-defined]

    def end(self, node: ast.AST) -> int:
        """Return the byte after the last one of a node."""
        return self._starts[node.end_lineno - 1] + int(node.end_col_offset)  # type: ignore[attr-defined]

    def between(self, left: ast.AST, right: ast.AST, sign: str, new: str) -> Iterator[Edit]:
        """Yield the edit that replaces an operator between two nodes."""
        start, end = self.end(left), self.start(right)
        pattern = r"\s+".join(re.escape(word) for word in sign.split())
        found = re.search(pattern.encode(), self.data[start:end])
        if found:
            yield start + found.start(), start + found.end(), new

    def instead(self, node: ast.AST, new: str) -> Edit:
        """Return the edit that puts something in the place of a node, on as many lines."""
        start, end = self.start(node), self.end(node)
        breaks = self.data[start:end].count(b"\n")
        if breaks and isinstance(node, ast.stmt):
            return start, end, new + "\n" * breaks
        return start, end, f"({new}{chr(10) * breaks})" if breaks else new


COMPARED: dict[type[ast.cmpop], tuple[str, str]] = {
    ast.Lt: ("<", "<="), ast.LtE: ("<=", "<"), ast.Gt: (">", ">="), ast.GtE: (">=", ">"),
    ast.Eq: ("==", "!="), ast.NotEq: ("!=", "=="), ast.Is: ("is", "is not"),
    ast.IsNot: ("is not", "is"), ast.In: ("in", "not in"), ast.NotIn: ("not in", "in"),
}  # fmt: skip
COUNTED: dict[type[ast.operator], tuple[str, str]] = {
    ast.Add: ("+", "-"), ast.Sub: ("-", "+"), ast.Mult: ("*", "/"), ast.Div: ("/", "*"),
    ast.FloorDiv: ("//", "/"), ast.Pow: ("**", "*"), ast.BitOr: ("|", "&"), ast.BitAnd: ("&", "|"),
}  # fmt: skip
SWAPPED = {
    "min": "max", "max": "min", "any": "all", "all": "any", "floor": "ceil", "ceil": "floor",
    "minimum": "maximum", "maximum": "minimum", "abs": "", "sorted": "list",
}  # fmt: skip
TEXTS = (ast.JoinedStr, ast.List, ast.Tuple, ast.ListComp)


def comparisons(node: ast.AST, source: Source) -> Iterator[Edit]:
    """< to <=, == to !=, `is` to `is not`, `in` to `not in`, and back."""
    if isinstance(node, ast.Compare):
        operands = [node.left, *node.comparators]
        for left, sign, right in zip(operands, node.ops, operands[1:], strict=False):
            yield from source.between(left, right, *COMPARED[type(sign)])


def arithmetic(node: ast.AST, source: Source) -> Iterator[Edit]:
    """+ to -, * to /, // to /, ** to *, and back; never where one side is a text or a list."""
    if not isinstance(node, ast.BinOp) or type(node.op) not in COUNTED:
        return
    sides = (node.left, node.right)
    if any(isinstance(side, TEXTS) or _is_text(side) for side in sides):
        return
    yield from source.between(*sides, *COUNTED[type(node.op)])


def _is_text(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str | None)


def joined_conditions(node: ast.AST, source: Source) -> Iterator[Edit]:
    """`and` to `or`, and back."""
    if isinstance(node, ast.BoolOp):
        signs = ("and", "or") if isinstance(node.op, ast.And) else ("or", "and")
        for left, right in zip(node.values, node.values[1:], strict=False):
            yield from source.between(left, right, *signs)


def signs(node: ast.AST, source: Source) -> Iterator[Edit]:
    """`not` and minus dropped."""
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not | ast.USub):
        yield source.start(node), source.start(node.operand), ""


def named_opposites(node: ast.AST, source: Source) -> Iterator[Edit]:
    """Min to max, any to all, floor to ceil, and back; abs and sorted dropped."""
    if not isinstance(node, ast.Call):
        return
    name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
    if name in SWAPPED and not (name == "sorted" and node.keywords):
        end = source.end(node.func)
        yield end - len(name), end, SWAPPED[name]


def constants(node: ast.AST, source: Source) -> Iterator[Edit]:
    """Numbers one more, doubled, nought; True to False, and back."""
    if not isinstance(node, ast.Constant) or not isinstance(node.value, bool | int | float):
        return
    value = node.value
    if isinstance(value, bool):
        yield source.instead(node, str(not value))
        return
    others = {value + 1, value * 2, 0} if isinstance(value, int) else {value * 2, value + 1, 0.0}
    for other in sorted(others - {value}):
        yield source.instead(node, repr(other))


def ends_of_rows(node: ast.AST, source: Source) -> Iterator[Edit]:
    """The first of a row to the last, and back."""
    if isinstance(node, ast.Subscript):
        found = ast.unparse(node.slice)
        if found in ("0", "-1"):
            yield source.instead(node.slice, {"0": "-1", "-1": "0"}[found])


def conditions(node: ast.AST, source: Source) -> Iterator[Edit]:
    """`if` always and never; a filter of a comprehension dropped; `while` never."""
    tests: list[tuple[ast.expr, tuple[str, ...]]] = []
    if isinstance(node, ast.If | ast.IfExp):
        tests = [(node.test, ("True", "False"))]
    elif isinstance(node, ast.While):
        tests = [(node.test, ("False",))]
    elif isinstance(node, ast.comprehension):
        tests = [(one, ("True",)) for one in node.ifs]
    for test, values in tests:
        if ast.unparse(test) == "TYPE_CHECKING":
            continue  # false wherever a program runs
        if not any(isinstance(inner, ast.NamedExpr) for inner in ast.walk(test)):
            yield from (source.instead(test, value) for value in values)


def statements(node: ast.AST, source: Source) -> Iterator[Edit]:
    """A sum or a call for its effect dropped; `break` to `continue`, and back; += to -=."""
    if isinstance(node, ast.Expr) and isinstance(node.value, ast.Call):
        if ast.unparse(node.value.func) != "assert_never":  # nothing ever comes there
            yield source.instead(node, "pass")
    elif isinstance(node, ast.AugAssign):
        yield source.instead(node, "pass")
        if type(node.op) in COUNTED and not isinstance(node.value, TEXTS):
            sign, new = COUNTED[type(node.op)]
            yield from source.between(node.target, node.value, sign + "=", new + "=")
    elif isinstance(node, ast.Break):
        yield source.instead(node, "continue")
    elif isinstance(node, ast.Continue):
        yield source.instead(node, "break")


@dataclass(frozen=True)
class KeywordsWithDefaults:
    """Keyword arguments dropped, of functions and classes of ours that have a default for them.

    Attributes:
        known: (function or class, argument), from all source files.
    """

    known: frozenset[tuple[str, str]]

    def __call__(self, node: ast.AST, source: Source) -> Iterator[Edit]:
        """Yield an edit for each argument that can be dropped."""
        if not isinstance(node, ast.Call):
            return
        called = node.func
        name = called.attr if isinstance(called, ast.Attribute) else getattr(called, "id", "")
        for keyword in node.keywords:
            if (name, keyword.arg) in self.known or (name, keyword.arg) == ("sorted", "reverse"):
                yield self._without(keyword, source)

    @staticmethod
    def _without(keyword: ast.keyword, source: Source) -> Edit:
        start, end = source.start(keyword), source.end(keyword)
        comma = re.match(rb"\s*,", source.data[end:])
        if comma:
            return start, end + comma.end(), ""
        before = re.search(rb",\s*$", source.data[:start])
        return (before.start() if before else start), end, ""


def defaults_in(tree: ast.Module) -> Iterator[tuple[str, str]]:
    """Yield (function or class, argument) for each argument with a default."""
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            plain = node.args.args[len(node.args.args) - len(node.args.defaults) :]
            only = zip(node.args.kwonlyargs, node.args.kw_defaults, strict=True)
            yield from ((node.name, argument.arg) for argument in plain)
            yield from ((node.name, argument.arg) for argument, default in only if default)
        elif isinstance(node, ast.ClassDef):
            for field in node.body:
                if isinstance(field, ast.AnnAssign) and field.value:
                    yield node.name, ast.unparse(field.target)


Operator = Callable[[ast.AST, Source], Iterator[Edit]]
OPERATORS: tuple[Operator, ...] = (
    comparisons, arithmetic, joined_conditions, signs, named_opposites, constants, ends_of_rows,
    conditions, statements,
)  # fmt: skip
