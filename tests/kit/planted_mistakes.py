"""Schedules with one mistake that a practised refinisher sees, each with its sound neighbour.

Every case is a schedule with one mistake, the words that the note must have, and what to change so
that it is sound. Common practice, no source; rules of the trade that were read are named in the
modules of `surfacecalc/checks`.
"""

from dataclasses import dataclass, field
from typing import Any

SAND = 'do = "sand"; grits = [180, 220]; with = "disc"'
WASH = 'do = "wash"; product = "cleaner"; strength = "3 %"'
DUST = 'do = "dust off"'
TO_BARE = 'do = "strip"; grits = [80, 120, 180]; with = "disc"'
STRIP = 'do = "strip"; product = "stripper"; by = "brush"'
READY = (WASH, SAND, DUST)
PRODUCTS = {
    "sage": "waterborne furniture paint",
    "linen white": "waterborne furniture paint",
    "alkyd white": "alkyd enamel",
    "alkyd": "alkyd enamel",
    "primer": "waterborne primer",
    "oil primer": "oil-based primer",
    "bonding primer": "waterborne bonding primer",
    "blocker": "shellac-based stain-blocking primer",
    "clear": "waterborne varnish",
    "thin clear": "waterborne varnish; thin_most = '20 %'",
    "spar": "oil varnish",
    "shellac": "shellac",
    "lacquer": "lacquer",
    "water lacquer": "waterborne lacquer",
    "stain": "oil-based stain",
    "water dye": "dye",
    "spirit dye": "alcohol-based dye",
    "oil": "drying oil",
    "hard oil": "hardwax oil",
    "wax": "paste wax",
    "gilding": "metallic wax",
    "stripper": "stripper",
    "lye": "caustic stripper",
    "cleaner": "cleaner",
    "vinegar": "cleaner",
    "grain filler": "waterborne grain filler",
    "paste stripper": "paste stripper",
    "body filler": "two-part filler; density = '1.8 kg/L'",
    "wood filler": "wood filler; density = '1.5 kg/L'",
    "tint": "tinting colour",
}
MIX = """
[[mix]]
name = "milky"
recipe = [{{ product = "clear", parts = {clear} }}, {{ product = "linen white", parts = {white} }}]
"""
WOOL = """
[[abrasive]]
name = "steel wool"
form = "sheet"

[[abrasive]]
name = "pad"
form = "sponge"
"""
CASE = (
    'name = "case"; shape = "case"; width = 600; depth = 400; height = 700; board = 18;'
    ' open = ["front"]',
    'name = "drawer"; shape = "drawer"; width = 550; depth = 380; height = 200; front = 18;'
    " board = 12",
)


def coat(product: str, coats: int = 1, do: str = "coat", by: str = "brush", more: str = "") -> str:
    return f'do = "{do}"; product = "{product}"; coats = {coats}; by = "{by}"' + (
        f"; {more}" if more else ""
    )


GRAIN = coat("grain filler", 1, do="fill grain", by="cloth")
NEUTRALISE = 'do = "wash"; product = "vinegar"; strength = "10 %"'
DENIB = 'between = { grit = 320, with = "disc" }'
FILL = 'do = "fill"; product = "{}"; pits = [{{ count = 3, diameter = 4, depth = 3 }}]'


@dataclass(frozen=True)
class Case:
    """A mistake, what is said of it, and what makes it sound."""

    steps: tuple[str, ...]
    says: str
    sound: tuple[str, ...]
    given: dict[str, Any] = field(default_factory=dict)
    sound_given: dict[str, Any] | None = None


OLD = {"surface": "varnished"}
PAINTED = {"surface": "painted"}
PINE = {"surface": "varnished", "zone": 'species = "birch"\n'}

CASES = {
    "paint on an unsanded film": Case(
        (WASH, coat("sage", 2)), "which no step sands", (*READY, coat("sage", 2)), PAINTED
    ),
    "clear coat on an unsanded film": Case(
        (WASH, coat("clear", 2)), "which no step sands", (*READY, coat("clear", 2)), OLD
    ),
    "unwashed film": Case(
        (SAND, DUST, coat("sage", 2)), "which no step washes", (*READY, coat("sage", 2)), PAINTED
    ),
    "unsanded, but under shellac": Case(
        (WASH, coat("primer"), coat("sage", 2)),
        "which no step sands",
        (WASH, coat("bonding primer"), coat("sage", 2)),
        PAINTED,
    ),
    "paint on unsanded laminate": Case(
        (WASH, coat("primer"), coat("sage", 2)),
        "which no step sands",
        (*READY, coat("primer"), coat("sage", 2)),
        {"surface": "laminate"},
    ),
    "varnish on a waxed surface": Case(
        (SAND, DUST, coat("clear", 2)),
        "hardly anything sticks to wax",
        (*READY, coat("clear", 2)),
        {"surface": "waxed"},
    ),
    "oil on a waxed surface": Case(
        (WASH, coat("oil", 2, by="cloth")),
        "cannot soak in",
        (WASH, coat("oil", 2, by="cloth")),
        {"surface": "waxed"},
        {"surface": "oiled"},
    ),
    "light paint over old varnish": Case(
        (*READY, coat("linen white", 2)),
        "unknown colour often bleeds",
        (*READY, coat("blocker", do="block"), coat("linen white", 2)),
        OLD,
    ),
    "light paint over oak": Case(
        (SAND, DUST, GRAIN, coat("primer"), coat("linen white", 2)),
        "tannin of oak bleeds",
        (
            SAND,
            DUST,
            GRAIN,
            coat("blocker", do="block"),
            coat("linen white", 2),
        ),
        {"zone": 'species = "oak"\n'},
    ),
    "light paint over pine": Case(
        (SAND, DUST, coat("primer"), coat("linen white", 2)),
        "resin of pine bleeds",
        (SAND, DUST, coat("primer"), coat("sage", 2)),
        {"head": 'species = "pine"\n'},
    ),
    "light paint from dark": Case(
        (*READY, coat("sage", 2, more='change = "dark to light"')),
        "unknown colour often bleeds",
        (*READY, coat("sage", 2)),
        OLD,
    ),
    "oil varnish over white": Case(
        (SAND, DUST, coat("primer"), coat("linen white", 2), coat("spar", 1)),
        "turns more yellow",
        (SAND, DUST, coat("primer"), coat("linen white", 2), coat("clear", 2)),
    ),
    "lacquer over old paint": Case(
        (*READY, coat("lacquer", 2, by="spray")),
        "lifts and wrinkles it",
        (*READY, coat("water lacquer", 2, by="spray")),
        PAINTED,
    ),
    "lacquer over fresh oil": Case(
        (SAND, DUST, coat("oil", 1, by="cloth"), coat("lacquer", 2, by="spray")),
        "has not hardened",
        (SAND, DUST, coat("shellac", 1), coat("lacquer", 2, by="spray")),
    ),
    "lacquer over enamel": Case(
        (SAND, DUST, coat("oil primer"), SAND, DUST, coat("lacquer", 2, by="spray")),
        "has not hardened",
        (SAND, DUST, coat("primer"), SAND, DUST, coat("lacquer", 2, by="spray")),
    ),
    "oil on an old varnish": Case(
        (*READY, coat("oil", 2, by="cloth")),
        "cannot soak in",
        (TO_BARE, DUST, coat("oil", 2, by="cloth")),
        OLD,
    ),
    "oil on a sealed face": Case(
        (SAND, DUST, coat("shellac", 1, do="seal"), coat("hard oil", 2, by="cloth")),
        "cannot soak in",
        (SAND, DUST, coat("hard oil", 2, by="cloth")),
    ),
    "varnish over wax on spots": Case(
        (SAND, DUST, coat("wax", 1, by="cloth", more='spot = "5 %"'), coat("clear", 2)),
        "no film sticks to wax",
        (SAND, DUST, coat("clear", 2), coat("wax", 1, by="cloth", more='spot = "5 %"')),
    ),
    "varnish over metallic wax": Case(
        (SAND, DUST, coat("shellac"), coat("gilding", 1, by="cloth"), coat("clear", 1)),
        "no film sticks to wax",
        (SAND, DUST, coat("shellac"), coat("clear", 1), coat("gilding", 1, by="cloth")),
    ),
    "two-part filler under stain": Case(
        (FILL.format("body filler"), SAND, DUST, coat("stain", 1, do="stain", by="cloth")),
        "takes no stain",
        (FILL.format("wood filler"), SAND, DUST, coat("stain", 1, do="stain", by="cloth")),
    ),
    "two-part filler under paint is sound": Case(
        (FILL.format("body filler"), SAND, DUST, coat("stain", 1, do="stain", by="cloth")),
        "takes no stain",
        (FILL.format("body filler"), SAND, DUST, coat("primer"), coat("sage", 2)),
    ),
    "left bare after stripping": Case(
        (STRIP, WASH, SAND),
        "leaves bare wood",
        (STRIP, WASH, SAND, DUST, coat("oil", 2, by="cloth")),
        OLD,
    ),
    "sanded to bare wood and left": Case(
        (TO_BARE,), "leaves bare wood", (TO_BARE, coat("wax", 1, by="cloth")), OLD
    ),
    "steel wool under waterborne": Case(
        (
            SAND,
            DUST,
            coat("shellac"),
            'do = "rub out"; grits = [400]; with = "steel wool"; by = "hand"',
            DUST,
            coat("clear", 2),
        ),
        "bits of steel that rust",
        (
            SAND,
            DUST,
            coat("shellac"),
            'do = "rub out"; grits = [400]; with = "pad"; by = "hand"',
            DUST,
            coat("clear", 2),
        ),
        {"more": WOOL},
    ),
    "steel wool between waterborne coats": Case(
        (SAND, DUST, coat("clear", 2, more='between = { grit = 400, with = "steel wool" }')),
        "bits of steel that rust",
        (SAND, DUST, coat("shellac", 2, more='between = { grit = 400, with = "steel wool" }')),
        {"more": WOOL},
    ),
    "waterborne clear on water dye": Case(
        (SAND, DUST, coat("water dye", 1, do="dye", by="cloth"), coat("clear", 2)),
        "dissolves and smears",
        (SAND, DUST, coat("water dye", 1, do="dye", by="cloth"), coat("shellac"), coat("clear", 2)),
    ),
    "waterborne clear sprayed on water dye is sound": Case(
        (SAND, DUST, coat("water dye", 1, do="dye", by="cloth"), coat("clear", 2)),
        "dissolves and smears",
        (SAND, DUST, coat("water dye", 1, do="dye", by="cloth"), coat("clear", 2, by="spray")),
    ),
    "waterborne clear on spirit dye is sound": Case(
        (SAND, DUST, coat("water dye", 1, do="dye", by="cloth"), coat("clear", 2)),
        "dissolves and smears",
        (SAND, DUST, coat("spirit dye", 1, do="dye", by="cloth"), coat("clear", 2)),
    ),
    "grit jump across steps": Case(
        ('do = "sand"; grits = [80]; with = "disc"', SAND, DUST, coat("oil", 2, by="cloth")),
        "starts with P180 after the P80",
        ('do = "sand"; grits = [80, 120]; with = "disc"', SAND, DUST, coat("oil", 2, by="cloth")),
    ),
    "too fine before stain": Case(
        (
            'do = "sand"; grits = [180, 240, 320]; with = "disc"',
            DUST,
            coat("stain", 1, do="stain", by="cloth"),
        ),
        "polishes the wood",
        (SAND, DUST, coat("stain", 1, do="stain", by="cloth")),
    ),
    "too coarse before paint": Case(
        ('do = "sand"; grits = [60, 80]; with = "disc"', DUST, coat("primer"), coat("sage", 2)),
        "scratches show",
        (
            'do = "sand"; grits = [60, 80, 100]; with = "disc"',
            DUST,
            coat("primer"),
            coat("sage", 2),
        ),
    ),
    "paint in a clear coat": Case(
        (SAND, DUST, coat("milky", 2)),
        "with 20% of paint",
        (SAND, DUST, coat("milky", 2)),
        {"more": MIX.format(clear=4, white=1)},
        {"more": MIX.format(clear=9, white=1)},
    ),
    "tint in a clear coat": Case(
        (SAND, DUST, coat("clear", 2, more='tint = { product = "tint", share = "12 %" }')),
        "with 12% of paint or tint",
        (SAND, DUST, coat("clear", 2, more='tint = { product = "tint", share = "10 %" }')),
    ),
    "thinned too much": Case(
        (SAND, DUST, coat("clear", 2, more='thin = "15 %"')),
        "more than the 10% that is usual",
        (SAND, DUST, coat("clear", 2, more='thin = "10 %"')),
    ),
    "thinned beyond the label": Case(
        (SAND, DUST, coat("thin clear", 2, more='thin = "21 %"')),
        "more than the 20% that its label allows",
        (SAND, DUST, coat("thin clear", 2, more='thin = "20 %"')),
    ),
    "oil-based coats without a scuff": Case(
        (SAND, DUST, coat("spar", 3)),
        "nothing scuffs it",
        (SAND, DUST, coat("spar", 3, more=DENIB)),
    ),
    "one oil-based coat on another": Case(
        (SAND, DUST, coat("spar", 1), coat("spar", 1)),
        "nothing scuffs it",
        (
            SAND,
            DUST,
            coat("spar", 1),
            'do = "sand"; grits = [320]; with = "disc"',
            DUST,
            coat("spar", 1),
        ),
    ),
    "no dusting": Case(
        (SAND, coat("shellac", 2)), "take the dust off", (SAND, DUST, coat("shellac", 2))
    ),
    "a rag for dust that it only pushes about": Case(
        (SAND + '; uses = ["rag"]', coat("shellac", 2)),
        "take the dust off",
        (SAND + '; uses = ["tack"]', coat("shellac", 2)),
        {"more": "".join(f'[[consumable]]\nname="{n}"\nlasts="9 m2"\n' for n in ("rag", "tack"))},
    ),
    "oil-based over waterborne": Case(
        (SAND, DUST, coat("primer"), coat("sage", 1), coat("alkyd", 1)),
        "cracks on the softer one",
        (SAND, DUST, coat("primer"), coat("alkyd", 1)),
    ),
    "waterborne over a dry oil primer is sound": Case(
        (SAND, DUST, coat("primer"), coat("sage", 1), coat("spar", 1)),
        "cracks on the softer one",
        (SAND, DUST, coat("oil primer"), coat("sage", 2)),
    ),
    "stripper not washed off": Case(
        (STRIP, SAND, DUST, coat("oil", 2, by="cloth")),
        "is not washed off",
        (STRIP, STRIP, WASH, SAND, DUST, coat("oil", 2, by="cloth")),
        OLD,
    ),
    "stripper after dusting not washed off": Case(
        (DUST, STRIP, SAND, DUST, coat("oil", 2, by="cloth")),
        "is not washed off",
        (DUST, STRIP, WASH, SAND, DUST, coat("oil", 2, by="cloth")),
        OLD,
    ),
    "too cold": Case(
        (SAND, DUST, coat("clear", 2)),
        "needs 10 C or more, and the workshop has 8 C",
        (SAND, DUST, coat("clear", 2)),
        {"more": '[workshop]\ntemperature = "8 C"\n'},
        {"more": '[workshop]\ntemperature = "10 C"\n'},
    ),
    "the inside behind a drawer": Case(
        (*READY, coat("sage", 2)),
        'has the inside of "case" as well',
        (*READY, coat("sage", 2)),
        {"surface": "painted", "parts": CASE},
        {
            "surface": "painted",
            "parts": CASE,
            "more": ('[[zone]]\nname = "within"\nfaces = ["case.inside"]\nleave = true\n'),
        },
    ),
}
