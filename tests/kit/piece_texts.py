"""Small piece files from keyword arguments, so that no test repeats a head to say one thing.

A board of half a metre, all of it one zone of bare wood, is there where nothing else is said:

    piece_text({"do": "coat", "product": "paint", "coats": 2, "by": "brush"},
               product={"name": "paint", "kind": "paint"})
"""

from typing import Any

from toml_writer import toml_value

from surfacecalc.api import MeasuredPiece, measure, read_piece_text

PIECE = {"name": "Board", "unit": "mm"}
BOARD = {"name": "board", "shape": "board", "width": 500, "depth": 400, "height": 20}
ALL = {"name": "all", "faces": ["*"], "surface": "bare"}
BOARD_M2 = 2 * (0.5 * 0.4 + 0.5 * 0.02 + 0.4 * 0.02)

Keys = dict[str, Any]


def piece_text(*steps: Keys, **tables: Keys | list[Keys]) -> str:
    """Return the text of a piece file.

    Args:
        steps: of each zone, after those that the zone itself has under `step`.
        tables: by their header. The keys of `piece`, and of one `part` or `zone`, are written
            beside those of this module, where None leaves one out; a list takes their place.
    """
    given: dict[str, Keys | list[Keys]] = {"piece": {}, "part": {}, "zone": {}, **tables}
    usual: dict[str, Keys] = {"piece": PIECE, "part": BOARD, "zone": ALL}
    text = ""
    for header, found in given.items():
        for keys in found if isinstance(found, list) else [{**usual.get(header, {}), **found}]:
            more = list(steps) if header == "zone" else []
            text += _table(header, keys, more)
    return text


def exact(text: str) -> str:
    """Return a piece file that takes every number as it is given, so that its needs have no spread.

    Nothing above its last line moves, unless it has a [workshop].
    """
    key = 'own_spread = "0 %"'
    if "\n[workshop]\n" in text:
        return text.replace("\n[workshop]\n", f"\n[workshop]\n{key}\n", 1)
    return f"{text}\n[workshop]\n{key}\n"


def measured(text: str, folder: str = ".") -> MeasuredPiece:
    """Return the measured piece of a text that has no mistake."""
    reading = read_piece_text(text, folder)
    assert reading.piece is not None, reading.lines
    return measure(reading)


def _table(header: str, keys: Keys, more: list[Keys]) -> str:
    """Return one table and its steps; [piece], [workshop] and [price] stand once."""
    mark = f"[{header}]" if header in ("piece", "workshop", "price") else f"[[{header}]]"
    lines = [
        f"{key} = {toml_value(value)}"
        for key, value in keys.items()
        if key != "step" and value is not None
    ]
    text = "\n".join([mark, *lines, ""])
    for step in [*keys.get("step", []), *more]:
        text += _table(f"{header}.step", step, [])
    return text
