"""The gun and its cup: for sprayed coats alone, and of a size that guns have."""

import pytest
from piece_texts import piece_text

from surfacecalc.api import read_piece_text

PAINT = {"name": "enamel", "kind": "waterborne paint"}


def told(**step: object) -> list[str]:
    coat = {"do": "coat", "product": "enamel", "coats": 1, "by": "spray", **step}
    return [one.message for one in read_piece_text(piece_text(coat, product=PAINT)).problems]


@pytest.mark.parametrize("gun", ["hvlp", "airless", "conventional"])
def test_a_gun_is_read(gun: str) -> None:
    assert told(gun=gun) == []


@pytest.mark.parametrize("cup", ["50 ml", "20 L", "20 fl oz", ["400 ml", "600 ml"]])
def test_a_cup_is_read(cup: object) -> None:
    assert told(cup=cup) == []


@pytest.mark.parametrize(
    ("step", "words"),
    [
        ({"gun": "hvlp", "by": "brush"}, 'is for by = "spray", and this step says by = "brush"'),
        ({"cup": "1 L", "by": "roller"}, 'is for by = "spray", and this step says by = "roller"'),
        ({"gun": "hvpl"}, 'did you mean "hvlp"?'),
        ({"cup": "49 ml"}, "must be from 50 ml to 20 litres"),
        ({"cup": "21 L"}, "must be from 50 ml to 20 litres"),
        ({"cup": "1 kg"}, "must be a volume"),
        ({"cup": 1}, "has no unit"),
    ],
)
def test_a_wrong_gun_or_cup_is_told(step: dict, words: str) -> None:
    (message,) = told(**step)
    assert words in message
