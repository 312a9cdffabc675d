"""The pages that users read, and what is in them."""

from pathlib import Path

import pytest

from surfacecalc.guide import page, topics

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="session")
def pages() -> dict[str, str]:
    """Return the README and the pages of the guide, by name."""
    guide = {topic.name: page(topic.name) for topic in topics()}
    return {"README": (ROOT / "README.md").read_text(), "index": page("index"), **guide}


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Run a test that asks for a page's name with each of them."""
    if "page_name" in metafunc.fixturenames:
        names = ["README", "index", *(topic.name for topic in topics())]
        metafunc.parametrize("page_name", names)
