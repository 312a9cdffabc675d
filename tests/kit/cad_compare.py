"""What an assembly shows in the CAD kernel, compared with what `shapes` says, face by face."""

import pytest
from cad_exposed import cad_areas
from cad_kernel import FLAT, together

from shapes.exposure import exposure
from shapes.placement import place

UNCUT = 1e-8
"""Of a curved face that nothing cuts: their integration over a curved patch is good to 1e-9."""

CUT = 1e-4
"""Of the area of curved faces that other parts cut: `shapes` cuts polygons of 256 sides."""


def compare(kind, pieces, worst_errors):
    """Assert that both kernels agree on whole faces and on what is exposed of them."""
    whole, shown, curved = cad_areas(pieces)
    parts = [place(str(k), piece.solid, piece.at) for k, piece in enumerate(pieces)]
    areas = exposure(parts, gap=0).areas_mm2
    assert {(str(k), face) for k, face in whole} == set(areas)
    for (number, face), area in whole.items():
        error = abs(parts[number].solid.area_mm2_of[face] / area - 1)
        what = "curved" if (number, face) in curved else "flat"
        worst_errors[f"{kind}, {what}"] = max(worst_errors[f"{kind}, {what}"], error)
        assert error < (UNCUT if what == "curved" else FLAT), (number, face)
    cut_area = sum(whole[key] for key in curved if is_cut(key, whole, shown))
    for keys in together(whole, shown):
        expected = sum(area for claim, area in shown.items() if claim <= keys)
        actual = sum(areas[str(number), face] for number, face in keys)
        size = sum(whole[key] for key in keys)
        limit = (UNCUT if keys & curved else FLAT) * size + CUT * cut_area
        assert expected == pytest.approx(actual, abs=limit), sorted(keys)
        if cut_area:
            worst_errors[f"{kind}, cut"] = max(
                worst_errors[f"{kind}, cut"], abs(expected - actual) / max(size, cut_area)
            )


def is_cut(key, whole, shown):
    seen = sum(area for claim, area in shown.items() if key in claim)
    return FLAT < seen / whole[key] < 1 - FLAT
