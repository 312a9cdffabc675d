"""The frame: paper, contrast, and how a sheet is told from another file."""

import re
from importlib.resources import files
from pathlib import Path

import pytest

from surfacecalc.elements import element
from surfacecalc.sheets.make import is_another_file, target_for
from surfacecalc.sheets.sheet_frame import SheetSection, page, paper_for
from surfacecalc.units.display import Units

CSS = files("surfacecalc.sheets").joinpath("sheet.css").read_text()


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2."""
    shares = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    linear = [s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_contrast_of_black_and_white_is_21():
    assert pytest.approx(21) == contrast("#000000", "#ffffff")


GROUNDS = ["#fdfcf9", "#ffffff", "#f1eee6"]  # paper on a screen, paper, what stands out of it


def test_grounds_are_those_of_the_style():
    assert set(re.findall(r"--(?:paper|band): (#[0-9a-f]{6})", CSS)) == set(GROUNDS)


@pytest.mark.parametrize("ink", ["ink", "soft", "mark", "warn"])
@pytest.mark.parametrize("ground", GROUNDS)
def test_every_ink_is_readable_on_every_ground_on_screen_and_on_paper(ink, ground):
    colours = dict(re.findall(r"--(\w+): (#[0-9a-f]{6})", CSS))
    assert contrast(colours[ink], ground) >= 4.5  # WCAG 2.2, 1.4.3, level AA


def test_page_numbers_are_readable_on_paper():
    (colour,) = re.findall(r"counter\(pages\);\s+font: [^;]+; color: (#[0-9a-f]{6})", CSS)
    assert contrast(colour, "#ffffff") >= 4.5


@pytest.mark.parametrize("for_client", [False, True], ids=["shop", "client"])
def test_what_is_assumed_says_so_in_words_and_in_weight_not_only_in_colour(box, for_client):
    """WCAG 2.2, 1.4.1, level A."""
    marks = re.findall(r'<span class="assumed">([^<]*)</span>', box(for_client=for_client))
    assert for_client or len(marks) >= 3
    assert all("assumed" in words for words in marks)
    (rule,) = re.findall(r"\.assumed {([^}]*)}", CSS)
    assert int(re.search(r"font-weight: (\d+)", rule)[1]) >= 600


def test_style_names_no_other_colours():
    named = {"#57524b", "#ffffff"}  # page numbers cannot read variables; the drawing's ground
    declared = set(re.findall(r"--\w+: (#[0-9a-f]{6})", CSS))
    assert named | declared == set(re.findall(r"#[0-9a-fA-F]{3,8}\b", CSS))


@pytest.mark.parametrize(
    ("environment", "units", "expected"),
    [
        ({"LANG": "en_US.UTF-8"}, Units.METRIC, "letter"),
        ({"LANG": "de_DE.UTF-8"}, Units.US, "a4"),
        ({"LANG": "en_US.UTF-8", "LC_PAPER": "de_DE.UTF-8"}, Units.US, "a4"),
        ({"LANG": "C.UTF-8"}, Units.US, "letter"),
        ({}, Units.METRIC, "a4"),
    ],
)
def test_paper_follows_the_country_and_else_the_units(environment, units, expected):
    assert expected == paper_for(units, environment)


@pytest.mark.parametrize(("paper", "size"), [("a4", "A4"), ("letter", "letter")])
def test_page_has_the_size_of_its_paper(paper, size):
    content = page(
        "Box", "Shop sheet", None, [SheetSection("a", "A", element("p", "a"))], paper
    ).html()
    assert f"@page {{ size: {size}; }}" in content


def test_a_part_without_content_is_not_shown():
    assert (
        "Empty"
        not in page("Box", "Shop sheet", None, [SheetSection("e", "Empty", None)], "a4").html()
    )


def test_only_a_sheet_is_written_over_unasked(tmp_path):
    sheet, other = tmp_path / "sheet.html", tmp_path / "other.html"
    sheet.write_text(page("Box", "Shop sheet", None, [], "a4").html())
    other.write_text("<!DOCTYPE html><title>mine</title>")
    assert [False, True, False] == [
        is_another_file(path) for path in (sheet, other, tmp_path / "none.html")
    ]


def test_sheet_goes_beside_the_first_piece_file():
    files_given = [Path("a/box.toml"), Path("b/desk.toml")]
    assert Path("a/box.html") == target_for(files_given[:1], for_client=False)
    assert Path("a/box-client.html") == target_for(files_given[:1], for_client=True)
    assert Path("a/box-and-1-more.html") == target_for(files_given, for_client=False)
