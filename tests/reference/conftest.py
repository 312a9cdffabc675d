"""What the checks against the CAD kernel share."""

from collections import defaultdict

import pytest


@pytest.fixture(scope="module")
def worst_errors(record_testsuite_property):
    """Gather the worst relative error by shape; `--junitxml` writes them down."""
    errors: defaultdict[str, float] = defaultdict(float)
    yield errors
    for kind, error in sorted(errors.items()):
        record_testsuite_property(f"worst error, {kind}", f"{error:.1e}")
