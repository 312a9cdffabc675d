"""No piece that `new` writes is sanded or stripped beside a wet film, whenever its work begins."""

from collections.abc import Callable
from pathlib import Path

import pytest
from dust_near_films import STARTS, dust_near_films

from surfacecalc import api
from surfacecalc.starting.piece_kinds import KINDS

FINISHES = (("paint", "varnished"), ("clear", "painted"), ("stain", "bare"))


@pytest.mark.parametrize("kind", [kind.key for kind in KINDS if kind.measures])
@pytest.mark.parametrize("finish", FINISHES, ids=lambda finish: finish[0])
def test_no_dust_falls_on_a_wet_film_of_a_new_piece(
    finish: tuple[str, str], kind: str, answer: Callable, tmp_path: Path
) -> None:
    how, condition = finish
    finished = ("--finish", how, "--condition", condition, "--built", "1948")
    assert 0 == answer(kind, finished=finished).exit_code
    (file,) = tmp_path.glob("*.toml")
    job = api.measure(api.read_piece(file))
    for start in STARTS:
        assert [] == dust_near_films(job, api.plan(job, start))
