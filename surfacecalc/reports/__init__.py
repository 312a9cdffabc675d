"""Areas, supplies, plans, quotes and problems, on screen, as JSON and as CSV.

input_words      an input of the arithmetic in the words of the shop
arithmetic       how each number was made, in a line each
assumed_screen   what is assumed: a line, or all of it
*_screen         tables for people
*_json, exports  JSON for other programs
spreadsheets     CSV
"""
