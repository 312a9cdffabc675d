"""What the cautions say, each with its source. Which of them apply is told by the rules beside."""

from surfacecalc.cautions.caution import Caution

CLOSING = "Local codes and licensed practice come first."

LEAD = Caution(
    "Old coatings may hold lead. Test before sanding or stripping. Until lead is ruled out: no dry"
    " sanding, no flame, no heat gun above 1100 F (593 C); work wet, wear an N100 respirator,"
    " clean up with a HEPA vacuum, keep children and pregnant women away.",
    "16 CFR 1303; 40 CFR 745.85; EPA 740-F-08-001",
)
WOOD_DUST = Caution(
    "Wood dust can cause cancer. Collect it at the tool and wear a particle respirator"
    " (N95 or better).",
    "IARC Monographs vol. 100C; 42 CFR 84",
)
SILICA = Caution(
    "Dust of a filler with minerals in it may hold crystalline silica, which can cause cancer. Read"
    " its safety data sheet; sand it wet, or as wood dust.",
    "IARC Monographs vol. 100C; 29 CFR 1910.1053; that wood fillers hold it: no source found",
)
SOLVENT = Caution(
    "Solvent vapour burns and harms. Air the room, no flame or spark, and an"
    " organic-vapour cartridge: a dust mask does not hold vapour back.",
    "42 CFR 84; the product's safety data sheet",
)
PEROXIDE = Caution(
    "Two-part filler: the peroxide hardener burns eyes and can sensitise the skin, the filler gives"
    " off styrene. Goggles, gloves, fresh air, no flame; an organic-vapour cartridge.",
    "29 CFR 1910.1000 table Z-2 (styrene); NIOSH IDLH file on benzoyl peroxide; goggles and"
    " gloves: from memory",
)
EPOXY = Caution(
    "Epoxy filler: resin and hardener can make the skin allergic for good. Gloves, goggles, fresh"
    " air; wash skin with soap, not with solvent.",
    "from memory; the product's safety data sheet",
)
OILY_RAGS = Caution(
    "Rags with drying oil can catch fire by themselves within hours. Never in a pile:"
    " spread them outdoors to dry, then keep them in a closed metal can with water.",
    "NFPA tip sheet on oily rags; 29 CFR 1910.106",
)
STRIPPER = Caution(
    "Chemical stripper burns skin and eyes. Goggles, gloves that its label names, fresh air. None"
    " with methylene chloride: its vapour has killed, and it is banned for consumers.",
    "40 CFR 751; 84 FR 11420; 89 FR 39254",
)
CAUSTIC = (
    "A caustic one also darkens oak and other woods with tannin, loosens veneer and must be"
    " neutralised and rinsed (from memory)."
)
BANNED = (
    'The kind of "{name}" names methylene chloride: do not use it; hand it in as hazardous waste'
    " and take another stripper."
)
ALKALINE = Caution(
    "Alkaline cleaner (trisodium phosphate, soda, ammonia) harms skin and eyes: gloves and goggles,"
    " and rinse. Never mix it with bleach or acid: the gases can kill.",
    "the product's label; not to be mixed: from memory",
)
BLEACH = Caution(
    "Bleach and acids harm skin, eyes and lungs: gloves, goggles, fresh air. Never mix them with"
    " each other, with ammonia or with another cleaner: the gases can kill.",
    "the product's label; not to be mixed: from memory",
)
CLEANER = Caution(
    "Its kind does not say what the cleaner holds: wear gloves, read its label, and never mix it"
    " with bleach, acid or another cleaner.",
    "the product's label; not to be mixed: from memory",
)
SPRAY = Caution(
    "Spray mist is breathed in and can burn. Spray with extraction, and with cartridges"
    " for mist and vapour (P95 or better where the product holds oil).",
    "NIOSH 96-101, appendix B",
)
LID = Caution(
    "A lid that latches by itself can trap a child. Take such a latch off or fit one that"
    " opens from inside, and a support that holds the lid in every position.",
    "CPSC statements of 2014 and 2020; ASTM F2598",
)
TIP_OVER = Caution(
    "A tall piece with drawers or doors can tip over on a child. Anchor it to the wall.",
    "16 CFR 1261 (ASTM F2057-23)",
)
NURSERY = Caution(
    "For a child: at most 0.009 % (90 ppm) lead in any coating, old or new, and no old coating"
    " that was not tested. Let every coat cure fully before a child sleeps or plays there.",
    "16 CFR 1303; cure: the product's label",
)
FOOD = Caution(
    "Where food touches: a whole, unbroken film of what its label calls fit for that, or bare"
    " wood. Let it cure fully, longer than dry to the touch.",
    "21 CFR 175.300; cure: the product's label",
)
