"""Notes on products that are mixed with a hardener: what is assumed, and what sets too soon."""

from collections.abc import Iterator

from surfacecalc.model.pieces import Piece
from surfacecalc.model.step_facts import coats_of, session_key
from surfacecalc.model.steps import Coat
from surfacecalc.needs.pot_life import batches_of, each_coat
from surfacecalc.problems import Problem
from surfacecalc.units.display import format_share
from surfacecalc.work.task_words import format_hours
from surfacecalc.zones.areas import Measured


def check_hardeners(piece: Piece) -> Iterator[Problem]:
    """Yield two-part products without a hardener, and mixes that have one in their recipe."""
    for coat in each_coat(piece):
        added = coat.hardener
        if added is not None and added.product is None:
            share = format_share(added.share.range.likely)
            yield _note(
                coat,
                f"is two-part, and the step has no hardener, so {share} by volume is assumed;"
                ' write it as on the tin, hardener = { product = "hardener", parts = "4 : 1" }, or'
                " hardener = false if it comes ready to use",
            )
        recipe = piece.shelf.products[coat.product].recipe
        if any(part.product.family == "hardener" for part in recipe):
            yield _note(
                coat,
                "has a hardener in its recipe, and a mix is made in one batch for the whole job,"
                " which would set; take it out of the recipe and write it as hardener in this step",
            )


def check_pot_lives(piece: Piece, measured: Measured) -> Iterator[Problem]:
    """Yield coats that take longer to put on than what is mixed for them stays usable."""
    sessions: dict[str, Coat] = {}
    for coat in (coat for zone in piece.zones for coat in coats_of(zone.steps)):
        sessions.setdefault(session_key(coat), coat)
    for coat in sessions.values():
        how = batches_of(piece, measured, coat)
        if how is not None and how.each > 1:
            mark = " (assumed)" if how.pot_life.source == "assumed" else ""
            yield _note(
                coat,
                f"takes {format_hours(how.hours)} to put on, and the mix sets after"
                f" {format_hours(how.pot_life.range.low)}{mark}; it is counted in {how.each}"
                " batches, so mix each when the one before it is used up",
            )


def _note(coat: Coat, message: str) -> Problem:
    return Problem("note", coat.line, f'{coat.do} "{coat.product}"', message)
