"""From when to when the tape of a zone's masking is on."""

from collections.abc import Iterator, Sequence

from surfacecalc.model.step_facts import coat_of, masking_of, unmasking_of
from surfacecalc.model.steps import Mask, Step, Unmask


def masks_on(steps: Sequence[Step]) -> Iterator[tuple[Mask, ...]]:
    """Yield for each step of a zone whose tape is on when it begins, and then whose is in the end.

    Tape comes off with the last coat before the zone is masked again, or where a step takes it off.
    """
    masks: tuple[Mask, ...] = ()
    is_coated = False
    for step in steps:
        yield masks
        mask, unmask, coat = masking_of(step), unmasking_of(step), coat_of(step)
        if mask is not None:
            masks, is_coated = (mask,) if is_coated else (*masks, mask), False
        elif unmask is not None:
            masks = tuple(mask for mask in masks if not _takes(unmask, mask))
        elif coat is not None and coat.hardware is None:
            is_coated = True
    yield masks


def masks_taken_off(steps: Sequence[Step], unmask: Unmask) -> list[Mask]:
    """Return the steps of a zone whose tape a step takes off; none where no such tape is on."""
    return [
        mask
        for step, masks in zip(steps, masks_on(steps), strict=False)
        for mask in masks
        if step.line == unmask.line and _takes(unmask, mask)
    ]


def _takes(unmask: Unmask, mask: Mask) -> bool:
    return unmask.tape in (None, mask.tape)
