"""Notes on what is mixed with a hardener, and none on the sound neighbour."""

import pytest

COAT = 'do = "coat"; product = "clear"; coats = 2; by = "brush"'
HARD = 'hardener = { product = "hard", parts = "4 : 1" }'
PRODUCTS = {"clear": "two-part varnish", "hard": "hardener; packs = [{ size = '100 ml' }]"}


def said(notes, *steps, **given):
    """Return the notes on two-part coats and on mixes that set."""
    found = notes(steps, **{"products": PRODUCTS, **given})
    words = ("two-part", "sets after", "in its recipe")
    return [(n.where, n.message) for n in found if any(word in n.message for word in words)]


def test_a_two_part_coat_without_a_hardener_is_asked_for_it(notes):
    ((where, message),) = said(notes, COAT)
    assert 'coat "clear"' == where
    assert message.startswith("is two-part, and the step has no hardener, so 25 % by volume is")


@pytest.mark.parametrize("more", [HARD, "hardener = false"])
def test_one_that_has_it_or_needs_none_is_sound(notes, more):
    assert [] == said(notes, f"{COAT}; {more}")


@pytest.mark.parametrize("kind", ["varnish", "precatalysed lacquer", "waterborne varnish"])
def test_a_finish_that_comes_ready_to_use_is_sound(notes, kind):
    assert [] == said(notes, COAT, products={"clear": kind})


def test_a_mix_with_its_hardener_in_the_recipe_would_set(notes):
    recipe = """[[mix]]
name = "honey"
recipe = [{ product = "clear", parts = 4 }, { product = "hard", parts = 1 }]
"""
    ((where, message),) = said(notes, COAT.replace("clear", "honey"), more=recipe)
    assert 'coat "honey"' == where
    assert "which would set; take it out of the recipe" in message


@pytest.mark.parametrize(
    ("keys", "batches"),
    [
        # 0.4 x 0.5 m on both sides and four edges is 0.436 m2: at 1 m2/h 26 min and 10 s
        ('pot_life = "10 min"', 3),
        ('pot_life = "14 min"', 2),
        ('pot_life = "27 min"', None),
        ('pot_life = ["20 min", "1 h"]', 2),
    ],
)
def test_a_coat_that_takes_longer_than_the_mix_keeps(notes, keys, batches):
    found = said(notes, f'{COAT}; {HARD}; rate = "1 m2/h"; {keys}')
    assert (batches is not None) == bool(found)
    assert all(f"it is counted in {batches} batches" in message for _, message in found)
    assert all(message.startswith("takes 26 min to put on") for _, message in found)


def test_an_assumed_pot_life_says_so(notes):
    ((_, message),) = said(notes, f'{COAT}; {HARD}; rate = "0.2 m2/h"')
    assert "sets after 2 h (assumed); it is counted in 2 batches" in message
