"""Which cautions apply to a job, in the order in which they are shown."""

from collections.abc import Callable, Iterable

from surfacecalc.cautions import furniture, hardening, old_coatings, product_hazards
from surfacecalc.cautions.caution import Caution
from surfacecalc.model.pieces import Piece
from surfacecalc.zones.areas import Measured

Rule = Callable[[Piece, Measured], Caution | None]


def cautions(piece: Piece, measured: Measured) -> list[Caution]:
    """Return the cautions that apply to a job; nothing in a file or a command hides one."""
    found = (rule(piece, measured) for rule in RULES)
    return [caution for caution in found if caution is not None]


def cautions_together(jobs: Iterable[tuple[Piece, Measured]]) -> list[Caution]:
    """Return the cautions of several jobs, each once, with the pieces that it applies to."""
    found: dict[Caution, dict[str, None]] = {}
    for piece, measured in jobs:
        for one in cautions(piece, measured):
            places = found.setdefault(one.applied(""), {})
            places[f"{piece.settings.name}: {one.applies_to}"] = None
    return [one.applied("; ".join(places)) for one, places in found.items()]


RULES: tuple[Rule, ...] = (
    old_coatings.lead,
    old_coatings.wood_dust,
    old_coatings.silica,
    product_hazards.stripper,
    product_hazards.alkaline_cleaner,
    product_hazards.bleach,
    product_hazards.unnamed_cleaner,
    product_hazards.peroxide,
    product_hazards.epoxy,
    hardening.isocyanates,
    hardening.acid_cured,
    hardening.nitrocellulose,
    product_hazards.oily_rags,
    product_hazards.solvent,
    product_hazards.spray,
    furniture.lid,
    furniture.tip_over,
    furniture.tall_shelves,
    furniture.nursery,
    furniture.food,
)
