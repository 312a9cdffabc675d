"""The measures of a part become its solid.

plain, panels, legs, outlines    what each shape reads
changes                          turned, leaning, mirrored, with relief
solid                            all shapes by their names
"""
