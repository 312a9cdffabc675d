"""How values and keys of a piece file appear in messages."""

from typing import Any

LARGEST_SHOWN = 10**30
"""Whole numbers beyond it are not spelled out."""
LONGEST_SHOWN = 60
"""Letters of a value or a key that a message shows."""


def shown(value: Any, depth: int = 2) -> str:
    """Return a value as a message shows it, cut short where it is long, deep or huge."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int) and abs(value) > LARGEST_SHOWN:
        return "a huge number"
    if isinstance(value, dict):
        return "{...}"
    if isinstance(value, list):
        items = [shown(item, depth - 1) for item in value[:4]] if depth else ["..."]
        return f"[{', '.join(items)}{', ...' * (len(value) > 4)}]"
    return _cut(f'"{value}"' if isinstance(value, str) else str(value))


def shown_text(value: Any) -> str:
    """Return a text to compare with known words; nothing for what is no text."""
    return value if isinstance(value, str) else ""


def shown_key(key: str) -> str:
    """Return a key as a message shows it, cut short where it is long."""
    return f'"{key}"' if len(key) <= LONGEST_SHOWN else f'"{key[: LONGEST_SHOWN - 3]}..."'


def shown_at(keys: tuple[str | int, ...], value: Any) -> str:
    """Return a value with its key, as in 'width = 5', or 'at: 5' for one item of a list."""
    key = next(str(key) for key in reversed(keys) if isinstance(key, str))
    mark = ":" if isinstance(keys[-1], int) else " ="
    return f"{_cut(key)}{mark} {shown(value)}"


def _cut(text: str) -> str:
    return text if len(text) <= LONGEST_SHOWN else f"{text[: LONGEST_SHOWN - 3]}..."
