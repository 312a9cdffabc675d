"""Hardeners and pot lives of coats and fillers: what is read, and what is refused in one line."""

from typing import Any

import pytest
from piece_texts import measured, piece_text

from surfacecalc.api import read_piece_text
from surfacecalc.model.step_facts import coats_of, filling_of
from surfacecalc.model.steps import Coat

VARNISH = {"name": "clear", "kind": "two-part varnish"}
READY = {"name": "clear", "kind": "waterborne varnish"}
HARD = {"name": "hard", "kind": "hardener", "packs": [{"size": "100 ml"}]}
PASTE = {"name": "hard", "kind": "hardener"}
STEP = {"do": "coat", "product": "clear", "coats": 2, "by": "brush"}
FILL = {"do": "fill", "product": "clear", "pits": [{"diameter": "6 mm", "depth": "3 mm"}]}
FILLER = {"name": "clear", "kind": "two-part filler", "density": "1.8 kg/L"}


def coat(product: dict[str, Any] = VARNISH, hard: dict[str, Any] = HARD, **keys: Any) -> Coat:
    """Return the coat of a piece."""
    text = piece_text({**STEP, **keys}, product=[product, hard])
    (found,) = coats_of(measured(text).piece.zones[0].steps)
    return found


def mistakes(
    hardener: Any,
    *,
    product: dict[str, Any] = VARNISH,
    hard: dict[str, Any] = HARD,
    plain: dict[str, Any] = STEP,
) -> list[str]:
    """Return what is wrong with a step."""
    step = {**plain, **({} if hardener is None else {"hardener": hardener})}
    reading = read_piece_text(piece_text(step, product=[product, hard]))
    return [one.message for one in reading.problems if one.level == "mend"]


@pytest.mark.parametrize(
    ("parts", "share"),
    [("4 : 1", 0.25), ("10:1", 0.1), ("2 : 1.5", 0.75), ("1:1", 1.0), (["5 : 1", "4 : 1"], 0.225)],
)
def test_parts_are_those_of_the_product_then_of_the_hardener(parts, share):
    found = coat(hardener={"product": "hard", "parts": parts}).hardener
    assert ("hard", "hardener", "volume") == (found.product, found.role, found.by)
    assert share == pytest.approx(found.share.range.likely)
    assert "piece file" == found.share.source


def test_a_tint_and_a_hardener_of_one_step_vary_each_by_itself():
    found = coat(
        hardener={"product": "hard", "share": "20 %"}, tint={"product": "hard", "share": "5 %"}
    )
    assert found.hardener.share.draw_key != found.tint.share.draw_key
    assert found.hardener.share.draw_key != found.pot_life.draw_key


def test_what_is_sold_by_weight_is_hardened_by_weight():
    heavy = {**VARNISH, "covers": "8 m2/kg"}
    found = coat(heavy, PASTE, hardener={"product": "hard", "parts": "5 : 1"}).hardener
    assert "weight" == found.by


@pytest.mark.parametrize(
    ("product", "hardener", "share", "pot_life"),
    [
        (VARNISH, {"product": "hard"}, (0.10, 0.25, 0.50), (2, 4, 8)),
        ({**VARNISH, "kind": "2K paint"}, None, (0.10, 0.25, 0.50), (2, 4, 8)),
        ({**VARNISH, "kind": "conversion varnish"}, None, (0.05, 0.10, 0.15), (4, 8, 24)),
        # a varnish that is not two-part by its kind: then the file says how much, not how long
        (READY, {"product": "hard", "share": "5 %"}, (0.05, 0.05, 0.05), (2, 4, 8)),
    ],
)
def test_what_is_assumed(product, hardener, share, pot_life):
    found = coat(product, **({"hardener": hardener} if hardener else {}))
    known = found.hardener.share.range
    assert share == pytest.approx((known.low, known.likely, known.high))
    hours = found.pot_life
    assert pot_life == (hours.range.low, hours.range.likely, hours.range.high)
    assert ("assumed", "h") == (hours.source, hours.unit)
    own = (hardener or {}).get("share")
    assert ("piece file" if own else "assumed") == found.hardener.share.source


def test_a_pot_life_of_its_own_needs_no_hardener():
    """Casein paint is mixed with water, and sours in a day."""
    found = coat({**READY, "kind": "casein paint"}, pot_life="24 h")
    assert (None, 24.0) == (found.hardener, found.pot_life.range.likely)
    assert "piece file" == found.pot_life.source


def test_a_plain_coat_has_neither():
    assert (None, None) == (coat(READY).hardener, coat(READY).pot_life)
    assert (None, None) == (coat(hardener=False).hardener, coat(hardener=False).pot_life)


def test_a_two_part_product_by_weight_is_not_hardened_by_a_guess():
    assert coat({**VARNISH, "covers": "8 m2/kg"}).hardener is None


@pytest.mark.parametrize(
    ("hardener", "why"),
    [
        ({"product": "hard", "parts": "1 : 4"}, 'the product comes first, "4 : 1"'),
        ({"product": "hard", "parts": "4 : 0"}, 'the product comes first, "4 : 1"'),
        ({"product": "hard", "parts": "0 : 1"}, "must be two numbers, as on the tin"),
        ({"product": "hard", "parts": "4 and 1"}, "must be two numbers, as on the tin"),
        ({"product": "hard", "parts": "1 to 4"}, 'the product comes first, "4 : 1"'),
        ({"product": "hard", "parts": 4}, "must be two numbers, as on the tin"),
        ({"product": "hard", "parts": "4 : 1", "share": "25 %"}, "is given beside parts"),
        ({"product": "hard", "share": "0 %"}, "more than 0 %"),
        ({"product": "hard", "share": "120 %"}, "at most 100 %"),
        ({"product": "hard", "by": "feel", "share": "5 %"}, "is not known"),
        ({"product": "hart", "share": "5 %"}, 'did you mean "hard"?'),
        ({"product": "clear", "share": "5 %"}, "is what the step puts on"),
        ({"parts": "4 : 1"}, "has no product"),
        ("hard", 'hardener = { product = "hardener", parts = "4 : 1" }'),
        (True, 'hardener = { product = "hardener", parts = "4 : 1" }'),
        ({"product": "hard", "part": "4 : 1"}, "part"),
    ],
)
def test_a_mistake_in_a_hardener_is_one_line(hardener, why):
    (message,) = mistakes(hardener)
    assert why in message


def test_parts_as_they_are_said_are_a_ratio_and_no_range():
    said, written = (coat(hardener={"product": "hard", "parts": p}) for p in ("4 to 1", "4 : 1"))
    assert 0.25 == written.hardener.share.range.likely
    assert written.hardener.share.range == said.hardener.share.range


def test_what_is_not_two_part_by_its_kind_needs_a_share():
    (message,) = mistakes({"product": "hard"}, product=READY)
    assert 'hardener has no parts; add parts = "4 : 1"' == message


@pytest.mark.parametrize("hours", ["0 h", "20 s", "31 days", "4"])
def test_a_pot_life_that_cannot_be(hours):
    (message,) = mistakes(None, plain={**STEP, "pot_life": hours})
    assert "pot_life" in message


BY_WEIGHT = {"product": "hard", "share": "5 %", "by": "weight"}
BY_VOLUME = {"product": "hard", "share": "5 %", "by": "volume"}


@pytest.mark.parametrize(
    ("hardener", "product", "hard", "missing"),
    [
        (BY_WEIGHT, VARNISH, {**HARD, "density": "1.1 kg/L"}, ['product "clear" is sold by vol']),
        (BY_WEIGHT, {**VARNISH, "density": "1 kg/L"}, HARD, ['hardener "hard" is sold by vol']),
        (BY_WEIGHT, VARNISH, HARD, ['"clear" is sold by volume', '"hard" is sold by volume']),
        (BY_WEIGHT, {**VARNISH, "density": "1 kg/L"}, PASTE, ['density of "hard" is not known']),
        (BY_VOLUME, VARNISH, PASTE, ['hardener "hard" is sold by weight; add density = "1.1 kg/L"'
                                     " or packs by volume"]),
        (BY_VOLUME, VARNISH, {**PASTE, "density": "1.1 kg/L"}, []),
        (BY_VOLUME, VARNISH, HARD, []),
        (BY_WEIGHT, {**VARNISH, "covers": "8 m2/kg"}, PASTE, []),
    ],
)  # fmt: skip
def test_a_share_that_cannot_be_turned_into_what_is_sold_asks_for_a_density(
    hardener, product, hard, missing
):
    found = mistakes(hardener, product=product, hard=hard)
    assert len(missing) == len(found)
    assert all(part in message for part, message in zip(missing, found, strict=True))


@pytest.mark.parametrize(
    ("hardener", "by", "share"),
    [
        ({"product": "hard", "share": "2 %"}, "weight", 0.02),
        ({"product": "hard", "parts": "50 : 1"}, "weight", 0.02),
        ({"product": "hard", "parts": "25 : 1", "by": "volume"}, "volume", 0.04),
    ],
)
def test_a_filler_has_the_same_words(hardener, by, share):
    text = piece_text(
        {**FILL, "hardener": hardener}, product=[FILLER, {**HARD, "density": "1 kg/L"}]
    )
    fill = filling_of(measured(text).piece.zones[0].steps[0])
    assert (by, share) == (fill.hardener.by, pytest.approx(fill.hardener.share.range.likely))


def test_a_liquid_hardener_for_a_filler_by_weight_needs_its_density_and_a_paste_does_not():
    said = mistakes(BY_WEIGHT, product=FILLER, plain=FILL)
    assert ['hardener "hard" is sold by volume' in one for one in said] == [True]
    assert [] == mistakes(BY_WEIGHT, product=FILLER, hard=PASTE, plain=FILL)
    # and by volume only what is sold by weight does
    (paste,) = mistakes(BY_VOLUME, product=FILLER, hard=PASTE, plain=FILL)
    assert 'hardener "hard" is sold by weight' in paste
    assert [] == mistakes(BY_VOLUME, product=FILLER, plain=FILL)
