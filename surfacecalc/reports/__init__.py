"""Areas, supplies and problems, on screen, as JSON and as CSV.

arithmetic    how each number was made, in a line each
screen        tables for people
exports       JSON and CSV for other programs
"""
