"""The arithmetic of a use that has its loss in its coverage, wears a pad less, or wets a cloth."""

import pytest
from piece_texts import exact, measured, piece_text

from surfacecalc import api
from surfacecalc.reports.arithmetic import why
from surfacecalc.units.display import Units

CUBE = {"shape": "board", "width": "1 m", "depth": "1 m", "height": "1 m"}
SEALED = {"surface": "sealed"}


@pytest.fixture
def first_line():
    """Return how the first use of a supply of a file was worked out."""

    def line(name, *steps, **tables):
        job = measured(exact(piece_text(*steps, part=CUBE, zone=SEALED, **tables)))
        (supply,) = [one for one in api.supplies(job) if one.name == name]
        return why(job.piece, supply, Units.METRIC)[0].text

    return line


def test_no_loss_is_taken_off_a_coverage_that_has_it_in(first_line):
    """6 m2 at 500 sq ft a gallon, 12.27 m2/L, are 489 ml."""
    varnish = {"name": "varnish", "kind": "oil varnish"}
    coat = {"do": "coat", "product": "varnish", "coats": 1, "by": "brush"}
    said = first_line("varnish", coat, product=varnish)
    assert said == "all: 6.000 m2 / 12.27 m2/L x 1 x (1 + 0 %) = 489 ml"
    trial = {"do": "test", "products": ["varnish"], "patch": "0.5 m2"}
    said = first_line("varnish", trial, product=varnish)
    assert said == "all: sample 0.5000 m2 / 12.27 m2/L = 40.7 ml"


def test_a_pad_wears_less_between_coats(first_line):
    """6 m2 once between two coats by a sponge that sands 1.2 m2: 6 / 3.6 of one."""
    coat = {"do": "coat", "product": "paint", "coats": 2, "by": "brush",
            "between": {"grit": 320, "with": "pad"}}  # fmt: skip
    said = first_line(
        "pad",
        coat,
        product={"name": "paint", "kind": "paint"},
        abrasive={"name": "pad", "form": "sponge"},
    )
    assert said == "all: 6.000 m2 / (1.200 m2 x 3, as it wears less) each x 1 between coats = 1.667"


def test_a_cloth_of_little_wax_keeps_little(first_line):
    """6 m2 at 200 m2/kg put on 30 g, of which a cloth keeps 30 / 50 of 5 g."""
    wax = {"name": "wax", "kind": "wax", "covers": "200 m2/kg"}
    step = {"do": "wax", "product": "wax", "stays_behind": True, "loss": "0 %"}
    said = first_line("wax", step, product=wax)
    assert (
        said == "all: 6.000 m2 / 200 m2/kg x 1 / (1 - 0 %) x (1 + 0 %)"
        " + 1 x 3.00 g left in the tools = 33.0 g"
    )
