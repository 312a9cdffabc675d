"""`[[product]]` tables: coverage from the label, from solids and film, or from the catalogue."""

from collections.abc import Callable

import pytest

from surfacecalc.pieces import Piece, Product
from surfacecalc.problems import Problem
from surfacecalc.ranges import Range

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
    return piece_of(HEAD + table).products["it"]


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
        ('covers = "2000 m2/L"', "1 000 m2"),
        ('covers = "7,5 m2/L"', '"7.5 m2/L"'),
        ('covers = ["10 m2/L", "8 m2/L", "14 m2/L"]', "[low, likely, high]"),
        ('covers = ["8 m2/L", "14 m2/L"]', "[low, likely, high]"),
        ('covers = ["8 m2/L", "10 m2/kg", "14 m2/L"]', "all per volume or all per weight"),
        ("covers = true", '"10 m2/L"'),
        ("covers = []", "[low, likely, high]"),
        ('covers = "10 m2/L"\npacks = { size = "1 L" }', "packs"),
        ('packs = [{ price = 3 }]', "has no size"),
        ('packs = [{ size = "0 L" }]', "more than zero"),
        ('packs = [{ size = "-1 L" }]', "more than zero"),
        ('packs = [{ size = 1 }]', "has no unit"),
        ('packs = [{ size = "2 m2" }]', "a volume belongs"),
        ('packs = [{ size = "2000 L" }]', "check the unit"),
        ('packs = [{ size = "1 L", price = -3 }]', "from 0 to"),
        ('packs = [{ size = "1 L", price = nan }]', "finite"),
        ('packs = [{ size = "1 L", price = inf }]', "finite"),
        ('packs = [{ size = "1 L", price = "3" }]', "must be a number"),
        ('packs = [{ size = "1 L", price = 10000000 }]', "1,000,000"),
        ('packs = [{ size = "1 L", prize = 3 }]', 'did you mean "price"?'),
        ('packs = ["1 L"]', "{ size ="),
        ("packs = 3", "{ size ="),
        ('on_hand = "-1 ml"', "zero or more"),
        ("on_hand = 300", "has no unit"),
        ('on_hand = "3 oz"', '"fl oz"'),
        ('on_hand = "1 kg"', "a volume belongs"),
        ('packs = [{ size = "8 oz" }]', '"fl oz"'),
        ('solids = "0 %"\ndry_film = "30 um"', "more than 0 %"),
        ('solids = "101 %"\ndry_film = "30 um"', "at most 100 %"),
        ("solids = 40\ndry_film = '30 um'", '"10 %"'),
        ('dry_film = "0 um"\nsolids = "40 %"', "more than zero"),
        ('dry_film = "30 mm"\nsolids = "40 %"', "um"),
        ("dry_film = 30\nsolids = '40 %'", "um"),
        ('dry_film = "30 L"\nsolids = "40 %"', "a length belongs"),
        ('thinner = "watr"', "is no product"),
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
        ('"zzz"', "a kind ends in one of paint"),
        ('""', "must be a text"),
        ("3", "must be a text"),
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
    assert "a weight belongs" in mistake(read, f'{by_weight}packs = [{{ size = "1 L" }}]\n')
    assert "a weight belongs" in mistake(read, f'{by_weight}on_hand = "1 pint"\n')
    assert "a volume belongs" in mistake(read, f'{PAINT}covers = "10 m2/L"\non_hand = "1 kg"\n')


def test_solids_and_film_make_a_product_of_volume(read: Read) -> None:
    film = 'kind = "paste wax"\nsolids = "40 %"\ndry_film = "30 um"\n'
    assert "a volume belongs" in mistake(read, f'{film}packs = [{{ size = "1 kg" }}]\n')


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
