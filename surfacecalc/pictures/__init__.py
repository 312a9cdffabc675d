"""Pictures of what is measured: a drawing (SVG), a model (GLB) and a page that turns it (HTML).

All three take the piece, its measures and the units, and show the same zones in the same colours.
Slow imports stand inside the functions that need them.
"""
