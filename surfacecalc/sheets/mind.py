"""The cautions on a sheet, each with what it applies to and its source; none is left out."""

from collections.abc import Iterable

from surfacecalc.cautions import CLOSING, Caution
from surfacecalc.pictures.marks import safe


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
