"""The questions of a new piece, in their order; which ones there are depends on the answers."""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from pathlib import Path

from surfacecalc.starting.answers import Answer, Line, Question
from surfacecalc.starting.choices import choice, choice_reader
from surfacecalc.starting.finishes import (
    AS_IN_FILE,
    CONDITIONS,
    FINISHES,
    LEAVE,
    OUTSIDE_UNDER,
    ZONES,
    Coats,
    Step,
    Washing,
    is_to_strip,
    meaning_of,
    steps,
)
from surfacecalc.starting.layouts.flat_layouts import mesh
from surfacecalc.starting.measurements import Measure, Sizes
from surfacecalc.starting.mesh_questions import mesh_question, mesh_unit_question
from surfacecalc.starting.name_questions import (
    built_question,
    currency_question,
    name_question,
    stripping_question,
)
from surfacecalc.starting.other_words import OF_FINISHES, OF_KINDS, OF_SURFACES, OF_UNITS
from surfacecalc.starting.own_products import product_questions
from surfacecalc.starting.part_blocks import Block, ZoneFaces, zones_of
from surfacecalc.starting.piece_kinds import KINDS, MESH, kind_of
from surfacecalc.starting.scales import UNITS, Scale
from surfacecalc.starting.targets import Targets, relative_file
from surfacecalc.starting.wordings import WORDINGS

Found = Mapping[str, Answer]
NOT_ASKED = (LEAVE, AS_IN_FILE)
"""Finishes of zones of which no surface is asked and no step is known."""
ANSWERED_BY = {"length": "a measurement", "count": "a number", "presence": "yes or no"}


def next_question(found: Found, targets: Targets) -> Question | None:
    """Return the first question that has no answer yet, None where all have."""
    return next((q for q in _course(found, targets) if q.key not in found), None)


def _course(found: Found, targets: Targets) -> Iterator[Question]:
    """Yield the questions; each may rely on the answers to those before it.

    Measures that have an answer are passed over: to word a question takes longer than all else.
    """
    yield _kind_question()
    kind = kind_of(word(found, "kind"))
    is_mesh = kind.key == MESH
    if is_mesh:
        yield mesh_question()
    yield name_question(Path(word(found, "mesh")).stem if is_mesh else kind.title)
    yield targets.question(found)
    yield _unit_question()
    if is_mesh:
        yield mesh_unit_question(Path(word(found, "mesh")), scale_of(found))
    sizes = sizes_of(found)
    for measure in kind.measures:
        if measure.key not in found and measure.asked(sizes):
            yield _measure_question(measure, sizes)
    zones = zones_found(found)
    for number in range(len(zones)):
        yield from _zone_questions(found, zones, number)
    yield built_question()
    if any(strip_zones(found, zones)):
        yield stripping_question(word(found, "built"))
    yield from product_questions(folder_of(found), supplies_found(found, zones))
    yield currency_question(scale_of(found).unit)


def word(found: Found, key: str) -> str:
    """Return an answer that is a word."""
    return str(found[key].value)


def scale_of(found: Found) -> Scale:
    """Return the tape that the answers chose."""
    return Scale(word(found, "unit"))


def sizes_of(found: Found) -> Sizes:
    """Return what was measured so far."""
    values = {k: a.value for k, a in found.items() if isinstance(a.value, Fraction)}
    return Sizes(values, scale_of(found))


def blocks_found(found: Found) -> list[Block]:
    """Return the parts of a piece of which everything is measured."""
    kind = kind_of(word(found, "kind"))
    if kind.key == MESH:
        file = relative_file(Path(word(found, "mesh")), Path(word(found, "file")))
        return mesh(file, word(found, "mesh-unit"))
    return list(kind.layout(sizes_of(found)))


def zones_found(found: Found) -> list[ZoneFaces]:
    """Return the zones of a piece of which everything is measured."""
    return zones_of(blocks_found(found), ZONES)


def measured_lines(found: Found, *, assumed: Collection[str], wanted: bool) -> list[str]:
    """Return what was measured and from where to where, or what was taken as proposed.

    Args:
        found: the answers.
        assumed: keys of the measures that were taken as proposed.
        wanted: whether to return those or the others.
    """
    measures = kind_of(word(found, "kind")).measures
    return [
        f"{m.what}: {found[m.key].words}" + (f", {m.how}" if _has_length(m, found) else "")
        for m in measures
        if m.key in found and (m.key in assumed) == wanted
    ]


def _has_length(measure: Measure, found: Found) -> bool:
    return measure.sort == "length" and bool(found[measure.key].value)


def kind_word(text: str) -> str:
    """Return the kind that was meant.

    Raises:
        AnswerError: none was meant.
    """
    kinds = {kind.key: kind.meaning for kind in KINDS}
    return choice(text, kinds, OF_KINDS, is_last_word_enough=True)


def _kind_question() -> Question:
    said, kinds = WORDINGS["kind"], {kind.key: kind.meaning for kind in KINDS}
    return Question(
        "kind", "the kind of piece", "KIND", "dresser", (said.before,), said.prompt, None,
        choice_reader(kinds, OF_KINDS, is_last_word_enough=True), said.help, kinds, is_listed=True,
    )  # fmt: skip


def _unit_question() -> Question:
    said = WORDINGS["unit"]
    return Question(
        "unit", "the unit", "--unit", "in", (said.before,), said.prompt, "in",
        choice_reader(UNITS, OF_UNITS), said.help, UNITS, is_listed=True,
    )  # fmt: skip


def _measure_question(measure: Measure, sizes: Sizes) -> Question:
    limits = measure.limits(sizes)
    middle = sizes.scale.common(measure.most) / 2 if measure.sort == "length" else limits.most
    example = measure.words(max(min(middle, limits.most), limits.least), sizes.scale)
    return Question(
        measure.key,
        f"the {_small(measure.what)} ({measure.how})",
        f"--{measure.key}",
        example,
        (measure.before(),),
        measure.prompt(sizes),
        measure.proposal(sizes),
        lambda text: measure.read(text, sizes),
        measure.help(sizes),
        how_to_type=measure.how_to_type(sizes.scale),
        answered_by=ANSWERED_BY[measure.sort],
    )


def _small(words: str) -> str:
    return f"{words[0].lower()}{words[1:]}"


def _zone_questions(found: Found, zones: Sequence[ZoneFaces], number: int) -> Iterator[Question]:
    """Yield how a zone is to be finished, and what is on it now unless it gets no finish."""
    names = [zone.name for zone in zones]
    name, before = names[number], names[:number]
    yield _finish_question(found, names, number)
    if word(found, finish_key(name)) in NOT_ASKED:
        return
    proposed = _said_before(found, map(condition_key, before), _covers(condition_key))
    said = WORDINGS["condition"]
    yield Question(
        condition_key(name),
        f'the surface of the zone "{name}" now',
        "--condition",
        "varnished",
        () if proposed else (said.before,),
        said.prompt,
        proposed,
        choice_reader(CONDITIONS, OF_SURFACES),
        said.help,
        CONDITIONS,
        is_listed=not proposed,
        general=condition_key(""),
    )


def folder_of(found: Found) -> Path:
    """Return the folder of the piece file."""
    return Path(word(found, "file")).parent


def supplies_found(found: Found, zones: Sequence[ZoneFaces]) -> set[str]:
    """Return the products that the steps of all zones use."""
    return {
        step.product
        for zone in zones
        for step in steps_of(found, zone.name)
        if isinstance(step, Washing | Coats)
    }


def steps_of(found: Found, zone: str) -> tuple[Step, ...]:
    """Return the steps of a zone; none where it is left as it is."""
    way = word(found, finish_key(zone))
    if way in NOT_ASKED:
        return ()
    stripping = word(found, "stripping") if "stripping" in found else "sanding"
    return steps(way, word(found, condition_key(zone)), stripping)


def strip_zones(found: Found, zones: Sequence[ZoneFaces]) -> Iterator[str]:
    """Yield the zones whose old finish has to come off."""
    for zone in zones:
        way = word(found, finish_key(zone.name))
        if way not in NOT_ASKED and is_to_strip(way, word(found, condition_key(zone.name))):
            yield zone.name


def _finish_question(found: Found, names: Sequence[str], number: int) -> Question:
    name, said = names[number], WORDINGS["finish"]
    hidden = ZONES[name].is_hidden
    seen = [zone for zone in names[:number] if not ZONES[zone].is_hidden]
    first = _zones_and_ways(names) if number == 0 else ()
    return Question(
        finish_key(name),
        f'the finish of the zone "{name}"',
        "--finish",
        "paint",
        (*first, f'Zone "{name}": {meaning_of(name, names)}.'),
        said.prompt,
        LEAVE if hidden else _said_before(found, map(finish_key, seen), _covers(finish_key)),
        choice_reader(FINISHES, OF_FINISHES),
        said.help,
        FINISHES,
        general="" if hidden else finish_key(""),
    )


def _zones_and_ways(names: Sequence[str]) -> tuple[Line, ...]:
    """Return what is read before the first zone: all zones, and the ways to finish them."""
    return (
        "These are its finish zones (faces that get the same finish):",
        *((name, meaning_of(name, names)) for name in names),
        WORDINGS["finish"].before,
        *FINISHES.items(),
        "",
    )


def _covers(key_of: Callable[[str], str]) -> set[str]:
    """Return the keys of tops and lids, each often finished unlike the rest."""
    return {key_of(zone) for zone in OUTSIDE_UNDER}


def _said_before(found: Found, keys: Iterable[str], of_covers: Collection[str]) -> str | None:
    """Return what was said for the zone before; for a top or a lid only where it was the only one.

    What follows it is like the rest.
    """
    said = [key for key in keys if key in found and found[key].words != AS_IN_FILE]
    like = [key for key in said if key not in of_covers] or said
    return found[like[-1]].words if like else None


def finish_key(zone: str) -> str:
    """Return the key of how a zone is finished; of all zones in sight for no name."""
    return f"finish {zone}".strip()


def condition_key(zone: str) -> str:
    """Return the key of what a zone is like now; of all zones for no name."""
    return f"condition {zone}".strip()


def strip_note(found: Found, key: str) -> str:
    """Return the note that follows the condition of a zone; empty for none."""
    zone = key.removeprefix("condition ")
    if not key.startswith("condition "):
        return ""
    way = word(found, finish_key(zone))
    if not is_to_strip(way, word(found, key)):
        return ""
    return f"{way.capitalize()} only soaks into bare wood, so the old finish has to come off first."
