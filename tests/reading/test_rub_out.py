"""The wait before a film is rubbed out: as its label says, or as its kind does, in order."""

import pytest
from piece_texts import piece_text

from surfacecalc.api import read_piece_text
from surfacecalc.model.ranges import Factor


def times(**keys: object) -> dict[str, Factor | None]:
    """Return the times of a product by key."""
    text = piece_text({"do": "dust off"}, product={"name": "it", **keys})
    piece = read_piece_text(text).piece
    assert piece is not None
    drying = piece.shelf.products["it"].drying
    assert drying is not None
    return {
        "recoat": drying.recoat_h,
        "rub_out": drying.rub_out_h,
        "cure": drying.cure_h,
    }


@pytest.mark.parametrize(
    ("kind", "written", "key", "expected", "source"),
    [
        ("varnish", {"rub_out": "10 days"}, "rub_out", (240, 240, 240), "label"),
        ("varnish", {"rub_out": ["5 days", "9 days"]}, "rub_out", (120, 168, 216), "label"),
        ("oil-based stain", {"rub_out": "3 days"}, "rub_out", (72, 72, 72), "label"),
        ("varnish", {}, "rub_out", (168, 168, 168), "assumed"),
        # 21 days of its class, which its own cure or recoat moves
        ("waterborne varnish", {"cure": "5 days"}, "rub_out", (120, 120, 120), "assumed"),
        ("shellac", {"recoat": "3 days"}, "rub_out", (72, 72, 72), "assumed"),
        # what is written for rubbing out moves nothing else
        ("shellac", {"rub_out": "10 min"}, "recoat", (0.5, 1, 6), "assumed"),
        ("shellac", {"rub_out": "9 days"}, "cure", (24, 72, 168), "assumed"),
    ],
)
def test_times_of_a_product_are_in_order(
    kind: str, written: dict, key: str, expected: tuple[float, ...], source: str
) -> None:
    found = times(kind=kind, **written)[key]
    assert found is not None
    assert expected == (found.range.low, found.range.likely, found.range.high)
    assert source == found.source


def test_what_leaves_no_film_has_none() -> None:
    assert times(kind="oil-based stain")["rub_out"] is None


@pytest.mark.parametrize(
    ("written", "wrong"),
    [
        (
            {"rub_out": "5 h", "recoat": "6 h"},
            "is shorter than recoat; a finish takes its next coat before it is hard enough",
        ),
        ({"rub_out": "400 days"}, "is over a year; check the unit"),
        ({"rub_out": 3}, "has no unit"),
    ],
)
def test_a_wrong_wait_is_told(written: dict, wrong: str) -> None:
    text = piece_text({"do": "dust off"}, product={"name": "it", "kind": "varnish", **written})
    (told,) = read_piece_text(text).problems
    assert wrong in told.message
    assert told.level == "mend"


def test_a_cure_may_be_over_before_rubbing_out() -> None:
    """Some lacquers are rubbed out weeks after they can be used."""
    found = times(kind="lacquer", cure="7 days", rub_out="14 days")
    assert (168, 336) == tuple(found[k].range.likely for k in ("cure", "rub_out") if found[k])
