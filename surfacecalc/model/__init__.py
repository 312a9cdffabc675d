"""What a piece file says, checked: piece, zones, steps, shelf, workshop, price.

Plain values; knows no text, no geometry of its own, no arithmetic of paint.
"""
