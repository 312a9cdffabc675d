"""One thing to have at hand, and which names in a file mean it."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Gear:
    """A thing that is worn or worked with, not used up by the area.

    Attributes:
        name: what it is called on a list.
        words: parts of names, lower case, any of which means it in a file.
        instead_of: names of things that it stands in for where both would be listed.
        is_worn: whether it protects whoever works, which the cautions say as well.
    """

    name: str
    words: tuple[str, ...]
    instead_of: tuple[str, ...] = ()
    is_worn: bool = False

    def is_named(self, name: str) -> bool:
        """Whether a name in a file means it.

        >>> Gear("gloves", ("glove",)).is_named("Nitrile Gloves")
        True
        """
        text = name.lower()
        return any(word in text for word in self.words)
