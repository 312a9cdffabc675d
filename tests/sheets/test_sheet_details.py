"""What is on a sheet only where there is a reason for it, and what looks alike in every list."""

import re
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from piece_texts import measured, piece_text

from surfacecalc.api import MeasuredPiece, supplies_together
from surfacecalc.cautions.lead_tests import LEAD_TEST
from surfacecalc.elements import Element, Picture, element, html_of
from surfacecalc.sheets.make import sheet_of
from surfacecalc.sheets.pdf.markup import markup_of
from surfacecalc.sheets.pdf.pdf_table import _cell
from surfacecalc.sheets.rounded_words import need_text
from surfacecalc.sheets.sheet_frame import amount, table
from surfacecalc.sheets.shop_sheet import _on_lines
from surfacecalc.sheets.shopping_html import Walk
from surfacecalc.units.display import Units
from surfacecalc.units.known import factor

FT_M = 0.3048


def shop_sheet(text: str) -> str:
    """Return the shop sheet of a piece file's text."""
    job = measured(text)
    return sheet_of(MeasuredPiece(Path("board.toml"), job.piece, job.measured),
                    Units.METRIC, "a4", for_client=False).html()  # fmt: skip


COAT = {"do": "coat", "product": "paint", "coats": 1, "by": "brush"}
PAINT = {"name": "paint", "kind": "waterborne furniture paint"}
DISC = {"name": "disc", "form": "disc", "life": "0.5 m2"}


def test_a_number_in_a_table_is_aligned_as_one():
    assert ("number",) == amount("12").classes


def test_a_table_ends_in_a_foot_only_where_it_has_one():
    without = table("Areas", [element("th", "Zone")], element("tr"))
    withal = table("Areas", [element("th", "Zone")], element("tr"), element("tr"))
    assert ["caption", "thead", "tbody"] == [child.tag for child in without.elements]
    assert ["caption", "thead", "tbody", "tfoot"] == [child.tag for child in withal.elements]


@pytest.mark.parametrize("feet", [1, 100, 3000])
def test_whole_feet_stay_whole_feet(feet):
    """A foot has 0.3048 m by definition."""
    assert f"{feet:,} ft" == need_text(feet * FT_M, "m", Units.US)
    assert f"{feet + 1:,} ft" == need_text((feet + 0.01) * FT_M, "m", Units.US)


def test_only_films_are_measured_in_square_metres():
    assert "0.5 m2" == need_text(0.5, "m2", Units.METRIC)
    assert "500 ml" == need_text(0.5, "L", Units.METRIC)
    assert "5 sq ft" == need_text(5 * float(factor("ft2")), "m2", Units.US)


def test_cautions_are_a_list_of_cautions(box, parse):
    assert "cautions" in [one.get("class") for one in parse(box()).all("ul")]


def test_ready_is_not_before_a_day_only_where_a_drying_time_is_unknown(box, parse):
    known = parse(box()).text
    assert "Ready for delivery" in known
    assert not re.search(r"Ready for \w+( \w+)? not before", known)


def test_the_shop_reads_what_is_in_no_zone(parse):
    top = {"faces": ["board.top"]}
    words = parse(shop_sheet(piece_text(COAT, zone=top, product=PAINT))).text
    # the board shows 0.436 m2: two faces of 0.2 m2 and 0.036 m2 of edges; the top is one of them
    assert re.search(r"in no zone\W+0\.24 m2 Total", words), words
    everywhere = parse(shop_sheet(piece_text(COAT, product=PAINT))).text
    assert "in no zone" not in everywhere


def test_ids_count_on_from_zone_to_zone(parse):
    """One step in the first zone, three in the second: boxes 0 to 3, and no number twice."""
    zones: list[dict[str, Any]] = [
        {"name": "top", "faces": ["board.top"], "surface": "bare", "step": [COAT]},
        {"name": "rest", "faces": ["*"], "surface": "bare", "step": [
            {"do": "sand", "grits": [120], "with": "disc"}, COAT,
            {"do": "rub out", "grits": [1000], "with": "disc"}]},
    ]  # fmt: skip
    html = shop_sheet(piece_text(zone=zones, product=PAINT, abrasive=DISC))
    ids = [int(found) for found in re.findall(r'id="tick-(-?\d+)"', html)]
    assert len(ids) >= 4
    assert sorted(ids) == list(range(len(ids)))


def test_a_step_without_a_wait_says_none(parse):
    """Sanding is followed at once; a coat has to dry."""
    zone = {"step": [{"do": "sand", "grits": [120], "with": "disc"}, COAT, COAT]}
    text = piece_text(zone=zone, product=PAINT, abrasive=DISC)
    words = parse(shop_sheet(text)).text
    steps = words[words.rindex("The work, step by step") : words.rindex("Day by day")]
    sanding, coat = steps[steps.index("1. ") : steps.index("2. ")], steps[steps.index("2. ") :]
    assert "then wait" not in sanding
    assert "then wait" in coat


def test_hours_are_marked_assumed_only_where_the_file_gives_none(parse):
    def hours(**workshop: object) -> str:
        keys = {"start": date(2026, 11, 30), **workshop}
        found = parse(shop_sheet(piece_text(COAT, product=PAINT, workshop=keys))).text
        return str(re.findall(r"Working hours: .*?\.", found)[0])

    assert "assumed" in hours()
    assert "assumed" not in hours(hours=["mon-fri 18:00-21:00"])


def test_the_day_of_the_next_step_is_told_only_where_it_is_another_one(parse):
    quick = {**PAINT, "recoat": "1 h", "dry": "1 h"}
    keys = {"start": date(2026, 11, 30), "hours": ["mon-fri 08:00-16:00"]}
    html = shop_sheet(piece_text({**COAT, "coats": 3}, product=quick, workshop=keys))
    days = html.split('class="day"')[1:]
    told = [(parse_date(day), found) for day in days for found in NEXT.findall(day)]
    same = [found for _, found in told if re.fullmatch(r"\d\d:\d\d", found)]
    assert len(same) >= 2
    assert [] == [found for heading, found in told if found.startswith(heading)]


NEXT = re.compile(r"next step from ([^<]+)<")


def parse_date(day: str) -> str:
    """Return the weekday in the heading of a day."""
    found = re.search(r"<h3[^>]*>(\w{3})", day)
    assert found is not None
    return found[1]


def test_fillers_are_at_another_shelf_than_finishes(parse):
    fill = {"do": "fill", "product": "putty",
            "pits": [{"count": 10, "diameter": "6 mm", "depth": "3 mm"}]}  # fmt: skip
    putty = {"name": "putty", "kind": "wood filler", "density": "1.5 kg/L"}
    words = parse(shop_sheet(piece_text(fill, COAT, product=[PAINT, putty]))).text
    buying = words[words.index("Fillers and glue") :]
    assert buying.index("Putty" if "Putty" in buying else "putty") < buying.index("Working hours")
    assert words.index("Fillers and glue") != words.index("Finishes")


def test_nothing_to_buy_has_no_total(parse):
    there = {**PAINT, "on_hand": "5 L"}
    bought = {**PAINT, "packs": [{"size": "1 L", "price": 20}]}
    currency = {"currency": "EUR"}
    without = parse(shop_sheet(piece_text(COAT, product=there, piece=currency)))
    withal = parse(shop_sheet(piece_text(COAT, product=bought, piece=currency)))
    assert "total" not in [one.get("class") for one in without.all("p")]
    assert "total" in [one.get("class") for one in withal.all("p")]


def test_the_client_reads_the_balance_beside_the_deposit(box, parse):
    words = parse(box(for_client=True)).text
    money = [float(found) for found in re.findall(
        r"(?:Price|before the work|when it is done) \$([\d.]+)", words)]  # fmt: skip
    price, deposit, balance = money
    assert price == pytest.approx(deposit + balance, abs=0.001)
    assert deposit == pytest.approx(0.4 * price, abs=0.006)  # 40 %, to the cent


def test_columns_that_no_number_counts_are_one():
    def columns(said: str) -> int:
        return _cell(Element("td", (), {"colspan": said}, ("x",))).columns

    assert [3, 1] == [columns("3"), columns("many")]


def test_lines_of_a_cell_have_a_break_between_them_and_none_before():
    lines = _on_lines(["one", "two", "three"])
    cell = element("td", lines)
    assert ["one", "br", "two", "br", "three"] == [
        child.tag if isinstance(child, Element) else child for child in cell.children
    ]


@pytest.mark.parametrize("tag", ["ul", "figure"])
def test_a_drawing_is_one_wherever_it_is(tag):
    """In a list, where each thing is set by itself, as well as on lines of its own."""
    picture = Picture(Element("svg", (), {"viewBox": "0 0 1 1"}), "A chest seen from the front")
    found = markup_of(Element(tag, (), {}, (picture, Element("p", (), {}, ("below",)))))
    assert 1 == found.count('"A chest seen from the front"')
    assert 1 == found.count("drawing(bytes(")
    assert '"below"' in found


def test_no_day_begins_with_a_lead_test_where_there_is_nothing_to_test(box, parse):
    """Of an old finish the first task alone has to wait for it; bare wood has none."""
    test = LEAD_TEST.lower()
    assert test not in parse(box(**{'"varnished"': '"bare"'})).text.lower()
    days = parse(box()).text
    days = days[days.rindex("Day by day") :].lower()
    assert 1 == days.count(f"outside: {test}")


def test_what_is_needed_too_has_a_box_on_the_shop_sheet_and_its_price_from_the_file(parse):
    cloths = {"name": "soft cloths", "lasts": "1 job", "packs": [{"count": 5, "price": 7}]}
    text = piece_text({"do": "dust off"}, COAT, product=PAINT, consumable=cloths,
                      piece={"currency": "USD"})  # fmt: skip
    found = parse(shop_sheet(text))
    assert re.search(r"Needed too, unless you have it\W+soft cloths", found.text)
    assert "for dusting off; 5 for $7" in found.text
    ids = [one["id"] for one in found.all("input")]
    assert len(set(ids)) == len(ids)


CHOICES = ("Buy 1 quart for 2 coats now and 1 quart more later, only if a third coat is needed.",
           "1 gallon costs 6 more and holds twice as much.")  # fmt: skip


def two_tins(coats: int | list[int], gallon: int) -> str:
    """Return a job of 0.4 L a coat, 6 m2 at 15 m2/L, and a paint in quarts and gallons."""
    packs = [{"size": "1 quart", "price": 30}, {"size": "1 gallon", "price": gallon}]
    return piece_text(
        {**COAT, "coats": coats, "loss": "0 %"},
        part={"shape": "board", "width": "1 m", "depth": "1 m", "height": "1 m"},
        zone={"surface": "sealed"},
        product={**PAINT, "covers": "15 m2/L", "packs": packs},
        workshop={"own_spread": "0 %"},
    )


def test_the_shopping_list_says_what_can_wait_and_what_more_costs_little():
    """A quart of 0.946 L does two coats; two do the third that may be needed, and cost 60."""
    text = two_tins([2, 3, 3], 66)
    assert [] == [words for words in CHOICES if words not in shop_sheet(text)]
    trip = supplies_together([measured(text)])
    walk = Walk(trip.piece, trip.supplies, Units.METRIC, trip.as_written)
    store = html_of(element("div", walk.body(first_tick=0)))
    assert [] == [words for words in CHOICES if words not in store]
    sure = shop_sheet(two_tins(3, 90))
    assert [] == [words for words in CHOICES if words in sure]


def test_a_batch_is_as_large_on_the_list_as_at_the_bench(parse):
    """6 m2 at 5 m2/L are 1.2 L, 40.6 fl oz: 41 are mixed, 1.28 quarts and not 1 1/2."""
    parts = [{"product": "paint", "parts": 1}]
    text = piece_text(
        {**COAT, "product": "blend", "coats": 1, "loss": "0 %"},
        part={"shape": "board", "width": "1 m", "depth": "1 m", "height": "1 m"},
        zone={"surface": "sealed"},
        product={**PAINT, "packs": [{"size": "1 gallon"}]},
        mix={"name": "blend", "recipe": parts, "covers": "5 m2/L", "measure": "1 fl oz"},
        workshop={"own_spread": "0 %"},
        piece={"unit": "mm"},
    )
    job = measured(text)
    words = parse(sheet_of(job, Units.US, "letter", for_client=False).html()).text
    assert "First mix 1.28 qt of blend" in words
    listed = re.findall(r"To mix\W+blend\W*mix ([0-9./ ]+ \w+)", words)
    assert ["1.28 qt"] == [one.strip() for one in listed]


def test_the_shop_reads_what_is_left_on_all_pieces_of_a_set(parse):
    top = {"name": "top", "faces": ["board.top"], "surface": "bare", "step": [{"do": "dust off"}]}
    rest = {"name": "rest", "faces": ["board"], "surface": "bare", "leave": True}
    part = {"shape": "board", "width": 1000, "depth": 100, "height": 100}
    for count, words in ((1, "Left as it is 0.32 m2"), (3, "Left as it is on all 3 0.96 m2")):
        text = piece_text(part=part, zone=[top, rest], piece={"count": count})
        assert words in re.sub(r"\s+", " ", parse(shop_sheet(text)).text)
