"""What supplies are worth, used and bought; and quotes of piece files, worked by hand."""

import json
from decimal import Decimal

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from surfacecalc.api import measure, read_piece_text, supplies
from surfacecalc.model.shelf import Pack
from surfacecalc.needs.draws import Points
from surfacecalc.prices.materials import Material
from surfacecalc.prices.quotes import Quote, quote
from surfacecalc.problems import Problem
from surfacecalc.supplies.packs import choose_packs
from surfacecalc.supplies.shopping import Supply

EXAMPLES = settings(deadline=None)
"""A busy machine is slow; that is no mistake."""

PRICED = "rate = 30\nhours = 2"


@pytest.fixture
def quoted():
    """Return the quote of a piece file's text, or the problem."""

    def run(text: str, planned_h: float | None = None) -> Quote | Problem:
        job = measure(read_piece_text(text))
        return quote(job.piece, supplies(job), planned_h)

    return run


def worth(found, name):
    (item,) = [item for item in found.materials if item.supply.name == name]
    return item


def near(text):
    """Areas are binary numbers, so 0.2 L is right to its last digits only."""
    return pytest.approx(Decimal(text), abs=Decimal("1e-9"))


def test_used_part_of_a_tin_is_worth_its_share_of_what_was_paid(quoted, written):
    """0.2 L of the 250 ml that cost 11: 8.80; the rest of the tin, 2.20, stays."""
    paint = worth(quoted(written(PRICED)), "paint")
    assert (near("8.8"), Decimal(11)) == (paint.used, paint.bought)
    assert near("2.2") == paint.kept
    assert near("44") == paint.per_unit


def test_used_discs_are_worth_their_share_of_the_pack(quoted, written):
    """2.65 discs are three whole ones, of ten for 8: 2.40."""
    discs = worth(quoted(written(PRICED)), "disc")
    assert (Decimal("2.4"), Decimal(8), Decimal("5.6")) == (discs.used, discs.bought, discs.kept)


def test_stock_on_hand_is_worth_what_the_cheapest_pack_costs(quoted, written):
    """Nothing is bought. A litre costs 36 in the large tin, 44 in the small one."""
    text = written(PRICED).replace('covers = "10.6 m2/L"', 'covers = "10.6 m2/L"\non_hand = "1 L"')
    paint = worth(quoted(text), "paint")
    assert (near("7.2"), Decimal(0), near("36")) == (paint.used, paint.bought, paint.on_hand)
    assert near("28.8") == paint.kept


def test_stock_on_hand_is_worth_what_is_paid_where_some_is_bought(quoted, written):
    """0.1 L is there and 0.1 L is missing, so 250 ml are bought: 44 a litre."""
    text = written(PRICED).replace(
        'covers = "10.6 m2/L"', 'covers = "10.6 m2/L"\non_hand = "100 ml"'
    )
    paint = worth(quoted(text), "paint")
    assert (near("8.8"), Decimal(11), near("4.4")) == (paint.used, paint.bought, paint.on_hand)
    assert near("15.4") == paint.emptied  # the tin and the jar


def test_what_has_no_price_is_not_counted_and_named(quoted, written):
    found = quoted(written(PRICED, paint='packs = [{ size = "250 ml" }]'))
    assert ("paint",) == found.not_counted
    assert near("2.4") == found.job.supplies


def test_stock_on_hand_without_a_price_is_not_counted_and_named(quoted, written):
    assert ("paint",) == quoted(written(PRICED, paint='on_hand = "1 L"')).not_counted


def test_quote_by_hand(quoted, written):
    """Used 8.80 + 2.40 = 11.20, 2 h at 30 = 60, so 71.20; sold for 100 an hour brings 44.40."""
    found = quoted(written(f"{PRICED}\nasked = 100"))
    assert Decimal("71.20") == found.wanted.total
    assert near("44.4") == found.given.rate
    assert Decimal("28.80") == found.difference


def test_whole_packs_are_charged_where_the_file_says_so(quoted, written):
    """11 + 8 + 60."""
    found = quoted(written(f'{PRICED}\nsupplies = "bought"'))
    assert Decimal("79.00") == found.wanted.total


def test_mix_is_worth_its_parts_and_counted_once(quoted, written):
    """A batch of 200 ml: 150 ml at 40 a litre are 6, 50 ml at 60 a litre are 3."""
    parts = """
[[mix]]
name = "paint"
recipe = [{ product = "white", parts = 3 }, { product = "black", parts = 1 }]
measure = "50 ml"
covers = "10.6 m2/L"
[[product]]
name = "white"
kind = "paint"
covers = "10.6 m2/L"
packs = [{ size = "1 L", price = 40 }]
[[product]]
name = "black"
kind = "paint"
covers = "10.6 m2/L"
packs = [{ size = "1 L", price = 60 }]
"""
    text = written(PRICED)
    start, end = text.index("[[product]]"), text.index("[[abrasive]]")
    found = quoted(text[:start] + parts + text[end:])
    assert () == found.not_counted
    assert Decimal(0) == worth(found, "paint").used
    assert (near("6"), near("3")) == (worth(found, "white").used, worth(found, "black").used)


def test_hours_of_the_plan_count_where_the_file_gives_none(quoted, written):
    found = quoted(written("rate = 30"), 2.0)
    assert (Decimal("71.20"), True) == (found.wanted.total, found.are_hours_planned)
    assert Decimal("2.33") == quoted(written("rate = 30"), 7 / 3).job.hours
    own = quoted(written(PRICED), 9.0)
    assert (Decimal("71.20"), False) == (own.wanted.total, own.are_hours_planned)


@pytest.mark.parametrize("planned", [None, 0.0])
def test_no_hours_make_no_quote(planned, quoted, written):
    text = written("rate = 30")
    found = quoted(text, planned)
    assert isinstance(found, Problem)
    assert ("mend", text[: text.index("[price]")].count("\n") + 1) == (found.level, found.line)
    assert "add hours = 4" in found.message


def test_no_price_makes_no_quote(quoted, written):
    found = quoted(written())
    assert isinstance(found, Problem)
    assert "has no [price]; add [price] with rate = 40" in found.message


prices = st.none() | st.decimals(0, 500, places=2)
sizes = st.floats(0.01, 20)


@EXAMPLES
@given(
    st.lists(st.tuples(sizes, prices), min_size=1, max_size=3),
    st.floats(0, 10), st.floats(1, 3), st.floats(0, 5),
)  # fmt: skip
def test_what_is_used_is_worth_no_more_than_what_is_bought_and_on_hand(
    offered, likely, more, on_hand
):
    """Where the packs and the shelf hold what is likely to be used, as they do."""
    packs = [Pack(size, "1 tin", price) for size, price in offered]
    item = material(packs, likely, likely * more, on_hand)
    assume(item.is_counted)
    value = item.bought + item.on_hand
    assert item.used <= value + Decimal("1e-9") * (1 + value)
    assert item.used <= item.emptied + Decimal("1e-9") * (1 + value)


def material(packs, likely, buy_for, on_hand):
    """Return a supply with the packs that are chosen for it, and its price."""
    missing = max(0.0, buy_for - on_hand)
    buy = choose_packs(packs, missing)
    known = [pack.price for pack, _ in buy if pack.price is not None]
    cost = sum((pack.price * count for pack, count in buy if pack.price is not None), Decimal(0))
    has_price = len(known) == len(buy) and bool(buy or not missing)
    supply = Supply(
        name="paint", what="product", kind="paint", grit=None, unit="L",
        need=Points(likely, likely, buy_for, buy_for), uses=(), factors=(), drivers=(),
        on_hand=on_hand, buy=buy, mixed=0.0, cost=cost if has_price else None,
    )  # fmt: skip
    return Material(supply, buy if has_price else ())


def test_command_takes_the_hours_of_the_plan(shown, written):
    """Two coats and one grit with a time of their own: 30 min and 20 min, and no setting out."""
    text = written("rate = 30").replace("coats = 2", 'coats = 2\ntime = "30 min"')
    text = text.replace("grits = [120]", 'grits = [120]\ntime = "20 min"')
    text += '[workshop]\nset_up = "0 min"\n'
    result = shown(text, "--json")
    found = json.loads(result.stdout)
    assert (0.83, "plan") == (found["hours"], found["hours_from"])
    assert 24.9 == found["wanted"]["work"]
    assert "Hours*" in shown(text).stdout
    assert "hours come from the plan" in found["assumed"][0]


# ---- what is printed ---------------------------------------------------------


def rows(text):
    """Return the last word of each line by its first words."""
    lines = [line.split("  ") for line in text.splitlines() if "  " in line]
    return {line[0].rstrip("*"): line[-1].strip() for line in lines}


ALL_TERMS = """\
piece = 44
rate = 30
asked = 200
hours = 2
overhead = "10 %"
margin = "20 %"
tax = "8 %"
deposit = "30 %"
delivery = 20"""


def test_screen_shows_every_line_worked_by_hand(shown, written):
    """11.20 + 60 + 7.12 + 44 = 122.32; / 0.8 = 152.90; + 20 = 172.90; tax 13.83; 186.73."""
    text = shown(written(ALL_TERMS)).stdout
    wanted = rows(text[text.index("Price to charge") : text.index("What you earn")])
    assert {
        "The piece": "44.00", "Supplies": "11.20", "Hours": "60.00", "Overhead": "7.12",
        "Cost": "122.32", "Margin": "30.58", "Price": "152.90", "Delivery": "20.00",
        "Tax": "13.83", "Total": "186.73", "Deposit": "56.02", "Balance": "130.71",
    }.items() <= wanted.items()  # fmt: skip


def test_screen_fits_80_columns_and_says_how_each_line_was_made(shown, written):
    text = shown(written(ALL_TERMS), "--why").stdout
    assert 80 >= max(map(len, text.splitlines()))
    for how in ("2 h x 30.00", "10 % of supplies and hours", "20 % of the price",
                "mark-up 25 %", "8 % of 172.90", "30 % of the total",
                "200 ml, at 11 for 1 pack of", "3, at 8 for 1 pack of 10"):  # fmt: skip
        assert how in text


def test_screen_shows_what_a_given_price_pays_worked_by_hand(shown, written):
    """200 with 8 % tax is 185.19 without; less delivery 165.19; less 20 % of it 132.15.

    Less 44 for the piece 88.15, so 88.148 / 1.1 - 11.20 = 68.93 for two hours, and 8.01 overhead; a
    cent is left over by rounding down, and the hours lost most by it.
    """
    text = shown(written(ALL_TERMS)).stdout
    given = rows(text[text.index("What you earn at 200.00 EUR") :])
    assert {
        "Tax": "-14.81", "Delivery": "-20.00", "Price": "165.19",
        "Margin": "-33.04", "The piece": "-44.00", "Supplies": "-11.20", "Overhead": "-8.01",
        "Left to pay you": "68.94", "Each hour": "34.47", "Each hour, with margin": "50.99",
        "Deposit": "60.00", "Balance": "140.00",
    }.items() <= given.items()  # fmt: skip


def test_screen_says_plainly_that_hours_cost_money(shown, written):
    """40 - 11.20 - 45 = -16.20 in two hours."""
    text = shown(written("piece = 45\nasked = 40\nhours = 2")).stdout
    assert "You lose 8.10 EUR an hour" in text
    assert "-8.10" == rows(text)["Each hour"]


@pytest.mark.parametrize(
    ("asked", "said"),
    [(100, "28.80 EUR more than the price for 30.00 EUR an hour"),
     (60, "11.20 EUR less than the price for 30.00 EUR an hour"),
     (71.2, "is exactly the price for 30.00 EUR an hour")],
)  # fmt: skip
def test_screen_says_how_the_given_price_differs(asked, said, shown, written):
    text = " ".join(shown(written(f"{PRICED}\nasked = {asked}")).stdout.split())
    assert said in text


def test_screen_names_what_is_not_counted_and_not_what_nobody_gave(shown, written):
    text = shown(written(PRICED, paint="")).stdout
    assert "Not counted: paint (no price)." in " ".join(text.split())
    assert "none given" not in text
    assert "not counted" == rows(shown(written(PRICED, paint=""), "--why").stdout)["paint"]


def test_screen_marks_what_rests_on_assumed_values(shown, written):
    text = shown(written(PRICED).replace('loss = "0 %"\n', "")).stdout
    assert "Supplies*" in text
    assert "* 1 figure assumed: lost when applied by brush, 10 %." in text
    assert "*" not in shown(written(PRICED)).stdout


def test_screen_says_that_no_currency_is_given(shown, written):
    assert "No currency is given; amounts are shown with two decimals." in " ".join(
        shown(written(PRICED, currency="")).stdout.split()
    )


def test_yen_are_whole(shown, written):
    text = shown(written("asked = 20000\nhours = 3", currency="JPY"), "--why").stdout
    assert "What you earn at 20,000 JPY" in text
    assert "11" == rows(text)["Used"]


def test_dinars_have_three_decimals_on_screen_and_in_json(shown, written):
    """0.2 L of 250 ml for 11.125: 8.9; three of ten discs for 8.006: 2.4018; 11.3018 is 11.302,
    and the coin that rounding each line down leaves goes to the discs, which lost most: 2.402."""
    paint = 'packs = [{ size = "250 ml", price = 11.125 }]'
    disc = "packs = [{ count = 10, price = 8.006 }]"
    text = written(PRICED, paint=paint, disc=disc, currency="KWD")
    found = rows(shown(text, "--why").stdout)
    assert ("8.900", "2.402", "11.302") == tuple(
        found[one] for one in ("paint", "disc P120", "Used")
    )
    assert ("19.131", "7.829") == (found["To buy"], found["Left over"])
    assert ("60.000", "71.302") == (found["Hours"], found["Total"])
    data = json.loads(shown(text, "--json").stdout)
    assert [2.402, 8.9] == [one["charged"] for one in data["supplies"]]
    assert (11.302, 71.302) == (data["wanted"]["supplies"], data["wanted"]["total"])


def test_json_has_whole_coins_that_add_up(shown, written):
    found = json.loads(shown(written(ALL_TERMS), "--json").stdout)
    wanted = found["wanted"]
    assert (186.73, 152.9, 30) == (wanted["total"], wanted["price"], wanted["rate"])
    assert 45.29 == wanted["rate_with_margin"]  # (60 + 30.58) / 2
    lines = ("piece", "supplies", "work", "overhead", "margin", "delivery", "tax")
    assert Decimal("186.73") == sum(Decimal(str(wanted[line])) for line in lines)
    assert 200 == found["asked"]["total"]
    assert 13.27 == found["difference"]
    assert ("EUR", 0.01, 2, "piece file") == (
        found["currency"], found["coin"], found["hours"], found["hours_from"],
    )  # fmt: skip
    assert [("disc", 120, 3, 2.4, 8), ("paint", None, 0.2, 8.8, 11)] == [
        (s["supply"], s["grit"], round(s["amount"], 9), s["used"], s["bought"])
        for s in found["supplies"]
    ]


def test_json_without_a_rate_or_a_price_says_null(shown, written):
    found = json.loads(shown(written(PRICED), "--json").stdout)
    assert (None, None) == (found["asked"], found["difference"])
    found = json.loads(shown(written("asked = 1\nhours = 1"), "--json").stdout)
    assert (None, None) == (found["wanted"], found["difference"])


@pytest.mark.parametrize("options", [(), ("--json",)])
def test_largest_numbers_that_are_read_make_no_fault(options, shown, written):
    """Each at its limit, and a pack that is absurdly small and dear."""
    price = """\
piece = 1000000000
rate = 1000000000
asked = 1000000000
hours = 10000
overhead = "1000 %"
margin = "99 %"
tax = "100 %"
delivery = 1000000000"""
    paint = 'on_hand = "1000 L"\npacks = [{ size = "0.000000000001 ml", price = 1000000 }]'
    result = shown(written(price, paint), *options)
    assert (0, "") == (result.exit_code, result.stderr)


@pytest.mark.parametrize("price", ["", "hours = 2", "rate = 30\nhours = 2\ntax = 8"])
@pytest.mark.parametrize("options", [(), ("--json",)])
def test_what_must_be_mended_is_told_without_a_number(price, options, shown, written):
    result = shown(written(price), *options)
    assert 1 == result.exit_code
    assert "Traceback" not in result.output
    if options:
        assert ["mend"] == [p["level"] for p in json.loads(result.stdout)["problems"]]
    else:
        assert ("", True) == (result.stdout, "Fix this first" in result.stderr)
