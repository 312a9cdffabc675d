"""The step that masks: tape along the lines where zones meet, film or paper over what is near."""

from surfacecalc.catalogue.step_defaults import tape_overlap
from surfacecalc.model.steps import Mask, Unmask
from surfacecalc.reading.steps.shares import read_loss, zero_or_more
from surfacecalc.reading.steps.stock import Stock, check_known
from surfacecalc.reading.steps.work import WORK_KEYS, read_work
from surfacecalc.reading.tables import Table

UNMASK_KEYS = ("do", "tape", *WORK_KEYS)
KEYS = ("do", "tape", "against", "overlap", "cover", "film", *WORK_KEYS)
MOST_COVERED_M2 = 1_000.0


def read_masking(table: Table, stock: Stock) -> Mask | None:
    """Return a step that masks, None where it has a mistake; its zones are checked later."""
    table.only(KEYS)
    tape = _roll(table, "tape", "m", stock)
    against = tuple(dict.fromkeys(table.texts("against", '["legs"]'))) if "against" in table else ()
    overlap = read_loss(table, "overlap", tape_overlap(), zero_or_more)
    film = _roll(table, "film", "m2", stock) if "film" in table else None
    cover_m2 = _cover(table)
    work = read_work(table, stock)
    if film is not None and "cover" not in table:
        table.mend('has film, but does not say how much it covers; add cover = "1 m2"', "film")
    if not table.is_sound:
        return None
    return Mask(tape, against, overlap, cover_m2, film, table.line, work)


def read_unmasking(table: Table, stock: Stock) -> Unmask | None:
    """Return a step that takes tape off, None where it has a mistake."""
    table.only(UNMASK_KEYS)
    tape = _roll(table, "tape", "m", stock) if "tape" in table else None
    work = read_work(table, stock)
    return Unmask(tape, table.line, work) if table.is_sound else None


def _roll(table: Table, key: str, unit: str, stock: Stock) -> str:
    name = table.text(key, f'"{"masking tape" if key == "tape" else "film"}"')
    check_known(table, key, name, stock.tape_lines, "tape")
    roll = stock.shelf.tapes.get(name)
    if roll is not None and roll.unit != unit:
        what = "length" if unit == "m" else "area"
        table.refuse(key, f"must be sold by {what}; see its packs on line {roll.line}")
    return name


def _cover(table: Table) -> float:
    if "cover" not in table:
        return 0.0
    if "film" not in table:
        table.mend('has cover, but does not say with what; add film = "film"', "cover")
    area = table.amount(table.values["cover"], "area", "cover")
    if area is not None and not 0 < area <= MOST_COVERED_M2:
        table.refuse("cover", "must be more than zero and at most 1,000 m2")
    return area or 0.0
