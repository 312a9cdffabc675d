"""What is left in a jar, as it can be told in a workshop: read off, by its depth, or weighed."""

import math
import re

from surfacecalc.model.shelf import Basis
from surfacecalc.reading.tables import Table, shown
from surfacecalc.units.grammar import AmountError, parse_density
from surfacecalc.units.spans import two_ends

MM3_IN_L = 1_000_000
MOST_ON_HAND = 1_000.0
"""L or kg; more is a wrong unit."""
KEYS = ("depth", "diameter", "width", "length", "height", "weight", "empty", "density")
EXAMPLE = '"300 ml", { depth = "2 in", diameter = "3 in" } or { weight = "420 g", empty = "60 g" }'

_HALF_A = re.compile(
    r"half an? (pint|quart|gallon|litre|liter|kilo|kg|pound|lb|fl oz|L|oz)", re.IGNORECASE
)
_PART_OF_A_JAR = re.compile(
    r"\b(jars?|tins?|cans?|pots?|tubs?|bottles?|full|half|empty)\b", re.IGNORECASE
)


def read_on_hand(table: Table, basis: Basis | None) -> float:
    """Return what is on hand [L or kg], 0 where the table does not say.

    Args:
        table: the product's table; its density serves for what is weighed.
        basis: what it is sold by; None where that is unknown, and nothing is checked.
    """
    if "on_hand" not in table or basis is None:
        return 0.0
    value = table.values["on_hand"]
    if isinstance(value, dict):
        inner = table.table("on_hand", EXAMPLE)
        amount = _in_jar(inner, basis, table) if inner else None
    elif isinstance(value, str) and (wrong := _no_single_amount(value, basis)):
        table.refuse("on_hand", wrong)
        return 0.0
    else:
        amount = table.amount(value, basis, "on_hand")
    if amount is None:
        return 0.0
    if amount < 0:
        table.refuse("on_hand", "must be zero or more")
    elif amount > MOST_ON_HAND:
        table.refuse("on_hand", "is over 1,000 litres or kilos; check the unit")
    return amount


def _no_single_amount(text: str, basis: Basis) -> str:
    """Return why a text cannot be one amount, with what would be right; empty where it may be."""
    if ends := two_ends(text):
        return f'is one amount, not a range; write the lower one: "{ends[0]}"'
    if half := _HALF_A.fullmatch(text.strip()):
        return f'is written in digits: "1/2 {half[1]}"'
    if _PART_OF_A_JAR.search(text):
        return f"does not say how large the jar is; {_how_to_tell(basis)}"
    return ""


def _how_to_tell(basis: Basis) -> str:
    """Return how to say what is left in a jar."""
    if basis == "weight":
        right = 'weigh it, less the empty jar: on_hand = { weight = "420 g", empty = "60 g" }'
    else:
        right = (
            "measure how deep the rest is and how wide the jar is:"
            ' on_hand = { depth = "2 in", diameter = "3 1/2 in" }'
        )
    return f"{right}; see: surfacecalc guide products"


def read_density(table: Table) -> float | None:
    """Return the density of a product [kg/L], None where neither it nor its jar says."""
    if "density" in table:
        return _density(table)
    jar = table.values.get("on_hand")
    value = jar.get("density") if isinstance(jar, dict) else None
    try:
        return float(parse_density(value)) if isinstance(value, str) else None
    except AmountError:
        return None  # recorded where the jar is read


def _in_jar(jar: Table, basis: Basis, product: Table) -> float | None:
    jar.only(KEYS)
    if "weight" in jar:
        return _weighed(jar, basis, product)
    if "depth" not in jar:
        jar.mend(f"on_hand has neither depth nor weight; write it like {EXAMPLE}")
        return None
    if basis == "weight":
        jar.mend(
            "on_hand gives a depth, but this product is sold by weight; weigh the jar and write"
            ' on_hand = { weight = "420 g", empty = "60 g" }'
        )
        return None
    return _by_depth(jar)


def _by_depth(jar: Table) -> float | None:
    """Return the volume in a round or a square jar [L]."""
    depth = jar.size_mm("depth")
    if "height" in jar and jar.size_mm("height") < depth:
        jar.refuse("depth", "is more than the height of the jar")
    if "diameter" in jar:
        for key in ("width", "length"):
            if key in jar:
                jar.mend(
                    f"has both diameter and {key}; keep diameter if the jar is round, width if not",
                    key,
                )
        base = math.pi / 4 * jar.size_mm("diameter") ** 2
    else:
        base = jar.size_mm("width") * jar.size_mm("length" if "length" in jar else "width")
    return depth * base / MM3_IN_L if jar.is_sound else None


def _weighed(jar: Table, basis: Basis, product: Table) -> float | None:
    """Return what a weighed jar holds [kg, or L by its density]."""
    full = jar.amount(jar.values["weight"], "weight", "weight")
    empty = jar.amount(jar.values["empty"], "weight", "empty") if "empty" in jar else 0.0
    density = _density_of_jar(jar, product) if basis == "volume" else 1.0
    if full is None or empty is None or density is None:
        return None
    if not 0 <= empty <= full:
        jar.refuse("empty", "must be from zero to the weight of the full jar")
        return None
    return (full - empty) / density


def _density_of_jar(jar: Table, product: Table) -> float | None:
    """Return the density by which a jar was weighed [kg/L], or None after recording why not."""
    if "density" not in product:
        has = jar.has("density", '"1.3 kg/L" (this product is sold by volume)')
        return _density(jar) if has else None
    if "density" in jar:
        jar.refuse("density", "is also given for the product; keep one of them")
    return _density(product)


def _density(jar: Table) -> float | None:
    """Return the density in a table that has one [kg/L], or None after recording a mistake."""
    value = jar.values["density"]
    try:
        if not isinstance(value, str):
            raise AmountError('has no unit; write it like "1.3 kg/L"')
        density = float(parse_density(value))
    except AmountError as error:
        jar.mend(f"density = {shown(value)} {error}", "density")
        return None
    if not 0.5 <= density <= 3:
        jar.refuse("density", "must be from 0.5 to 3 kg/L, as it is for finishes; check the unit")
    return density
