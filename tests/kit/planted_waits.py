"""Schedules that wait too little, or for too long; each with its sound neighbour.

Days before rubbing out: a woodworking magazine (2011), assumed. The rest is common practice.
"""

from planted_mistakes import DUST, NEUTRALISE, OLD, SAND, STRIP, WASH, Case, coat

RUB = 'do = "rub out"; grits = [400]; with = "disc"; by = "hand"'
WAX = coat("wax", 1, do="wax", by="cloth")

LYE = 'do = "strip"; product = "lye"; by = "brush"'
WAIT_CASES = {
    "lye not washed off": Case(
        (LYE, SAND, DUST, coat("oil", 2, by="cloth")),
        "is not washed off",
        (LYE, NEUTRALISE, SAND, DUST, coat("oil", 2, by="cloth")),
        OLD,
    ),
    "lye washed off and left bare": Case(
        (LYE, WASH), "leaves bare wood", (LYE, NEUTRALISE, coat("oil", 2, by="cloth")), OLD
    ),
    "varnish rubbed out too soon": Case(
        (SAND, DUST, coat("clear", 2, more='wait = "7 days"'), RUB),
        "rubs out the clear of line",
        (SAND, DUST, coat("clear", 2, more='wait = "21 days"'), RUB),
    ),
    "shellac waxed the next day": Case(
        (SAND, DUST, coat("shellac", 2, more='wait = "24 h"'), WAX),
        "hard enough after 48 h (assumed)",
        (SAND, DUST, coat("shellac", 2), WAX),
    ),
    "rubbed out between coats is sound": Case(
        (SAND, DUST, coat("clear", 2, more='wait = "24 h"'), DUST, RUB, WAX),
        "after 24 h; it is hard enough after 21 days",
        (SAND, DUST, coat("clear", 2, more='wait = "24 h"'), RUB, DUST, coat("clear", 1)),
    ),
    "waits of later steps count before rubbing out": Case(
        (
            SAND,
            DUST,
            coat("spar", 1, more='wait = "5 days"'),
            DUST + '; wait = "1 days"',
            RUB,
        ),
        "after 6 days; it is hard enough after 7 days",
        (
            SAND,
            DUST,
            coat("spar", 1, more='wait = "5 days"'),
            DUST + '; wait = "2 days"',
            RUB,
        ),
    ),
    "stripper left overnight": Case(
        (STRIP + '; wait = "12 h"', WASH, SAND, DUST, coat("oil", 2, by="cloth")),
        "dries on the wood again",
        (STRIP + '; wait = "2 h"', WASH, SAND, DUST, coat("oil", 2, by="cloth")),
        OLD,
    ),
    "two coats of stripper on two days": Case(
        (
            STRIP + '; coats = 2; wait = "24 h"',
            SAND,
            WASH,
            SAND,
            DUST,
            coat("oil", 2, by="cloth"),
        ),
        "dries on the wood again",
        (
            STRIP.replace('"stripper"', '"paste stripper"') + '; coats = 2; wait = "24 h"',
            WASH,
            SAND,
            DUST,
            coat("oil", 2, by="cloth"),
        ),
        OLD,
    ),
    "lye not neutralised": Case(
        (
            'do = "strip"; product = "lye"; by = "brush"',
            WASH,
            SAND,
            DUST,
            coat("oil", 2, by="cloth"),
        ),
        "neutralise it with vinegar in water, then rinse",
        (
            'do = "strip"; product = "lye"; by = "brush"',
            NEUTRALISE,
            SAND,
            DUST,
            coat("oil", 2, by="cloth"),
        ),
        OLD,
    ),
}
