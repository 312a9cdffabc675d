"""No example is sanded or stripped beside a wet film, whenever its work begins."""

from dataclasses import replace
from pathlib import Path

import pytest
from dust_near_films import STARTS, dust_near_films

from surfacecalc import api

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_no_dust_falls_on_a_wet_film_of_an_example(file: Path) -> None:
    job = api.measure(api.read_piece(file))
    workshop = replace(job.piece.workshop, start=None)
    for start in STARTS:
        piece = replace(job.piece, workshop=workshop)
        plan = api.plan(replace(job, piece=piece), start)
        assert [] == dust_near_films(job, plan)


def test_dust_that_a_file_allows_is_found() -> None:
    """So that the test above can fail: this example has it where its file allows it."""
    (file,) = (file for file in EXAMPLES if file.stem == "glazed-cabinet")
    job = api.measure(api.read_piece(file))
    workshop = replace(job.piece.workshop, start=None, sand_near_wet=True)
    plan = api.plan(replace(job, piece=replace(job.piece, workshop=workshop)), STARTS[0])
    assert dust_near_films(job, plan)
