"""The guided start: questions about a piece, one at a time, become a piece file.

Knows what kinds of piece there are, which measures of each matter, and how its parts are placed. It
writes text only; the file is then read, measured and listed as any other.
"""
