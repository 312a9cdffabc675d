"""Draws are laid out evenly: each by itself, in each block, and with others of the same supply."""

import itertools

import numpy as np
import pytest

from surfacecalc.model.inputs import Input, Quantity
from surfacecalc.needs.slices import common, own

SIDES = [4, 16, 64]
TOGETHER: list[Quantity] = ["hand with a supply", "hand in a job", "coverage", "first coat"]
"""Inputs of one supply that are multiplied with each other."""
ALIKE: list[Quantity] = ["coverage", "solids", "abrasive life", "consumable life"]
"""What a supply has one of: how far it goes."""


def blocks(quantity: Quantity, *, of: str = "paint", side: int = 64, seed: int = 1):
    """Return the slices of an input, a row for each block."""
    return own(seed, Input(quantity, of=of), side).reshape(side, side)


@pytest.mark.parametrize("side", SIDES)
def test_the_common_input_is_in_order(side):
    assert list(range(side * side)) == list(common(side))


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("quantity", ["loss", "shrinkage", "dry film", *TOGETHER, *ALIKE])
def test_each_slice_has_one_draw_and_each_block_one_in_each_coarse_slice(quantity, side):
    found = blocks(quantity, side=side)
    assert list(range(side * side)) == sorted(found.ravel())
    for block in found // side:
        assert list(range(side)) == sorted(block)


@pytest.mark.parametrize("quantity", ["abrasive life", "coverage"])
def test_blocks_are_not_alike_and_each_seed_and_supply_has_its_own(quantity):
    found = blocks(quantity) // 64
    assert len({tuple(block) for block in found}) > 60
    for other in (blocks(quantity, of="primer"), blocks(quantity, seed=2)):
        assert 0.1 > np.mean(found == other // 64)


@pytest.mark.parametrize(
    ("one", "other"), [*itertools.combinations(TOGETHER, 2), ("solids", "dry film")]
)
def test_inputs_of_a_supply_go_through_each_block_differently(one, other):
    """A lattice of the same power would keep the same distance all through a block."""
    apart = (blocks(one, side=256) // 256 - blocks(other, side=256) // 256) % 256
    assert min(len(set(block)) for block in apart) >= 8


@pytest.mark.parametrize("other", ALIKE[1:])
def test_how_far_a_supply_goes_has_one_place_in_the_lattice_however_it_is_said(other):
    apart = (blocks("coverage") // 64 - blocks(other) // 64) % 64
    assert {1} == {len(set(block)) for block in apart}
    assert len({block[0] for block in apart}) > 8  # shifted at random in each block


@pytest.mark.parametrize("quantity", ["loss", "coverage", "hand in a job"])
def test_fine_slices_do_not_follow_coarse_ones_nor_blocks(quantity):
    found = blocks(quantity)
    fine, coarse = found % 64, found // 64
    places = np.broadcast_to(np.arange(64)[:, None], found.shape)
    for other in (coarse, places):
        # 0.1: six standard errors of 4 096 draws
        assert 0.1 > abs(np.corrcoef(fine.ravel(), other.ravel())[0, 1])
