"""From a table to its step, by the word in `do`."""

from collections.abc import Iterator
from typing import assert_never, get_args

from surfacecalc.model.step_facts import masking_of, unmasking_of
from surfacecalc.model.steps import CoatWord, HandWord, OtherWord, SandWord, Step, StepWord, Unmask
from surfacecalc.model.taped_steps import masks_taken_off
from surfacecalc.problems import Problem, suggestion
from surfacecalc.reading.steps.coat_step import read_coating
from surfacecalc.reading.steps.fill_step import read_filling
from surfacecalc.reading.steps.hand_step import read_handwork, read_test
from surfacecalc.reading.steps.mask_step import read_masking, read_unmasking
from surfacecalc.reading.steps.sand_step import read_sanding
from surfacecalc.reading.steps.stock import Stock
from surfacecalc.reading.steps.wash_step import read_washing
from surfacecalc.reading.tables import Context, Table, shown_text

COAT_WORDS: tuple[CoatWord, ...] = get_args(CoatWord)
SAND_WORDS: tuple[SandWord, ...] = get_args(SandWord)
OTHER_WORDS: tuple[OtherWord, ...] = get_args(OtherWord)
HAND_WORDS: tuple[HandWord, ...] = get_args(HandWord)
WORDS: tuple[StepWord, ...] = tuple(
    dict.fromkeys((*SAND_WORDS, *COAT_WORDS, *OTHER_WORDS, *HAND_WORDS))
)
"""All words of `do`."""
MEANT: dict[str, StepWord] = {
    "clean": "wash", "scrub": "wash", "degrease": "wash", "rinse": "wash",
    "paint": "coat", "apply": "coat", "brush": "coat", "spray": "coat", "oil": "coat",
    "varnish": "top coat", "lacquer": "top coat", "topcoat": "top coat", "clear coat": "top coat",
    "primer": "prime", "undercoat": "prime", "scuff": "sand", "denib": "sand", "abrade": "sand",
    "remove": "take off", "refinish": "strip", "putty": "fill", "patch": "repair",
    "glue": "repair", "fix": "repair", "tape": "mask", "dust": "dust off", "vacuum": "dust off",
    "buff": "rub out", "polish": "rub out", "sample": "test", "bleach": "wash",
    "lime": "lime wax", "liming": "lime wax", "liming wax": "lime wax",
    "untape": "unmask", "take the tape off": "unmask",
    "decals": "decal", "transfer": "decal", "transfers": "decal",
    "stencil": "decorate", "decoupage": "decorate", "decorating": "decorate",
    "distressing": "distress", "age": "distress", "antique": "distress",
}  # fmt: skip
"""Other words of the trade for a step, and the word that is used for them."""
ONCE: dict[str, StepWord] = {"gild": "wax hardware"}
"""Words that files used before, still read."""


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
        _read_as_now(table)
        meant = MEANT.get(shown_text(table.values["do"]).lower())
        if meant:
            table.refuse("do", f'is written do = "{meant}" here')
            continue
        do = table.choice("do", WORDS)
        word = next((word for word in WORDS if word == do), None)
        step = _step(table, word, stock) if table.is_sound and word is not None else None
        if step is not None:
            steps.append(step)
    return tuple(steps)


def _read_as_now(table: Table) -> None:
    """Put today's word of a step in the place of one that files used before."""
    word = table.values["do"]
    if isinstance(word, str) and word in ONCE:
        table.values["do"] = ONCE[word]


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
        unmask = unmasking_of(step)
        if unmask is not None and not masks_taken_off(steps, unmask):
            context.problems.append(_no_tape(unmask, own))


def _no_tape(unmask: Unmask, zone: str) -> Problem:
    """Return the mistake of a step that has no tape to take off."""
    which = "no tape" if unmask.tape is None else f'no "{unmask.tape}"'
    message = (
        f'do = "unmask" takes tape off, but {which} is on here; put a step with do = "mask" before'
        " it, or take this step out"
    )
    return Problem("mend", unmask.line, f'zone "{zone}"', message)


def _zones_named(step: Step) -> Iterator[tuple[str, str]]:
    yield from (("after", name) for name in step.work.after)
    mask = masking_of(step)
    if mask is not None:
        yield from (("against", name) for name in mask.against)


def _example(owner: str, key: str) -> str:
    return "[[zone.step]]" if owner.startswith("zone") else f"[[schedule.{key}]]"


def _step(table: Table, word: StepWord, stock: Stock) -> Step | None:
    match word:
        case "wash":
            return read_washing(table, stock)
        case "fill":
            return read_filling(table, stock)
        case "mask":
            return read_masking(table, stock)
        case "unmask":
            return read_unmasking(table, stock)
        case "test":
            return read_test(table, stock)
        case "repair" | "decal" | "decorate" | "take off" | "refit" | "dust off":
            return read_handwork(table, word, stock)
        case "sand" | "rub out" | "distress":
            return read_sanding(table, word, stock)
        case "strip":
            is_sanding = "grits" in table
            return (read_sanding if is_sanding else read_coating)(table, word, stock)
        case (
            "coat" | "block" | "condition" | "fill grain" | "dye" | "glaze" | "seal" | "prime"
            | "stain" | "top coat" | "wax" | "lime wax" | "wax hardware"
        ):  # fmt: skip
            return read_coating(table, word, stock)
        case _:
            assert_never(word)
