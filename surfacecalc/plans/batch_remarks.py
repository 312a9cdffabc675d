"""How coats that set are mixed, for the plan: fresh for each session, in batches if it is long."""

from collections.abc import Iterator

from surfacecalc.model.pieces import Piece
from surfacecalc.needs.pot_life import Batches, batches_of, each_coat
from surfacecalc.work.task_words import format_hours
from surfacecalc.zones.areas import Measured


def remarks_on_batches(piece: Piece, measured: Measured) -> Iterator[str]:
    """Yield how each product that sets in the cup is mixed, each text once."""
    found = [batches_of(piece, measured, coat) for coat in each_coat(piece)]
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
