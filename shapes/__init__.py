"""Geometry of furniture: millimetres in, square millimetres out.

Knows no paint, no money and no piece files. Read in this order:

    boards, cases, drawers, legs, panels   solids with named faces
    parts, placement                       where each stands, and what is joined to what
    exposure                               the area of each face that is left to see
"""
