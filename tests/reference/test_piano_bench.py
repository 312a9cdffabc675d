"""Exposed area of a bench whose stock list was printed in 1912, by hand.

Source of the sizes: a workshop manual of 1912 on plain oak furniture, part 3, pages 5 to 7 (public
domain, Project Gutenberg eBook 23666). Parts are butted:
tenons and housings are left out, and where each part stands is worked out here.
"""

import pytest

from shapes.boards import board
from shapes.exposure import exposure
from shapes.legs import square_leg
from shapes.placement import place, row

ROUNDING = 1e-12
"""Sums of some dozens of float64 products; in inches every length is on the grid."""
INCH = 25.4

STOCK = {  # name: (how many, width, depth, height [in] as they stand)
    "top": (1, 40.5, 16.5, 1),
    "post": (4, 1.5, 1.5, 20),
    "long rail": (2, 36, 0.875, 4.25),
    "end rail": (2, 0.875, 13, 4.25),
    "lower rail": (2, 0.875, 13, 2.5),
    "stretcher": (1, 36, 0.875, 3.75),
    "slat": (6, 0.375, 1.25, 11),
}
FACES_IN2 = {
    "top": 1450.5,  # 2 x (40.5 x 16.5 + 40.5 x 1 + 16.5 x 1) = 2 x 725.25
    "post": 498.0,  # 4 x 2 x (2.25 + 30 + 30) = 4 x 124.5
    "long rail": 752.875,  # 2 x 2 x (31.5 + 153 + 3.71875) = 2 x 376.4375
    "end rail": 281.375,  # 2 x 2 x (11.375 + 3.71875 + 55.25) = 2 x 140.6875
    "lower rail": 184.25,  # 2 x 2 x (11.375 + 2.1875 + 32.5) = 2 x 92.125
    "stretcher": 339.5625,  # 2 x (31.5 + 135 + 3.28125)
    "slat": 220.125,  # 6 x 2 x (0.46875 + 4.125 + 13.75) = 6 x 36.6875
}
ALL_FACES_IN2 = 3726.6875
CONTACTS_IN2 = {
    "posts under the top": 9.0,  # 4 x 1.5 x 1.5
    "long rails under the top": 63.0,  # 2 x 36 x 0.875
    "end rails under the top": 22.75,  # 2 x 13 x 0.875
    "long rails between posts": 14.875,  # 4 ends x 0.875 x 4.25
    "end rails between posts": 14.875,  # 4 ends x 0.875 x 4.25
    "lower rails between posts": 8.75,  # 4 ends x 0.875 x 2.5
    "stretcher between lower rails": 4.375,  # 2 ends x 0.875 x 2.5, as high as the rail
    "slats on lower rails": 2.8125,  # 6 x 0.375 x 1.25
    "slats under end rails": 2.8125,  # 6 x 0.375 x 1.25
}
CONTACT_IN2 = 143.25
EXPOSED_IN2 = 3440.1875  # 3726.6875 - 2 x 143.25: what touches is hidden on both sides


def mm(*inches):
    return tuple(INCH * length for length in inches)


def solid(name):
    _, width, depth, height = STOCK[name]
    if name == "post":
        return square_leg(height * INCH, width * INCH)
    return board(*mm(width, depth, height))


def bench():
    def two(name, stock, at, apart, of=2):
        return row(name, solid(stock), mm(*at), of=of, apart=mm(*apart))

    return [
        place("top", solid("top"), mm(0, 0, 20)),
        *two("front post", "post", (0.75, 0.25, 0), (37.5, 0, 0)),
        *two("back post", "post", (0.75, 14.75, 0), (37.5, 0, 0)),
        *two("long rail", "long rail", (2.25, 0.5625, 15.75), (0, 14.5, 0)),
        *two("end rail", "end rail", (1.0625, 1.75, 15.75), (37.5, 0, 0)),
        *two("lower rail", "lower rail", (1.375, 1.75, 2.25), (36.875, 0, 0)),
        place("stretcher", solid("stretcher"), mm(2.25, 7.8125, 1.625)),
        *two("left slat", "slat", (1.5, 4.375, 4.75), (0, 3.25, 0), of=3),
        *two("right slat", "slat", (38.6875, 4.375, 4.75), (0, 3.25, 0), of=3),
    ]


@pytest.fixture(scope="module")
def seen():
    return exposure(bench())


def in2(mm2):
    return mm2 / INCH**2


def test_paper_adds_up():
    """All values are sums of powers of two, so exact."""
    assert ALL_FACES_IN2 == sum(FACES_IN2.values())
    assert CONTACT_IN2 == sum(CONTACTS_IN2.values())
    assert EXPOSED_IN2 == ALL_FACES_IN2 - 2 * CONTACT_IN2


@pytest.mark.parametrize("name", STOCK)
def test_faces_of_the_stock(name):
    count, width, depth, height = STOCK[name]
    by_hand = count * 2 * (width * depth + width * height + depth * height)
    assert FACES_IN2[name] == by_hand
    found = count * sum(solid(name).area_mm2_of.values())
    assert FACES_IN2[name] == pytest.approx(in2(found), rel=ROUNDING)


def test_bench_is_made_of_the_whole_stock():
    assert sum(count for count, *_ in STOCK.values()) == len(bench())


def test_exposed_area_is_all_faces_less_twice_the_contacts(seen):
    assert EXPOSED_IN2 == pytest.approx(in2(seen.area_mm2), rel=ROUNDING)


def test_exposed_area_in_square_metres(seen):
    """3440.1875 sq in x 0.00064516 m2 = 2.2194713675 m2."""
    assert 2.2194713675 == pytest.approx(seen.area_mm2 / 1e6, rel=ROUNDING)


def test_faces_that_something_touches(seen):
    """Each line of the contacts, where it is taken off."""
    left = {
        ("top", "bottom"): 40.5 * 16.5 - 9.0 - 63.0 - 22.75,
        ("long rail 1", "top"): 0.0,
        ("long rail 1", "left"): 0.0,
        ("end rail 2", "top"): 0.0,
        ("end rail 1", "bottom"): 11.375 - 3 * 0.46875,
        ("lower rail 2", "top"): 11.375 - 3 * 0.46875,
        ("lower rail 1", "right"): 32.5 - 2.1875,
        ("lower rail 2", "right"): 32.5,
        ("stretcher", "left"): 3.28125 - 2.1875,
        ("left slat 2", "top"): 0.0,
        ("left slat 2", "front"): 0.375 * 11,
        ("front post 1", "right"): 30 - 3.71875,
        ("front post 1", "back"): 30 - 3.71875 - 2.1875,
        ("back post 2", "top"): 0.0,
        ("back post 2", "bottom"): 2.25,
    }
    # 1e-9 sq in: rounding of a sum where nothing is left
    assert left == pytest.approx(
        {key: in2(seen.areas_mm2[key]) for key in left}, rel=ROUNDING, abs=1e-9
    )


def test_nothing_stands_a_hair_away(seen):
    assert ((), ()) == (seen.closed, seen.gaps)


def test_size_of_the_bench(seen):
    assert mm(40.5, 16.5, 21) == pytest.approx(seen.size_mm, rel=ROUNDING)
