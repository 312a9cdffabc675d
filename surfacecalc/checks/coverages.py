"""Note on a coverage far from that of its kind: a digit too many or too few, or a wrong unit."""

from collections.abc import Iterator

from surfacecalc.catalogue.kind_lookup import find_class
from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem
from surfacecalc.units.display import Units, format_coverage_span, format_usual_coverage

FAR = 4.0
"""How many times more, or less, than its kind a label says before it is asked about; assumed."""


def check_coverage(piece: Piece) -> Iterator[Problem]:
    """Yield products that, as the file says, cover far more or far less than their kind."""
    for product in piece.shelf.products.values():
        written = [factor for factor in product.coverage if factor.what.quantity == "coverage"]
        usual = find_class(product.kind)
        if not written or product.file or usual is None or usual.coverage is None:
            continue
        if usual.basis != product.basis or written[0].source in ("assumed", "published"):
            continue
        covers, known = written[0].range.likely, usual.coverage
        if known.low / FAR <= covers <= known.high * FAR:
            continue
        unit, units = ("kg" if product.basis == "weight" else "L"), Units.of(piece.settings.unit)
        ends = written[0].range.low, written[0].range.high
        said = format_coverage_span(*ends, unit, units)
        usually = format_usual_coverage(known.low, known.high, unit, units)
        message = (
            f"covers {said}, but {usual.name} usually covers {usually} ({usual.source}); is a digit"
            " or the unit wrong?"
        )
        yield Problem("note", product.line, f'product "{product.name}"', message)
