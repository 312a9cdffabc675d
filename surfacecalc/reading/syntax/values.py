"""Keys and values that are not written as they must be."""

import re

from surfacecalc.reading.syntax.slip import PAIR, Slip, Told

_MEASURE = re.compile(
    r"""[\d.][\d./\s'"-]*(?:[A-Za-z"'\u00bc-\u00be\u2032\u2033/])[\w\s/."'\u2032\u2033-]*"""
)
_CURLY = str.maketrans({"\u201c": '"', "\u201d": '"', "\u201e": '"', "\u2033": '"'})
_COUNTS = ("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
           "eleven", "twelve")  # fmt: skip
_TRUTHS = {"yes": "true", "no": "false", "True": "true", "False": "false", "on": "true",
           "off": "false", "TRUE": "true", "FALSE": "false"}  # fmt: skip


def equals(slip: Slip) -> Told:
    """Tell what stands where a key and its = belong."""
    start = slip.line.strip()
    if start.startswith(("//", ";", "/*", "--")):
        return "a remark starts with a #"
    if re.match(r"[-*\u2022]\s", start):
        return "a line starts with its key; leave out the mark before it"
    if start.startswith("="):
        return 'before the = stands no key, as in name = "leg"'
    colon = re.match(r"([\w-]+)\s*:\s*(.*)", start)
    if colon:
        return f"between a key and its value stands =, not a colon: {colon[1]} = {colon[2]}"
    blank = re.match(r"([A-Za-z]+(?: [A-Za-z]+)+)\s*=", start)
    if blank:
        return f"a key has no blank in it: {blank[1].replace(' ', '_')} ="
    if slip.said.startswith("Expected '=' after a key"):
        return 'an = is missing between key and value, as in name = "leg"'
    return None


def value(slip: Slip) -> Told:
    """Tell a value that is neither a number nor a text in quotes."""
    pair = PAIR.match(slip.line)
    if pair is None:
        return None
    key, value = pair[1], pair[2].split(" #")[0].strip()
    if not value:
        return f"after {key} = stands no value"
    if value.translate(_CURLY) != value and "\u2033" not in value:
        return f"a text stands between two plain quotes: {key} = {value.translate(_CURLY)}"
    if value in _TRUTHS:
        return f"{value} is written {_TRUTHS[value]}: {key} = {_TRUTHS[value]}"
    if value.count('"') == 3 and value.startswith('"') and value.endswith('""'):
        return f"a \" in a text ends it; write the text in single quotes: {key} = '{value[1:-1]}'"
    return _counted(key, value) or _number(key, value, slip.unit) or _word(key, value, slip.said)


def _counted(key: str, value: str) -> Told:
    """Tell a number in words, and a year with a comma in it."""
    if value.lower() in _COUNTS:
        return f"a number is written in figures: {key} = {_COUNTS.index(value.lower())}"
    if key == "built" and re.fullmatch(r"\d{1,2},\d{2,3}", value):
        return f"a year has four figures and no comma: built = {value.replace(',', '')}"
    return None


def _number(key: str, value: str, unit: str) -> Told:
    """Tell a number that is not written as numbers are."""
    if re.fullmatch(r"\d+,\d+", value):
        return f"a decimal has a point, not a comma: {key} = {value.replace(',', '.')}"
    if re.fullmatch(r"\.\d+", value):
        return f"a number has a figure before its point: {key} = 0{value}"
    if re.fullmatch(r"\d+\.", value):
        return f"a number has a figure behind its point: {key} = {value[:-1]}"
    if re.fullmatch(r"0\d+(\.\d+)?", value):
        return f"a number does not start with 0: {key} = {value.lstrip('0')}"
    if re.fullmatch(r"\d{4}-\d\d-\d\d.*", value):
        return f"{value} is no day; a year is written built = {value[:4]}"
    measure = quoted_measure(value, unit)
    if measure is None:
        return None
    return f"a measure with a unit or a fraction stands in quotes: {key} = {measure}"


def quoted_measure(value: str, unit: str) -> str | None:
    """Return a measure as the text that it must be, None for what is no measure."""
    if not _MEASURE.fullmatch(value):
        return None
    plain = value.replace("\u2033", '"').replace("\u2032", "'").rstrip('"').strip()
    has_unit = re.search(r"[A-Za-z']", plain)
    return f'"{plain}"' if has_unit else f'"{plain} {"in" if value != plain else unit}"'


def _word(key: str, value: str, said: str) -> Told:
    """Tell a text without its quotes, or with more behind them."""
    if said.startswith("Invalid value") and value.startswith("["):
        return 'every text in a list stands in quotes, as in ["top", "leg"]'
    if re.fullmatch(r"""[^"'\[\]{}=,]+["']?""", value):
        plain = value.rstrip("\"'")
        return f'a text stands between two quotes: {key} = "{plain}"'
    if said.startswith("Invalid value"):
        return f"after {key} = stands a number, a text in quotes, true, false or a list in [ ]"
    if said.startswith("Expected newline"):
        return "something follows the value; each key has a line of its own, each text its quotes"
    return None
