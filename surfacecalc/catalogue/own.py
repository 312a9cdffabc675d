"""The user's own files of products: where they lie, and what they have for a piece."""

import os
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from surfacecalc.catalogue.entries import ProductClass
from surfacecalc.model.shelf import Abrasive, Consumable, Product

FILE_NAME = "surfacecalc-products.toml"
FOLDER_VARIABLE = "SURFACECALC_CONFIG"
"""Environment variable that names another folder than the user's configuration folder."""


@dataclass(frozen=True)
class OwnCatalogue:
    """What the user's own files of products have for a piece.

    Attributes:
        classes: generic classes of the user's own.
        products: those that the piece file names and does not define, by name.
        product_lines: their lines, also of those with a mistake.
        abrasives: the same of abrasives.
        abrasive_lines: their lines.
        consumables: the same of consumables.
        consumable_lines: their lines.
        kept: the sound consumables that the piece file does not name.
    """

    classes: tuple[ProductClass, ...] = ()
    products: Mapping[str, Product] = field(default_factory=dict)
    product_lines: Mapping[str, int] = field(default_factory=dict)
    abrasives: Mapping[str, Abrasive] = field(default_factory=dict)
    abrasive_lines: Mapping[str, int] = field(default_factory=dict)
    consumables: Mapping[str, Consumable] = field(default_factory=dict)
    consumable_lines: Mapping[str, int] = field(default_factory=dict)
    kept: Mapping[str, Consumable] = field(default_factory=dict)


NOTHING_OWN = OwnCatalogue()


def own_files(folder: Path) -> tuple[Path, ...]:
    """Return the files of products there are for a piece file, the one that counts first before.

    Args:
        folder: where the piece file lies.
    """
    beside, kept = folder / FILE_NAME, configuration_folder() / FILE_NAME
    found = [path for path in (beside, kept) if path.exists()]
    return tuple(found[:1] if len(found) == 2 and beside.samefile(kept) else found)


def configuration_folder() -> Path:
    """Return the folder in which this user's settings of programs are kept."""
    given = os.environ.get(FOLDER_VARIABLE)
    if given:
        return Path(given)
    from platformdirs import user_config_path

    return user_config_path("surfacecalc", appauthor=False)
