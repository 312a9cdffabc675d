"""Supplies that no step takes are told; those that any kind of step takes are not."""

import pytest

USED_BY_A_STEP = {
    "coat": ("paint", 'do = "coat"; product = "paint"; coats = 1; by = "brush"'),
    "tint": (
        "moss",
        'do = "coat"; product = "paint"; coats = 1; by = "brush";'
        ' tint = { product = "moss", share = "5 %" }',
    ),
    "cleaner": ("cleaner", 'do = "wash"; product = "cleaner"; strength = "3 %"'),
    "filler": (
        "filler",
        'do = "fill"; product = "filler"; pits = [{ count = 1, diameter = 5, depth = 3 }]',
    ),
    "hardener": (
        "hardener",
        'do = "fill"; product = "filler"; pits = [{ count = 1, diameter = 5, depth = 3 }];'
        ' hardener = { product = "hardener" }',
    ),
    "test": ("paint", 'do = "test"; products = ["paint"]'),
    "glue": ("glue", 'do = "repair"; what = "joints"; product = "glue"; each = "5 ml"'),
    "decal": ("glue", 'do = "decal"; what = "ferns"; product = "glue"; each = "2 ml"'),
    "decorate": ("paint", 'do = "decorate"; what = "ferns"; share = "9 %"; product = "paint"'),
    "lime wax": ("wax", 'do = "lime wax"; product = "wax"'),
    "wax hardware": ("metallic wax", 'do = "wax hardware"; product = "metallic wax"'),
    "rubbed out with": (
        "wax",
        'do = "rub out"; grits = [1000]; with = "disc"; product = "wax"',
    ),
}
PRODUCTS = {
    "paint": "waterborne paint",
    "moss": "waterborne paint",
    "cleaner": "cleaner",
    "filler": "two-part filler; density = '1.7 kg/L'",
    "hardener": "hardener; density = '1.1 kg/L'",
    "glue": "wood glue",
    "metallic wax": "metallic wax",
    "wax": "paste wax",
}
SHELF = """\
[[tape]]
name = "tape"
width = "24 mm"
packs = [{ length = "50 m" }]
[[tape]]
name = "film"
packs = [{ area = "20 m2" }]
[[hardware]]
name = "pulls"
count = 4
plan = "renew"
size = [80, 25, 20]
[[consumable]]
name = "gloves"
lasts = "1 session"
packs = [{ count = 10 }]
"""


@pytest.fixture
def unused(notes):
    """Return what no step takes, by where it stands."""

    def run(*steps, **given):
        found = notes(steps, **{"products": PRODUCTS, **given})
        return {note.where for note in found if note.message.startswith("not ")}

    return run


@pytest.mark.parametrize("way", USED_BY_A_STEP)
def test_a_product_that_a_step_takes_is_used(way, unused):
    name, step = USED_BY_A_STEP[way]
    assert f'product "{name}"' not in unused(step)
    assert f'product "{name}"' in unused('do = "dust off"')


def test_an_abrasive_between_coats_is_used(unused):
    coat = 'do = "coat"; product = "paint"; coats = 2; by = "brush"'
    assert 'abrasive "disc"' in unused(coat)
    assert 'abrasive "disc"' not in unused(f'{coat}; between = {{ grit = 320, with = "disc" }}')


@pytest.mark.parametrize("do", ["sand", "rub out", "strip"])
def test_an_abrasive_of_any_sanding_is_used(do, unused):
    step = f'do = "{do}"; grits = [120]; with = "disc"'
    assert 'abrasive "disc"' not in unused(step)


def test_tape_film_hardware_and_consumables_that_steps_take_are_used(unused):
    steps = (
        'do = "mask"; tape = "tape"; film = "film"; cover = "1 m2"; uses = ["gloves"]',
        'do = "take off"; hardware = ["pulls"]',
    )
    shelf = {'tape "tape"', 'tape "film"', 'hardware "pulls"', 'consumable "gloves"'}
    assert set() == shelf & unused(*steps, more=SHELF)
    assert shelf == shelf & unused('do = "dust off"', more=SHELF)


def test_hardware_that_is_waxed_is_used(unused):
    wax = 'do = "wax hardware"; product = "metallic wax"; hardware = "pulls"'
    assert 'hardware "pulls"' not in unused(wax, more=SHELF)


def test_what_a_mix_is_made_of_is_used_and_a_mix_that_nothing_takes_is_told(unused):
    mix = (
        '[[mix]]\nname = "slate"\n'
        'recipe = [{ product = "paint", parts = 3 }, { product = "moss", parts = 1 }]\n'
    )
    found = unused('do = "dust off"', more=mix)
    assert {'mix "slate"'} == found & {'mix "slate"', 'product "paint"', 'product "moss"'}
    coat = 'do = "coat"; product = "slate"; coats = 1; by = "brush"'
    assert 'mix "slate"' not in unused(coat, more=mix)


def test_a_thinner_that_a_product_names_is_used(unused):
    products = {"paint": 'waterborne paint; thinner = "water"', "water": "water"}
    assert 'product "water"' not in unused('do = "dust off"', products=products)
