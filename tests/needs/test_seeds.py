"""How far a point of a real job moves with the seed: what the docstring of DRAWS says."""

from pathlib import Path

import numpy as np
import pytest

from surfacecalc import api
from surfacecalc.needs.draws import Draws, quantiles
from surfacecalc.needs.job import job_needs

EXAMPLES = Path(__file__).parents[2] / "examples"
MOST, USUAL = 5e-3, 1.5e-3
"""Of a 90 % point: the most, and the root of the mean square over the supplies of a job."""


@pytest.mark.parametrize("name", ["blanket-box", "chair-set", "linen-cupboard", "washstand"])
def test_a_90_per_cent_point_hardly_moves_from_seed_to_seed(name):
    job = api.measure(api.read_piece(EXAMPLES / f"{name}.toml"))
    found: dict[object, list[float]] = {}
    for seed in range(1, 9):
        for need in job_needs(job.piece, job.measured, Draws(seed=seed)):
            if not isinstance(need.drawn, float):
                found.setdefault(need.supplied, []).extend(quantiles(need.drawn, (0.9,)))
    points = np.array(list(found.values()))
    off = points / points.mean(axis=1, keepdims=True) - 1
    assert np.unique(points[0]).size == 8
    assert np.abs(off).max() < MOST
    assert np.sqrt(np.mean(off**2)) < USUAL
