"""The questions of a new piece, in their order; which ones there are depends on the answers."""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from pathlib import Path

from surfacecalc.problems import nearest
from surfacecalc.starting.answers import Answer, AnswerError, Question
from surfacecalc.starting.finishes import (
    CONDITIONS,
    FINISHES,
    LEAVE,
    TOP,
    ZONES,
    is_to_strip,
    told_of,
)
from surfacecalc.starting.layouts.flat_layouts import mesh
from surfacecalc.starting.measurements import Measure, Sizes
from surfacecalc.starting.mesh_questions import mesh_question, mesh_unit_question
from surfacecalc.starting.name_questions import built_question, currency_question, name_question
from surfacecalc.starting.part_blocks import Block, ZoneFaces, zones_of
from surfacecalc.starting.piece_kinds import KINDS, MESH, kind_of
from surfacecalc.starting.scales import UNITS, Scale
from surfacecalc.starting.targets import Targets, relative_file

Found = Mapping[str, Answer]


def next_question(found: Found, targets: Targets) -> Question | None:
    """Return the first question that has no answer yet, None where all have."""
    return next((q for q in _course(found, targets) if q.key not in found), None)


def _course(found: Found, targets: Targets) -> Iterator[Question]:
    """Yield the questions; each may rely on the answers to those before it."""
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
    for measure in kind.measures:
        sizes = sizes_of(found)
        if measure.asked(sizes):
            yield _measure_question(measure, sizes)
    zones = zones_found(found)
    for number in range(len(zones)):
        yield from _zone_questions(found, zones, number)
    yield built_question()
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
        f"{m.what.rstrip('?')}: {found[m.key].words}, {m.how.partition(';')[0]}"
        for m in measures
        if m.key in found and (m.key in assumed) == wanted
    ]


def kind_word(text: str) -> str:
    """Return the kind that a text means.

    Raises:
        AnswerError: it means none.
    """
    return choice(text, {kind.key: kind.told for kind in KINDS})


def choice(text: str, words: Mapping[str, str]) -> str:
    """Return the word that a text means: itself, its number, its meaning or its beginning.

    Raises:
        AnswerError: it means none, or several.
    """
    plain = " ".join(text.lower().split())
    keys = list(words)
    if plain.isascii() and plain.isdigit() and 1 <= int(plain[:3]) <= len(keys):
        return keys[int(plain[:3]) - 1]
    exact = [key for key in keys if plain in (key, words[key].lower())]
    begun = [key for key in keys if plain and key.startswith(plain)]
    if len(exact or begun) == 1:
        return (exact or begun)[0]
    near = nearest(plain, keys)
    hint = f'did you mean "{near}"?' if near else f"answer with one of {', '.join(keys)}"
    raise AnswerError(f'"{text}" is none of them; {hint}')


def _choice_reader(words: Mapping[str, str]) -> Callable[[str], Answer]:
    def read(text: str) -> Answer:
        key = choice(text, words)
        return Answer(key, key)

    return read


def _kind_question() -> Question:
    words = {kind.key: kind.told for kind in KINDS}
    told = ("What kind of piece is it?", *_listed(words))
    return Question(
        "kind",
        "the kind of piece",
        "KIND",
        "dresser",
        told,
        "Kind",
        None,
        _choice_reader(words),
        "Type a word of the list, its beginning or its number. Take the one that is built most"
        " like yours; any part can be changed in the file.",
    )


def _unit_question() -> Question:
    told = (
        'Which unit do you measure in? A plain number, such as "22 1/2" or "22.5", counts in it.'
        ' Another unit is written behind the number: "5 ft 2 in", "113 cm".',
        *_listed(UNITS),
    )
    return Question(
        "unit",
        "the unit",
        "--unit",
        "in",
        told,
        "Unit",
        "in",
        _choice_reader(UNITS),
        "What your tape shows: in for inches with fractions, cm or mm for a metric one.",
    )


def _listed(words: Mapping[str, str]) -> list[str]:
    """Return words with their numbers and meanings, as rows of a table."""
    return [f"{number:>2} {key}\t{told}" for number, (key, told) in enumerate(words.items(), 1)]


def _measure_question(measure: Measure, sizes: Sizes) -> Question:
    limits = measure.limits(sizes)
    middle = sizes.scale.common(measure.most) / 2 if measure.sort == "length" else limits.most
    example = measure.words(max(min(middle, limits.most), limits.least), sizes.scale)
    end = "" if measure.what.endswith("?") else ":"
    told = (f"{measure.what}{end} {measure.how}.",)
    return Question(
        measure.key,
        f"{measure.what[0].lower()}{measure.what[1:]} ({measure.how.partition(';')[0]})",
        f"--{measure.key}",
        example,
        told,
        measure.range_words(sizes),
        measure.proposal(sizes),
        lambda text: measure.read(text, sizes),
        measure.explained(sizes),
    )


def _zone_questions(found: Found, zones: Sequence[ZoneFaces], number: int) -> Iterator[Question]:
    """Yield how a zone is to be finished, and what it is like now unless it is left."""
    names = [zone.name for zone in zones]
    name, before = names[number], names[:number]
    hidden = ZONES[name].is_hidden
    told = (*_zones_told(names), "") if number == 0 else ()
    seen = [zone for zone in before if not ZONES[zone].is_hidden]
    yield Question(
        finish_key(name),
        f'how the zone "{name}" is to be finished',
        "--finish",
        "paint",
        (*told, f'Zone "{name}": {told_of(name, names)}.'),
        "Finish: " + ", ".join(FINISHES),
        LEAVE if hidden else _said_before(found, map(finish_key, seen), finish_key(TOP)),
        _choice_reader(FINISHES),
        _meanings(FINISHES),
        "" if hidden else finish_key(""),
    )
    if word(found, finish_key(name)) == LEAVE:
        return
    proposed = _said_before(found, map(condition_key, before), condition_key(TOP))
    yield Question(
        condition_key(name),
        f'what the zone "{name}" is like now',
        "--condition",
        "varnished",
        () if proposed else ("What is it like now?", *_listed(CONDITIONS)),
        "Now: " + ", ".join(CONDITIONS),
        proposed,
        _choice_reader(CONDITIONS),
        f"{_meanings(CONDITIONS)} Unsure? Take varnished for a clear coat that you cannot name.",
        condition_key(""),
    )


def _said_before(found: Found, keys: Iterable[str], of_top: str) -> str | None:
    """Return what was said for the zone before; for a top only where it was the only one.

    A top is often finished unlike the rest, and what follows it is like the rest.
    """
    said = [key for key in keys if key in found]
    like = [key for key in said if key != of_top] or said
    return found[like[-1]].words if like else None


def _meanings(words: Mapping[str, str]) -> str:
    return f"{'; '.join(f'{key}: {told}' for key, told in words.items())}."


def _zones_told(names: Sequence[str]) -> tuple[str, ...]:
    rows = [f"{name}\t{told_of(name, names)}" for name in names]
    ways = [f"{way}\t{meaning}" for way, meaning in FINISHES.items()]
    return (
        "These are its zones, faces that are finished alike:",
        *rows,
        "Each of them can be finished in one of these ways:",
        *ways,
    )


def finish_key(zone: str) -> str:
    """Return the key of how a zone is finished; of all zones in sight for no name."""
    return f"finish {zone}".strip()


def condition_key(zone: str) -> str:
    """Return the key of what a zone is like now; of all zones for no name."""
    return f"condition {zone}".strip()


def strip_remark(found: Found, key: str) -> str:
    """Return what is to be said after the condition of a zone; empty for nothing."""
    zone = key.removeprefix("condition ")
    if not key.startswith("condition "):
        return ""
    way = word(found, finish_key(zone))
    if not is_to_strip(way, word(found, key)):
        return ""
    what = "Stain soaks" if way == "stain" else "Oil soaks"
    return f"{what} into bare wood only: the old finish has to come off first."
