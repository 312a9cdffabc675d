"""Heaps of boxes, and boxes that share a volume, against a plain count over all pairs."""

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shapes.boards import board
from shapes.neighbours import boxes_in_each_other, heaps
from shapes.placement import place

sizes = st.integers(1, 6)
spots = st.tuples(*[st.integers(0, 15)] * 3)
boxes = st.lists(st.tuples(spots, st.tuples(sizes, sizes, sizes)), max_size=12)


def parts_of(boxes):
    return [place(f"p{k}", board(*size), at) for k, (at, size) in enumerate(boxes)]


def overlaps(first, second):
    """Return the overlap of two boxes along each axis, below zero where there is air."""
    (at, size), (other, other_size) = first, second
    return [min(at[k] + size[k], other[k] + other_size[k]) - max(at[k], other[k]) for k in range(3)]


@given(boxes)
def test_boxes_that_share_a_volume_are_all_found_with_it(boxes):
    expected = {
        (f"p{a}", f"p{b}"): np.prod(overlaps(boxes[a], boxes[b]))
        for a, b in itertools.combinations(range(len(boxes)), 2)
        if min(overlaps(boxes[a], boxes[b])) > 0
    }
    found = {(a.name, b.name): mm3 for a, b, mm3 in boxes_in_each_other(parts_of(boxes))}
    assert expected.keys() == found.keys()
    for pair, volume in expected.items():
        assert pytest.approx(volume, rel=1e-12) == found[pair]


@given(boxes, st.integers(0, 3))
def test_heaps_are_what_pairs_near_each_other_connect(boxes, air):
    heap = {f"p{k}": {f"p{k}"} for k in range(len(boxes))}
    for a, b in itertools.combinations(range(len(boxes)), 2):
        if min(overlaps(boxes[a], boxes[b])) >= -air:
            joined = heap[f"p{a}"] | heap[f"p{b}"]
            heap.update(dict.fromkeys(joined, joined))
    expected = {frozenset(names) for names in heap.values()}
    found = [frozenset(part.name for part in group) for group in heaps(parts_of(boxes), air)]
    assert expected == set(found)
    assert len(boxes) == sum(map(len, found))


def test_no_parts_make_no_heap():
    assert [] == heaps([], 5)
    assert [] == list(boxes_in_each_other([]))
