"""What the cautions say, each with its sources. The rules beside decide which of them apply."""

from surfacecalc.cautions.caution import Caution

CLOSING = "Local codes and licensed practice come first."
CLOSING_FOR_OWNER = "Local rules come first."

LEAD = Caution(
    "Test the old finish for lead before you sand or strip it.",
    "Old coatings may contain lead. Test before you sand or strip. Until a test has ruled"
    " lead out, do not dry-sand, use no flame, and use no heat gun above 1100 F (593 C)."
    " Work wet, wear an N100 respirator, clean up with a HEPA vacuum, and keep children and"
    " pregnant women away.",
    ("16 CFR 1303", "40 CFR 745.85", "EPA 740-F-08-001"),
)
WOOD_DUST = Caution(
    "Collect sanding dust at the tool and wear an N95 respirator or better.",
    "Wood dust can cause cancer. Collect it at the tool, and wear a particle respirator"
    " (N95 or better).",
    ("IARC Monographs vol. 100C", "42 CFR 84"),
)
SILICA = Caution(
    "Wet-sand filler, or collect its dust and wear a respirator.",
    "Dust from a filler that has minerals in it may contain crystalline silica, which can cause"
    " cancer. Read the filler's safety data sheet. Wet-sand it, or take the same precautions as for"
    " wood dust.",
    (
        "IARC Monographs vol. 100C",
        "29 CFR 1910.1053",
        "minerals in wood filler: common practice",
    ),
)
SOLVENT = Caution(
    "Ventilate, keep flames and sparks away, and wear organic-vapour cartridges.",
    "Solvent vapour can ignite and is harmful. Ventilate, keep flames and sparks away, and wear a"
    " respirator with organic-vapour cartridges: a dust mask does not stop vapour.",
    ("42 CFR 84", "the product's safety data sheet"),
)
PEROXIDE = Caution(
    "Wear goggles, gloves and organic-vapour cartridges when you use two-part filler.",
    "The peroxide hardener of a two-part filler burns the eyes and can make the skin allergic, and"
    " the filler gives off styrene vapour. Wear goggles, gloves and a respirator with"
    " organic-vapour cartridges. Ventilate, and keep flames away.",
    (
        "29 CFR 1910.1000 table Z-2 (styrene)",
        "NIOSH IDLH file on benzoyl peroxide",
        "goggles and gloves: common practice",
    ),
)
EPOXY = Caution(
    "Wear gloves and goggles when you use epoxy.",
    "The resin and the hardener of epoxy can cause a permanent skin allergy. Wear gloves and"
    " goggles, and ventilate. Wash your skin with soap, not with solvent.",
    ("common practice", "the product's safety data sheet"),
)
OILY_RAGS = Caution(
    "Never leave oily rags in a pile: spread them outdoors to dry.",
    "Rags wet with drying oil can catch fire on their own within hours. Never leave them in a pile."
    " Spread them outdoors to dry, then keep them in a closed metal can with water in it.",
    ("NFPA tip sheet on oily rags", "29 CFR 1910.106"),
)
STRIPPER = Caution(
    "Wear goggles and gloves with stripper, and do not use one with methylene chloride.",
    "Chemical stripper burns skin and eyes. Wear goggles and the gloves its label calls for, and"
    " ventilate. Do not use one with methylene chloride: its vapour has killed people, and it is"
    " banned for consumers.",
    ("40 CFR 751", "84 FR 11420", "89 FR 39254"),
)
CAUSTIC = (
    "A caustic stripper also darkens oak and other woods with tannin and loosens veneer, and it"
    " must be neutralised and rinsed off."
)
CAUSTIC_SOURCE = "caustic stripper: common practice"
BANNED = (
    'The name or the kind of "{name}" says methylene chloride: do not use it. Take it to a'
    " hazardous-waste collection and use another stripper."
)
ALKALINE = Caution(
    "Wear gloves and goggles with alkaline cleaner, and never mix it with bleach or acid.",
    "Alkaline cleaner (trisodium phosphate, soda, ammonia) harms skin and eyes. Wear gloves and"
    " goggles, and rinse. Never mix it with bleach or acid: the gases can kill.",
    ("the product's label", "never mix: common practice"),
)
BLEACH = Caution(
    "Wear gloves and goggles with bleach or acid, and never mix it with another cleaner.",
    "Bleach and acids harm skin, eyes and lungs. Wear gloves and goggles, and ventilate. Never mix"
    " them with each other, with ammonia or with another cleaner: the gases can kill.",
    ("the product's label", "never mix: common practice"),
)
CLEANER = Caution(
    "Wear gloves, read the cleaner's label, and never mix it with another cleaner.",
    "Neither its name nor its kind says what is in this cleaner. Wear gloves, read its label, and"
    " never mix it with bleach, acid or another cleaner.",
    ("the product's label", "never mix: common practice"),
)
SPRAY = Caution(
    "Spray with an exhaust fan on and a respirator for mist and vapour.",
    "Spray mist gets into the lungs and can ignite. Use an exhaust fan that is made for spraying,"
    " and wear a respirator with cartridges for mist and vapour (P95 or better where the product"
    " contains oil).",
    ("NIOSH 96-101, appendix B", "the fan: common practice"),
)
LID = Caution(
    "Make sure that the lid cannot trap a child.",
    "A lid that latches by itself can trap a child. Remove the latch, or fit one that opens from"
    " inside, and fit a support that holds the lid in every position.",
    ("CPSC statements of 2014 and 2020", "ASTM F2598"),
    in_use="A lid that latches by itself can trap a child. Let it have no such latch, or one that"
    " opens from inside, and a support that holds the lid in every position.",
)
TIP_OVER = Caution(
    "Anchor it to the wall.",
    "A tall piece with drawers or doors can tip over on a child. Anchor it to the wall.",
    ("16 CFR 1261 (ASTM F2057-23)",),
    in_use="A tall piece with drawers or doors can tip over on a child.",
)
NURSERY = Caution(
    "Leave no untested old coating, and let every coat cure before a child uses it.",
    "On a piece for a child, no coating, old or new, may contain more than 0.009 % (90 ppm) lead,"
    " and there must be no old coating that has not been tested. Let every coat cure fully before a"
    " child sleeps or plays there.",
    ("16 CFR 1303", "cure: the product's label"),
    in_use="On a piece for a child there must be no lead paint, and no old coating that has not"
    " been tested for lead. Let every coat cure fully before a child sleeps or plays there.",
)
FOOD = Caution(
    "Let food touch only a fully cured, food-safe finish, or bare wood.",
    "Where food touches the piece, use an unbroken film of a finish whose label says it is"
    " food-safe, or bare wood. Let it cure fully, which takes longer than drying to the touch.",
    ("21 CFR 175.300", "cure: the product's label"),
    in_use="The finish is safe for food only once it has cured fully, which takes longer than"
    " drying to the touch, and only as long as its film is unbroken.",
)
