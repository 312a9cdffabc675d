"""The table of sizes is what pint says today, exactly.

Run as a script it writes the table anew: `python -P tests/units/test_sizes.py`.
"""

import sys
from fractions import Fraction
from pathlib import Path

import pytest

from surfacecalc.units import registry, sizes
from surfacecalc.units.registry import size_of
from surfacecalc.units.sizes import SIZES
from surfacecalc.units.table import UNITS, Unit

TABLE = Path(sizes.__file__)
START, END = "SIZES = {\n", "}\n"


def table_from_pint() -> str:
    """Return the module with its table as pint has the sizes."""
    text = TABLE.read_text(encoding="utf-8")
    before, rest = text.split(START)
    _, after = rest.split(END)
    rows = [(unit.name, size_of(unit)) for unit in UNITS]
    lines = [
        f'    "{name}": Fraction({size.numerator:_}, {size.denominator:_}),\n'
        for name, size in rows
    ]
    return f"{before}{START}{''.join(lines)}{END}{after}"


def test_table_of_sizes_is_what_pint_says_today() -> None:
    assert table_from_pint() == TABLE.read_text(encoding="utf-8")


@pytest.mark.parametrize("unit", UNITS, ids=lambda unit: unit.name)
def test_size_in_the_table_equals_that_of_pint_exactly(unit: Unit) -> None:
    assert isinstance(SIZES[unit.name], Fraction)
    assert size_of(unit) == SIZES[unit.name]


def test_scipy_is_as_it_was_after_pint_was_read_without_it(monkeypatch: pytest.MonkeyPatch) -> None:
    loaded = object()
    monkeypatch.setitem(sys.modules, "scipy", loaded)
    registry._registry.__wrapped__()
    assert sys.modules["scipy"] is loaded
    monkeypatch.delitem(sys.modules, "scipy")
    registry._registry.__wrapped__()
    assert "scipy" not in sys.modules


def test_table_has_a_size_for_each_listed_unit_and_no_other() -> None:
    assert [unit.name for unit in UNITS] == list(SIZES)


if __name__ == "__main__":
    TABLE.write_text(table_from_pint(), encoding="utf-8")
