"""Sizes that the guided start takes as usual, or proposes, against published sizes of furniture.

Sources, all in inches; read where nothing else is said:
* HANDBOOK: a handbook for architects, "Building Construction and Superintendence", section 193,
  "Dimensions for Furniture", from average figures of good pieces
* CYCLOPEDIA: a cyclopedia of construction of the early twentieth century, vol. 1, "Architectural
  Forms" (its scan has J for 1 and S for 8, put right here), and vol. 11, "Library Table"
* MANUAL: a workshop manual of 1912 on plain oak furniture, part 3, stock lists of pages 5 to 13
  (piano bench, dresser), 38 (writing desk), 116 (sideboard), Project Gutenberg eBook 23666; a den
  table of its part 2, chapter 8, and a bookcase with doors (read in a copy only)
* SHOP: "Community Shop Projects", a school handbook, library table (page 273) and cedar chest (267)
* PRACTICE: common practice, not looked up: widths of mattresses, 39 to 76; frames of cabinet doors;
  fronts of kitchen cabinets;
  headboards of four and five quarter stuff, which dresses to 3/4 and 1 inch.

Sizes over all are sums of the listed boards where a list gives no sum. What is counted (drawers,
shelves, rungs, slats) and the other proposed sizes are common practice.
"""

from dataclasses import dataclass
from fractions import Fraction

import pytest

from surfacecalc.starting.measurements import Measure
from surfacecalc.starting.piece_kinds import kind_of
from surfacecalc.units.grammar import parse_amount

HANDBOOK, CYCLOPEDIA, MANUAL, SHOP = "handbook", "cyclopedia", "manual", "shop"
PRACTICE = "common practice"


@dataclass(frozen=True)
class Published:
    """How large something is, from and to [in], by a source."""

    kind: str
    key: str
    low: str
    high: str
    source: str

    @property
    def measure(self) -> Measure:
        return next(m for m in kind_of(self.kind).measures if m.key == self.key)


def one(kind: str, source: str, **sizes: str) -> list[Published]:
    """Return the sizes of one piece."""
    named = {key.replace("_", "-"): size for key, size in sizes.items()}
    return [Published(kind, key, size, size, source) for key, size in named.items()]


PUBLISHED = [
    Published("chair", "height", "17", "18", HANDBOOK),
    Published("chair", "back-height", "18", "20", CYCLOPEDIA),
    *one("chair", HANDBOOK, depth="19", back_height="20"),
    *one("chair", CYCLOPEDIA, height="17", depth="16"),
    Published("table", "height", "29", "36", HANDBOOK),  # dining to carving table
    Published("desk", "height", "29", "30", HANDBOOK),
    Published("headboard", "width", "36", "60", HANDBOOK),
    Published("headboard", "width", "39", "76", PRACTICE),
    Published("headboard", "height", "60", "78", HANDBOOK),
    Published("headboard", "board", "3/4", "1", PRACTICE),
    Published("dresser", "width", "41", "48", HANDBOOK),
    *one("dresser", HANDBOOK, depth="18", height="30"),
    *one("dresser", MANUAL, width="37", depth="17", height="27 3/4", leg_thickness="1 3/4",
         board="3/4"),
    Published("bookcase", "depth", "10", "16", CYCLOPEDIA),
    *one("bookcase", MANUAL, width="31 1/4", depth="15", height="50 3/4", board="3/4"),
    *one("cabinet", MANUAL, width="58", depth="23", height="40", leg_thickness="2"),
    *one("cabinet", MANUAL, width="31 1/4", depth="14", board="3/4", frame="1 1/2"),
    Published("cabinet", "frame", "1 3/4", "2 1/2", PRACTICE),
    *one("chest", SHOP, width="43", depth="18", height="15 1/2", board="3/4", lid_thickness="3/4",
         leg_height="2 3/4", leg_thickness="3"),
    *one("bench", MANUAL, width="40 1/2", depth="16 1/2", height="21", top_thickness="1",
         leg_thickness="1 1/2", apron="4 1/4"),
    *one("table", MANUAL, width="36", depth="18", height="30", top_thickness="1",
         leg_thickness="2"),
    *one("table", SHOP, width="49", depth="29", height="31", top_thickness="1",
         leg_thickness="3 1/2", apron="5 1/4"),
    *one("table", CYCLOPEDIA, width="48", depth="36", height="31 1/8", top_thickness="1 1/8",
         leg_thickness="3 3/4", apron="6"),
    *one("desk", MANUAL, width="41", depth="22 1/2", height="31 3/4", top_thickness="3/4",
         leg_thickness="2", apron="6 1/4"),
    *one("mirror", MANUAL, frame="2", board="3/4"),
    Published("doors", "width", "9", "24", PRACTICE),
    Published("doors", "height", "12", "42", PRACTICE),
    Published("doors", "board", "3/4", "3/4", PRACTICE),
    Published("doors", "frame", "1 3/4", "2 1/2", PRACTICE),
    Published("doors", "drawer-height", "4", "12", PRACTICE),
]  # fmt: skip
ELSEWHERE = ("apron", "leg-height")
"""What is proposed for another reason: room for the knees; no legs, since most cases have none."""
PROPOSED = sorted(
    {(row.kind, row.key) for row in PUBLISHED if row.measure.proposed and row.key not in ELSEWHERE}
)
KNEES = Fraction(24)
"""Room for the knees below the frame of a dining table or a desk [in], HANDBOOK."""


def inches(text: str) -> Fraction:
    return parse_amount(f"{text} in", "length") / Fraction("25.4")


@pytest.mark.parametrize("row", PUBLISHED, ids=lambda row: f"{row.kind} {row.key} {row.source}")
def test_published_size_is_taken_as_usual(row: Published) -> None:
    usual = inches(row.measure.least), inches(row.measure.most)
    assert usual[0] <= inches(row.low) <= inches(row.high) <= usual[1]


@pytest.mark.parametrize(("kind", "key"), PROPOSED)
def test_proposed_size_is_within_what_is_published(kind: str, key: str) -> None:
    """Over all kinds that propose the same: what is common to them is one measure."""
    proposed = proposal(kind, key)
    alike = [row for row in PUBLISHED if row.key == key and row.measure.proposed]
    alike = [row for row in alike if proposed == proposal(row.kind, key)]
    low, high = min(inches(row.low) for row in alike), max(inches(row.high) for row in alike)
    assert low <= proposed <= high


@pytest.mark.parametrize("kind", ["table", "desk"])
def test_proposed_apron_leaves_room_for_the_knees_under_a_table_of_29_inches(kind: str) -> None:
    assert 29 - proposal(kind, "top-thickness") - proposal(kind, "apron") >= KNEES


def proposal(kind: str, key: str) -> Fraction:
    """Return what is proposed for a measure [in]."""
    proposed = Published(kind, key, "", "", "").measure.proposed
    assert proposed is not None
    return inches(proposed)
