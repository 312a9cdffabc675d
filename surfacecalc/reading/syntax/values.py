"""Keys and values that are not written as they must be."""

import re

from surfacecalc.reading.examples import SIZES_MM
from surfacecalc.reading.syntax.slip import PAIR, Slip, Told
from surfacecalc.units.number_words import CARDINALS

_MEASURE = re.compile(
    r"""[\d.][\d./\s'"-]*(?:[A-Za-z"'\u00bc-\u00be\u2032\u2033/])[\w\s/."'\u2032\u2033-]*"""
)
_CURLY = str.maketrans({"\u201c": '"', "\u201d": '"', "\u201e": '"', "\u2033": '"'})
_TRUTHS = {"yes": "true", "no": "false", "True": "true", "False": "false", "on": "true",
           "off": "false", "TRUE": "true", "FALSE": "false"}  # fmt: skip
_NAME = re.compile(r"[^\W\d][\w .-]*")


def equals(slip: Slip) -> Told:
    """Explain what is wrong where a name and its = belong."""
    start = slip.line.strip()
    if start.startswith(("//", ";", "/*", "--")):
        return "a comment starts with #"
    if slip.starts_open:
        return None
    if re.match(r"[-*\u2022]\s", start):
        return f"take out the {start[0]} at the start of the line"
    if start.startswith("="):
        return 'there is nothing before the =; write it like name = "leg"'
    colon = re.match(r"([\w-]+)\s*:\s*(.*)", start)
    if colon:
        right = f"{colon[1]} = {colon[2]}".strip()
        return f"use = between a name and its value, not a colon: {right}"
    spaced = re.match(r"([A-Za-z]++(?: [A-Za-z]++)++)\s*+=", start)
    if spaced:
        own = spaced[1].replace(" ", "_")
        return f"write {own}, with _ and no space"
    is_prose = "=" not in start and len(start.split()) > 3
    if slip.before.awaits == "=" and not slip.before.opened and not is_prose:
        return 'an = is missing between a name and its value; write it like name = "leg"'
    return None


def value(slip: Slip) -> Told:
    """Explain a value that is neither a number nor words in quotes."""
    if slip.bracket is not None:
        return _inner_value(slip)
    pair = PAIR.match(slip.line)
    if pair is None:
        return None
    key, value = pair[1], pair[2].split(" #")[0].strip()
    if slip.before.awaits == "" and slip.sign and slip.sign in "]}":
        return f"there is one {slip.sign} too many; take it out"
    if value.count('"') == 3 and value.startswith('"') and value.endswith('""'):
        return f"a \" inside the words ends them; use single quotes: {key} = '{value[1:-1]}'"
    if value.count("'") == 3 and value.startswith("'") and value.endswith("'"):
        return f'a \' inside the words ends them; use double quotes: {key} = "{value[1:-1]}"'
    plain = _plain_value(key, value, slip.unit)
    if plain is not None or slip.before.awaits == "value":
        return plain or f"after {key} = {_ANY_VALUE}"
    return (
        "there is something after the value; put each name = value on a line of its own,"
        " and words in quotes"
    )


_ANY_VALUE = "write a number, words in quotes, true, false or a list in [ ]"


def _inner_value(slip: Slip) -> Told:
    """Explain a value in a list or between { }."""
    whole = re.match(r"\s*([\w-]+)\s*=\s*\[([^\[\]{}\"']*)\]\s*(?:#.*)?$", slip.line)
    items = [item.strip() for item in whole[2].split(",")] if whole else []
    if whole and all(_NAME.fullmatch(item) for item in items):
        quoted = ", ".join(f'"{item}"' for item in items)
        return f"put quotes around every name in a list: {whole[1]} = [{quoted}]"
    item = re.match(r"[^,\]}#\n]*", slip.text[slip.at :])
    written = item[0].strip() if item else ""
    key = re.search(r"([\w-]+)[ \t]*=[ \t]*$", slip.text[: slip.at])
    if key:
        plain = _plain_value(key[1], written, slip.unit)
        return plain or f"after {key[1]} = {_ANY_VALUE}"
    if _NAME.fullmatch(written) and written not in _TRUTHS:
        return f'put quotes around every name in a list: "{written}"'
    number = _number("", written, slip.unit)
    return number or f"this is not an item of a list: {written}" if written else None


def _plain_value(key: str, value: str, unit: str) -> str | None:
    """Return what is wrong with a value and how it is written, None where that is not clear."""
    if not value:
        return f"there is nothing after {key} ="
    if value.translate(_CURLY) != value and "\u2033" not in value:
        return f"use straight quotes: {key} = {value.translate(_CURLY)}"
    if value in _TRUTHS:
        return f"write {_TRUTHS[value]} instead of {value}: {key} = {_TRUTHS[value]}"
    return (
        _counted(key, value)
        or _number(f"{key} = ", value, unit)
        or _listed(key, value)
        or _word(key, value)
    )


def _counted(key: str, value: str) -> str | None:
    """Explain a number in words, and a year with a comma in it."""
    if value.lower() in CARDINALS:
        return f"write the number in digits: {key} = {CARDINALS.index(value.lower())}"
    if key == "built" and re.fullmatch(r"\d{1,2},\d{2,3}", value):
        return f"a year has four digits and no comma: built = {value.replace(',', '')}"
    return None


def _number(before: str, value: str, unit: str) -> str | None:
    """Explain a number that is not written as numbers are.

    Args:
        before: the key and its =, as they are to be shown before the right value.
        value: what is written.
        unit: the unit of the file.
    """
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", value):
        whole, decimal = value.replace(",", ""), value.replace(",", ".")
        if before.split(" ", maxsplit=1)[0] in SIZES_MM and unit != "mm":
            return f"use a decimal point, not a comma: {before}{decimal}"
        return f"a number has no comma in it: {before}{whole}, or {decimal} for a decimal"
    if re.fullmatch(r"\d+,\d+", value):
        return f"use a decimal point, not a comma: {before}{value.replace(',', '.')}"
    if re.fullmatch(r"\.\d+", value):
        return f"put a digit before the decimal point: {before}0{value}"
    if re.fullmatch(r"\d+\.", value):
        return f"put a digit after the decimal point, or leave it off: {before}{value[:-1]}"
    if re.fullmatch(r"0\d+(\.\d+)?", value):
        return f"a number does not start with 0: {before}{re.sub('^0+(?=[0-9])', '', value)}"
    if re.fullmatch(r"\d{4}-\d\d-\d\d.*", value):
        return f"{value} is not a date; write the year as built = {value[:4]}"
    if re.fullmatch(r"[\d.,_]+", value) and re.search(r"[.,_].*[.,_]|_$", value):
        return f"{value} is not a number; use digits and at most one decimal point"
    measure = quoted_measure(value, unit)
    if measure is None:
        return None
    return f"put quotes around a measurement that has a unit or a fraction: {before}{measure}"


def quoted_measure(value: str, unit: str) -> str | None:
    """Return a measurement in quotes, as it must be written, None for what is not one."""
    if not _MEASURE.fullmatch(value):
        return None
    written = value.replace("\u2033", '"').replace("\u2032", "'")
    plain = written.rstrip('"').strip()
    if '"' in plain:  # several measurements: inch marks would end the words again
        inches = written.replace('"', " in")
        return f'"{inches}"'
    has_unit = re.search(r"[A-Za-z']", plain)
    return f'"{plain}"' if has_unit else f'"{plain} {"in" if value != plain else unit}"'


def _listed(key: str, value: str) -> str | None:
    """Explain several values without the brackets of a list."""
    inside = value[1:-1] if value.startswith("(") and value.endswith(")") else value
    items = [item.strip() for item in inside.split(",")]
    if len(items) < 2 or not all(re.fullmatch(r"\d+(\.\d+)?|\"[^\"]*\"", i) for i in items):
        return None
    return f"put a list between [ and ]: {key} = [{', '.join(items)}]"


def _word(key: str, value: str) -> str | None:
    """Explain words without their quotes."""
    if not re.fullmatch(r"""[^\W\d_][^"'\[\]{}=,]*["']?""", value):
        return None
    plain = value.rstrip("\"'")
    return f'put quotes around it: {key} = "{plain}"'
