"""Knots that bleed through a film are told; a coat that holds them back keeps the remark away."""

import pytest

SAND = 'do = "sand"; grits = [180, 220]; with = "disc"'
STRIP = 'do = "strip"; product = "stripper"'
TO_BARE = 'do = "strip"; grits = [80, 120, 180]; with = "disc"'
PRODUCTS = {
    "paint": "waterborne paint",
    "furniture paint": "waterborne furniture paint",
    "primer": "waterborne primer",
    "shellac primer": "shellac-based primer",
    "blocking primer": "stain-blocking primer",
    "shellac": "shellac",
    "sealer": "waterborne sanding sealer",
    "varnish": "waterborne varnish",
    "oil": "drying oil",
    "wax": "paste wax",
    "stripper": "stripper",
}


def coat(product, coats=2, *, do="coat", **keys):
    more = "".join(f'; {key} = "{value}"' for key, value in keys.items())
    return f'do = "{do}"; product = "{product}"; coats = {coats}; by = "brush"{more}'


@pytest.fixture
def told(on_steps):
    """Return a function that gives the coats through which knots are said to bleed."""

    def run(*steps, knots=True, surface="bare"):
        found = on_steps(*steps, surface=surface, products=PRODUCTS, knots=knots)
        return [where for where, message in found if "bare wood with knots" in message]

    return run


FILMS = {
    "paint": ([coat("furniture paint")], 'coat "furniture paint"'),
    "primer under paint": ([coat("primer", 1, do="prime"), coat("paint")], 'prime "primer"'),
    "clear": ([SAND, coat("varnish", 3, do="top coat")], 'top coat "varnish"'),
    "clear over a sealer without shellac": (
        [coat("sealer", 1, do="seal"), coat("varnish")],
        'coat "varnish"',
    ),
}
HELD_BACK = {
    "blocked all over": [coat("primer", 1, do="block"), coat("paint")],
    "blocked on the knots alone": [
        coat("shellac primer", 1, do="block", spot="10 %"),
        coat("furniture paint"),
    ],
    "sealed with shellac": [coat("shellac", 1, do="seal"), coat("varnish")],
    "primed with shellac": [coat("shellac primer", 1, do="prime"), coat("paint")],
    "primed with what blocks": [coat("blocking primer", 1, do="prime"), coat("paint")],
    "finished with shellac": [coat("shellac", 3, do="top coat")],
    "oiled and waxed": [coat("oil"), coat("wax", 1, do="wax")],
}


@pytest.mark.parametrize("name", FILMS)
def test_first_film_on_bare_knots_is_told_once(name, told):
    steps, where = FILMS[name]
    assert [where] == told(*steps)


@pytest.mark.parametrize("name", HELD_BACK)
def test_knots_that_are_held_back_or_under_no_film_are_not_told(name, told):
    assert [] == told(*HELD_BACK[name])


@pytest.mark.parametrize("name", FILMS)
def test_wood_without_knots_is_not_told(name, told):
    assert [] == told(*FILMS[name][0], knots=False)


@pytest.mark.parametrize("surface", ["sealed", "varnished", "painted"])
def test_knots_under_an_old_finish_are_not_told(surface, told):
    assert [] == told(SAND, coat("furniture paint"), surface=surface)


@pytest.mark.parametrize("to_bare", [STRIP, TO_BARE])
def test_knots_under_a_finish_that_is_stripped_are_told(to_bare, told):
    assert ['coat "paint"'] == told(to_bare, coat("paint"), surface="painted")


def test_a_block_that_is_stripped_off_again_holds_nothing_back(told):
    block = coat("shellac primer", 1, do="block")
    assert ['coat "paint"'] == told(block, STRIP, coat("paint"))
    assert [] == told(STRIP, block, coat("paint"))


def test_a_block_over_the_first_film_comes_too_late(told):
    block = coat("shellac primer", 1, do="block")
    found = told(coat("primer", 1, do="prime"), block, coat("paint"))
    assert ['prime "primer"'] == found


def test_paint_on_bare_knots_gets_one_remark_not_two(on_steps):
    found = on_steps(coat("paint"), products=PRODUCTS, knots=True)
    assert 1 == len(found)
