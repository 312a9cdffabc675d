"""Both sheets of a piece: whole, safe with any text, in order for every reader."""

import re
from datetime import datetime
from itertools import pairwise

import pytest

from surfacecalc.cautions import CLOSING, cautions
from surfacecalc.estimate import estimate, plan_of
from surfacecalc.plans.tasks import hands_on_h
from surfacecalc.prices.quotes import quote
from surfacecalc.units.display import format_money

HOSTILE = "<script>alert(1)</script> \\u0022 onload=x \\u0027 & \\u202e gnp"
both = pytest.mark.parametrize("for_client", [False, True], ids=["shop", "client"])


@both
def test_every_id_is_unlike_any_other_and_every_link_leads_to_one(box, parse, for_client):
    found = parse(box(for_client=for_client))
    ids = [attributes["id"] for _, attributes in found.tags if "id" in attributes]
    assert len(set(ids)) == len(ids)
    named = [a["href"][1:] for a in found.all("a")]
    named += [a["for"] for a in found.all("label")]
    named += [a["aria-labelledby"] for a in found.all("section")]
    assert set() == set(named) - set(ids)


@both
def test_nothing_is_fetched(box, parse, for_client):
    found = parse(box(for_client=for_client))
    addresses = [
        value
        for _, attributes in found.tags
        for key, value in attributes.items()
        if key in ("src", "href", "action", "data", "srcset")
    ]
    assert [] == [text for text in addresses if not text.startswith(("#", "data:"))]


@both
def test_headings_go_down_one_level_at_a_time(box, parse, for_client):
    levels = [int(tag[1]) for tag, _ in parse(box(for_client=for_client)).tags
              if re.fullmatch("h[1-6]", tag)]  # fmt: skip
    assert 1 == levels[0] == levels.count(1)
    assert all(after <= before + 1 for before, after in pairwise(levels))


@both
def test_table_headers_tell_what_they_head_and_pictures_what_they_show(box, parse, for_client):
    found = parse(box(for_client=for_client))
    assert {"row", "col"} == {attributes.get("scope") for attributes in found.all("th")}
    assert all(attributes["alt"] for attributes in found.all("img"))
    assert len(found.all("img")) == 1


@both
def test_names_of_the_user_are_text_and_nothing_else(box, parse, for_client):
    harmless = parse(box(for_client=for_client))
    named = {f'"{name}"': f'"{HOSTILE}"' for name in ("outside", "moss green", "disc")}
    hostile = parse(box(HOSTILE, for_client=for_client, **named))
    assert [tag for tag, _ in harmless.tags] == [tag for tag, _ in hostile.tags]
    assert '<script>alert(1)</script> " onload=x' in hostile.text
    assert "\u202e" not in hostile.text


def test_every_box_has_one_label(box, parse):
    found = parse(box())
    ids = [attributes["id"] for attributes in found.all("input")]
    assert ids == [attributes["for"] for attributes in found.all("label")]
    assert 4 + 5 == len(ids)  # discs P120 and P180, paint, varnish; 2 grits and 3 coats


def test_all_cautions_that_apply_are_on_the_shop_sheet(box, parse, read, box_text):
    words = parse(box()).text
    expected = cautions(*read(box_text))
    assert len(expected) >= 2
    for caution in expected:
        assert caution.source in words
        assert all(part in words for part in caution.text.split(". "))
    assert CLOSING in words


def test_shop_sheet_has_its_parts_in_working_order(box, parse):
    words = parse(box()).text
    tasks = ("Sand P120", "Sand P180", "First coat of", "Second coat of", "Top coat: one coat")
    places = [words.rindex(text) for text in tasks]
    assert sorted(places) == places
    for title in ("Areas", "Before you begin", "To buy", "The work, step by step", "Day by day"):
        assert title in words


def test_supplies_stand_in_the_order_of_a_walk_through_a_store(box, parse):
    words = parse(box()).text
    buy = words[words.rindex("To buy") : words.rindex("The work, step by step")]
    places = [buy.index(text) for text in ("Abrasives", "disc P120", "Finishes", "moss green")]
    assert sorted(places) == places


def test_assumed_values_are_marked_where_they_are_explained(box):
    why = re.findall(r"<details>.*?</details>", box(), re.DOTALL)
    assert any('inputs:' in fold and ': <span class="assumed">assumed</span>' in fold
               for fold in why)  # fmt: skip


def numbers(text: str) -> set[str]:
    return set(re.findall(r"\d[\d,]*(?:\.\d+)?", text))


def test_client_finds_no_costs_and_no_hours(box, parse, read, box_text):
    piece, measured = read(box_text)
    supplies = estimate(piece, measured)
    hours = hands_on_h(piece, measured)
    told = quote(piece, supplies, hours).wanted
    kept = [told.piece, told.supplies, told.work, told.overhead, told.margin, told.cost, told.rate]
    kept += [supply.cost for supply in supplies]
    kept += [pack.price for supply in supplies for pack, _ in supply.buy]
    words = parse(box(for_client=True)).text
    assert set() == {format_money(amount) for amount in kept} & numbers(words)
    assert f"{hours:.2f}" not in numbers(words)
    assert not re.search(r"\bhour|\bh\b|\bmin\b|rate|overhead|margin|P120", words)


def test_client_finds_price_deposit_dates_and_look(box, parse, read, box_text):
    piece, measured = read(box_text)
    told = quote(piece, estimate(piece, measured), hands_on_h(piece, measured)).wanted
    words = parse(box(for_client=True)).text
    for amount in (told.total, told.deposit, told.balance):
        assert f"{format_money(amount)} USD" in words
    plan = plan_of(piece, measured, datetime(2026, 1, 1))
    assert f"{plan.delivered.day} Dec 2026" in words
    assert "Two coats of moss green." in words
    assert "outside moss green clear satin" in words
    assert "Client, date" in words


def test_client_fills_in_a_price_that_is_not_given(box, parse):
    lines = 'piece = 61.37\nrate = 43.19\noverhead = "10 %"\nmargin = "15 %"\ndeposit = "40 %"'
    found = parse(box(for_client=True, **{f"[price]\n{lines}": ""}))
    assert "to be filled in" in [a.get("aria-label") for a in found.all("span")]
    assert "USD" not in found.text
