"""What became of every planted fault, in a text that a person reads and corrects.

    surfacecalc/units/coins.py
      rounded
        amount [+ -> -] coin / 2
          killed by tests/units/test_coins.py::test_halves

A fault "survived", was "killed by" a test, the time limit or the import, or is "equivalent:" with a
reason, which a person writes in the place of "survived".
"""

from collections import Counter
from collections.abc import Iterable, Iterator

from fault_places import ROOT, Fault

FOLDER = ROOT / "tests" / "faults" / "results"
SURVIVED, KILLED, EQUIVALENT = "survived", "killed by ", "equivalent: "
MOST_SURVIVE = 0.05
"""Of the faults of a room, the share that nothing finds and nobody has explained."""
NOT_YET: dict[str, float] = {}
"""Rooms whose survivors have not all been looked at, with the share that may survive till then."""
LONGEST = 150
MODULE = "(module)"

Key = tuple[str, str, str]
"""A file, a function and the text of a fault."""


def stored(room: str) -> dict[Key, str]:
    """Return what is stored of a room: what became of each fault.

    Raises:
        ValueError: a line says something else.
    """
    path = FOLDER / f"{room}.txt"
    lines = path.read_text(encoding="utf-8").splitlines() if path.exists() else []
    found: dict[Key, str] = {}
    parts = ["", "", ""]
    for line in lines:
        level = (len(line) - len(line.lstrip())) // 2
        if not line.strip() or line.startswith("#"):
            continue
        if level < 3:
            parts[level] = line.strip()
        elif level == 3 and line.strip().startswith((SURVIVED, KILLED, EQUIVALENT)):
            found[parts[0], parts[1].replace(MODULE, ""), parts[2]] = line.strip()
        else:
            raise ValueError(f"{path.name}: a fault survived, was killed or is equivalent: {line}")
    return found


def store(room: str, outcomes: dict[Key, str]) -> None:
    """Write what became of a room's faults, in the order of its files."""
    FOLDER.mkdir(exist_ok=True)
    text = "\n".join([f"# {summary(room, outcomes.values())}", *_lines(outcomes), ""])
    (FOLDER / f"{room}.txt").write_text(text, encoding="utf-8")


def _lines(outcomes: dict[Key, str]) -> Iterator[str]:
    place = ("", "")
    for (file, function, text), outcome in outcomes.items():
        if file != place[0]:
            yield f"\n{file}"
        if (file, function) != place:
            yield f"  {function or MODULE}"
        place = (file, function)
        yield f"    {text}"
        yield f"      {outcome}"


def killed_by(name: str) -> str:
    """Return an outcome that names what found the fault, on one line."""
    flat = " ".join(name.split())
    return KILLED + (flat if len(flat) <= LONGEST else flat[:LONGEST] + "...")


def summary(room: str, outcomes: Iterable[str]) -> str:
    """Return a room's figures in a sentence."""
    counts = Counter(outcome.split()[0] for outcome in outcomes)
    total = sum(counts.values())
    share = share_survived(outcomes)
    return (
        f"{room}: {total} faults planted, {counts['killed']} killed, {counts['equivalent:']}"
        f" equivalent, {counts['survived']} survived ({100 * share:.1f} %)."
    )


def share_survived(outcomes: Iterable[str]) -> float:
    """Return the share of faults that survived without a reason."""
    row = list(outcomes)
    return sum(outcome.startswith(SURVIVED) for outcome in row) / max(1, len(row))


def complaints(room: str, faults: Iterable[Fault]) -> list[str]:
    """Return each reason that is stored for a fault which can no longer be planted."""
    known = {fault.key for fault in faults}
    return [
        f"{room}: a reason is stored for a fault that no longer exists: {' | '.join(key)}"
        for key, outcome in stored(room).items()
        if outcome.startswith(EQUIVALENT) and key not in known
    ]
