"""Parts: solids with a name and a place, joined to the piece or loose."""

from dataclasses import dataclass

from shapes.solids import Solid

FaceKey = tuple[str, str]
"""A face of the piece: (part, face)."""


@dataclass(frozen=True, eq=False)
class Part:
    """A solid with a name and a place.

    Attributes:
        name: its name, unlike any other part's.
        solid: its solid.
        at: where the left, front, bottom corner of its box stands [grid units].
        loose: False, joined to the piece; True, off the piece and alone; a word, off the piece
            and joined to the parts with the same word.
        row: what all parts of its row are called; empty for a part that is in none.
    """

    name: str
    solid: Solid
    at: tuple[int, int, int] = (0, 0, 0)
    loose: bool | str = False
    row: str = ""

    @property
    def is_joined(self) -> bool:
        """Whether it is one solid with the piece."""
        return self.loose is False


def joined_groups(parts: list[Part]) -> list[list[int]]:
    """Return the numbers of the parts that are one solid, group by group."""
    groups: dict[tuple[str, str], list[int]] = {}
    for number, part in enumerate(parts):
        key = ("joined", "") if part.is_joined else ("with", str(part.loose))
        if part.loose is True:
            key = ("alone", part.name)
        groups.setdefault(key, []).append(number)
    return list(groups.values())


def box_of(parts: list[Part]) -> tuple[tuple[int, int, int], tuple[int, int, int]] | None:
    """Return the lowest and the highest corner of all parts [grid units], None without parts."""
    if not parts:
        return None
    low = [min(part.at[k] for part in parts) for k in range(3)]
    high = [max(part.at[k] + part.solid.size[k] for part in parts) for k in range(3)]
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])
