"""From a table to its step, by the word in `do`."""

from collections.abc import Iterator
from typing import get_args

from surfacecalc.model.steps import CoatWord, HandWord, Mask, SandWord, Step
from surfacecalc.problems import Problem, suggestion
from surfacecalc.reading.steps.coat_step import read_coating
from surfacecalc.reading.steps.fill_step import read_filling
from surfacecalc.reading.steps.hand_step import read_handwork, read_test
from surfacecalc.reading.steps.mask_step import read_masking
from surfacecalc.reading.steps.sand_step import read_sanding
from surfacecalc.reading.steps.stock import Stock
from surfacecalc.reading.steps.wash_step import read_washing
from surfacecalc.reading.tables import Context, Table, shown_text

COAT_WORDS: tuple[CoatWord, ...] = get_args(CoatWord)
SAND_WORDS: tuple[SandWord, ...] = get_args(SandWord)
HAND_WORDS: tuple[HandWord, ...] = get_args(HandWord)
WORDS = tuple(
    dict.fromkeys((*SAND_WORDS, *COAT_WORDS, "wash", "fill", "mask", "test", *HAND_WORDS))
)
"""All words of `do`."""
MEANT = {
    "clean": "wash", "scrub": "wash", "degrease": "wash", "rinse": "wash",
    "paint": "coat", "apply": "coat", "brush": "coat", "spray": "coat", "oil": "coat",
    "varnish": "top coat", "lacquer": "top coat", "topcoat": "top coat", "clear coat": "top coat",
    "primer": "prime", "undercoat": "prime", "scuff": "sand", "denib": "sand", "abrade": "sand",
    "remove": "take off", "refinish": "strip", "putty": "fill", "patch": "repair",
    "glue": "repair", "fix": "repair", "tape": "mask", "dust": "dust off", "vacuum": "dust off",
    "buff": "rub out", "polish": "rub out", "sample": "test", "bleach": "wash",
}  # fmt: skip
"""Other words of the trade for a step, and the word that is used for them."""


def read_steps(outer: Table, key: str, owner: str, stock: Stock) -> tuple[Step, ...]:
    """Return the steps in a list of tables; mistakes are recorded.

    Args:
        outer: the table that has them.
        key: the key under which they stand.
        owner: whose steps they are, such as 'zone "seat"'.
        stock: what they may use.
    """
    steps = []
    for number, table in enumerate(outer.tables(key, _example(owner, key)), start=1):
        table.where = f"{owner} step {number}"
        if not table.has("do", '"sand" (or "coat")'):
            continue
        meant = MEANT.get(shown_text(table.values["do"]).lower())
        if meant:
            table.refuse("do", f'is written do = "{meant}" here')
            continue
        do = table.choice("do", WORDS)
        step = _step(table, do, stock) if table.is_sound else None
        if step is not None:
            steps.append(step)
    return tuple(steps)


def check_zone_names(steps: tuple[Step, ...], own: str, zones: list[str], context: Context) -> None:
    """Record zones named in a zone's steps that the file does not have."""
    for step in steps:
        for key, name in _zones_named(step):
            where = f'zone "{own}"'
            if name == own:
                message = f'{key} = "{name}" is the zone itself; name another one'
                context.problems.append(Problem("mend", step.line, where, message))
            elif name not in zones:
                message = f'{key} = "{name}" is not a zone in this file; {suggestion(name, zones)}'
                context.problems.append(Problem("mend", step.line, where, message))


def _zones_named(step: Step) -> Iterator[tuple[str, str]]:
    yield from (("after", name) for name in step.work.after)
    if isinstance(step, Mask):
        yield from (("against", name) for name in step.against)


def _example(owner: str, key: str) -> str:
    return "[[zone.step]]" if owner.startswith("zone") else f"[[schedule.{key}]]"


def _step(table: Table, do: str, stock: Stock) -> Step | None:
    if do == "wash":
        return read_washing(table, stock)
    if do == "fill":
        return read_filling(table, stock)
    if do == "mask":
        return read_masking(table, stock)
    if do == "test":
        return read_test(table, stock)
    for hand in HAND_WORDS:
        if do == hand:
            return read_handwork(table, hand, stock)
    for word in SAND_WORDS:
        if do == word and (do != "strip" or "grits" in table):
            return read_sanding(table, word, stock)
    return read_coating(table, next(word for word in COAT_WORDS if word == do), stock)
