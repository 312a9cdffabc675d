"""What to mind: the cautions, each with what it applies to and its source, and remarks."""

from collections.abc import Iterable

from surfacecalc.cautions import CLOSING, Caution
from surfacecalc.pictures.marks import safe
from surfacecalc.problems import Problem


def cautions_body(found: Iterable[Caution]) -> str:
    """Return the cautions as HTML; above them, so never alone on a page, that local rules count."""
    items = []
    for caution in found:
        first, _, rest = caution.text.partition(". ")
        because = f" <small>Here: <bdi>{safe(caution.because)}</bdi>.</small>"
        items.append(
            f"<li><strong>{safe(first.rstrip('.'))}.</strong> {safe(rest)}"
            f"{because if caution.because else ''} <small>[{safe(caution.source)}]</small></li>"
        )
    if not items:
        return ""
    return f'<p class="soft">{safe(CLOSING)}</p><ul class="cautions">{"".join(items)}</ul>'


def notes_body(notes: Iterable[Problem]) -> str:
    """Return what `check` remarks on a file as HTML, each with its line."""
    items = []
    for note in notes:
        line = f" <small>line {note.line}</small>" if note.line else ""
        where = f"{safe(note.where)}: " if note.where else ""
        items.append(f"<li><bdi>{where}{safe(note.message)}.</bdi>{line}</li>")
    return f'<ul class="plain">{"".join(items)}</ul>' if items else ""
