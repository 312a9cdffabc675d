"""From a piece of furniture and its finish schedule to a supply list.

The folders follow the data:

    reading     the piece file becomes a piece, or a list of its mistakes
    zones       the exposed faces become zones
    needs       zones and their steps become amounts, as ranges
    supplies    amounts become packs and money
    reports     all of it on screen, as JSON and as CSV

`api` states the order of the stages and is the door for programs; its functions that read a piece
can be imported from here as well. `units` and `catalogue` serve all of them.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:  # imported when it is asked for, so that the version costs nothing
    from surfacecalc.api import read_piece, read_piece_text

__version__ = "0.1.0"
__all__ = ["__version__", "read_piece", "read_piece_text"]


def __getattr__(name: str) -> Any:
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from surfacecalc import api

    return getattr(api, name)
