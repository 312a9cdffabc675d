"""The user's own files of products: what they give to a piece, and what is wrong with them."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from surfacecalc.api import MeasuredPiece, MistakesError, supplies
from surfacecalc.catalogue.own import FILE_NAME, FOLDER_VARIABLE, configuration_folder
from surfacecalc.checks.unused import check_unused
from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem, format_problem
from surfacecalc.reading.piece_file import read_piece
from surfacecalc.zones.areas import measure

Answer = tuple[Piece | None, list[Problem]]
Ask = Callable[..., Answer]

PIECE = """\
[piece]
name = "p"
unit = "mm"
[[part]]
name = "top"
shape = "board"
width = 100
depth = 60
height = 20
[[zone]]
name = "z"
faces = ["*"]
surface = "bare"
[[zone.step]]
do = "sand"
grits = [120]
with = "disc"
[[zone.step]]
do = "coat"
product = "shellac"
coats = 2
by = "brush"
"""
DISC = '[[abrasive]]\nname = "disc"\nform = "125 mm disc"\nlife = "0.4 m2"\n'
SHELLAC = """\
[[product]]
name = "shellac"
kind = "shellac"
covers = "9 m2/L"
dry = "20 min"
thinner = "spirit"
[[product]]
name = "spirit"
kind = "alcohol"
"""
NEEDLESS = '[[product]]\nname = "old paint"\nkind = "paint"\ncovers = "9 m2"\n'


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder that stands for the user's configuration folder."""
    folder = tmp_path / "kept"
    folder.mkdir()
    monkeypatch.setenv(FOLDER_VARIABLE, str(folder))
    return folder


@pytest.fixture
def ask(tmp_path: Path, kept: Path) -> Ask:
    """Return a function that reads a piece with a file of products beside it and one kept."""
    workshop = tmp_path / "workshop"
    workshop.mkdir()

    def read(piece: str = PIECE, beside: str | None = None, stored: str | None = None) -> Answer:
        for folder, text in ((workshop, beside), (kept, stored)):
            (folder / FILE_NAME).unlink(missing_ok=True)
            if text is not None:
                (folder / FILE_NAME).write_text(text)
        (workshop / "piece.toml").write_text(piece)
        return read_piece(workshop / "piece.toml")

    return read


def lines(answer: Answer) -> list[str]:
    """Return the problems as they are printed, folders left out."""
    printed = [format_problem(problem, "piece.toml") for problem in answer[1]]
    return [text[text.find(FILE_NAME) if FILE_NAME in text else 0 :] for text in printed]


def soundly(answer: Answer) -> Piece:
    piece, problems = answer
    assert piece is not None, problems
    return piece


@pytest.mark.parametrize("place", ["beside", "stored"])
def test_product_that_the_piece_names_and_does_not_define_is_taken_from_the_record(
    place: str, ask: Ask
) -> None:
    piece = soundly(ask(**{place: DISC + SHELLAC}))
    assert {"shellac", "spirit"} == set(piece.shelf.products)
    shellac = piece.shelf.products["shellac"]
    assert (9.0, "own record") == (shellac.coverage[0].range.likely, shellac.coverage[0].source)
    assert shellac.drying is not None
    assert "own record" == shellac.drying.dry_h.source
    assert "assumed" == shellac.drying.cure_h.source
    assert {"own record"} == {life.source for life in piece.shelf.abrasives["disc"].life.values()}
    assert shellac.file.endswith(FILE_NAME)
    assert 5 == shellac.line


def test_report_tells_which_records_were_used(ask: Ask) -> None:
    (note,) = lines(ask(beside=DISC + SHELLAC))
    assert f'{FILE_NAME}: note: your own record is used for "shellac", "spirit", "disc"' == note


def test_nothing_is_told_or_taken_where_the_piece_defines_all_it_names(ask: Ask) -> None:
    own = DISC + SHELLAC
    piece, problems = ask(PIECE + own, beside=own.replace("9 m2/L", "5 m2/L"), stored=own)
    assert [] == problems
    assert piece is not None
    assert (9.0, "label") == (
        piece.shelf.products["shellac"].coverage[0].range.likely,
        piece.shelf.products["shellac"].coverage[0].source,
    )
    assert {""} == {product.file for product in piece.shelf.products.values()}


def test_file_beside_the_piece_counts_before_the_one_that_is_kept(ask: Ask) -> None:
    beside = DISC + SHELLAC
    stored = beside.replace("9 m2/L", "5 m2/L").replace("0.4 m2", "0.1 m2")
    piece = soundly(ask(beside=beside, stored=stored))
    assert 9.0 == piece.shelf.products["shellac"].coverage[0].range.likely
    assert 0.4 == piece.shelf.abrasives["disc"].life[120].range.likely
    kept_only = soundly(ask(beside=DISC, stored=stored))
    assert 5.0 == kept_only.shelf.products["shellac"].coverage[0].range.likely
    assert 0.4 == kept_only.shelf.abrasives["disc"].life[120].range.likely


def test_a_mix_of_the_piece_counts_before_a_record_of_its_name(ask: Ask) -> None:
    mix = (
        '[[product]]\nname = "base"\nkind = "paint"\n'
        '[[mix]]\nname = "shellac"\nrecipe = [{ product = "base", parts = 1 }]\n'
    )
    piece, problems = ask(PIECE + DISC + mix, beside=SHELLAC)
    assert [] == problems
    assert piece is not None
    assert piece.shelf.products["shellac"].recipe


def test_thinner_of_a_record_may_stand_in_the_piece_or_in_the_other_file(ask: Ask) -> None:
    shellac, spirit = SHELLAC.split("[[product]]\n")[1:]
    head = "[[product]]\n"
    for answer in (
        ask(PIECE + DISC + head + spirit, beside=head + shellac),
        ask(PIECE + DISC, beside=head + shellac, stored=head + spirit),
    ):
        assert "spirit" == soundly(answer).shelf.products["shellac"].thinner
    wrong = (
        f'{FILE_NAME}:6: product "shellac": thinner = "spirit" is not a product in'
        ' this file; the only one is "shellac"'
    )
    assert wrong in lines(ask(PIECE + DISC, beside=head + shellac))


def test_mistake_in_a_record_that_is_needed_stops_the_piece_with_the_name_of_its_file(
    ask: Ask,
) -> None:
    answer = ask(beside=DISC + SHELLAC.replace("9 m2/L", "9 m2"))
    assert answer[0] is None
    found = [line for line in lines(answer) if ": note:" not in line]
    assert 1 == len(found)
    assert found[0].startswith(
        f'{FILE_NAME}:8: product "shellac": covers = "9 m2" is not a coverage'
    )


def test_mistake_in_a_record_that_is_not_needed_is_a_remark(ask: Ask) -> None:
    answer = ask(beside=DISC + SHELLAC + NEEDLESS)
    assert soundly(answer)
    assert (
        f'{FILE_NAME}:17: note: product "old paint": covers = "9 m2" is not a coverage;'
        in "".join(lines(answer))
    )


@pytest.mark.parametrize(
    ("beside", "wrong"),
    [
        ("[[product]\n", f"{FILE_NAME}:1: cannot be read"),
        ('[[prodct]]\nname = "shellac"\n', 'did you mean [[product]]?'),
        ("[piece]\n", "does not belong in a file of products; use [[product]], [[abrasive]]"),
        ('[product]\nname = "shellac"\nkind = "shellac"\n', "must be written [[product]]"),
        (SHELLAC + SHELLAC, "is already used on line 2"),
        (SHELLAC.replace('"20 min"', '"-20 min"'), "must be zero or more"),
        (SHELLAC + "dry_film = 0.03\n", "give either covers, or solids and dry_film"),
        (SHELLAC.replace('covers = "9 m2/L"', 'solids = "20 %"\ndry_film = 0.03'),
         'has a length without a unit; write it with one, such as "30 um"'),
        ('[[class]]\ncovers = "9 m2/L"\n', "has no name"),
        ('[[class]]\nname = "sauce"\n', "has no family"),
        ('[[class]]\nname = "sauce"\nfamily = "piant"\n', 'of products; did you mean "paint"?'),
        ('[[class]]\nname = "house paint"\ncovers = "9 m2"\n', "is not a coverage"),
        ('[[class]]\nname = "house paint"\nchemistry = "magic"\n', "is not known"),
        ('[[class]]\nname = "house paint"\nfilm = "yes"\n', "must be true or false"),
        ('[[class]]\nname = "house paint"\ndry = "2 h"\nrecoat = "1 h"\n', "is shorter than dry"),
        ('[[class]]\nname = "paint"\n[[class]]\nname = "paint"\n', "is already used"),
    ],
)  # fmt: skip
def test_mistake_in_the_file_itself_is_told_with_its_name(
    beside: str, wrong: str, ask: Ask
) -> None:
    answer = ask(PIECE + DISC, beside=beside)
    assert answer[0] is None
    assert any(FILE_NAME in line and wrong in line for line in lines(answer)), lines(answer)


def test_empty_file_and_missing_files_change_nothing(ask: Ask) -> None:
    own = PIECE + DISC + SHELLAC
    assert ask(own)[1] == ask(own, beside="", stored="# nothing yet\n")[1] == []
    unknown = lines(ask(PIECE + DISC))
    assert any("is not a product in this file" in line for line in unknown)
    assert unknown == lines(ask(PIECE + DISC, beside=""))


def test_folder_in_the_place_of_the_file_is_told(tmp_path: Path, kept: Path) -> None:
    (kept / FILE_NAME).mkdir()
    (tmp_path / "piece.toml").write_text(PIECE + DISC + SHELLAC)
    answer = read_piece(tmp_path / "piece.toml")
    assert any(f"{FILE_NAME}: is a folder" in line for line in lines(answer))


def test_own_class_gives_the_kind_its_coverage_and_times(ask: Ask) -> None:
    own = (
        '[[class]]\nname = "shellac"\ncovers = "6 m2/L"\nrecoat = "2 h"\n'
        '[[class]]\nname = "house brew"\nfamily = "varnish"\ncovers = "30 m2/kg"\n'
        'chemistry = "wax"\ncleanup = "spirits"\nfilm = false\n'
    )
    products = (
        '[[product]]\nname = "shellac"\nkind = "blond shellac"\n'
        '[[product]]\nname = "brew"\nkind = "thick house brew"\n'
    )
    piece = soundly(ask(PIECE + DISC + products, beside=own))
    shellac, brew = piece.shelf.products["shellac"], piece.shelf.products["brew"]
    assert (6.0, "own record", "") == (
        shellac.coverage[0].range.likely,
        shellac.coverage[0].source,
        shellac.coverage[0].reference,
    )
    assert shellac.drying is not None
    assert ("own record", 2.0) == (
        shellac.drying.recoat_h.source,
        shellac.drying.recoat_h.range.low,
    )
    assert "assumed" == shellac.drying.dry_h.source
    assert ("varnish", "weight", 30.0) == (brew.family, brew.basis, brew.coverage[0].range.likely)
    assert brew.nature is not None
    assert ("wax", "spirits", False) == (
        brew.nature.chemistry, brew.nature.cleanup, brew.nature.forms_film,
    )  # fmt: skip


def test_class_beside_the_piece_counts_before_the_one_that_is_kept(ask: Ask) -> None:
    product = '[[product]]\nname = "shellac"\nkind = "shellac"\n'
    own = '[[class]]\nname = "shellac"\ncovers = "{} m2/L"\n'
    piece = soundly(ask(PIECE + DISC + product, beside=own.format(6), stored=own.format(4)))
    assert 6.0 == piece.shelf.products["shellac"].coverage[0].range.likely


def test_words_that_name_no_product_take_nothing(ask: Ask) -> None:
    """A kind, a name, a face may be spelled like a record that the piece does not use."""
    record = '[[product]]\nname = "paste wax"\nkind = "paste wax"\n'
    product = '[[product]]\nname = "shellac"\nkind = "paste wax"\n'
    piece, problems = ask(PIECE + DISC + product, beside=record)
    assert [] == problems
    assert piece is not None
    assert {"shellac"} == set(piece.shelf.products)


def test_configuration_folder_is_the_one_of_this_system_where_none_is_given(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.delenv(FOLDER_VARIABLE)
    assert "surfacecalc" == configuration_folder().name


def test_tests_never_read_the_records_of_whoever_runs_them(monkeypatch: pytest.MonkeyPatch) -> None:
    here = configuration_folder()
    monkeypatch.delenv(FOLDER_VARIABLE)
    assert configuration_folder() != here


def test_mistake_in_a_pack_is_told_where_the_own_record_is(ask: Ask) -> None:
    """No job needs over 10 000 packs, so that size is a mistake, and the record is where it is."""
    tiny = SHELLAC.replace(
        'covers = "9 m2/L"', 'packs = [{ size = "0.0001 ml" }]\ncovers = "9 m2/L"'
    )
    piece = soundly(ask(beside=DISC + tiny))
    with pytest.raises(MistakesError) as caught:
        supplies(MeasuredPiece(Path("piece.toml"), piece, measure(piece)))
    (problem,) = caught.value.problems
    assert (5, 'product "shellac"') == (problem.line, problem.where)
    assert problem.file.endswith(FILE_NAME)


@pytest.mark.parametrize(("currency", "is_whole"), [("EUR", True), ("JPY", False)])
def test_price_of_a_record_is_in_whole_coins_of_the_piece(
    currency: str, is_whole: bool, ask: Ask
) -> None:
    priced = SHELLAC.replace('dry = "20 min"', 'packs = [{ size = "1 L", price = 8.5 }]')
    piece = PIECE.replace('unit = "mm"', f'unit = "mm"\ncurrency = "{currency}"')
    answer = ask(piece, beside=DISC + priced)
    finer = f"more decimals than the smallest coin of {currency}, 1"
    assert is_whole != any(finer in one.message for one in answer[1])
    assert is_whole == (answer[0] is not None)


def test_own_record_that_no_step_uses_is_not_told(ask: Ask) -> None:
    piece = soundly(ask(beside=DISC + SHELLAC))
    unused = replace(piece.shelf.products["spirit"], name="unused")
    in_file = replace(unused, file="")
    for product, told in ((unused, []), (in_file, ["not used by any step"])):
        shelf = replace(piece.shelf, products={**piece.shelf.products, "unused": product})
        assert told == [note.message for note in check_unused(replace(piece, shelf=shelf))]


GLOVES = '[[consumable]]\nname = "gloves"\nlasts = "2 sessions"\npacks = [{ count = 10 }]\n'
USING = PIECE.replace("grits = [120]", 'grits = [120]\nuses = ["gloves"]')


def test_consumable_that_a_step_uses_is_taken_and_others_are_kept(ask: Ask) -> None:
    own = DISC + SHELLAC + GLOVES
    piece = soundly(ask(USING, beside=own))
    gloves = piece.shelf.consumables["gloves"]
    assert (2.0, "own record") == (gloves.lasts.range.likely, gloves.lasts.source)
    assert gloves.file.endswith(FILE_NAME)
    assert {} == piece.shelf.kept
    idle = soundly(ask(beside=own))
    assert ({}, ["gloves"]) == (idle.shelf.consumables, list(idle.shelf.kept))


def test_consumable_of_the_piece_file_counts_before_the_record(ask: Ask) -> None:
    text = USING + GLOVES.replace("2 sessions", "5 sessions")
    piece = soundly(ask(text, beside=DISC + SHELLAC + GLOVES))
    assert 5.0 == piece.shelf.consumables["gloves"].lasts.range.likely
    assert {} == piece.shelf.kept


def test_mistake_in_a_consumable_is_a_note_unless_a_step_uses_it(ask: Ask) -> None:
    wrong = DISC + SHELLAC + GLOVES.replace("2 sessions", "2 seasons")
    piece, problems = ask(beside=wrong)
    assert piece is not None
    assert {} == piece.shelf.kept
    assert any("seasons" in one.message and "note" == one.level for one in problems)
    assert ask(USING, beside=wrong)[0] is None
