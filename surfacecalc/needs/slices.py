"""Which of equally likely slices each draw of an input lies in.

As many draws as slices, one in each (Latin hypercube). The draws lie in blocks, each of as many
draws as there are blocks. The common input has its lowest slices in the first block, the next in
the second, and so on; any other input has in each block one draw in each of as many coarse slices.
So every input is laid out evenly against the common one, and not only by itself.

Everything comes from the seed and the inputs, so that the order of a file changes nothing.
"""

import hashlib

import numpy as np
import numpy.typing as npt

from surfacecalc.model.inputs import Input, Quantity

Slices = npt.NDArray[np.int32]


def common(side: int) -> Slices:
    """Return the slices of the common input: in order.

    Args:
        side: number of blocks, and of draws in each; a power of two.
    """
    return np.arange(side * side, dtype=np.int32)


def own(seed: int, what: Input, side: int) -> Slices:
    """Return the slices of an input.

    Inputs that say something of the same supply are multiplied with each other, so in each block
    they are laid out as a lattice, evenly in all of them together.

    Source: a lattice of rank 1 in Korobov's form, shifted at random for each input and block (Sloan
    and Joe, Lattice Methods for Multiple Integration, 1994).

    Args:
        seed: changes all draws.
        what: the input.
        side: as above.
    """
    generator = _generator(seed, what.draw_key)
    place = LATTICE.get(what.quantity)
    if place is None:
        return _whole(_coarse(generator, side), generator, side)
    together = _coarse(_generator(seed, f"lattice {what.of}"), side)
    step = KOROBOV**place % side | 1
    shift = generator.integers(0, side, (side, 1), dtype=np.int32)
    return _whole((step * together + shift) & (side - 1), generator, side)


KOROBOV = 201
"""Of all odd numbers below 256 the one whose first five powers make the best pairs (the shortest
dual vector of any pair has a product of 25 or more)."""
LATTICE: dict[Quantity, int] = {
    "hand with a supply": 0,
    "hand in a job": 1,
    "coverage": 2,
    "solids": 2,
    "abrasive life": 2,
    "consumable life": 2,
    "first coat": 3,
    "dry film": 4,
}
"""The power for each input of a supply; those of the same power differ by their shifts alone."""


def _generator(seed: int, key: str) -> np.random.Generator:
    digest = hashlib.sha256(f"{seed} {key}".encode()).digest()
    return np.random.default_rng(int.from_bytes(digest[:16], "big"))


def _coarse(generator: np.random.Generator, side: int) -> Slices:
    """Return for each block the coarse slices in an order of its own.

    A random order for all blocks is turned into one for each by a random odd factor and shift,
    twice: a quarter of the time of as many shuffles.
    """
    first, last = (generator.permutation(side).astype(np.int32) for _ in range(2))
    odd, more_odd = (generator.integers(0, side, (2, side, 1), dtype=np.int32)) | 1
    shift, more_shift = generator.integers(0, side, (2, side, 1), dtype=np.int32)
    places = first[(odd * np.arange(side, dtype=np.int32) + shift) & (side - 1)]
    return np.asarray(last[(more_odd * places + more_shift) & (side - 1)])


def _whole(coarse: Slices, generator: np.random.Generator, side: int) -> Slices:
    """Return the slices: of the draws in one coarse slice each has a fine one of its own."""
    blocks = generator.permutation(side).astype(np.int32)[:, np.newaxis]
    turned = generator.integers(0, side, side, dtype=np.int32)
    return np.asarray(coarse * side + (blocks ^ turned[coarse])).ravel()
