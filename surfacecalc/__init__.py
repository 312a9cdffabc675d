"""From a piece of furniture and its finish schedule to a supply list.

The folders follow the data:

    reading     the piece file becomes a piece, or a list of its mistakes
    zones       the exposed faces become zones
    needs       zones and their steps become amounts, as ranges
    supplies    amounts become packs and money
    reports     all of it on screen, as JSON and as CSV

`estimate` states the order of the stages. `units` and `catalogue` serve all of them.
"""

__version__ = "0.1.0"
