"""The file that a new piece is written to."""

import os
import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from surfacecalc.problems import printable
from surfacecalc.starting.answers import Answer, AnswerError, Doubt, Question
from surfacecalc.starting.unfinished import kept_beside
from surfacecalc.starting.wordings import WORDINGS

REPLACE = "replace"
"""What an answer that overwrites a file has to be confirmed as."""
ENDING = ".toml"


@dataclass
class Targets:
    """Chooses and checks the file.

    Attributes:
        is_replacing: whether a file of the proposed name may be proposed although it is there.
        own: answers kept by this start, which are nobody else's.
    """

    is_replacing: bool = False
    own: set[Path] = field(default_factory=set)

    def proposed(self, found: Mapping[str, Answer]) -> Path:
        """Return a file that is named after the piece, free unless it may be replaced."""
        name = found["name"] if "name" in found else found["kind"]
        folder = Path(str(found["mesh"].value)).parent if "mesh" in found else Path()
        stem = _plain(name.words)
        first = folder / f"{stem}{ENDING}"
        if self._is_free(first):
            return first
        others = (folder / f"{stem}-{number}{ENDING}" for number in range(2, 1000))
        return next((path for path in others if self._is_free(path)), first)

    def _is_free(self, path: Path) -> bool:
        if path.exists() and not self.is_replacing:
            return False
        kept = kept_beside(path)
        return kept in self.own or not kept.exists()

    def question(self, found: Mapping[str, Answer]) -> Question:
        """Return the question which file is to be written."""
        mesh = Path(str(found["mesh"].value)) if "mesh" in found else None
        proposed = str(self.proposed(found))
        said = WORDINGS["file"]
        return Question(
            "file", "the file", "--out", proposed,
            (said.before,), said.prompt, proposed, lambda text: self._read(text, mesh), said.help,
        )  # fmt: skip

    def _read(self, text: str, mesh: Path | None) -> Answer:
        if printable(text) != text:
            raise AnswerError("a file name cannot contain control characters")
        path = Path(text).expanduser()
        if path.is_dir():
            raise AnswerError(f'"{path}" is a folder; name a file in it, such as {path / "piece"}')
        if path.name and not path.suffix and not path.name.startswith("."):
            path = path.with_name(path.name + ENDING)
        _check(path, mesh)
        return Answer(str(path), str(path), self._doubt(path))

    def _doubt(self, path: Path) -> Doubt | None:
        kept = kept_beside(path)
        begun = f"there are unfinished answers in {kept}"
        is_begun = kept.exists() and kept not in self.own
        if path.exists():
            found = f"there is already a file {path}" + (f", and {begun}" if is_begun else "")
            return Doubt(found, "Replace it?", REPLACE)
        return Doubt(begun, "Start over and discard them?", REPLACE) if is_begun else None


def _check(path: Path, mesh: Path | None) -> None:
    if path.suffix != ENDING:
        raise AnswerError(
            f'"{path}" does not end in {ENDING}; write {path.stem or "piece"}{ENDING}'
        )
    if path.is_dir():
        raise AnswerError(f'"{path}" is a folder; choose another name')
    if not path.parent.is_dir():
        raise AnswerError(f"there is no folder {path.parent}; use a folder that exists")
    if not os.access(path.parent, os.W_OK):
        raise AnswerError(f"you have no permission to write in the folder {path.parent}")
    if mesh is not None and relative_file(mesh, path).startswith(".."):
        raise AnswerError(
            f"put the piece file in the same folder as {mesh} or in one above it, such as"
            f" {mesh.with_suffix(ENDING)}"
        )


def relative_file(mesh: Path, target: Path) -> str:
    """Return a mesh's file as the piece file names it."""
    try:
        relative = os.path.relpath(mesh.resolve(), target.parent.resolve())
    except ValueError:  # on another drive
        return "../" + mesh.name
    return relative.replace(os.sep, "/")


def _plain(name: str) -> str:
    """Return a name as that of a file: small letters, digits and hyphens."""
    plain = unicodedata.normalize("NFKD", re.sub("['\u2019]", "", name))
    letters = plain.encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", letters).strip("-") or "piece"
