"""What an input of the arithmetic is, in fields; nobody has to read a text to learn it.

`draw_key` is made from the fields and decides which random draws an input gets, so a template that
changes here changes every range that is made from it. Words for people are made elsewhere.
"""

from dataclasses import dataclass
from typing import Literal

Quantity = Literal[
    "coverage", "solids", "dry film", "first coat", "loss", "sprayed past", "cup", "allowance",
    "coats", "extra coats",
    "left in the tools", "thinner", "spots", "tint", "abrasive life", "consumable life",
    "wash coverage", "rinse coverage", "strength", "filler loss", "shrinkage", "hardener",
    "coat hardener", "pot life",
    "tape overlap", "amount each", "measuring", "rate", "time each", "set-up", "drying after",
    "time", "wait", "dry", "recoat", "cure", "rub out", "coldest", "hand", "hand with a supply",
    "hand in a job", "loss in coverage", "life between coats", "worn", "decorated",
]  # fmt: skip
"""What is measured: each quantity has its own words and its own kind of unit."""
InputUnit = Literal[
    "share",
    "m2/L",
    "m2/kg",
    "m2",
    "L",
    "kg",
    "um",
    "h",
    "m2/h",
    "C",
    "coats",
    "sessions",
    "jobs",
    "times",
]

_FROM_ELSEWHERE: dict[Quantity, str] = {
    "coverage": "product {of} covers",
    "solids": "product {of} solids",
    "dry film": "product {of} dry_film",
    "first coat": "first coat {of}",
    "loss": "loss by {by}",
    "sprayed past": "sprayed past slender parts",
    "cup": "cup of {by}",
    "allowance": "allowance",
    "extra coats": "more coats {by}",
    "left in the tools": "stays behind by {by}",
    "thinner": "thin",
    "spots": "spot",
    "tint": "tint",
    "abrasive life": "abrasive {of} life{grit}",
    "consumable life": "consumable {of} lasts",
    "wash coverage": "wash covers",
    "rinse coverage": "rinse covers",
    "strength": "strength",
    "filler loss": "filler loss",
    "shrinkage": "filler shrinkage",
    "hardener": "hardener share",
    "coat hardener": "product {of} hardener",
    "pot life": "product {of} pot_life",
    "tape overlap": "tape overlap",
    "measuring": "tape measure in {of}",
    "rate": "rate of {of} by {by}",
    "time each": "time for each {of}",
    "set-up": "setting out and cleaning up, {of}",
    "drying after": "drying after {of}",
    "dry": "product {of} dry",
    "recoat": "product {of} recoat",
    "cure": "product {of} cure",
    "rub out": "product {of} rub_out",
    "coldest": "product {of} min_temp",
    "loss in coverage": "loss in coverage of {of}",
    "life between coats": "life between coats",
    "hand": "hand",
    "hand with a supply": "hand with {of} by {by}",
    "hand in a job": "hand with {of} by {by} in {job}",
    "worn": "share that is distressed",
}
_KEY_IN_STEP: dict[Quantity, str] = {
    "coverage": "covers",
    "first coat": "first_coat",
    "loss": "loss",
    "cup": "cup",
    "allowance": "allowance",
    "coats": "coats",
    "left in the tools": "stays_behind",
    "thinner": "thin",
    "spots": "spot",
    "tint": "share",
    "wash coverage": "covers",
    "rinse coverage": "rinse",
    "strength": "strength",
    "filler loss": "loss",
    "shrinkage": "shrinkage",
    "hardener": "share",
    "coat hardener": "hardener",
    "pot life": "pot_life",
    "tape overlap": "overlap",
    "amount each": "each",
    "rate": "rate",
    "time": "time",
    "wait": "wait",
    "set-up": "set_up",
    "worn": "share",
    "decorated": "share",
}


@dataclass(frozen=True)
class Input:
    """What an input of the arithmetic is.

    Attributes:
        quantity: what is measured.
        of: name of the product, abrasive, consumable or zone that it belongs to, or the work that
            it is about, such as "sand".
        by: the method, or the change of colour.
        grit: of an abrasive, None where one life holds for every grit.
        where: the place in the file, where one step or mix says it for itself alone; else empty.
        job: name of the piece, where it changes from piece to piece.
    """

    quantity: Quantity
    of: str = ""
    by: str = ""
    grit: int | None = None
    where: str = ""
    job: str = ""

    @property
    def draw_key(self) -> str:
        """What its draws are seeded with: inputs with the same key vary as one."""
        if self.where:
            return f"{self.where} {_KEY_IN_STEP[self.quantity]}"
        grit = "" if self.grit is None else f" {self.grit}"
        return _FROM_ELSEWHERE[self.quantity].format(
            of=self.of, by=self.by, grit=grit, job=self.job
        )
