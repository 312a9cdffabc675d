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
