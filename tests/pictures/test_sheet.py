"""The drawing: well-formed, complete, true to the measures, and safe with any text."""

import itertools
import re
import xml.etree.ElementTree as ET
from dataclasses import dataclass

import pytest
import shapely
from piece_texts import piece_text

from shapes.surfaces import surfaces
from surfacecalc.model.pieces import Piece
from surfacecalc.pictures.arrangement import Placed, flow
from surfacecalc.pictures.beside import loose_parts
from surfacecalc.pictures.layout import SHEET_HEIGHT, SHEET_WIDTH
from surfacecalc.pictures.marks import shortened
from surfacecalc.pictures.palette import looks
from surfacecalc.pictures.scenes import scene
from surfacecalc.pictures.sheet import draw
from surfacecalc.pictures.views import ISOMETRIC
from surfacecalc.units.display import Units, format_length
from surfacecalc.units.shown_areas import format_area
from surfacecalc.zones.areas import Measured

SVG = "{http://www.w3.org/2000/svg}"
BOX = piece_text(
    piece={"name": "NAME", "unit": "mm"},
    part=[
        {"name": "box", "shape": "board", "width": 400, "depth": 300, "height": 200},
    ],
    zone=[
        {"name": "ZONE", "faces": ["box"], "leave": True},
    ],
)  # fmt: skip
LOOSE = """
[[part]]
name = "lid"
shape = "board"
width = 410
depth = 310
height = 20
at = [0, 0, 100]
loose = true
"""
STEP = """
[[zone.step]]
do = "sand"
grits = [120]
with = "sheet"

[[abrasive]]
name = "sheet"
form = "sheet"
life = "0.5 m2"
packs = [{ count = 5 }]
"""
HOSTILE = [
    "<script>alert(1)</script>",
    "]]>&lt;\"'><svg onload='x'>",
    "left\u202eright\u2066x\u200f",
    "tab\tnul\x01escape\x1b[31m",
    "\ufffe \u2028 \u00ad",
    "{draw} {{}} %s \\",
]


def drawing(read: tuple[Piece, Measured], units: Units = Units.METRIC) -> str:
    piece, measured = read
    return draw(piece, measured, units)


def parse(svg: str) -> ET.Element:
    return ET.fromstring(svg)  # noqa: S314 it was written a moment ago


def texts(svg: str) -> list[str]:
    return [node.text or "" for node in parse(svg).iter(f"{SVG}text")]


def quoted(text: str) -> str:
    """Return a TOML string."""
    return "".join(
        f"\\U{ord(sign):08x}" if sign in '"\\' or not sign.isprintable() else sign for sign in text
    )


@dataclass(frozen=True)
class Drawn:
    """A piece and its drawing."""

    piece: Piece
    measured: Measured
    svg: str


def says_its_areas(drawn: Drawn) -> None:
    words = texts(drawn.svg)
    for zone in drawn.measured.one.zones:
        assert zone.zone.name in words
        assert format_area(zone.area_m2, Units.METRIC) in words
    for length in drawn.measured.size_mm:
        assert format_length(length, Units.METRIC) in words


def is_as_wide_as_promised_and_fits_letter_paper(drawn: Drawn) -> None:
    root = parse(drawn.svg)
    _, _, width, height = (float(number) for number in root.get("viewBox").split())
    assert root.get("width") == f"{width:g}mm"
    assert root.get("height") == f"{height:g}mm"
    assert width == SHEET_WIDTH
    assert height <= SHEET_HEIGHT + 10  # Letter is 279 mm high: margins of 7 mm remain


def gives_screen_readers_a_title_and_the_areas_in_words(drawn: Drawn) -> None:
    root = parse(drawn.svg)
    assert root.get("role") == "img"
    named = {node.get("id"): node.text for node in root if node.get("id")}
    title, words = (named[key] for key in root.get("aria-labelledby").split())
    assert title is not None
    assert words is not None
    assert drawn.piece.settings.name in title
    for zone in drawn.measured.one.zones:
        assert f"{zone.zone.name} {format_area(zone.area_m2, Units.METRIC)}" in words


def fills_every_zone_somewhere_or_says_it_is_not_seen(drawn: Drawn) -> None:
    root = parse(drawn.svg)
    filled = {node.get("fill") for node in root.iter(f"{SVG}path")}
    for k, (zone, look) in enumerate(
        zip(drawn.measured.one.zones, looks(drawn.measured), strict=False)
    ):
        hidden = "not seen in these views" in drawn.svg or zone.area_m2 == 0
        assert look.tint in filled or hidden
        assert f"url(#zone-{k})" in filled or hidden or not look.pattern.has_marks


def has_patterns_without_a_ground_of_their_own_over_the_whole_face(drawn: Drawn) -> None:
    root = parse(drawn.svg)
    assert [] == [one.tag for one in root.iterfind(f".//{SVG}pattern/{SVG}rect")]
    tints = {f"url(#zone-{k})": look.tint for k, look in enumerate(looks(drawn.measured))}
    pairs = itertools.pairwise(root.iter())
    patterned = [pair for pair in pairs if str(pair[1].get("fill")).startswith("url")]
    assert patterned
    for below, node in patterned:
        assert tints[node.get("fill")] == below.get("fill")
        assert node.get("d") == below.get("d")


def refers_to_nothing_outside_itself(drawn: Drawn) -> None:
    assert re.findall(r"\w+://[^\"]+", drawn.svg) == ["http://www.w3.org/2000/svg"]
    assert not re.search(r"<(script|image|use|foreignObject|a)\b|\bon\w+=|href", drawn.svg)
    ids = set(re.findall(r'\bid="([^"]+)"', drawn.svg))
    assert set(re.findall(r"url\(#([^)]+)\)", drawn.svg)) <= ids


RULES = (
    says_its_areas,
    is_as_wide_as_promised_and_fits_letter_paper,
    gives_screen_readers_a_title_and_the_areas_in_words,
    fills_every_zone_somewhere_or_says_it_is_not_seen,
    has_patterns_without_a_ground_of_their_own_over_the_whole_face,
    refers_to_nothing_outside_itself,
)


def test_a_drawing_keeps_every_rule(example):
    """One drawing for all rules: that of a chair of spindles takes seven seconds."""
    piece, measured = example
    drawn = Drawn(piece, measured, draw(piece, measured, Units.METRIC))
    for rule in RULES:
        rule(drawn)


def test_areas_are_said_in_the_units_asked_for(read_example):
    piece, measured = read_example("writing-table")
    words = texts(draw(piece, measured, Units.US))
    assert {format_area(zone.area_m2, Units.US) for zone in measured.one.zones} <= set(words)


def test_a_zone_that_only_faces_away_is_said_not_to_be_seen(read_text):
    text = BOX.replace('faces = ["box"]', 'faces = ["box.bottom"]')
    words = texts(drawing(read_text(text)))
    assert "left as it is, not seen in these views" in words
    assert "in no zone" in words


@pytest.mark.parametrize("hostile", HOSTILE)
def test_text_of_a_user_stays_text(read_text, hostile):
    text = BOX.replace("NAME", quoted(hostile)).replace("ZONE", quoted(hostile))
    svg = drawing(read_text(text))
    harmless = drawing(read_text(BOX))
    tags = [node.tag for node in parse(svg).iter()]
    assert [node.tag for node in parse(harmless).iter()] == tags
    assert not re.search(
        "[\x00-\x09\x0b-\x1f\x7f\u00ad\u200e\u200f\u202a-\u202e\u2066-\u2069]", svg
    )


def test_a_name_too_long_is_cut_with_dots_and_whole_in_the_title(read_text):
    long = "w" * 400
    root = parse(drawing(read_text(BOX.replace("NAME", long))))
    assert root.find(f"{SVG}title").text.startswith(long)
    assert any(re.fullmatch(r"w+\.\.\.", node.text or "") for node in root.iter(f"{SVG}text"))


@pytest.mark.parametrize(
    ("units", "expected"),
    [
        (Units.METRIC, ["400 mm", "300 mm", "200 mm"]),
        (Units.US, ["15.75 in", "11.81 in", "7.874 in"]),
    ],
)
def test_overall_dimensions_are_written_over_their_lines(read_text, units, expected):
    words = texts(drawing(read_text(BOX), units))
    assert set(expected) <= set(words)


def test_fractions_of_an_inch_are_written_as_on_a_tape(read_example):
    words = texts(drawing(read_example("writing-table"), Units.US))
    assert {"41 3/4 in", "23 1/2 in", "29 1/2 in"} <= set(words)


def test_the_height_is_read_from_the_right(read_text):
    root = parse(drawing(read_text(BOX)))
    turned = [node.text for node in root.iter(f"{SVG}text") if node.get("transform")]
    assert turned == ["200 mm"]


def test_the_front_view_is_true_to_the_scale_it_states(read_text):
    svg = drawing(read_text(BOX))
    reduction = int(re.search(r"scale 1:(\d+)", svg)[1])
    paths = [node for node in parse(svg).iter(f"{SVG}path") if node.get("fill-rule")]
    fills = [node.get("d", "") for node in paths]
    boxes = [_bounds(path) for path in fills]
    sizes = [(right - left, low - high) for left, high, right, low in boxes]
    # 0.011: both ends are rounded to 0.01 mm on paper
    assert any(
        size == pytest.approx((400 / reduction, 200 / reduction), abs=0.011) for size in sizes
    )


def test_views_and_loose_parts_do_not_lie_on_each_other(read_example):
    for name in ("writing-table", "linen-cupboard", "blanket-box", "plant-stand"):
        piece, measured = read_example(name)
        root = parse(draw(piece, measured, Units.METRIC))
        boxes = []
        for group in root.findall(f"{SVG}g"):
            fills = [node for node in group if node.get("fill-rule")]
            if fills:
                bounds = [_bounds(node.get("d", "")) for node in fills]
                boxes.append(shapely.unary_union([shapely.box(*one) for one in bounds]).envelope)
        assert len(boxes) == 4 + len(loose_parts(surfaces(piece.parts), piece.zone_of))
        for k, box in enumerate(boxes):
            left, top, right, _ = box.bounds
            assert left >= 0
            assert top >= 0
            assert right <= SHEET_WIDTH
            assert not any(box.intersects(other) for other in boxes[:k])


def test_a_legend_of_forty_zones_makes_the_sheet_longer_not_the_piece_tiny(read_text):
    parts = BOX.replace('faces = ["box"]', 'faces = ["box.top"]') + "".join(
        f"""
[[part]]
name = "slat {chr(97 + k // 26)}{chr(97 + k % 26)}"
shape = "board"
width = 20
depth = 300
height = 300
at = [{20 * k}, 0, 200]

[[zone]]
name = "zone {k}"
faces = ["slat {chr(97 + k // 26)}{chr(97 + k % 26)}"]
leave = true
"""
        for k in range(40)
    )
    svg = drawing(read_text(parts))
    assert {f"zone {k}" for k in range(40)} <= set(texts(svg))
    assert int(re.search(r"scale 1:(\d+)", svg)[1]) <= 20  # half of the sheet is left to the views
    assert float(parse(svg).get("viewBox").split()[3]) > SHEET_HEIGHT


def test_loose_parts_that_are_the_same_are_drawn_once_and_counted(read_example):
    words = texts(drawing(read_example("linen-cupboard")))
    assert {"shelf (3 of these)", "door (2 of these)"} <= set(words)


def test_a_row_is_called_as_it_is_written_even_with_a_number_at_its_end(read_text):
    tray = LOOSE.replace('"lid"', '"tray 7"') + "row = { of = 2, apart = [0, 0, 30] }\n"
    words = texts(drawing(read_text(BOX + tray)))
    assert "tray 7 (2 of these)" in words


def test_a_piece_of_loose_parts_only_is_drawn_without_elevations(read_text):
    text = BOX.replace("height = 200", "height = 200\nloose = true") + LOOSE
    words = texts(drawing(read_text(text)))
    assert {"Loose parts", "box", "lid", "410 mm x 310 mm x 20 mm"} <= set(words)
    assert "Front" not in words


def test_many_loose_parts_keep_apart_and_on_the_sheet(read_text):
    parts = "".join(
        LOOSE.replace('"lid"', f'"lid {chr(97 + k)}"').replace("410", str(300 + 40 * k))
        for k in range(14)
    )
    piece, _ = read_text(BOX + parts)
    found = loose_parts(surfaces(piece.parts), piece.zone_of)
    scenes = [scene(one.surface, ISOMETRIC) for one in found]
    placed, _ = flow(scenes, [30.0] * len(scenes), 0.1, 0.0, 80.0)
    boxes = [_placed_box(one) for one in placed]
    assert len(boxes) == 14
    for k, box in enumerate(boxes):
        assert box.bounds[2] <= SHEET_WIDTH
        assert not any(box.intersects(other) for other in boxes[:k])


def test_zones_left_as_they_are_are_plain_and_faces_in_no_zone_are_crossed(read_text):
    _, measured = read_text(BOX.replace('faces = ["box"]', 'faces = ["box.top"]'))
    left, none = looks(measured)
    assert not left.pattern.strokes
    assert not left.pattern.dots
    assert none.name is None
    assert none.pattern.strokes


def test_a_long_name_of_a_zone_takes_two_lines_of_the_legend(read_text):
    name = "outer faces of the carcase and plinth"
    text = BOX.replace("ZONE", name).replace("leave = true", 'surface = "bare"\n' + STEP)
    words = texts(drawing(read_text(text)))
    assert name not in words
    assert any(f"{one} {two}" == name for one, two in itertools.pairwise(words))


def test_text_that_fits_is_not_cut():
    assert shortened("base", 40) == "base"
    assert shortened("a long name of a zone", 20) == "a long..."


def _placed_box(placed: Placed) -> shapely.Geometry:
    (x, y), (width, height) = placed.at, placed.size
    return shapely.box(x, y, x + width, y + height)


def _bounds(path: str) -> tuple[float, float, float, float]:
    numbers = [float(number) for number in re.findall(r"-?\d+(?:\.\d+)?", path)]
    across, down = numbers[::2], numbers[1::2]
    return min(across), min(down), max(across), max(down)
