"""`safety` shows every caution in full, for one piece or several."""

import json
from pathlib import Path

from surfacecalc.api import cautions, measure, read_piece


def test_every_caution_is_shown_with_its_reason_and_source(files: Path, run) -> None:
    file = files / "bench.toml"
    job = measure(read_piece(file))
    shown = " ".join(run("safety", file).stdout.split())
    found = cautions(job)
    assert [] != found
    for caution in found:
        assert " ".join(caution.text.split()) in shown
        assert f"[{'; '.join(caution.sources)}]" in shown
        assert caution.applies_to in shown


def test_json_has_the_cautions_of_all_pieces(files: Path, run) -> None:
    found = json.loads(run("safety", files / "bench.toml", files / "chest.toml", "--json").stdout)
    assert ["Piano bench", "Chest on legs"] == found["pieces"]
    assert {"headline", "text", "source", "because", "sources"} == set(found["cautions"][0])
    assert any("Piano bench: " in one["because"] for one in found["cautions"])


def test_mistakes_come_first(files: Path, run) -> None:
    result = run("safety", files / "mistakes.toml")
    assert (1, "") == (result.exit_code, result.stdout)
