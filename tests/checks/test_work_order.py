"""Each remark on the work around the coats comes where it should, and nowhere else."""

import pytest

PAINT = 'do = "coat"; product = "furniture paint"; coats = 2; by = "brush"'
VARNISH = 'do = "top coat"; product = "varnish"; coats = 2; by = "brush"'
PRIME = 'do = "prime"; product = "primer"; by = "brush"'
WAX = 'do = "wax"; product = "wax"'
STRIP = 'do = "strip"; product = "stripper"'
FILL = 'do = "fill"; product = "filler"; pits = [{ count = 3, diameter = 5, depth = 3 }]'
SOFT = FILL.replace('"filler"', '"wax stick"')
OFF = 'do = "take off"; hardware = ["pulls"]'
REFIT = 'do = "refit"; hardware = ["pulls"]'
DECAL = 'do = "decal"; what = "rose decals"'
BORDER = 'do = "decorate"; what = "a stencilled border"; area = "0.1 m2"'
DUST = 'do = "dust off"'
WORN = 'do = "distress"; grits = [220]; with = "disc"'
SAND = 'do = "sand"; grits = [220]; with = "disc"'
WASH = 'do = "wash"; product = "cleaner"; strength = "3 %"'
SEAL = 'do = "seal"; product = "shellac"; by = "brush"'
TEST = 'do = "test"; products = ["furniture paint"]'
MASK = 'do = "mask"; tape = "tape"'
SPOTS = PRIME + '; spot = "10 %"'
SHELF = (
    '[[hardware]]\nname = "pulls"\ncount = 4\nplan = "keep"\n'
    '[[hardware]]\nname = "hinges"\ncount = 4\nplan = "keep"\n'
    '[[tape]]\nname = "tape"\nwidth = "24 mm"\npacks = [{ length = "50 m" }]\n'
)


@pytest.fixture
def remarks(on_steps):
    """Return what is told of steps, by where it is."""

    def run(*steps, **given):
        found = on_steps(*steps, more=SHELF, **given)
        return [(w, m) for w, m in found if not m.startswith("not taken off")]

    return run


CLEAN = {
    "decal under varnish": [PRIME, PAINT, DECAL, VARNISH],
    "decal under shellac": [PRIME, PAINT, DECAL, SEAL],
    "decal sealed, sanded and varnished": [PRIME, PAINT, DECAL, SEAL, SAND, VARNISH],
    "decal on wood that was waxed and washed": [WAX, WASH, DECAL, VARNISH],
    "decal under paint on spots": [PRIME, PAINT, DECAL, PAINT + '; spot = "5 %"', VARNISH],
    "border under varnish": [PRIME, PAINT, BORDER, VARNISH],
    "worn under varnish": [PRIME, PAINT, WORN, VARNISH],
    "worn under wax": [PAINT, WORN, WAX],
    "worn, decorated and varnished": [PRIME, PAINT, WORN, BORDER, VARNISH],
    "decorated, worn and varnished": [PRIME, PAINT, BORDER, WORN, VARNISH],
    "in the usual order": [TEST, OFF, FILL, MASK, PRIME, PAINT, VARNISH, REFIT],
    "strip, then paint": [STRIP, PRIME, PAINT],
    "filled after primer": [PRIME, FILL, PAINT],
    "filled after the first paint and painted again": [PAINT, FILL, PAINT],
    "spots, then paint": [SPOTS, PAINT],
    "wax after refit": [OFF, PAINT, REFIT, WAX],
    "test after stripping": [STRIP, TEST, PAINT],
    "wax stick after the finish": [VARNISH, SOFT],
    "shellac as the only finish": ['do = "seal"; product = "shellac"; by = "brush"'],
}


@pytest.mark.parametrize("name", CLEAN)
def test_usual_order_has_no_remark(name, remarks):
    assert [] == remarks(*CLEAN[name])


@pytest.mark.parametrize("strip", [STRIP, 'do = "strip"; grits = [80]; with = "disc"'])
def test_stripping_after_a_coat_is_told(strip, remarks):
    assert [("strip", "strip before the first coat")] == [
        (where, message[-27:]) for where, message in remarks(PAINT, strip)
    ]


@pytest.mark.parametrize("finish", [PAINT, VARNISH, WAX])
def test_filling_after_the_finish_is_told(finish, remarks):
    assert ["fill"] == [where for where, _ in remarks(finish, FILL)]


def test_spots_that_nothing_covers_are_told(remarks):
    assert ['prime "primer"'] == [w for w, m in remarks(PAINT, SPOTS) if "so they will show" in m]


def test_primer_as_the_last_coat_is_told(remarks):
    assert ['prime "primer"'] == [w for w, m in remarks(PRIME) if "painted over" in m]


def test_primer_under_stripping_alone_is_told_as_uncovered(remarks):
    assert any("painted over" in message for _, message in remarks(PRIME, STRIP))


def test_refit_before_take_off_is_told(remarks):
    assert [("refit", "comes before the take off of line 17: swap the two steps")] == remarks(
        REFIT, OFF
    )


def test_refit_of_other_hardware_before_take_off_is_not_told(remarks):
    assert [] == remarks('do = "refit"; hardware = ["hinges"]', OFF)


def test_refit_before_the_last_coat_is_told(remarks):
    assert ["refit"] == [where for where, _ in remarks(OFF, PAINT, REFIT, VARNISH)]


def test_take_off_after_a_coat_is_told(remarks):
    assert ["take off"] == [where for where, _ in remarks(PAINT, OFF)]


def test_masking_after_the_last_coat_is_told(remarks):
    assert ["mask"] == [where for where, _ in remarks(PAINT, MASK)]


def test_masking_between_two_coats_is_not_told(remarks):
    assert [] == remarks(PAINT, MASK, VARNISH)


def test_a_test_after_a_coat_is_told(remarks):
    assert ["test"] == [where for where, _ in remarks(PRIME, TEST, PAINT)]


DEEP = FILL.replace("depth = 3", "depth = 9")


def test_deep_hole_filled_in_one_go_is_told(remarks):
    ((where, message),) = remarks(DEEP, PRIME, PAINT)
    assert "fill" == where
    assert "applications = 2" in message


def test_deep_hole_filled_twice_is_no_matter(remarks):
    assert [] == remarks(f"{DEEP}; applications = 2", PRIME, PAINT)


@pytest.mark.parametrize(
    ("steps", "told"),
    [
        ([PRIME, PAINT, DECAL], "has no clear coat over it"),
        ([PRIME, PAINT, DECAL, WAX], "has no clear coat over it"),
        ([DECAL, PRIME, PAINT, VARNISH], "is hidden by the primer of line"),
        ([PRIME, PAINT, DECAL, SAND, VARNISH], "is taken off again in line"),
        ([DECAL, STRIP, PRIME, PAINT], "is taken off again in line"),
        ([WAX, DECAL], "a decal does not stick to wax"),
    ],
)
def test_decal_that_does_not_stick_stay_or_show_is_told(steps, told, remarks):
    found = [message for where, message in remarks(*steps) if where == "decal"]
    assert 1 == len(found)
    assert told in found[0]


@pytest.mark.parametrize(
    ("steps", "told"),
    [
        ([PRIME, PAINT, BORDER], "has no clear coat over it"),
        ([BORDER, PRIME, PAINT, VARNISH], "put the decoration on after the last coat of paint"),
        ([PRIME, PAINT, BORDER, SAND, VARNISH], "put the decoration on after that step"),
        ([WAX, BORDER], "a decoration does not stick to wax: put the decoration on before the wax"),
    ],
)
def test_decoration_that_does_not_stick_stay_or_show_is_told(steps, told, remarks):
    found = [message for where, message in remarks(*steps) if where == "decorate"]
    assert 1 == len(found)
    assert told in found[0]


@pytest.mark.parametrize(
    ("steps", "told"),
    [
        ([WORN, PRIME, PAINT, VARNISH], "which covers the worn edges again: distress after the"),
        ([PRIME, WORN, PAINT, VARNISH], "comes before the furniture paint of line"),
        ([PRIME, PAINT, VARNISH, WORN], "wears through the varnish of line"),
        ([PRIME, PAINT, VARNISH, WORN, VARNISH], "opens the edges: distress before it"),
        ([PRIME, PAINT, WORN], "leaves edges of bare wood that nothing covers"),
    ],
)
def test_distressing_in_the_wrong_place_is_told(steps, told, remarks):
    found = [message for where, message in remarks(*steps) if where == "distress"]
    assert 1 == len(found)
    assert told in found[0]


@pytest.mark.parametrize("between", [[BORDER], [WORN], []])
def test_neither_decorating_nor_distressing_takes_dust_off(between, by_eye):
    told = "nothing to take the dust off"
    found = by_eye(SAND, *between, PAINT, VARNISH)
    assert 1 == len([one for one in found if told in one.message])
    assert not [one for one in by_eye(SAND, *between, DUST, PAINT, VARNISH) if told in one.message]


def test_worn_edges_are_not_sanding_of_the_zone(remarks):
    """Neither does it scuff between coats, nor does it go through the colour by mistake."""
    stained = ['do = "stain"; product = "water stain"', WORN, VARNISH]
    assert not [m for where, m in remarks(*stained) if "can sand through" in m]
