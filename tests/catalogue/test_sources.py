"""What is called published names a source that a reader can look up and trust."""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest
import tomli
from typer.testing import CliRunner

from surfacecalc.catalogue.entries import gun_loss, product_classes
from surfacecalc.cautions import caution_texts
from surfacecalc.cautions.caution import Caution
from surfacecalc.commands import app
from surfacecalc.reading.steps.spray_keys import GUNS

ROOT = Path(__file__).parents[2]

KNOWN_HOSTS = {
    "dev.opencascade.org",  # the CAD kernel of the reference tests
    "docs.scipy.org",  # the solver of the reference tests
    "www.bipm.org",  # the international bureau of weights and measures
    "www.w3.org",  # a name in every drawing, never asked
}
"""Hosts that may appear: of standards' bodies, governments, universities and of what tests call."""
NOT_SOURCES = {
    "example.org",
    "elsewhere.invalid",
    "127.0.0.1",
    "schemas.microsoft.com",
    "toml.io",
    "json-schema.org",
}
"""Hosts in tests of hostile files and of formats; nothing is read from them."""

TITLE = re.compile(
    r"[Hh]andbook|technical manual|University|pollution prevention case study \d"
    r"|\b(ISO|ASTM|EN|UFC|CFR|TM|NIST)\b[ -]*\w*\d"
)
"""A handbook, a text of a government or university, or a standard by its number."""
CLAUSE = re.compile(r"\b(chapter|article|table|section|clause|page|edition) '?[\w-]+")
"""Where in it."""
STANDING = re.compile(
    r"\b(CFR|FR|IARC|NIOSH|EPA|NFPA|CPSC|ASTM|EN|ISO)\b|\bSI \d{4}/\d+"
    r"|product's (label|safety data sheet)|common practice"
)
"""What a caution may rest on."""
DOUBTS = re.compile(r"from memory|no source|weak source", re.IGNORECASE)
CAUTIONS = {
    name: value for name, value in vars(caution_texts).items() if isinstance(value, Caution)
}


def published() -> Iterator[tuple[str, str]]:
    """Yield every published value of the catalogue and its source."""
    for entry in product_classes():
        if entry.source == "published":
            yield f"{entry.name} covers", entry.reference
        if entry.first_coat.source == "published":
            yield f"{entry.name} first coat", entry.first_coat.reference
        if entry.drying is not None:
            times = (entry.drying.dry_h, entry.drying.recoat_h, entry.drying.cure_h)
            for factor in (*times, *filter(None, [entry.drying.coldest_c])):
                if factor.source == "published":
                    yield f"{entry.name} {factor.what.quantity}", factor.reference
    for gun in GUNS:
        yield f"loss with {gun}", gun_loss(gun).reference


PUBLISHED = list(published())


def hosts(text: str) -> set[str]:
    """Return the hosts of the addresses in a text."""
    found = re.findall(r"https?://[^\s\"'<>)]+", text)
    return {host for address in found if (host := urlsplit(address).hostname)}


@pytest.mark.parametrize(("value", "source"), PUBLISHED, ids=[key for key, _ in PUBLISHED])
def test_a_published_value_names_a_handbook_or_standard_and_the_place_in_it(
    value: str, source: str
) -> None:
    assert TITLE.search(source), f"{value}: {source}"
    assert CLAUSE.search(source), f"{value}: {source}"
    assert hosts(source) <= KNOWN_HOSTS


@pytest.mark.parametrize(
    "source",
    [
        "A painter's page, table 3",
        "Restoration shop, 7 days at least, chapter 2",
        "Wood Handbook (USDA FPL-GTR-190)",
    ],
)
def test_a_page_without_a_title_or_a_title_without_a_place_would_be_found(source: str) -> None:
    assert not (TITLE.search(source) and CLAUSE.search(source))


REFERENCES = tomli.loads((ROOT / "surfacecalc/catalogue/products.toml").read_text("utf-8"))[
    "references"
]
PARTS = ["title", "edition", "place", "measured_on"]
QUOTED = re.compile(r"[\"“”«»]")
MEASURED = re.compile(r"\d|[a-z]+ (on|of|outside)\b|floors|holes")


@pytest.mark.parametrize("name", REFERENCES)
def test_a_reference_says_title_edition_place_and_what_it_was_measured_on(name: str) -> None:
    told = REFERENCES[name]
    assert PARTS == [key for key in told if key not in ("practical", "spread")]
    assert all(told.values())
    assert not QUOTED.search("".join(told[part] for part in PARTS))
    assert TITLE.search(told["title"])
    assert re.search(r"\d|not dated", told["edition"])
    assert CLAUSE.search(told["place"])
    assert MEASURED.search(told["measured_on"])


def test_every_reference_is_used_and_every_published_value_carries_a_whole_one() -> None:
    whole = {
        "{}, {}, {}; measured on: {}".format(*(told[part] for part in PARTS)): name
        for name, told in REFERENCES.items()
    }
    assert set(REFERENCES) == {whole[source] for _, source in PUBLISHED}


def test_every_published_coverage_was_taken_from_whole_jobs() -> None:
    """None of them is a film's volume solids; so each has in it what a brush or a cloth loses."""
    found = [entry for entry in product_classes() if entry.source == "published"]
    assert found
    assert all(entry.is_practical for entry in found)
    assert not any(entry.is_practical for entry in product_classes() if entry not in found)


def test_one_number_spreads_as_the_row_by_weight_of_the_same_article() -> None:
    row = REFERENCES["cold_water_paint"]
    low, high = (int(number) for number in re.findall(r"(\d+) to (\d+)", row["measured_on"])[0])
    share = (high - low) / (high + low)
    alone = {name: told for name, told in REFERENCES.items() if "spread" in told}
    assert {"putty", "paste_filler"} == set(alone)
    for told in alone.values():
        assert (row["title"], row["place"]) == (told["title"], told["place"])
        assert f"{100 * share:.0f} %" == told["spread"]


def test_gel_stain_waits_are_not_called_published() -> None:
    """No handbook that was read gives one."""
    told = [entry.drying for entry in product_classes() if "gel stain" in entry.name]
    assert len(told) == 3
    assert {"assumed"} == {drying.recoat_h.source for drying in told if drying is not None}


def test_kinds_print_the_hosts_of_the_sources_kept_only() -> None:
    shown = CliRunner().invoke(app, ["kinds", "--json"], catch_exceptions=False).output
    assert json.loads(shown)["kinds"]
    assert hosts(shown) <= KNOWN_HOSTS


@pytest.mark.parametrize("name", CAUTIONS)
def test_a_caution_rests_on_a_rule_a_label_or_common_practice(name: str) -> None:
    assert CAUTIONS[name].sources
    assert [] == [one for one in CAUTIONS[name].sources if not STANDING.search(one)]


@pytest.mark.parametrize("suffix", ["py", "toml", "md", "css", "js", "typ"])
def test_no_file_names_another_host(suffix: str) -> None:
    for folder in ("surfacecalc", "shapes", "tests", "examples"):
        for path in (ROOT / folder).rglob(f"*.{suffix}"):
            strange = hosts(path.read_text(encoding="utf-8")) - KNOWN_HOSTS - NOT_SOURCES
            assert not strange, f"{path.relative_to(ROOT)}: {strange}"


@pytest.mark.parametrize("folder", ["surfacecalc/catalogue", "surfacecalc/cautions"])
def test_no_page_for_users_doubts_its_own_source(folder: str) -> None:
    for path in (ROOT / folder).iterdir():
        if path.suffix in (".py", ".toml", ".md"):
            assert not DOUBTS.search(path.read_text(encoding="utf-8")), path.name
