"""Every tolerance and resolution of the geometry, with unit and reason."""

GRID_PER_MM = 80_000
"""Grid lines in a millimetre. 1 mm, 0.001 in, 1/64 in and 1/128 in all fall on a line, so parts
measured in any of them touch exactly; a coarser grid leaves slivers of air between inch marks."""

MAX_LENGTH_MM = 10_000.0
"""Longest size or position [mm]. No piece of furniture is longer; a wrong unit is."""

WIDEST_GAP_MM = 5.0
"""Widest air gap that is looked for [mm]: beyond it two faces are simply apart."""

CURVE_SEGMENTS = 256
"""Sides of the polygon that stands for a circle. The polygon has the circle's area, so what a round
leg hides of a flat face is exact; the share of the round face itself is off by less than 5e-5."""

SAME_DIRECTION = 1e-9
"""Two unit normals are parallel when no component differs by more (rounding of a square root)."""

LEAST_PATCH_MM2 = 1e-6
"""A patch of air smaller than this [mm2] is rounding, not a gap (a square of 1 micrometre)."""

LEVEL_UNITS = 0.5
"""A point lies on a plane when it is nearer than this [grid units]; points of parts that are square
to each other are whole, so half a unit tells them apart."""

NO_AREA = 1e-12
"""A face of a mesh file, made to reach 1 from its middle, has no area below this: rounding of
64-bit numbers, some 1e-16, over its corners."""

WRITTEN_SHARE = 1e-6
"""How far corners may be off for being written in 32 bits or six digits, as a share of their face:
less than this crosses nothing, and a face no wider than this is a line."""

NOTED_WARP = 1e-4
"""Share of a mesh's area that a cut of its bent faces into triangles may change without a note: a
tenth of what a tape shows."""
