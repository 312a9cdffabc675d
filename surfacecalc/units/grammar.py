"""A small grammar for amounts as a tape measure and a label give them.

    amount    = number unit { number unit }      5 ft 2 1/2 in
    coverage  = number unit "/" unit             75 ft2/quart
    rate      = area "/" unit of time            2 m2/h
    share     = number "%"                       10 %
    degrees   = [ "-" ] number "C" | "F"         15 C
    number    = 44 | 44.5 | 1/2 | 44 1/2 | 44-1/2 | 44½

No unit is ever guessed; `fractions` says which fractions there are. Reads text into exact fractions
of base units (mm, m2, L, kg, h; degrees Celsius).
"""

import itertools
import re
import unicodedata
from fractions import Fraction

from surfacecalc.units.fractions import Written, fault, with_blank
from surfacecalc.units.known import Dimension, Unit, factor, find_unit, nearest_unit, unit_names

_DIGITS = r"\d{1,12}"
_NUMBER = (
    rf"(?:(?P<whole>{_DIGITS})(?:\s*-\s*|\s+))?(?P<top>{_DIGITS})(?P<slash>\s*/\s*)(?P<bottom>{_DIGITS})"
    rf"|(?P<plain>{_DIGITS}(?:\.\d{{0,12}})?|\.\d{{1,12}})"
)
_UNIT = r"""["']|[^\W\d_][^\d/"'%]*?[23\.]?"""
_TERM = re.compile(rf"\s*(?:{_NUMBER})\s*(?P<unit>{_UNIT})(?=\s*$|\s*\.?\d|\s*/|\s+per\s)")
_BARE = re.compile(rf"\s*(?:{_NUMBER})\s*$")
_SHARE = re.compile(rf"(?:{_NUMBER})\s*%\s*$")
_PER = re.compile(r"\s*(?:/|per\s)\s*(?P<unit>.+?)\s*$")
_DEGREES = re.compile(
    rf"(?P<sign>-?)\s*(?:{_NUMBER})\s*(?:\u00b0|deg(?:rees?)?\b)?\s*(?P<scale>c|celsius|f|fahrenheit)$",
    re.IGNORECASE,
)
_COMMA = re.compile(r"(\d),(\d)")
_THOUSANDS = re.compile(r"(?<!\d)\d{1,3}(?:,\d{3})+(?!\d)")
_FEET_DASH = re.compile(r"(ft|')-\s*(?=\d)")
_TYPOGRAPHIC = {
    0x2044: "/", 0x2212: "-", 0x2032: "'", 0x2019: "'", 0x2033: '"', 0x201D: '"', 0x201C: '"',
}  # fmt: skip

LONGEST_TEXT = 60
"""Letters in an amount; no tape measure and no label gives more."""

EXAMPLES: dict[Dimension, str] = {
    "length": '"44 1/2 in" or "113 cm"',
    "area": '"0.5 m2" or "5 ft2"',
    "volume": '"1 quart" or "500 ml"',
    "weight": '"8 oz" or "250 g"',
    "time": '"30 min" or "2 h"',
}

TEMPERATURE_EXAMPLE = '"15 C" or "59 F"'
_DEGREE_SIGNS = {0x00BA: "\u00b0", 0x02DA: "\u00b0"}
"""Signs that keyboards put where a degree sign belongs: an ordinal mark and a ring."""


class AmountError(ValueError):
    """A text is no amount of the kind that belongs there; says why and what would be right."""


def parse_amount(text: str, dimension: Dimension) -> Fraction:
    """Return an amount of a dimension in its base unit (mm, m2, L, kg, h).

    Raises:
        AmountError: the text cannot be read, has no unit, or measures something else.

    >>> float(parse_amount('44-1/2"', "length"))
    1130.3
    """
    terms = _terms(text, EXAMPLES[dimension], dimension)
    for number, unit in terms:
        _check_dimension(number, unit, dimension)
    _check_compound(text, [unit for _, unit in terms])
    sign = -1 if _cleaned(text).startswith("-") else 1
    return sign * sum((number * factor(unit.name) for number, unit in terms), Fraction(0))


def parse_coverage(text: str) -> tuple[Fraction, Dimension]:
    """Return area per amount in m2/L or m2/kg, and whether it is per volume or per weight.

    Raises:
        AmountError: the text cannot be read or is not a coverage.

    >>> parse_coverage("10 m2/L")
    (Fraction(10, 1), 'volume')
    """
    example = 'write how much surface a quart or a litre covers: "75 ft2/quart" or "10 m2/L"'
    number, area, amount = _ratio(text, "coverage", example, ("area", "volume", "weight"))
    if area.dimension != "area" or amount.dimension not in ("volume", "weight"):
        raise AmountError(f"is not a coverage; {example}")
    return number * factor(area.name) / factor(amount.name), amount.dimension


def parse_density(text: str) -> Fraction:
    """Return weight per volume in kg/L.

    Raises:
        AmountError: the text cannot be read or is not weight per volume.

    >>> parse_density("1.3 kg/L")
    Fraction(13, 10)
    """
    return _quotient(text, "density", ("weight", "volume"), '"1.3 kg/L"')


def parse_rate(text: str) -> Fraction:
    """Return area per time in m2/h.

    Raises:
        AmountError: the text cannot be read or is not area per time.

    >>> parse_rate("2 m2/h")
    Fraction(2, 1)
    """
    return _quotient(text, "rate", ("area", "time"), '"2 m2/h" or "20 ft2/h"')


def parse_temperature(text: str) -> Fraction:
    """Return a temperature in degrees Celsius.

    Raises:
        AmountError: the text is no number of degrees Celsius or Fahrenheit.

    >>> parse_temperature("59 F")
    Fraction(15, 1)
    """
    clean = _cleaned(text.translate(_DEGREE_SIGNS))
    match = _DEGREES.match(clean)
    if match is None:
        _refuse_comma(clean)
        if _BARE.match(clean.removeprefix("-")):
            raise AmountError(f"has no unit; write it with one, such as {TEMPERATURE_EXAMPLE}")
        raise AmountError(f"is not a temperature; write it like {TEMPERATURE_EXAMPLE}")
    degrees = -_number(match) if match["sign"] else _number(match)
    is_celsius = match["scale"].lower().startswith("c")
    return degrees if is_celsius else (degrees - 32) * Fraction(5, 9)


def _quotient(
    text: str, what: str, dimensions: tuple[Dimension, Dimension], example: str
) -> Fraction:
    """Return an amount of one dimension per base unit of another."""
    advice = f"write {_article(dimensions[0])} per {dimensions[1]}, such as {example}"
    number, first, second = _ratio(text, what, advice, dimensions)
    if (first.dimension, second.dimension) != dimensions:
        raise AmountError(f"is not a {what}; {advice}")
    return number * factor(first.name) / factor(second.name)


def _ratio(
    text: str, what: str, example: str, dimensions: tuple[Dimension, ...]
) -> tuple[Fraction, Unit, Unit]:
    """Return the number, the unit and the unit it is per of a text like "10 m2/L".

    Args:
        text: the text.
        what: what it should be.
        example: how to write it.
        dimensions: of the unit, and those that the unit it is per may have.
    """
    clean = _cleaned(text)
    match = _TERM.match(clean)
    per = _PER.match(clean[match.end() :]) if match else None
    if match is None or per is None:
        _refuse_comma(clean)
        raise AmountError(f"is not a {what}; {example}")
    first = _known(match["unit"], dimensions[:1], example)
    return _number(match), first, _known(per["unit"], dimensions[1:], example)


def _known(word: str, dimensions: tuple[Dimension, ...], example: str) -> Unit:
    """Return the unit that a word means."""
    unit = find_unit(word)
    if unit is not None:
        return unit
    meant = nearest_unit(word.strip(), *dimensions)
    hint = f'did you mean "{meant}"?' if meant else example
    raise AmountError(f'has an unknown unit "{word.strip()}"; {hint}')


def parse_share(text: str) -> Fraction:
    """Return a share as a fraction of one.

    Raises:
        AmountError: the text is no number with a per cent sign.

    >>> parse_share("10 %")
    Fraction(1, 10)
    """
    clean = _cleaned(text)
    negative = clean.startswith("-")
    match = _SHARE.match(clean.lstrip("-"))
    if match is None:
        _refuse_comma(clean)
        raise AmountError('is not a percentage; write it like "10 %"')
    return -_number(match) / 100 if negative else _number(match) / 100


def _terms(text: str, example: str, dimension: Dimension) -> list[tuple[Fraction, Unit]]:
    clean = _cleaned(text).removeprefix("-").strip()
    found: list[tuple[Fraction, Unit]] = []
    rest = clean
    while rest:
        match = _TERM.match(rest)
        if match is None or rest[match.end() :].lstrip().startswith(("/", "per ")):
            _refuse_comma(_cleaned(text), dimension)
            if _BARE.match(rest) and found:
                raise AmountError(f"ends in a number without a unit; write it like {example}")
            if _BARE.match(rest):
                raise AmountError(f"has no unit; write it with one, such as {example}")
            if match is not None:
                raise AmountError(f"is not {_article(dimension)}; write it like {example}")
            raise AmountError(f"cannot be read; write {_article(dimension)}, such as {example}")
        unit = find_unit(match["unit"])
        if unit is None:
            raise AmountError(_unknown_unit(match["unit"].strip(), dimension))
        found.append((_number(match, unit), unit))
        rest = rest[match.end() :].strip()
    if not found:
        raise AmountError(f"is empty; write {_article(dimension)}, such as {example}")
    return found


def _cleaned(text: str) -> str:
    """Return the text with typographic signs made plain: fractions, quotes, minus, exponents."""
    if len(text) > LONGEST_TEXT:
        raise AmountError("is too long for a measurement")
    if text.isascii():
        return _plain(text)
    parts: list[str] = []
    for sign in text:
        kind = unicodedata.decomposition(sign).split(" ")[0]
        if kind == "<fraction>":
            parts.append(" " + unicodedata.normalize("NFKC", sign))
        elif kind == "<super>" and not (parts and parts[-1].isalpha()):
            raise AmountError(f'cannot be read: "{sign}" belongs after a unit')
        else:
            parts.append(unicodedata.normalize("NFKC", sign))
    return _plain("".join(parts).translate(_TYPOGRAPHIC))


def _plain(text: str) -> str:
    """Return a text with single spaces, and feet and inches as 5' 2" for 5'-2''."""
    plain = " ".join(text.split()).replace("''", '"').strip()
    return _FEET_DASH.sub(r"\1 ", plain)


def _number(match: re.Match[str], unit: Unit | None = None) -> Fraction:
    if match["plain"] is not None:
        return Fraction(match["plain"].rstrip(".") or "0")
    behind = unit.name if unit else match.string[match.end("bottom") :].strip()
    fraction = Written(match["whole"] or "", match["top"], match["slash"], match["bottom"], behind)
    wrong = fault(fraction)
    if wrong is not None:
        raise AmountError(wrong)
    return int(fraction.whole or 0) + fraction.value


def _refuse_comma(text: str, dimension: Dimension | None = None) -> None:
    better = with_blank(text)
    if better != text:
        raise AmountError(f'needs a space before its fraction: "{better}"')
    if _THOUSANDS.search(text):
        raise AmountError(_thousands(text, dimension))
    if _COMMA.search(text):
        better = _COMMA.sub(r"\1.\2", text)
        raise AmountError(f'has a decimal comma; use a decimal point: "{better}"')


def _thousands(text: str, dimension: Dimension | None) -> str:
    """Return what to write for a comma before three digits: either of two numbers.

    No piece of furniture is a thousand inches or centimetres long, so a length that is not in
    millimetres has a decimal comma; of anything else it separates thousands.
    """
    whole = _THOUSANDS.sub(lambda number: number[0].replace(",", ""), text)
    decimal = _THOUSANDS.sub(lambda number: number[0].replace(",", "."), text)
    if decimal.count(".") > 1:
        return f'has a comma; write "{whole}"'
    if dimension == "length" and not text.rstrip().endswith("mm"):
        return f'has a comma; write "{decimal}", or "{whole}" if you mean thousands'
    return f'has a comma; write "{whole}", or "{decimal}" if the comma is a decimal point'


def _check_dimension(number: Fraction, unit: Unit, dimension: Dimension) -> None:
    if unit.dimension == dimension:
        return
    found = f"is {_article(unit.dimension)} ({unit.name})"
    if unit.name == "oz" and dimension == "volume":
        raise AmountError(f'{found}, but it must be a volume; for fluid ounces write "fl oz"')
    if unit.name in ("ft2", "ft3") and dimension == "length" and number.denominator == 1:
        right = f"{number} ft {unit.name[-1]} in"
        raise AmountError(f'{found}; for feet and inches write "{right}"')
    raise AmountError(
        f"{found}, but it must be {_article(dimension)}: use one of {unit_names(dimension)}"
    )


def _check_compound(text: str, units: list[Unit]) -> None:
    """Several terms must be ever smaller lengths: feet, then inches."""
    sizes = [factor(unit.name) for unit in units]
    if any(later >= earlier for earlier, later in itertools.pairwise(sizes)):
        raise AmountError('has its units in the wrong order; feet come first, as in "5 ft 2 in"')
    if len(units) > 1 and {unit.name for unit in units} != {"ft", "in"}:
        raise AmountError("mixes units; write it in one of them")


def _unknown_unit(word: str, dimension: Dimension) -> str:
    near = nearest_unit(word, dimension)
    hint = f'did you mean "{near}"?' if near else f"use one of {unit_names(dimension)}"
    return f'has an unknown unit "{word}"; {hint}'


def _article(dimension: Dimension) -> str:
    return {"area": "an area", "time": "a time"}.get(dimension, f"a {dimension}")
