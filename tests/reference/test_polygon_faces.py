"""Mesh files with faces of many corners, against OpenCASCADE and against a sampler.

Both take the outline of a face as it is and know nothing of triangles.
"""

import numpy as np
import pytest
from mesh_file_makers import write
from polygon_makers import FILES, in_space, tangled
from polygon_makers import prism as prism_faces

from shapes.meshes.mesh_exposure import mesh_exposure
from shapes.meshes.mesh_files import read_mesh

pytest.importorskip("trimesh")
pytest.importorskip("embreex")
POINTS = 200_000


@pytest.mark.parametrize("name", ["a.obj", "back.obj", "a.off", "big.ply"])
@pytest.mark.parametrize("seed", range(4))
def test_a_prism_over_a_concave_outline_has_the_kernels_area(tmp_path, name, seed, worst_errors):
    pytest.importorskip("OCP")
    from cad_kernel import area_and_middle, faces_of, line, prism, wire

    random = np.random.default_rng(seed)
    outline = tangled(random, int(random.integers(5, 25))) * 300
    corners, faces = prism_faces(outline, 200.0)
    rim = [(*point, 0.0) for point in outline.tolist()]
    edges = [line(a, b) for a, b in zip(rim, [*rim[1:], rim[0]], strict=True)]
    solid = prism(wire(edges), (0.0, 0.0, 200.0))
    expected = sum(area_and_middle(face)[0] for face in faces_of(solid))
    mesh = read_mesh(write(tmp_path, name, FILES[name](corners, faces)), 1)
    seen = mesh_exposure(mesh)
    assert seen.way == "union"
    worst_errors["prism of polygons"] = max(
        worst_errors["prism of polygons"], abs(seen.area_mm2 / expected - 1)
    )
    # 1e-6: the grid of 1/80 000 mm over parts 10 mm wide
    assert expected == pytest.approx(seen.area_mm2, rel=1e-6)


def is_inside(outline, points):
    """Whether points lie in an outline: a ray to the right crosses it an odd number of times."""
    crossings = np.zeros(len(points), dtype=np.int64)
    for (x1, y1), (x2, y2) in zip(outline, np.roll(outline, -1, axis=0), strict=True):
        is_between = (y1 > points[:, 1]) != (y2 > points[:, 1])
        at = x1 + (points[:, 1] - y1) / (y2 - y1) * (x2 - x1)
        crossings += is_between & (points[:, 0] < at)
    return crossings % 2 == 1


@pytest.mark.parametrize("seed", range(5))
def test_a_concave_face_has_the_share_of_points_that_fall_into_it(tmp_path, seed):
    random = np.random.default_rng(100 + seed)
    outline = tangled(random, 12)
    share = is_inside(outline, random.uniform(-1, 1, (POINTS, 2))).mean()
    text = FILES["a.obj"](in_space(random, outline), [range(12)])
    found = read_mesh(write(tmp_path, "a.obj", text), 1).areas_mm2["surface"]
    error = 4 * np.sqrt(share * (1 - share) / POINTS)
    # 4 standard errors of the sample: 1 in 16 000 fails by chance, and the seeds are fixed
    assert 4 * share == pytest.approx(found, abs=4 * error)
