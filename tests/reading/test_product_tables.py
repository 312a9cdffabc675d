"""`[[product]]` tables: coverage from the label, from solids and film, or from the catalogue."""

from collections.abc import Callable

import pytest

from surfacecalc.model.inputs import Input, Quantity
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Range
from surfacecalc.model.shelf import Product
from surfacecalc.problems import Problem

Read = Callable[[str], tuple[Piece | None, list[Problem]]]
PieceOf = Callable[[str], Piece]

HEAD = """\
[piece]
name = "p"
unit = "mm"
[[part]]
name = "top"
shape = "board"
width = 100
depth = 60
height = 20
[[product]]
name = "it"
"""
LINES = HEAD.count("\n")
PAINT = 'kind = "paint"\n'
LITRE_M2_OF_GALLON_FT2 = 0.09290304 / 3.785411784


def product(piece_of: PieceOf, table: str) -> Product:
    return piece_of(HEAD + table).shelf.products["it"]


def mistake(read: Read, table: str) -> str:
    """Return line and message of the one mistake of a product's table."""
    piece, problems = read(HEAD + table)
    assert piece is None
    (found,) = problems
    assert (found.level, found.where) == ("mend", 'product "it"')
    return f"{found.line}: {found.message}"


@pytest.mark.parametrize(
    ("covers", "expected", "basis"),
    [
        ('"10 m2/L"', Range(10, 10, 10), "volume"),
        ('["8 m2/L", "10 m2/L", "14 m2/L"]', Range(8, 10, 14), "volume"),
        ('["10 m2/L", "10 m2/L", "10 m2/L"]', Range(10, 10, 10), "volume"),
        ('"50 m2/kg"', Range(50, 50, 50), "weight"),
    ],
)
def test_coverage_is_that_of_the_label(
    covers: str, expected: Range, basis: str, piece_of: PieceOf
) -> None:
    found = product(piece_of, f"{PAINT}covers = {covers}\n")
    (factor,) = found.coverage
    assert (expected, "label", basis) == (factor.range, factor.source, found.basis)


def test_coverage_of_a_us_label_is_kept_in_square_metres_for_a_litre(piece_of: PieceOf) -> None:
    found = product(piece_of, f'{PAINT}covers = "350 ft2/gallon"\n')
    assert found.coverage[0].range.likely == pytest.approx(
        350 * LITRE_M2_OF_GALLON_FT2, rel=1e-12
    )  # the float rounds once


def test_range_of_coverage_may_mix_units_of_one_kind(piece_of: PieceOf) -> None:
    found = product(piece_of, f'{PAINT}covers = ["8 m2/L", "400 ft2/gallon", "14 m2/L"]\n')
    values = found.coverage[0].range
    assert (values.low, values.high) == (8, 14)


@pytest.mark.parametrize(
    ("solids", "film", "expected"),
    [
        ('"40 %"', '"30 um"', (Range(0.4, 0.4, 0.4), Range(30, 30, 30))),
        ('["35 %", "40 %", "45 %"]', '"2 mil"',
         (Range(0.35, 0.4, 0.45), Range(50.8, 50.8, 50.8))),
        ('"100 %"', '["25 um", "30 um", "40 um"]', (Range(1, 1, 1), Range(25, 30, 40))),
        ('"40 %"', "0.03", (Range(0.4, 0.4, 0.4), Range(30, 30, 30))),
    ],
)  # fmt: skip
def test_solids_and_dry_film_are_kept_as_share_and_micrometres(
    solids: str, film: str, expected: tuple[Range, Range], piece_of: PieceOf
) -> None:
    found = product(piece_of, f"{PAINT}solids = {solids}\ndry_film = {film}\n")
    assert expected == tuple(factor.range for factor in found.coverage)
    assert [factor.source for factor in found.coverage] == ["label", "label"]
    assert found.basis == "volume"


@pytest.mark.parametrize(
    ("kind", "family", "basis", "source"),
    [
        ("waterborne furniture paint", "paint", "volume", "assumed"),
        ("oil varnish", "varnish", "volume", "published"),
        ("water-based gel stain", "stain", "volume", "assumed"),
        ("paste wax", "wax", "weight", "published"),
        ("Shellac", "shellac", "volume", "assumed"),
        ("oil paint", "paint", "volume", "published"),
    ],
)
def test_coverage_left_out_is_that_of_the_kind_with_its_source(
    kind: str, family: str, basis: str, source: str, piece_of: PieceOf
) -> None:
    found = product(piece_of, f'kind = "{kind}"\n')
    (factor,) = found.coverage
    assert (family, basis, source) == (found.family, found.basis, factor.source)
    assert bool(factor.reference) == (source == "published")


HOURS = ("dry_h", "recoat_h", "cure_h")


def test_times_of_the_label_are_kept_in_hours_and_the_temperature_in_celsius(
    piece_of: PieceOf,
) -> None:
    lines = (
        'dry = "1 h"\nrecoat = ["4 h", "5 h", "0.5 days"]\ncure = "14 days"\nmin_temp = "50 F"\n'
    )
    drying = product(piece_of, PAINT + lines).drying
    assert drying is not None
    assert drying.coldest_c is not None
    found = (drying.dry_h, drying.recoat_h, drying.cure_h, drying.coldest_c)
    expected = (Range.fixed(1), Range(4, 5, 12), Range.fixed(336), Range.fixed(10))
    assert expected == tuple(factor.range for factor in found)
    assert {"label"} == {factor.source for factor in found}
    quantities: tuple[Quantity, ...] = ("dry", "recoat", "cure", "coldest")
    assert [Input(one, of="it") for one in quantities] == [factor.what for factor in found]


@pytest.mark.parametrize(
    ("kind", "sources"),
    [
        ("paint", ("assumed", "assumed", "assumed")),
        ("waterborne stain-blocking primer", ("assumed", "published", "assumed")),
        ("shellac", ("assumed", "assumed", "assumed")),
    ],
)
def test_times_left_out_are_those_of_the_kind_with_their_source(
    kind: str, sources: tuple[str, ...], piece_of: PieceOf
) -> None:
    drying = product(piece_of, f'kind = "{kind}"\n').drying
    found = [getattr(drying, key) for key in HOURS]
    assert sources == tuple(factor.source for factor in found)
    assert [bool(factor.reference) for factor in found] == [s == "published" for s in sources]
    quantities: tuple[Quantity, ...] = ("dry", "recoat", "cure")
    assert [Input(one, of="it") for one in quantities] == [factor.what for factor in found]


def test_what_is_never_left_on_the_wood_has_no_times(piece_of: PieceOf) -> None:
    assert product(piece_of, 'kind = "thinner"\n').drying is None


@pytest.mark.parametrize(
    ("kind", "line", "key", "expected", "source"),
    [
        # its class is dry in 30 to 120 min and takes a coat after 2 to 8 h, all of it assumed;
        # the wait of a blocking primer is published
        ("waterborne paint", 'recoat = "45 min"', "dry_h", (0.5, 0.75, 0.75), "assumed"),
        ("waterborne paint", 'dry = "6 h"', "recoat_h", (6, 6, 8), "assumed"),
        ("waterborne paint", 'recoat = "3 h"', "dry_h", (0.5, 1, 2), "assumed"),
        ("waterborne paint", 'dry = "3 h"', "recoat_h", (3, 4, 8), "assumed"),
        ("waterborne blocking primer", 'dry = "3 h"', "recoat_h", (24, 36, 48), "published"),
        ("shellac", 'recoat = "20 min"', "dry_h", (15 / 60, 20 / 60, 20 / 60), "assumed"),
        ("shellac", 'recoat = "10 days"', "cure_h", (240, 240, 240), "assumed"),
        ("lacquer", 'cure = "12 days"', "recoat_h", (0.5, 1, 2), "assumed"),
        ("varnish", 'cure = "8 h"', "recoat_h", (8, 8, 8), "assumed"),
    ],
)
def test_time_left_out_is_moved_so_that_it_is_in_order_with_the_one_that_is_written(
    kind: str, line: str, key: str, expected: tuple[float, ...], source: str, piece_of: PieceOf
) -> None:
    found = getattr(product(piece_of, f'kind = "{kind}"\n{line}\n').drying, key)
    assert expected == pytest.approx((found.range.low, found.range.likely, found.range.high))
    assert (source, source == "published") == (found.source, bool(found.reference))


@pytest.mark.parametrize(
    ("kind", "chemistry", "cleanup", "film"),
    [
        ("water-based gel stain", "waterborne", "water", False),
        ("gel stain", "drying oil", "spirits", False),
        ("shellac", "evaporating solvent", "alcohol", True),
        ("two-part filler", "two-part", "lacquer thinner", False),
        ("paste wax", "wax", "spirits", False),
    ],
)
def test_product_has_the_nature_of_its_kind(
    kind: str, chemistry: str, cleanup: str, film: bool, piece_of: PieceOf
) -> None:
    nature = product(piece_of, f'kind = "{kind}"\n').nature
    assert nature is not None
    assert (chemistry, cleanup, film) == (nature.chemistry, nature.cleanup, nature.forms_film)


def test_density_is_kept_and_serves_for_the_weighed_jar(piece_of: PieceOf) -> None:
    jar = 'on_hand = { weight = "450 g", empty = "60 g" }\n'
    found = product(piece_of, f'{PAINT}density = "1.3 kg/L"\n{jar}')
    assert found.density_kg_per_l == 1.3
    assert found.on_hand == pytest.approx(0.3, rel=1e-12)  # one subtraction and one division


def test_density_told_with_the_jar_is_that_of_the_product(piece_of: PieceOf) -> None:
    jar = 'on_hand = { weight = "450 g", empty = "60 g", density = "1.3 kg/L" }\n'
    assert product(piece_of, PAINT + jar).density_kg_per_l == 1.3
    assert product(piece_of, PAINT).density_kg_per_l is None


@pytest.mark.parametrize(
    ("line", "wrong"),
    [
        ('dry = "-1 h"', "must be zero or more"),
        ("dry = 1", "has no unit"),
        ('dry = "1 L"', "must be a time"),
        ('dry = "100 days"', "is over 90 days; check the unit"),
        ('cure = "400 days"', "is over a year"),
        ('recoat = ["4 h", "2 h", "6 h"]', "must go up"),
        ('recoat = "30 min"\ndry = "1 h"', "is shorter than dry; you cannot coat over wet finish"),
        ('recoat = ["1 h", "4 h", "6 h"]\ndry = "2 h"', "is shorter than dry"),
        ('cure = "12 h"\nrecoat = "24 h"', "is shorter than recoat"),
        ('cure = "1 h"\ndry = "2 h"', "is shorter than dry"),
        ('min_temp = "400 C"', "must be from -10 C to 45 C"),
        ('min_temp = "-40 F"', "must be from -10 C to 45 C"),
        ("min_temp = 10", 'has no unit; write it with one, such as "15 C" or "59 F"'),
        ('min_temp = "10"', "has no unit"),
        ('min_temp = "cold"', "is not a temperature"),
        ('density = "1.3"', "is not a density"),
        ("density = 1.3", "has no unit"),
        ('density = "1300 kg/L"', "from 0.5 to 3"),
        ('recaot = "4 h"', 'did you mean "recoat"?'),
    ],
)
def test_time_or_temperature_that_is_not_right_is_told_with_its_line(
    line: str, wrong: str, read: Read
) -> None:
    found = mistake(read, f"{PAINT}{line}\n")
    assert found.startswith(f"{LINES + 2}: ")
    assert wrong in found


def test_thinner_that_dries_is_refused(read: Read) -> None:
    assert "not left to dry on the wood" in mistake(read, 'kind = "thinner"\ndry = "1 h"\n')


def test_density_told_twice_is_refused(read: Read) -> None:
    jar = 'on_hand = { weight = "450 g", density = "1.3 kg/L" }\n'
    assert "keep one of them" in mistake(read, f'{PAINT}density = "1.2 kg/L"\n{jar}')


def test_thinner_covers_nothing(piece_of: PieceOf) -> None:
    assert product(piece_of, 'kind = "thinner"\n').coverage == ()


@pytest.mark.parametrize(
    ("lines", "named"),
    [
        ('covers = "10 m2/L"\nsolids = "40 %"\ndry_film = "30 um"\n', "covers and solids"),
        ('covers = "10 m2/L"\nsolids = "40 %"\n', "covers and solids"),
        ('covers = "10 m2/L"\ndry_film = "30 um"\n', "covers and dry_film"),
        ('solids = "40 %"\n', "solids"),
        ('dry_film = "30 um"\n', "dry_film"),
    ],
)
def test_coverage_both_ways_or_half_a_way_is_refused(lines: str, named: str, read: Read) -> None:
    found = mistake(read, PAINT + lines)
    assert found.startswith(f"{LINES + 2}: has {named}")
    assert "either covers, or solids and dry_film" in found


@pytest.mark.parametrize(
    ("line", "wrong"),
    [
        ("covers = 10", 'like "10 m2/L"'),
        ('covers = "10"', '"10 m2/L"'),
        ('covers = "10 L"', '"10 m2/L"'),
        ('covers = "0 m2/L"', "more than zero"),
        ('covers = "2000 m2/L"', "1,000 m2"),
        ('covers = "7,5 m2/L"', '"7.5 m2/L"'),
        ('covers = ["10 m2/L", "8 m2/L", "14 m2/L"]', "[low, likely, high]"),
        ('covers = ["14 m2/L", "8 m2/L"]', "the lower end first"),
        ('covers = ["8 m2/L", "10 m2/kg", "14 m2/L"]', "or all by weight"),
        ("covers = true", '"10 m2/L"'),
        ("covers = []", "[low, likely, high]"),
        ('covers = "10 m2/L"\npacks = { size = "1 L" }', "packs"),
        ('packs = [{ price = 3 }]', "has no size"),
        ('packs = [{ size = "0 L" }]', "more than zero"),
        ('packs = [{ size = "-1 L" }]', "more than zero"),
        ('packs = [{ size = 1 }]', "has no unit"),
        ('packs = [{ size = "2 m2" }]', "must be a volume"),
        ('packs = [{ size = "2000 L" }]', "check the unit"),
        ('packs = [{ size = "1 L", price = -3 }]', "from 0 to"),
        ('packs = [{ size = "1 L", price = nan }]', "ordinary number"),
        ('packs = [{ size = "1 L", price = inf }]', "ordinary number"),
        ('packs = [{ size = "1 L", price = "3" }]', "must be a plain number: price = 3"),
        ('packs = [{ size = "1 L", price = 1000000000 }]', "100,000,000"),
        ('packs = [{ size = "1 L", prize = 3 }]', 'did you mean "price"?'),
        ('packs = ["1 L"]', "{ size ="),
        ("packs = 3", "{ size ="),
        ('on_hand = "-1 ml"', "zero or more"),
        ("on_hand = 300", "has no unit"),
        ('on_hand = "3 oz"', '"fl oz"'),
        ('on_hand = "1 kg"', "must be a volume"),
        ('packs = [{ size = "8 oz" }]', '"fl oz"'),
        ('solids = "0 %"\ndry_film = "30 um"', "more than 0 %"),
        ('solids = "101 %"\ndry_film = "30 um"', "at most 100 %"),
        ("solids = 40\ndry_film = '30 um'", '"10 %"'),
        ('dry_film = "0 um"\nsolids = "40 %"', "more than zero"),
        ('dry_film = "30 mm"\nsolids = "40 %"', "um"),
        ("dry_film = 30\nsolids = '40 %'", "um"),
        ('dry_film = "30 L"\nsolids = "40 %"', "must be a length"),
        ('thinner = "watr"', "is not a product"),
        ('thin_most = "301 %"', "must be from 0 % to 300 %"),
        ('thin_most = "-1 %"', "must be from 0 % to 300 %"),
        ('thiner = "it"', 'did you mean "thinner"?'),
    ],
)  # fmt: skip
def test_product_that_is_not_right_is_told_with_its_line(line: str, wrong: str, read: Read) -> None:
    found = mistake(read, f"{PAINT}{line}\n")
    place = LINES + 2 + ("packs = {" in line and "covers" in line)
    assert found.startswith(f"{place}: ")
    assert wrong in found


@pytest.mark.parametrize(
    ("kind", "wrong"),
    [
        ('"furniture pant"', 'furniture paint"?'),
        ('"shelac"', 'did you mean "shellac"?'),
        ('"zzz"', "one that ends in paint"),
        ('""', "is empty"),
        ("3", "must be words"),
    ],
)
def test_kind_that_is_not_known_is_told_with_the_nearest(kind: str, wrong: str, read: Read) -> None:
    found = mistake(read, f"kind = {kind}\n")
    assert found.startswith(f"{LINES + 1}: kind = {kind} ")
    assert wrong in found


def test_product_without_a_kind_is_refused(read: Read) -> None:
    assert mistake(read, 'covers = "10 m2/L"\n').startswith(f"{LINES - 1}: has no kind")


def test_weight_and_volume_are_not_mixed_in_one_product(read: Read) -> None:
    by_weight = f'{PAINT}covers = "50 m2/kg"\n'
    assert "must be a weight" in mistake(read, f'{by_weight}packs = [{{ size = "1 L" }}]\n')
    assert "must be a weight" in mistake(read, f'{by_weight}on_hand = "1 pint"\n')
    assert "must be a volume" in mistake(read, f'{PAINT}covers = "10 m2/L"\non_hand = "1 kg"\n')


def test_solids_and_film_make_a_product_of_volume(read: Read) -> None:
    film = 'kind = "paste wax"\nsolids = "40 %"\ndry_film = "30 um"\n'
    assert "must be a volume" in mistake(read, f'{film}packs = [{{ size = "1 kg" }}]\n')


def test_packs_keep_their_text_and_exact_price(piece_of: PieceOf) -> None:
    packs = '[{ size = "1 quart", price = 9.10 }, { size = "250 ml" }]'
    found = product(piece_of, f"{PAINT}packs = {packs}\n").packs
    assert [pack.text for pack in found] == ["1 quart", "250 ml"]
    assert [str(pack.price) for pack in found] == ["9.1", "None"]
    assert [pack.size for pack in found] == [0.946352946, 0.25]


def test_product_without_packs_and_on_hand_has_none(piece_of: PieceOf) -> None:
    found = product(piece_of, PAINT)
    assert (found.packs, found.on_hand) == ((), 0)


def test_price_of_nothing_is_a_price(piece_of: PieceOf) -> None:
    found = product(piece_of, f'{PAINT}packs = [{{ size = "1 L", price = 0 }}]\n')
    assert str(found.packs[0].price) == "0"


def test_thinner_sold_by_weight_is_refused(read: Read) -> None:
    text = f'{PAINT}thinner = "wax"\n[[product]]\nname = "wax"\nkind = "paste wax"\n'
    assert "by volume" in mistake(read, text)


def test_density_turns_a_coverage_over_to_what_the_packs_are_sold_by(piece_of: PieceOf) -> None:
    packs = 'packs = [{ size = "1 pint" }]\n'
    found = product(piece_of, f'{PAINT}covers = "50 m2/kg"\ndensity = "1.6 kg/L"\n{packs}')
    assert "volume" == found.basis
    assert pytest.approx(80) == found.coverage[0].range.likely
    packs = 'packs = [{ size = "1 kg" }]\n'
    found = product(piece_of, f'{PAINT}covers = "8 m2/L"\ndensity = "1.6 kg/L"\n{packs}')
    assert "weight" == found.basis
    assert pytest.approx(5) == found.coverage[0].range.likely


def test_filler_sold_by_volume_needs_no_density_to_fill_holes(piece_of: PieceOf) -> None:
    found = product(piece_of, 'kind = "wood filler"\npacks = [{ size = "1 pint" }]\n')
    assert ("volume", ()) == (found.basis, found.coverage)
