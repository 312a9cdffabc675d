"""The whole piece file: from a path to a piece, or to everything that is wrong with it."""

from pathlib import Path
from typing import Literal, get_args

from shapes.tolerances import WIDEST_GAP_MM
from surfacecalc.catalogue.own import OwnCatalogue
from surfacecalc.model.pieces import EARLIEST_YEAR, LATEST_YEAR, LeadAnswer, Piece, Settings, Wood
from surfacecalc.model.shelf import Shelf
from surfacecalc.problems import Problem, has_mistakes, nearest, suggestion
from surfacecalc.reading.abrasive_tables import read_abrasives
from surfacecalc.reading.document import Document, parse_document, read_document
from surfacecalc.reading.faces_of_zones import claim_faces
from surfacecalc.reading.hardware_tables import read_consumables, read_hardware
from surfacecalc.reading.made_for import read_made_for
from surfacecalc.reading.mixes import read_mixes
from surfacecalc.reading.own_catalogue import read_own_catalogue
from surfacecalc.reading.part_tables import read_parts
from surfacecalc.reading.piece_kind import read_kind
from surfacecalc.reading.price_table import read_pricing
from surfacecalc.reading.product_tables import read_products
from surfacecalc.reading.steps.shares import read_flag
from surfacecalc.reading.steps.stock import Stock
from surfacecalc.reading.tables import Context, Table, shown_text
from surfacecalc.reading.tape_tables import read_tapes
from surfacecalc.reading.uneven import with_uneven_faces
from surfacecalc.reading.whole_set import of_whole_set
from surfacecalc.reading.wood import KEYS as WOOD_KEYS
from surfacecalc.reading.wood import read_wood, with_veneer
from surfacecalc.reading.workshop_table import read_workshop
from surfacecalc.reading.zone_tables import read_schedules, read_zones
from surfacecalc.units.coins import EVERYDAY, is_code, is_currency
from surfacecalc.units.known import find_unit

TABLES = (
    "piece", "part", "zone", "schedule", "product", "abrasive", "mix", "tape", "hardware",
    "consumable", "workshop", "price",
)  # fmt: skip
PIECE_KEYS = ("name", "kind", "unit", "gap", "buy_for", "buy_for_all", "built", "for", "currency",
              "stays_behind", "measured_to", "lead", "built_in", "outdoor", "count",
              *WOOD_KEYS)  # fmt: skip
LEAD_ANSWERS: tuple[LeadAnswer, ...] = get_args(LeadAnswer)
UNITS = ("mm", "cm", "m", "in", "ft")
DEFAULT_BUY_FOR = 0.9
SUREST_OF_ALL = 0.99
"""Beyond it the assumed spreads say nothing of what may still happen."""
COARSEST_TAPE_MM = 50.0
MOST_IN_A_SET = 1_000


def read_piece(path: Path) -> tuple[Piece | None, list[Problem]]:
    """Return the piece that a file describes, None if anything must be mended; and all problems."""
    return _read(read_document(path), path.parent)


def read_piece_text(text: str | bytes, folder: Path) -> tuple[Piece | None, list[Problem]]:
    """Return the same from the text that would be in a file.

    Args:
        text: the text; bytes are UTF-8.
        folder: where meshes and the user's own products are looked for.
    """
    # what cannot be written as UTF-8 is a mistake that is found when it is read
    content = text.encode("utf-8", "surrogatepass") if isinstance(text, str) else text
    return _read(parse_document(content), folder)


def _read(document: Document | Problem, folder: Path) -> tuple[Piece | None, list[Problem]]:
    if isinstance(document, Problem):
        return None, [document]
    piece, problems = _piece(document, folder)
    problems.sort(key=lambda problem: (problem.file, problem.line or 0))
    return (None if has_mistakes(problems) else piece), problems


def _piece(document: Document, folder: Path) -> tuple[Piece | None, list[Problem]]:
    context = Context(document.lines, folder=folder, document=document.tables)
    root = Table(document.tables, (), "", context)
    root.only(TABLES)
    head = _head(root)
    settings = _settings(head) if head else None
    parts = read_parts(root)
    own, own_problems = read_own_catalogue(root.values, folder, context.currency)
    context.problems.extend(own_problems)
    stock = _stock(root, own, stays_behind=head is not None and read_flag(head, "stays_behind"))
    schedules = read_schedules(root, stock)
    wood = read_wood(head, Wood()) if head else Wood()
    drafts = read_zones(root, schedules, stock, wood)
    zone_of = claim_faces(drafts, parts)
    workshop = read_workshop(root)
    pricing = read_pricing(root)
    zones = [
        with_veneer(with_uneven_faces(table, zone, zone_of, parts), zone_of, parts.veneered)
        for table, zone in drafts
    ]
    if settings is None or has_mistakes(context.problems):
        return None, context.problems
    piece = Piece(
        settings,
        parts=tuple(parts.parts),
        part_lines=parts.lines,
        zones=tuple(zones),
        zone_of=zone_of,
        shelf=stock.shelf,
        pricing=pricing,
        workshop=workshop,
        mesh_units=parts.mesh_units,
    )
    return of_whole_set(piece), context.problems


def _stock(root: Table, own: OwnCatalogue, *, stays_behind: bool) -> Stock:
    """Read everything that steps may use."""
    products, product_lines = read_products(root, own)
    mixes = read_mixes(root, products, product_lines)
    abrasives, abrasive_lines = read_abrasives(root, own)
    tapes, tape_lines = read_tapes(root)
    hardware, hardware_lines = read_hardware(root)
    consumables, consumable_lines = read_consumables(root, own)
    return Stock(
        Shelf({**products, **mixes}, abrasives, tapes, hardware, consumables, own.kept),
        product_lines=product_lines,
        abrasive_lines=abrasive_lines,
        tape_lines=tape_lines,
        hardware_lines=hardware_lines,
        consumable_lines=consumable_lines,
        stays_behind=stays_behind,
    )


def _settings(head: Table) -> Settings:
    return Settings(
        name=head.text("name", '"Hall table"'),
        unit=head.context.unit or "mm",
        gap_mm=_gap(head),
        buy_for=_buy_for(head, "buy_for") or DEFAULT_BUY_FOR,
        buy_for_all=_buy_for(head, "buy_for_all"),
        built=_built(head),
        currency=_currency(head),
        made_for=read_made_for(head),
        measured_to_mm=_measured_to(head),
        kind=read_kind(head),
        lead=_lead(head),
        is_built_in=read_flag(head, "built_in"),
        is_outdoor=read_flag(head, "outdoor"),
        count=head.whole("count", 1, MOST_IN_A_SET, "4") if "count" in head else 1,
    )


def _head(root: Table) -> Table | None:
    """Read [piece] first: it has the unit of every bare length."""
    if "piece" not in root:
        root.mend('has no [piece]; a piece file starts with [piece], name = "..." and unit = "in"')
        return None
    head = root.table("piece", "[piece]")
    if head is None:
        return None
    head.where = "piece"
    head.only(PIECE_KEYS)
    if "unit" not in head:
        example = f'unit = "in" (or {", ".join(unit for unit in UNITS if unit != "in")})'
        head.mend(f"has no unit, so a plain number is not a length yet; add {example}")
    else:
        head.context.unit = _unit(head)
    return head


def _unit(head: Table) -> str | None:
    word = head.values["unit"]
    unit = find_unit(word) if isinstance(word, str) else None
    if unit is not None and unit.name in UNITS:
        return unit.name
    head.refuse(
        "unit", f"is not a unit to measure a piece in; {suggestion(shown_text(word), UNITS)}"
    )
    return None


def _gap(head: Table) -> float:
    """Read the gap, which meshes need while they are read."""
    if "gap" in head:
        gap = head.length_mm(head.values["gap"], "gap")
        if gap is not None and not 0 <= gap <= WIDEST_GAP_MM:
            head.refuse("gap", "must be from 0 to 5 mm")
        elif gap is not None:
            head.context.gap_mm = gap
    return head.context.gap_mm


def _measured_to(head: Table) -> float:
    if "measured_to" not in head:
        return 0.0
    error = head.length_mm(head.values["measured_to"], "measured_to")
    if error is not None and not 0 <= error <= COARSEST_TAPE_MM:
        head.refuse("measured_to", "must be from 0 to 50 mm: how finely the tape was read")
    return error or 0.0


def _buy_for(head: Table, key: str) -> float | None:
    """Return how sure the purchase is, of each supply or of all; None where it is not said."""
    if key not in head:
        return None
    share = head.share(head.values[key], key)
    if share is not None and not 0 < share < 1:
        head.refuse(key, "must be more than 0 % and less than 100 %")
        return None
    if key == "buy_for_all" and share is not None and share > SUREST_OF_ALL:
        head.refuse(key, f"must be at most {100 * SUREST_OF_ALL:g} %: nobody can be surer of that")
        return None
    return share


def _built(head: Table) -> int | Literal["unknown"] | None:
    value = head.values.get("built")
    if value is None or value == "unknown":
        return None if value is None else "unknown"
    if isinstance(value, str) and value.isascii() and value.isdigit():
        head.refuse("built", 'has quotes; write a year without them, or "unknown" with them')
        return None
    is_year = isinstance(value, int) and not isinstance(value, bool)
    if is_year and EARLIEST_YEAR <= value <= LATEST_YEAR:
        return int(value)
    head.refuse("built", f'must be one year from {EARLIEST_YEAR} on, such as 1930, or "unknown"')
    return None


def _lead(head: Table) -> LeadAnswer | None:
    if "lead" not in head:
        return None
    word = head.choice("lead", LEAD_ANSWERS)
    return next((answer for answer in LEAD_ANSWERS if answer == word), None)


def _currency(head: Table) -> str | None:
    value = head.values.get("currency")
    if value is None:
        return None
    if is_currency(value):
        head.context.currency = str(value)
        return head.context.currency
    wrong = 'must be a three-letter code in capitals, such as "USD" or "EUR"'
    if is_code(value):
        near = nearest(value, EVERYDAY)
        right = f'did you mean "{near}"?' if near else 'use the code that banks use, such as "USD"'
        wrong = f"is not a currency of today's list (ISO 4217); {right}"
    head.refuse("currency", wrong)
    return None
