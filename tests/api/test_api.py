"""The door for programs: mistakes as values, numbers or an exception, and no cost to open it."""

import subprocess
import sys
from datetime import datetime
from pathlib import Path

import pytest
from piece_texts import BOARD, BOARD_M2, measured, piece_text

import surfacecalc
from surfacecalc import api

PAINT = {"name": "paint", "kind": "paint", "covers": "10 m2/L"}
COAT = {"do": "coat", "product": "paint", "coats": 1, "by": "brush", "loss": "0 %"}
MONDAY = datetime(2027, 3, 1, 9)
EXAMPLE = Path(__file__).parents[2] / "examples" / "writing-table.toml"


def painted(**tables) -> api.MeasuredPiece:
    return measured(piece_text(COAT, **{"product": PAINT, **tables}))


def test_text_is_read_as_its_file_is() -> None:
    file, text = api.read_piece(EXAMPLE), EXAMPLE.read_text("utf-8")
    expected = api.measure(file).measured.exposed_m2
    assert (EXAMPLE, expected) == (
        file.file,
        api.measure(api.read_piece(str(EXAMPLE))).measured.exposed_m2,
    )
    for other in (text, text.encode(), "\ufeff" + text):
        reading = api.read_piece_text(other, EXAMPLE.parent)
        assert (Path("piece.toml"), file.problems) == (reading.file, reading.problems)
        assert expected == api.measure(reading).measured.exposed_m2


def test_problems_name_the_text_as_it_was_called() -> None:
    text = piece_text(part={"widht": 3})
    assert api.read_piece_text(text).lines[0].startswith("piece.toml:")
    reading = api.read_piece_text(text, name="drawer front")
    assert reading.lines[0].startswith("drawer front:")
    with pytest.raises(api.MistakesError, match=r"^drawer front:"):
        api.measure(reading)


@pytest.mark.parametrize(
    ("text", "line"), [("\ud800", 1), ("", 1), ("[", 1), (b"\xff", 1), ("#" * 1_000_001, None)]
)
def test_text_that_cannot_be_read_is_one_mistake(text: str | bytes, line: int | None) -> None:
    reading = api.read_piece_text(text)
    assert reading.piece is None
    assert [("mend", line)] == [(problem.level, problem.line) for problem in reading.problems]


def test_own_products_and_meshes_are_looked_for_in_the_folder(tmp_path: Path) -> None:
    own = '[[product]]\nname = "paint"\nkind = "paint"\ncovers = "5 m2/L"\n'
    (tmp_path / "surfacecalc-products.toml").write_text(own)
    text = piece_text(COAT)
    assert api.read_piece_text(text).piece is None
    piece = api.read_piece_text(text, tmp_path).piece
    assert piece is not None
    mesh = piece_text(part={"name": "board", "shape": "mesh", "file": "none.obj", "unit": "mm"})
    assert api.read_piece_text(mesh, tmp_path).piece is None


def test_areas_and_amounts_are_those_worked_by_hand() -> None:
    job = painted(zone={"surface": "sealed"})
    assert BOARD_M2 == pytest.approx(job.measured.exposed_m2)
    (supply,) = api.supplies(job)
    assert ("paint", pytest.approx(BOARD_M2 / 10)) == (supply.name, supply.need.likely)


def test_notes_of_reading_and_of_measuring_are_in_the_order_of_the_file() -> None:
    job = painted(part=[BOARD, {**BOARD, "name": "far", "at": [0, 900, 0]}], abrasive={
        "name": "disc", "form": "125 mm disc",
    })  # fmt: skip
    lines = [note.line or 0 for note in job.notes]
    assert sorted(lines) == lines
    assert 2 <= len(lines)


def test_plan_starts_when_it_is_told() -> None:
    job = painted(workshop={"hours": ["mon-fri 9:00-17:00"]})
    assert MONDAY == api.plan(job, MONDAY).entries[0].starts


def test_quote_without_a_price_raises_what_check_does_not_ask_for() -> None:
    job = painted()
    with pytest.raises(api.MistakesError) as raised:
        api.quote(job)
    assert (job.file, 1) == (raised.value.file, len(raised.value.problems))
    assert str(raised.value).startswith("piece.toml: ")


def test_quote_counts_the_hours_of_the_plan() -> None:
    job = painted(price={"rate": 40})
    planned = api.plan(job, MONDAY).hands_on_h
    assert round(planned, 2) == pytest.approx(float(api.quote(job).job.hours))


def test_check_tells_what_packing_and_planning_find() -> None:
    text = piece_text(
        {**COAT, "rate": "0.01 m2/h"},
        product={**PAINT, "packs": [{"size": "0.001 ml"}]},
        workshop={"hours": ["mon 9:00-9:30"]},
    )
    reading = api.read_piece_text(text)
    assert reading.piece is not None, reading.lines
    job = api.measure(reading)
    expected: list[api.Problem] = []
    for stage in (api.supplies, api.plan):
        with pytest.raises(api.MistakesError) as raised:
            stage(job)
        expected += raised.value.problems
    found = api.check(reading)
    assert expected == [problem for problem in found if problem.level == "mend"]
    assert list(job.notes) == found[: len(job.notes)]


def test_check_of_a_mistake_is_the_reading() -> None:
    reading = api.read_piece_text(piece_text(zone={"surface": "bear"}))
    assert reading.piece is None
    assert list(reading.problems) == api.check(reading)


def test_two_currencies_make_no_list_together() -> None:
    jobs = [painted(piece={"currency": currency}) for currency in ("USD", "EUR")]
    with pytest.raises(api.MistakesError, match="currency"):
        api.supplies_together(jobs)
    together = api.supplies_together([jobs[0], jobs[0]])
    alone = {one.name: one.need.likely for one in api.supplies(jobs[0])}
    both = {one.name: one.need.likely for one in together.supplies}
    assert 2 * alone["paint"] == pytest.approx(both["paint"])


def test_prices_without_a_currency_must_be_in_coins_of_the_others() -> None:
    """Half a yen cannot be paid, so 9.50 without a currency is not taken as yen."""
    yen = painted(piece={"currency": "JPY"})
    packs = [{"size": "1 L", "price": 9.5}]
    finer = painted(product={**PAINT, "packs": packs})
    for jobs in ([yen, finer], [finer, yen]):
        with pytest.raises(api.MistakesError, match="smallest coin of JPY, 1;") as caught:
            api.supplies_together(jobs)
        assert str(finer.file) == caught.value.problems[0].file
    api.supplies_together([painted(piece={"currency": "EUR"}), finer])


def test_cautions_of_several_are_each_there_once() -> None:
    one = painted(product={**PAINT, "kind": "drying oil"})
    alone, both = api.cautions(one), api.cautions(one, one)
    assert alone
    assert [caution.text for caution in alone] == [caution.text for caution in both]


def test_every_public_name_is_there_and_documented() -> None:
    for name in api.__all__:
        assert getattr(api, name).__doc__, name


def test_package_gives_what_reads_a_piece() -> None:
    assert surfacecalc.read_piece is api.read_piece
    assert surfacecalc.read_piece_text is api.read_piece_text
    with pytest.raises(AttributeError, match="no attribute 'read_peace'"):
        _ = surfacecalc.read_peace


def test_importing_it_imports_nothing_else_of_the_program() -> None:
    program = "import sys, surfacecalc.api; print(*sys.modules)"
    command = [sys.executable, "-c", program]
    shown = subprocess.run(command, capture_output=True, text=True, check=True)
    names = set(shown.stdout.split())
    ours = {name for name in names if name.partition(".")[0] in ("surfacecalc", "shapes")}
    assert {"surfacecalc", "surfacecalc.api", "surfacecalc.problems"} == ours
    heavy = {"numpy", "manifold3d", "pint", "trimesh", "shapely", "scipy", "rich", "typer"}
    assert set() == heavy & names
