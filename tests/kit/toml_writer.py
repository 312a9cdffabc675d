"""Values of Python written as TOML, a line for each key of each table."""

from datetime import date, datetime, time
from typing import Any


def toml_document(document: dict[str, Any]) -> str:
    """Return a document: what is no table first, then each table under its header."""
    heads = {key: value for key, value in document.items() if not is_table(value)}
    text = "".join(f"{toml_key(key)} = {toml_value(value)}\n" for key, value in heads.items())
    for key, value in document.items():
        if key in heads:
            continue
        mark = f"[[{toml_key(key)}]]" if isinstance(value, list) else f"[{toml_key(key)}]"
        for table in value if isinstance(value, list) else [value]:
            lines = [f"{toml_key(inner)} = {toml_value(item)}" for inner, item in table.items()]
            text += "\n".join([mark, *lines, ""])
    return text


def is_table(value: Any) -> bool:
    """Whether a value is written as a table, or as several."""
    if isinstance(value, list):
        return bool(value) and all(isinstance(item, dict) for item in value)
    return isinstance(value, dict)


def toml_key(key: str) -> str:
    """Return a key in quotes."""
    return toml_value(key)


def toml_value(value: Any) -> str:
    """Return a value on one line."""
    match value:
        case bool():
            return str(value).lower()
        case int() | float():
            return repr(value) if value in (0, 1) or abs(value) < 1e300 else _large(value)
        case str():
            return f'"{"".join(_sign(sign) for sign in value)}"'
        case datetime() | date() | time():
            return value.isoformat()
        case list():
            return f"[{', '.join(toml_value(item) for item in value)}]"
        case dict():
            return f"{{{', '.join(f'{toml_key(k)} = {toml_value(v)}' for k, v in value.items())}}}"
    raise TypeError(value)


def _large(value: float) -> str:
    """Write what is not finite, or so large that it is written in hexadecimal."""
    return hex(value) if isinstance(value, int) else repr(value)


def _sign(sign: str) -> str:
    plain = sign.isprintable() and sign not in '"\\'
    return sign if plain else f"\\U{ord(sign):08x}"
