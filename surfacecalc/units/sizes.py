"""Exact sizes of the listed units, in mm, m2, L, kg or h.

Generated: `python tests/units/test_sizes.py` writes the table from `pint`, and a test compares each
row with it. It is a table because `pint` takes 0.3 s at every start to build its own.
"""

from fractions import Fraction

SIZES = {
    "mm": Fraction(1, 1),
    "cm": Fraction(10, 1),
    "m": Fraction(1_000, 1),
    "in": Fraction(127, 5),
    "ft": Fraction(1_524, 5),
    "yd": Fraction(4_572, 5),
    "um": Fraction(1, 1_000),
    "mil": Fraction(127, 5_000),
    "m2": Fraction(1, 1),
    "ft2": Fraction(145_161, 1_562_500),
    "ml": Fraction(1, 1_000),
    "L": Fraction(1, 1),
    "fl oz": Fraction(473_176_473, 16_000_000_000),
    "pint": Fraction(473_176_473, 1_000_000_000),
    "quart": Fraction(473_176_473, 500_000_000),
    "gallon": Fraction(473_176_473, 125_000_000),
    "g": Fraction(1, 1_000),
    "kg": Fraction(1, 1),
    "oz": Fraction(45_359_237, 1_600_000_000),
    "lb": Fraction(45_359_237, 100_000_000),
    "min": Fraction(1, 60),
    "h": Fraction(1, 1),
    "days": Fraction(24, 1),
}
