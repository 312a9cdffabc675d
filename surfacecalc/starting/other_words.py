"""What else people call a kind of piece, a finish, an old surface and a unit.

Every thing that the list of kinds names is taken as that kind; so are names that are common in the
trade on both sides of the ocean.
"""

from collections.abc import Mapping, Sequence

Words = Mapping[str, Sequence[str]]

OF_KINDS: Words = {
    "chest": (
        "blanket chest", "blanket box", "box", "trunk", "toy chest", "toy box", "linen chest",
        "storage chest", "coffer", "chests",
    ),
    "dresser": (
        "chest of drawers", "drawers", "bureau", "tallboy", "highboy", "lowboy", "chiffonier",
        "lingerie chest", "chests of drawers", "drawer chest", "dresser with mirror",
    ),
    "nightstand": (
        "night stand", "bedside", "bedside case", "bedside table", "bedside cabinet",
        "bedside chest", "night table",
    ),
    "table": (
        "dining table", "side table", "coffee table", "end table", "console", "console table",
        "plant stand", "tables",
    ),
    "desk": ("writing table", "writing desk", "school desk", "work desk"),
    "bookcase": (
        "book case", "bookshelf", "book shelf", "bookshelves", "shelf", "shelves", "shelving",
        "shelf unit", "shelving unit",
    ),
    "cabinet": (
        "cupboard", "sideboard", "wardrobe", "washstand", "wash stand", "armoire", "buffet",
        "credenza", "hutch", "linen press", "larder", "pantry", "vanity", "pie safe", "dry sink",
        "closet", "locker", "case with doors", "cupboards",
    ),
    "chair": ("stool", "stools", "footstool", "foot stool", "armchair", "arm chair", "chairs"),
    "bench": ("benches", "bench seat", "piano bench"),
    "headboard": ("head board", "bed", "bedstead", "bed head", "bedhead", "footboard", "bed frame"),
    "mirror": ("picture frame", "picture", "frame", "looking glass"),
    "doors": (
        "kitchen", "kitchen doors", "kitchen fronts", "kitchen cabinets", "cabinet doors",
        "cupboard doors", "closet doors", "door", "fronts", "drawer fronts", "built in kitchen",
        "built ins", "fitted kitchen", "fitted kitchen doors", "door fronts",
    ),
    "mesh": ("scan", "3d model", "model", "mesh file", "3d scan"),
}  # fmt: skip

OF_FINISHES: Words = {
    "paint": ("painted", "painting", "enamel", "milk paint", "chalk paint"),
    "stain": (
        "stained", "stain and varnish", "stain and clear", "stain and clear coat", "dye",
        "stained and varnished", "stain and polyurethane", "stain and lacquer", "staining",
        "stain varnish", "stain then varnish", "stain then clear", "stain and topcoat",
        "stain and clear coated",
    ),
    "clear": (
        "clear coat", "clearcoat", "clear coated", "clear coats", "clear varnish", "clear finish",
        "varnish", "varnished", "varnishing", "lacquer", "lacquered", "shellac", "shellacked",
        "polyurethane", "poly", "urethane", "topcoat", "top coat", "natural", "transparent",
    ),
    "oil": ("oiled", "hardwax oil", "linseed oil", "tung oil", "danish oil", "oiling"),
    "wax": ("waxed", "paste wax", "beeswax", "waxing", "wax finish"),
    "leave": (
        "left", "leave it", "leave as is", "leave alone", "as is", "none", "nothing", "no finish",
        "no", "keep", "skip", "unfinished",
    ),
}  # fmt: skip

OF_SURFACES: Words = {
    "bare": ("bare wood", "raw", "raw wood", "unfinished", "stripped", "nothing", "none", "sanded"),
    "sealed": ("shellac", "shellacked", "sanding sealer", "sealer"),
    "varnished": (
        "varnish", "lacquer", "lacquered", "oil", "oiled", "wax", "waxed", "polyurethane", "poly",
        "clear coat", "clear coated", "clear", "clear varnish", "stained and varnished",
        "french polish", "french polished", "polished",
    ),
    "painted": ("paint", "primed", "primer", "enamel", "milk paint", "chalk paint"),
}  # fmt: skip
"""An oiled or waxed surface is washed and sanded before it is painted, like a varnished one."""

OF_UNITS: Words = {
    "in": ("inch", "inches", '"', "in.", "imperial", "us"),
    "cm": ("centimetre", "centimetres", "centimeter", "centimeters", "cm.", "metric"),
    "mm": ("millimetre", "millimetres", "millimeter", "millimeters", "mm."),
}
