"""How coats that set are mixed, for the plan: fresh for each session, in batches if it is long."""

from collections.abc import Iterator

from surfacecalc.model.pieces import Piece
from surfacecalc.model.step_facts import coats_of
from surfacecalc.needs.pot_life import Batches, batches_of
from surfacecalc.work.task_words import format_hours
from surfacecalc.zones.areas import Measured


def remarks_on_batches(piece: Piece, measured: Measured) -> Iterator[str]:
    """Yield how each product that sets in the cup is mixed, each text once."""
    # one line of a schedule is another coat where a zone swaps its product
    coats = {(c.line, c.product): c for zone in piece.zones for c in coats_of(zone.steps)}
    found = [batches_of(piece, measured, coat) for coat in coats.values()]
    yield from dict.fromkeys(_remark(one) for one in found if one is not None)


def _remark(how: Batches) -> str:
    session = "each side of a coat" if how.sides > 1 else "each coat"
    hardened = " and its hardener" if how.coat.hardener is not None else ""
    fresh = f"{how.coat.product}{hardened} fresh for {session}"
    mark = " (assumed)" if how.pot_life.source == "assumed" else ""
    sets = f"the mix sets after {format_hours(how.pot_life.range.low)}{mark}"
    if how.each == 1:
        return f"Mix {fresh}: {sets}."
    return (
        f"Mix {fresh}, in {how.each} batches: {sets}, and it takes {format_hours(how.hours)} to"
        " put on."
    )
