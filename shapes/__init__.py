"""Geometry of furniture: millimetres in, square millimetres out.

Knows no paint, no money and no piece files. Read in this order:

    boards, cases, drawers, legs, panels   solids with named faces
    outlines, profiles                     closed lines and profiles, with true lengths
    outline_boards, mouldings, raised_panels, lofts, spindles   more solids with named faces
    transforms, relief                     a solid turned, leaned, mirrored; faces with a ratio
    parts, placement                       where each stands, and what is joined to what
    relations                              where parts stand by what they stand on or against
    exposure                               the area of each face that is left to see
"""
