"""What the cautions say, each with its sources. The rules beside decide which of them apply."""

from surfacecalc.cautions.caution import Caution

CLOSING = "Local codes and licensed practice come first."
CLOSING_FOR_OWNER = "Local rules come first."

LEAD = Caution(
    "Test the old finish for lead before sanding or stripping.",
    "Old coatings may contain lead. Until a test has ruled lead out, do not dry-sand, use no flame,"
    " and use no heat gun above 1100 F (593 C). Work wet, wear an N100 respirator, clean up with a"
    " HEPA vacuum, and keep children and pregnant women away.",
    ("16 CFR 1303", "SI 1992/31", "40 CFR 745.85", "EPA 740-F-08-001"),
)
LEAD_FOUND = Caution(
    "Lead was found in the old finish: work wet, and do not dry-sand it.",
    "Use no flame, and no heat gun above 1100 F (593 C). Wear an N100 respirator, clean up with a"
    " HEPA vacuum, and keep children and pregnant women away. Lead may stay in the grain after"
    " stripping, so sand the bare wood wet as well. Local codes say where the waste goes.",
    ("40 CFR 745.85", "EPA 740-F-08-001", "lead in stripped wood: common practice"),
)
WOOD_DUST = Caution(
    "Collect sanding dust, and wear a particle respirator (N95 or better).",
    "Wood dust can cause cancer. Collect it at the tool, or vacuum it up as you sand by hand.",
    ("IARC Monographs vol. 100C", "42 CFR 84"),
)
WOOD_DUST_WITH_LEAD = Caution(
    "Collect sanding dust with a HEPA vacuum, and wear an N100 respirator.",
    "There may be lead in the dust, and wood dust can cause cancer. Collect the dust at the tool,"
    " or as you sand by hand. Once a test has ruled lead out, N95 or better is enough.",
    ("IARC Monographs vol. 100C", "42 CFR 84", "EPA 740-F-08-001"),
)
"""Where both apply, so that one respirator is named and it is the one that stops more."""
SILICA = Caution(
    "Wet-sand filler, or collect its dust and wear a particle respirator.",
    "Dust from a filler that has minerals in it may contain crystalline silica, which can cause"
    " cancer: read the filler's safety data sheet. If you sand it dry, take the same precautions as"
    " for wood dust.",
    (
        "IARC Monographs vol. 100C",
        "29 CFR 1910.1053",
        "minerals in wood filler: common practice",
    ),
)
SOLVENT = Caution(
    "Ventilate, keep flames and sparks away; wear an organic-vapour respirator.",
    "Solvent vapour can ignite and is harmful. A dust mask does not stop it: wear a respirator with"
    " organic-vapour cartridges.",
    ("42 CFR 84", "the product's safety data sheet"),
)
PEROXIDE = Caution(
    "With two-part filler, wear goggles, gloves and an organic-vapour respirator.",
    "The peroxide hardener burns the eyes and can make the skin allergic, and the filler gives off"
    " styrene vapour: the respirator needs organic-vapour cartridges. Ventilate, and keep flames"
    " away.",
    (
        "29 CFR 1910.1000 table Z-2 (styrene)",
        "NIOSH IDLH file on benzoyl peroxide",
        "goggles and gloves: common practice",
    ),
)
EPOXY = Caution(
    "With epoxy, wear gloves and goggles, and ventilate.",
    "The resin and the hardener can cause a permanent skin allergy. Wash your skin with soap, not"
    " with solvent.",
    ("common practice", "the product's safety data sheet"),
)
ISOCYANATES = Caution(
    "Keep isocyanates off your skin and out of your lungs: leave spraying them to a booth.",
    "Two-part urethanes and crosslinkers harden with isocyanates, which can cause asthma for life"
    " from one heavy exposure, and no smell warns you. Brush or roll outdoors or with the doors"
    " open, in gloves, goggles and long sleeves.",
    ("NIOSH 96-111", "the product's safety data sheet"),
)
SUPPLIED_AIR = (
    "Sprayed, it asks for a respirator with supplied air and for a spray booth: a respirator with"
    " cartridges is not enough."
)
SUPPLIED_AIR_SOURCE = "supplied air: NIOSH 96-111"
LEFT_IN_CUP = (
    "Leave what is left in the cup open outdoors until it is hard: a closed can of it gets hot and"
    " can burst."
)
LEFT_IN_CUP_SOURCE = "what is left in the cup: common practice"
ACID_CURED = Caution(
    "With conversion finishes, ventilate for days: they give off formaldehyde.",
    "They harden with an acid, which burns eyes and skin, and formaldehyde, which can cause cancer,"
    " comes off as they cure. Wear gloves and goggles, and a respirator whose cartridges are marked"
    " for formaldehyde. Nobody should sleep beside the piece until the smell is gone.",
    ("IARC Monographs vol. 100F", "29 CFR 1910.1048", "the product's safety data sheet"),
)
NITROCELLULOSE = Caution(
    "Keep lacquer from sparks, and take its dry dust and rags out every day.",
    "Most solvent lacquer is nitrocellulose: its dry overspray and sanding dust burn like tinder."
    " Wet them, and put them in a closed metal can outdoors. Never spray it where oily finishes"
    " were sprayed before.",
    ("NFPA 33", "the product's safety data sheet"),
)
SPRAY_LIMIT = (
    "Spraying a litre (a quart) or more of it in eight hours falls under the fire code's rules for"
    " spray rooms."
)
SPRAY_LIMIT_SOURCE = "the limit: NFPA 1 (2018), 43.1.1"
OILY_RAGS = Caution(
    "Never leave oily rags in a pile: spread them outdoors to dry.",
    "Rags wet with drying oil heat up by themselves and can catch fire. Once they are dry, keep"
    " them in a closed metal can with water in it.",
    ("NFPA tip sheet on oily rags", "29 CFR 1910.106"),
)
STRIPPER = Caution(
    "With stripper, wear goggles and gloves, and do not use one with methylene chloride.",
    "Chemical stripper burns skin and eyes: wear the gloves its label calls for, and ventilate. The"
    " vapour of methylene chloride has killed people; it is banned for consumers, and since 2024"
    " for most work for pay as well.",
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
    "With alkaline cleaner, wear gloves and goggles, and never mix it with bleach or acid.",
    "Trisodium phosphate, soda and ammonia harm skin and eyes, so rinse. The gases of such a"
    " mix can kill.",
    ("the product's label", "never mix: common practice"),
)
BLEACH = Caution(
    "With bleach or acid, wear gloves and goggles, and never mix it with another cleaner.",
    "Bleach and acids harm skin, eyes and lungs, so ventilate. Never mix them with each other or"
    " with ammonia: the gases can kill.",
    ("the product's label", "never mix: common practice"),
)
CLEANER = Caution(
    "Wear gloves, read the cleaner's label, and never mix it with another cleaner.",
    "This program does not know what is in it. Never mix it with bleach or acid.",
    ("the product's label", "never mix: common practice"),
)
SPRAY = Caution(
    "Spray with an exhaust fan on, and wear a respirator with cartridges for mist and vapour.",
    "Spray mist gets into the lungs and can ignite, so use a fan that is made for spraying. Where"
    " the product contains oil, the cartridges must be P95 or better.",
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
    "Anchor the piece to the wall so that it cannot tip over.",
    "A piece with drawers or doors can tip over on a child.",
    ("16 CFR 1261 (ASTM F2057-23)",),
    in_use="A piece with drawers or doors can tip over on a child.",
)
TALL_SHELVES = Caution(
    "Anchor a tall bookcase to the wall: children climb on shelves.",
    "A bookcase can tip over on a child who climbs it, whether or not it has doors.",
    ("common practice",),
    in_use="A bookcase can tip over on a child who climbs it: anchor it to the wall.",
)
NURSERY = Caution(
    "Leave no untested old coating, and let every coat cure before a child uses it.",
    "On a piece for a child, no coating, old or new, may contain more than 0.009 % (90 ppm) lead."
    " Let every coat cure fully before a child sleeps or plays there.",
    ("16 CFR 1303", "cure: the product's label"),
    in_use="On a piece for a child there must be no lead paint, and no old coating that has not"
    " been tested for lead. Let every coat cure fully before a child sleeps or plays there.",
)
FOOD = Caution(
    "Let food touch only a fully cured, food-safe finish, or bare wood.",
    "The finish must be an unbroken film, and its label must say that it is food-safe. Curing takes"
    " longer than drying to the touch.",
    ("21 CFR 175.300", "cure: the product's label"),
    in_use="The finish is safe for food only once it has cured fully, which takes longer than"
    " drying to the touch, and only as long as its film is unbroken.",
)
