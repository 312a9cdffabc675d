"""What a step does to the wood and to what is on it: one answer for every step and every word.

Rooms ask here instead of naming words themselves. Each answer goes through all steps and words, so
that the type checker asks for the answer of a new one.
"""

from collections.abc import Iterable, Iterator
from typing import Literal, assert_never

from surfacecalc.model.ranges import HALF, whole_odds
from surfacecalc.model.steps import (
    Coat,
    CoatWord,
    Decor,
    Fill,
    HandWord,
    Handwork,
    Mask,
    Sand,
    SandWord,
    Step,
    Trial,
    Unmask,
    Wash,
)

CoatNature = Literal[
    "plain", "named", "stripper", "grain filler", "blocker", "pore wax", "for hardware"
]
"""What a coat is: plain, so that a list need not say its word; known by its word alone; a stripper,
that goes with what it takes off; a filler that closes the pores and is sanded; there to hold stains
and resin back; a wax that stays in open pores; one that may go on hardware."""


def coat_of(step: Step) -> Coat | None:
    """Return a step that puts a product on, a stripper too; None for any other."""
    match step:
        case Coat():
            return step
        case Sand() | Wash() | Fill() | Mask() | Unmask() | Trial() | Handwork():
            return None
        case _:
            assert_never(step)


def coats_of(steps: Iterable[Step]) -> Iterator[Coat]:
    """Yield the steps that put a product on, strippers too."""
    for step in steps:
        coat = coat_of(step)
        if coat is not None:
            yield coat


def likely_coats(coat: Coat) -> int:
    """Return how many coats a step is likely to take: half of all jobs need no more.

    Coats are whole, and those that a change of colour takes beyond the usual ones are added.
    """
    more = whole_odds(coat.more_coats) if coat.more_coats else {0: 1.0}
    odds: dict[int, float] = {}
    for coats, chance in whole_odds(coat.coats).items():
        for extra, chance_of_extra in more.items():
            odds[coats + extra] = odds.get(coats + extra, 0.0) + chance * chance_of_extra
    below = 0.0
    for number in sorted(odds):
        below += odds[number]
        if below >= HALF:
            return number
    return max(odds)


def coat_left(step: Step) -> Coat | None:
    """Return a step that leaves a coat, on the zone or on hardware; None for any other."""
    coat = coat_of(step)
    return None if coat is None or coat_nature(coat.do) == "stripper" else coat


def stripper_of(step: Step) -> Coat | None:
    """Return a step that puts a stripper on; None for any other."""
    coat = coat_of(step)
    return coat if coat is not None and coat_nature(coat.do) == "stripper" else None


def sanding_of(step: Step) -> Sand | None:
    """Return a step that abrades the whole zone with grits; None for any other."""
    abrading = abrading_of(step)
    return None if abrading is None or wears_edges(abrading.do) else abrading


def abrading_of(step: Step) -> Sand | None:
    """Return a step that abrades with grits, all of the zone or its edges; None for any other."""
    match step:
        case Sand():
            return step
        case Coat() | Wash() | Fill() | Mask() | Unmask() | Trial() | Handwork():
            return None
        case _:
            assert_never(step)


def washing_of(step: Step) -> Wash | None:
    """Return a step that washes the zone, and takes wax and grease with it; None for any other."""
    wash = any_washing_of(step)
    return None if wash is None or wash.hardware is not None else wash


def any_washing_of(step: Step) -> Wash | None:
    """Return a step that washes, the zone or hardware; None for any other."""
    match step:
        case Wash():
            return step
        case Coat() | Sand() | Fill() | Mask() | Unmask() | Trial() | Handwork():
            return None
        case _:
            assert_never(step)


def filling_of(step: Step) -> Fill | None:
    """Return a step that fills holes; None for any other."""
    match step:
        case Fill():
            return step
        case Coat() | Sand() | Wash() | Mask() | Unmask() | Trial() | Handwork():
            return None
        case _:
            assert_never(step)


def masking_of(step: Step) -> Mask | None:
    """Return a step that masks; None for any other."""
    match step:
        case Mask():
            return step
        case Coat() | Sand() | Wash() | Fill() | Unmask() | Trial() | Handwork():
            return None
        case _:
            assert_never(step)


def unmasking_of(step: Step) -> Unmask | None:
    """Return a step that takes tape off; None for any other."""
    match step:
        case Unmask():
            return step
        case Coat() | Sand() | Wash() | Fill() | Mask() | Trial() | Handwork():
            return None
        case _:
            assert_never(step)


def trial_of(step: Step) -> Trial | None:
    """Return a step that tries products out; None for any other."""
    match step:
        case Trial():
            return step
        case Coat() | Sand() | Wash() | Fill() | Mask() | Unmask() | Handwork():
            return None
        case _:
            assert_never(step)


def handwork_of(step: Step) -> Handwork | None:
    """Return a step that is worked by the piece; None for any other."""
    match step:
        case Handwork():
            return step
        case Coat() | Sand() | Wash() | Fill() | Mask() | Unmask() | Trial():
            return None
        case _:
            assert_never(step)


def hardware_worked(step: Step) -> str | None:
    """Return the hardware that a step coats or washes instead of its zone; None for any other."""
    match step:
        case Coat() | Wash():
            return step.hardware
        case Sand() | Fill() | Mask() | Unmask() | Trial() | Handwork():
            return None
        case _:
            assert_never(step)


def together_with(step: Step) -> str:
    """Return the word of the steps that are put on in one session with a step; empty for none."""
    coat = coat_of(step)
    return "" if coat is None else coat.together


def session_key(step: Step) -> str:
    """Return what steps that are done in one go have in common, and no other step.

    Zones of a schedule do a step in one go if it is out of one tin; coats that are put on together
    do so as well. What is counted, such as holes, is shared by the zones of a schedule whatever
    each is filled with: there are no more of them because a zone has another colour.
    """
    coat, trial = coat_of(step), trial_of(step)
    tins = [coat.product] if coat else [*trial.products] if trial else []
    return together_with(step) or "\n".join([f"line {step.line}", "", *tins])


def is_one_session(step: Step, other: Step) -> bool:
    """Whether two steps are done in one go."""
    return session_key(step) == session_key(other)


def takes_off(step: Step) -> bool:
    """Whether a step takes every coat off: a stripper, or sanding that says so."""
    coat, sanding = coat_of(step), sanding_of(step)
    return (coat is not None and coat_nature(coat.do) == "stripper") or (
        sanding is not None and goes_to_bare_wood(sanding.do)
    )


def wears_coating(step: Step) -> bool:
    """Whether a step wears an old coating off, dry or wet; washing and handwork do not."""
    return takes_off(step) or abrading_of(step) is not None


def sands_wood(step: Step) -> bool:
    """Whether a step makes dust of the wood or of what is in it; rubbing out wears the finish."""
    abrading = abrading_of(step)
    return abrading is not None and not rubs_finish(abrading.do)


def fills(step: Step) -> bool:
    """Whether a step leaves filler that is sanded when it has set."""
    coat = coat_of(step)
    return filling_of(step) is not None or (
        coat is not None and coat_nature(coat.do) == "grain filler"
    )


def picture_noun(word: HandWord) -> str:
    """Return what handwork puts on that lies on the finish as a picture does; empty for nothing."""
    match word:
        case "decal":
            return "decal"
        case "decorate":
            return "decoration"
        case "repair" | "take off" | "refit" | "dust off":
            return ""
        case _:
            assert_never(word)


def decoration_of(step: Step) -> Decor | None:
    """Return what is decorated by a step, such as with a stencil; None for any other."""
    match step:
        case Handwork():
            return step.decor
        case Coat() | Sand() | Wash() | Fill() | Mask() | Unmask() | Trial():
            return None
        case _:
            assert_never(step)


def is_by_area(word: HandWord) -> bool:
    """Whether handwork goes over the zone, or part of it, and is not counted by the piece."""
    match word:
        case "dust off" | "decorate":
            return True
        case "repair" | "decal" | "take off" | "refit":
            return False
        case _:
            assert_never(word)


def clears_dust(word: HandWord) -> bool:
    """Whether handwork takes dust off the zone."""
    match word:
        case "dust off":
            return True
        case "repair" | "decal" | "decorate" | "take off" | "refit":
            return False
        case _:
            assert_never(word)


def fits_hardware(word: HandWord) -> bool:
    """Whether handwork puts hardware on, so that new hardware has to be there."""
    match word:
        case "refit":
            return True
        case "repair" | "decal" | "decorate" | "take off" | "dust off":
            return False
        case _:
            assert_never(word)


def removes_hardware(word: HandWord) -> bool:
    """Whether handwork takes hardware off."""
    match word:
        case "take off":
            return True
        case "repair" | "decal" | "decorate" | "refit" | "dust off":
            return False
        case _:
            assert_never(word)


def coat_nature(word: CoatWord) -> CoatNature:
    """Return what the word for a coat tells of it besides that a product is put on."""
    match word:
        case "coat":
            return "plain"
        case "strip":
            return "stripper"
        case "fill grain":
            return "grain filler"
        case "block":
            return "blocker"
        case "lime wax":
            return "pore wax"
        case "wax hardware":
            return "for hardware"
        case "condition" | "dye" | "stain" | "glaze" | "seal" | "prime" | "top coat" | "wax":
            return "named"
        case _:
            assert_never(word)


def may_go_on_hardware(word: CoatWord) -> bool:
    """Whether a coat may go on hardware instead of the zone; what the wood takes in may not."""
    match word:
        case "coat" | "block" | "prime" | "seal" | "top coat" | "wax" | "wax hardware":
            return True
        case "condition" | "fill grain" | "dye" | "glaze" | "stain" | "lime wax" | "strip":
            return False
        case _:
            assert_never(word)


def goes_to_bare_wood(word: SandWord) -> bool:
    """Whether sanding takes every coat off."""
    match word:
        case "strip":
            return True
        case "sand" | "rub out" | "distress":
            return False
        case _:
            assert_never(word)


def rubs_finish(word: SandWord) -> bool:
    """Whether abrading goes over the finish alone and leaves the wood."""
    match word:
        case "rub out":
            return True
        case "sand" | "strip" | "distress":
            return False
        case _:
            assert_never(word)


def wears_edges(word: SandWord) -> bool:
    """Whether abrading wears edges and corners on purpose, and leaves the rest of the zone."""
    match word:
        case "distress":
            return True
        case "sand" | "rub out" | "strip":
            return False
        case _:
            assert_never(word)
