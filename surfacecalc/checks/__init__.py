"""What is worth a second look in a file without mistakes: one function for each note.

Notes never stop a number. Those on the order of steps say what a refinisher would ask about, with
the reason; they are common practice where no source is named.
"""

from collections.abc import Callable, Iterator

from surfacecalc.checks.clearance import check_sliding_film
from surfacecalc.checks.coat_order import COAT_CHECKS
from surfacecalc.checks.coats_together import TOGETHER_CHECKS
from surfacecalc.checks.contacts import check_deep, check_standing_apart
from surfacecalc.checks.coverages import check_coverage
from surfacecalc.checks.grits import check_grit_steps
from surfacecalc.checks.hidden_insides import check_hidden_inside
from surfacecalc.checks.knots import check_knots
from surfacecalc.checks.lead_first import check_lead_first, check_lead_left_on
from surfacecalc.checks.likeness import check_area, check_size, check_tiny_parts
from surfacecalc.checks.old_finish import OLD_FINISH_CHECKS
from surfacecalc.checks.one_session import (
    check_coat_over_tape,
    check_one_session,
    check_unmask,
)
from surfacecalc.checks.outdoor import check_outdoor
from surfacecalc.checks.preparation import PREPARATION_CHECKS
from surfacecalc.checks.rub_waits import WAIT_CHECKS
from surfacecalc.checks.two_part_steps import check_hardeners, check_pot_lives
from surfacecalc.checks.unused import check_unused
from surfacecalc.checks.work_order import WORK_CHECKS
from surfacecalc.checks.zone_areas import (
    check_decorated_areas,
    check_faces_in_no_zone,
    check_gaps,
    check_zones_without_area,
)
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.problems import Problem
from surfacecalc.zones.areas import Measured


def notes_on_file(piece: Piece) -> Iterator[Problem]:
    """Yield notes on what the file says, each once."""
    yield from dict.fromkeys(note for check in _FILE_CHECKS for note in check(piece))


def notes_on_measures(piece: Piece, measured: Measured) -> Iterator[Problem]:
    """Yield notes on what was measured: on the shape of one piece, on the work of the whole set."""
    for check in _MEASURE_CHECKS:
        yield from check(piece, measured.one)
    for check in _WORK_CHECKS_MEASURED:
        yield from check(piece, measured)


def _check_order(piece: Piece) -> Iterator[Problem]:
    """Yield what a refinisher would ask about the order of the steps."""
    for zone in piece.zones:
        for check in _ORDER_CHECKS:
            yield from check(piece, zone)


_ORDER_CHECKS: tuple[Callable[[Piece, Zone], Iterator[Problem]], ...] = (
    *COAT_CHECKS,
    *OLD_FINISH_CHECKS,
    *TOGETHER_CHECKS,
    *PREPARATION_CHECKS,
    check_knots,
    check_hidden_inside,
    check_lead_first,
    check_outdoor,
    *WORK_CHECKS,
    *WAIT_CHECKS,
)
_FILE_CHECKS: tuple[Callable[[Piece], Iterator[Problem]], ...] = (
    check_grit_steps,
    check_coverage,
    check_hardeners,
    _check_order,
    check_unused,
    check_one_session,
    check_coat_over_tape,
    check_unmask,
)
_MEASURE_CHECKS: tuple[Callable[[Piece, Measured], Iterator[Problem]], ...] = (
    check_size,
    check_tiny_parts,
    check_area,
    check_faces_in_no_zone,
    check_zones_without_area,
    check_gaps,
    check_standing_apart,
    check_deep,
    check_sliding_film,
    check_lead_left_on,
)
_WORK_CHECKS_MEASURED: tuple[Callable[[Piece, Measured], Iterator[Problem]], ...] = (
    check_pot_lives,
    check_decorated_areas,
)
