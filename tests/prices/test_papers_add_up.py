"""Whatever a paper shows of money adds up to the total it shows, in every coin there is.

Currencies without decimals, with two, three and four (ISO 4217); prices are drawn in whole coins,
and every amount is read back from the text of screen, JSON, CSV or sheet.
"""

import csv
import io
import json
import re
from collections.abc import Iterable
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from piece_texts import measured, piece_text
from rich.console import Console

from surfacecalc import api
from surfacecalc.reports.exports import supplies_json, trip_json
from surfacecalc.reports.quote_json import quote_json
from surfacecalc.reports.quote_screen import print_quote
from surfacecalc.reports.screen import print_supplies
from surfacecalc.reports.spreadsheets import supplies_csv, trip_csv
from surfacecalc.reports.trip_screen import print_trip
from surfacecalc.sheets.make import combined_sheet, sheet_of
from surfacecalc.sheets.sheet_frame import SheetPage
from surfacecalc.units.coins import coin_of
from surfacecalc.units.display import Units

FEW = settings(deadline=None, max_examples=3, phases=(Phase.explicit, Phase.generate))
"""Each job is measured, planned and written on several papers: few of them, and none made small."""
PLACES = {"JPY": 0, "ISK": 0, "EUR": 2, None: 2, "KWD": 3, "CLF": 4}
EACH_COIN = pytest.mark.parametrize("currency", PLACES)
STEPS = (
    {"do": "sand", "grits": [120, 180], "with": "disc"},
    {"do": "coat", "product": "paint", "coats": 2, "by": "brush"},
    {"do": "coat", "product": "varnish", "coats": 1, "by": "brush"},
)
MONEY = re.compile(r"-?[\d,]+(?:\.\d+)?")
SHARES = st.integers(0, 40).map(lambda share: f"{share / 2} %")


@st.composite
def priced(draw: st.DrawFn, currency: str | None) -> str:
    """A piece file with prices in a currency."""
    coins = st.integers(1, 90_000)

    def price() -> float | int:
        amount = draw(coins) * coin_of(currency)
        return int(amount) if amount == int(amount) else float(amount)

    asked = draw(st.integers(50_000, 9_000_000)) * coin_of(currency)
    return piece_text(
        *STEPS,
        piece={"currency": currency} if currency else {},
        price={
            "piece": price(), "rate": price(), "asked": float(asked), "delivery": price(),
            "hours": draw(st.sampled_from([1.5, 3.7, 12])),
            "supplies": draw(st.sampled_from(["used", "bought"])),
            **{key: draw(SHARES) for key in ("overhead", "margin", "tax", "deposit")},
        },
        product=[
            {"name": "paint", "kind": "waterborne furniture paint", "on_hand": "40 ml",
             "packs": [{"size": "250 ml", "price": price()}, {"size": "1 L", "price": price()}]},
            {"name": "varnish", "kind": "oil varnish",
             "packs": [{"size": "1 L", "price": price()}]},
        ],
        abrasive={"name": "disc", "form": "125 mm disc", "packs": [{"count": 7, "price": price()}]},
    )  # fmt: skip


def money(text: str, currency: str | None) -> Decimal:
    """Return an amount as it is written, which must have the decimals of its coin or none."""
    assert MONEY.fullmatch(text), text
    _, _, decimals = text.partition(".")
    assert len(decimals) in (0, PLACES[currency]), text
    return Decimal(text.replace(",", ""))


def printed(show: Any, *given: Any, **options: Any) -> list[str]:
    """Return the lines that a screen prints."""
    out = Console(file=io.StringIO(), width=160, color_system=None, highlight=False, markup=False)
    show(out, *given, **options)
    return str(out.file.getvalue()).splitlines()  # type: ignore[attr-defined]


def last_column(lines: list[str], end: int, currency: str | None) -> list[Decimal]:
    """Return the amounts whose last digit is in a column of the screen."""
    cells = [line.split()[-1] for line in lines if len(line.rstrip()) == end]
    return [money(cell, currency) for cell in cells if MONEY.fullmatch(cell)]


def listed(lines: list[str], currency: str | None) -> tuple[list[Decimal], Decimal]:
    """Return what a supply list on the screen has in its last column, and the total under it."""
    head = next(k for k, line in enumerate(lines) if line.startswith("Supply"))
    foot = next(k for k, line in enumerate(lines) if line.startswith("Total"))
    end = len(lines[head].rstrip())
    amounts = last_column(lines[head + 1 : foot + 1], end, currency)
    return amounts[:-1], amounts[-1]


def rows_of(lines: list[str], title: str, currency: str | None) -> dict[str, Decimal]:
    """Return the amounts of a table of a quote by what they are called."""
    heads = (k for k, line in enumerate(lines) if line.startswith(title) and "  " not in line)
    start = next(heads)
    found: dict[str, Decimal] = {}
    for line in lines[start + 1 :]:
        if not line:
            break
        found[line[:24].strip().rstrip("*")] = money(line.split()[-1], currency)
    return found


def exact(values: Iterable[float]) -> Decimal:
    """Return the sum of JSON numbers, each the shortest decimal that it is written as."""
    return sum((Decimal(str(value)) for value in values), Decimal(0))


def on_sheet(page: SheetPage, currency: str | None) -> tuple[list[Decimal], Decimal]:
    """Return what each supply on a sheet costs, and the total under them."""
    small = [node.text for node in page.main.all("small")]
    costs = [cell for cell in (text.split(" \u00b7 ")[-1] for text in small) if is_money(cell)]
    (total,) = (node for node in page.main.all("p") if "total" in node.classes)
    label, amount = total.elements
    assert label.text == "Total"
    return [bare(cell, currency) for cell in costs], bare(amount.text, currency)


def is_money(text: str) -> bool:
    return bool(re.fullmatch(r"\D?[\d,]+(\.\d+)?( [A-Z]{3})?", text))


def bare(text: str, currency: str | None) -> Decimal:
    """Return an amount with its sign or the code of its currency taken off."""
    return money(text.removesuffix(f" {currency}").lstrip("$\u20ac\u00a3"), currency)


def facts(page: SheetPage, titles: tuple[str, ...], currency: str | None) -> list[Decimal]:
    """Return the amounts of a sheet's facts, by how their title begins."""
    found = [(node.elements[0].text, node.elements[1]) for node in page.main.all("div")
             if [one.tag for one in node.elements] == ["dt", "dd"]]  # fmt: skip
    return [
        bare(value.text.removesuffix(value.elements[-1].text if value.elements else ""), currency)
        for title in titles
        for name, value in found
        if name.startswith(title)
    ]


@EACH_COIN
@FEW
@given(data=st.data())
def test_supply_list_adds_up_to_one_total_on_screen_in_json_csv_and_on_the_sheet(currency, data):
    job = measured(data.draw(priced(currency)))
    found = api.supplies(job)
    amounts, total = listed(printed(print_supplies, job.piece, found, Units.METRIC), currency)
    assert (3, total) == (len({one.name for one in found}), sum(amounts))
    data = json.loads(supplies_json(job.piece, found, []))
    assert total == exact(one["cost"] for one in data["supplies"])
    assert total == exact([data["total_cost"]])
    packs = [pack for one in data["supplies"] for pack in one["buy"]]
    assert total == sum(exact([pack["price"]]) * pack["count"] for pack in packs)
    table = csv.DictReader(io.StringIO(supplies_csv(job.piece, found)))
    assert total == sum(Decimal(row["cost"]) for row in table)
    page = sheet_of(job, Units.METRIC, "a4", for_client=False)
    amounts, total_on_sheet = on_sheet(page, currency)
    assert (total, total) == (total_on_sheet, sum(amounts))


@EACH_COIN
@FEW
@given(data=st.data())
def test_quote_adds_up_to_its_total_on_screen_in_json_and_for_the_client(currency, data):
    job = measured(data.draw(priced(currency)))
    found = api.quote(job)
    lines = printed(print_quote, job.piece, found, Units.METRIC, [], why=True)
    charged = rows_of(lines, "Price to charge", currency)
    parts = ("The piece", "Supplies", "Hours", "Overhead", "Margin", "Delivery", "Tax")
    assert charged["Total"] == sum(charged.get(part, Decimal(0)) for part in parts)
    paid = charged.get("Deposit", Decimal(0)) + charged.get("Balance", charged["Total"])
    assert charged["Total"] == paid
    earned = rows_of(lines, "What you earn", currency)
    taken = ("Tax", "Delivery", "Margin", "The piece", "Supplies", "Overhead")
    asked = exact([float(found.given.total)])
    assert earned["Left to pay you"] == asked + sum(earned.get(one, Decimal(0)) for one in taken)
    wanted = json.loads(quote_json(job.piece, found))["wanted"]
    assert charged["Total"] == exact([wanted["total"]])
    assert charged["Supplies"] == exact([wanted["supplies"]])


@EACH_COIN
@FEW
@given(data=st.data())
def test_supplies_of_a_quote_add_up_to_what_is_charged_for_them(currency, data):
    job = measured(data.draw(priced(currency)))
    found = api.quote(job)
    lines = printed(print_quote, job.piece, found, Units.METRIC, [], why=True)
    each = rows_of(lines, "Supplies", currency)
    sums = {word: each.pop(word) for word in ("Used", "Charged", "To buy", "On hand", "Left over")
            if word in each}  # fmt: skip
    assert sums["Used"] == sum(each.values())
    assert sums["Left over"] == sums["To buy"] + sums["On hand"] - sums["Used"]
    data = json.loads(quote_json(job.piece, found))
    of_all = {key: exact(one[key] for one in data["supplies"])
              for key in ("used", "charged", "bought", "on_hand", "kept")}  # fmt: skip
    assert sums["Used"] == of_all["used"]
    assert sums.get("Charged", sums["Used"]) == of_all["charged"]
    assert exact([data["wanted"]["supplies"]]) == of_all["charged"]
    assert (sums["To buy"], sums["On hand"]) == (of_all["bought"], of_all["on_hand"])
    assert sums["Left over"] == of_all["kept"]
    assert each == {
        title_of(one): exact([one["used"]]) for one in data["supplies"]
    }  # the same coin, line by line


def title_of(one: dict[str, Any]) -> str:
    return one["supply"] if one["grit"] is None else f"{one['supply']} P{one['grit']}"


@EACH_COIN
@FEW
@given(data=st.data())
def test_trip_list_adds_up_to_one_total_on_every_paper(currency, data):
    text = data.draw(priced(currency))
    both = [measured(text), measured(text.replace('"Board"', '"Other board"'))]
    trip = api.supplies_together(both)
    amounts, total = listed(printed(print_trip, trip, Units.METRIC), currency)
    assert total == sum(amounts)
    data = json.loads(trip_json(trip, []))
    assert (total, total) == (
        exact(one["cost"] for one in data["supplies"]), exact([data["total_cost"]]),
    )  # fmt: skip
    assert total == sum(Decimal(row["cost"]) for row in csv.DictReader(io.StringIO(trip_csv(trip))))
    amounts, on_paper = on_sheet(combined_sheet(both, Units.METRIC, "a4"), currency)
    assert (total, total) == (on_paper, sum(amounts))


@EACH_COIN
@FEW
@given(data=st.data())
def test_client_pays_deposit_and_balance_and_no_coin_more(currency, data):
    job = measured(data.draw(priced(currency)))
    page = sheet_of(job, Units.METRIC, "a4", for_client=True)
    paid = facts(page, ("Price", "Deposit", "Balance"), currency)
    assert api.quote(job).given.total == paid[0]
    assert len(paid) == 1 or paid[0] == paid[1] + paid[2]
