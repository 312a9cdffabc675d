"""What the owner is told about holes and care, and whose file is not written over."""

from pathlib import Path
from types import SimpleNamespace

import pytest

from surfacecalc.sheets.client_words import _holes, care
from surfacecalc.sheets.make import is_another_file


@pytest.mark.parametrize(
    ("holes", "said"),
    [
        ([("pit", 2), ("groove", 1), ("pit", 3)], "five small holes and one groove are filled"),
        ([("gouge", 1)], "one gouge is filled"),
    ],
)
def test_holes_of_a_kind_are_counted_together(holes: list[tuple[str, int]], said: str) -> None:
    step = SimpleNamespace(
        hardware=None, holes=[SimpleNamespace(kind=kind, count=n) for kind, n in holes]
    )
    assert said == _holes(step, "")  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("family", "word"),
    [("shellac", "alcohol"), ("oil", "Oil it again"), ("wax", "Wax it again"),
     ("varnish", "mild soap"), ("paint", "mild soap")],
)  # fmt: skip
def test_each_finish_has_its_own_care_and_no_other(family: str, word: str) -> None:
    words = {"alcohol", "Oil it again", "Wax it again", "mild soap"}
    told = " ".join(care([family]))
    assert {word} == {one for one in words if one in told}
    assert told.startswith("Dust with a soft dry cloth.")


def test_a_file_that_cannot_be_read_is_taken_for_somebody_elses(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(path: Path) -> bytes:
        raise OSError

    file = tmp_path / "list.html"
    assert not is_another_file(file)
    file.write_text("<p>notes")
    assert is_another_file(file)
    monkeypatch.setattr(Path, "read_bytes", refuse)
    assert is_another_file(file)
