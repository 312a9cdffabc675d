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

MOST_SAG_UNITS = 0.01 * GRID_PER_MM
"""How far a side of such a polygon may be from a wide arc [grid units]. A block across the edge of
a bow front, 1 m in radius, was off by 1.7e-4 of itself with the sides of a circle alone."""

SAME_DIRECTION = 1e-9
"""Two unit normals are parallel when no component differs by more (rounding of a square root)."""

LEAST_PATCH_MM2 = 1e-6
"""A patch of air smaller than this [mm2] is rounding, not a gap (a square of 1 micrometre)."""

TOUCHING_UNITS = 2.0
"""Leaning faces nearer than this touch, whatever gap is asked for [grid units]. The places of both
parts are rounded to the grid, each by up to half a unit along each axis, so leaning faces that are
meant to touch end up to 1.74 units (the root of 3) apart."""

NO_UNITS = 1e-3
"""Two parallel planes nearer than this [grid units] are one: rounding leaves 1e-8 units between
leaning ones, and nothing between those square to the axes."""

LEAST_CORNER_COS = 0.7071
"""Two patches that turn towards each other by less than 45 degrees (this is its cosine) make no
inside corner: a sander still runs from one to the other, as it does over the facets of a cove."""

NUDGE_UNITS = 0.1
"""How far parts move where the kernel leaves touching faces whatever way they are joined [grid
units]: a hundred times NO_UNITS, and 1e-9 of an area."""

BITE_UNITS = 0.25
"""How deep a filler reaches into the wood at both ends [grid units]. Ends that lie on leaning faces
lie on them to 1e-8 units only, and the kernel may then see air between. A quarter is far more than
that, and less than LEVEL_UNITS, so that its rims still count as lying on the faces."""

NOTHING_SEALED = 1e-6
"""What closed gaps seal, as a share of a face or of all faces, is nothing below this: the rims
of their fillers in leaning wood, BITE_UNITS wide; at most 3e-7 of a face in 3 000 leaning pairs."""

NEAR_UNITS = 8.0
"""Stretches of turned parts further from all else than this [grid units] are not joined: far more
than TOUCHING_UNITS, NUDGE_UNITS and BITE_UNITS together, and 1e-4 mm."""

THINNEST_STRETCH_UNITS = 8.0
"""Least length of a stretch of a turned part [grid units]; far more than rounding, and thick enough
not to be taken for a void without volume."""

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
