"""JSON schemas of TypedDicts. The kinds of types that they use, and no others, are known.

By hand, as no library makes them on every Python that is supported: one refuses `typing.TypedDict`
before 3.12, another a union of two of them.
"""

import json
import types
from importlib import resources
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints, is_typeddict

from jsonschema import Draft202012Validator

PLAIN: dict[Any, str] = {
    str: "string", bool: "boolean", int: "integer", float: "number", type(None): "null",
}  # fmt: skip


def schema_of(shape: type) -> dict[str, Any]:
    """Return the schema of a TypedDict with those of every other that it names."""
    parts: dict[str, Any] = {}
    _schema(shape, parts)
    whole = parts.pop(shape.__name__)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **whole, "$defs": parts}


def wrong_by_schema(name: str, value: Any) -> list[str]:
    """Return what is wrong with a value by a schema as it is installed with the program."""
    file = resources.files("surfacecalc") / "schemas" / f"{name}.json"
    schema = Draft202012Validator(json.loads(file.read_text("utf-8")))
    return [error.message for error in schema.iter_errors(value)]


def _schema(found: Any, parts: dict[str, Any]) -> dict[str, Any]:
    if found in PLAIN:
        return {"type": PLAIN[found]}
    if is_typeddict(found):
        if found.__name__ not in parts:
            parts[found.__name__] = {}  # its place, before what it names
            parts[found.__name__] = _object(found, parts)
        return {"$ref": f"#/$defs/{found.__name__}"}
    origin, inner = get_origin(found), get_args(found)
    if origin is Literal:
        return {"enum": list(inner)}
    if origin in (Union, types.UnionType):
        return {"anyOf": [_schema(one, parts) for one in inner]}
    if origin is list:
        return {"type": "array", "items": _schema(inner[0], parts)}
    if origin is dict and inner[0] is str:
        return {"type": "object", "additionalProperties": _schema(inner[1], parts)}
    raise TypeError(found)


def _object(shape: Any, parts: dict[str, Any]) -> dict[str, Any]:
    """Return an object with all of its fields, and no other."""
    fields = {key: _schema(kind, parts) for key, kind in get_type_hints(shape).items()}
    said = {"description": shape.__doc__} if shape.__doc__ else {}
    return {
        **said,
        "type": "object",
        "properties": fields,
        "required": list(fields),
        "additionalProperties": False,
    }
