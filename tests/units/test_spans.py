"""The two ends of a range in one text."""

import pytest

from surfacecalc.units.spans import two_ends


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("75 to 100 ft2/quart", "75 ft2/quart", "100 ft2/quart"),
        ("75 ft2/quart to 100 ft2/quart", "75 ft2/quart", "100 ft2/quart"),
        ("75-100 sq ft/qt", "75 sq ft/qt", "100 sq ft/qt"),
        ("75 \u2013 100 sq. ft. per qt", "75 sq. ft. per qt", "100 sq. ft. per qt"),
        ("1/2 to 1 h", "1/2 h", "1 h"),
        ("1 1/2 to 2 h", "1 1/2 h", "2 h"),
        ("20 min to 1 h", "20 min", "1 h"),
        ("2 h to 4", "2 h", "4 h"),
        ("5-10 %", "5 %", "10 %"),
        ("5% to 10%", "5%", "10%"),
        ("-5 to 12 C", "-5 C", "12 C"),
        ("2 TO 3", "2", "3"),
        ("2.5-3.5 h", "2.5 h", "3.5 h"),
    ],
)
def test_two_ends_share_a_unit(text: str, low: str, high: str) -> None:
    assert (low, high) == two_ends(text)


@pytest.mark.parametrize(
    "text", ["44-1/2 in", "44 - 1/2 in", "12-1 / 2", "75 ft2/quart", "to", "2 to", "to 3", "2-", ""]
)
def test_one_value_has_no_ends(text: str) -> None:
    assert two_ends(text) is None
