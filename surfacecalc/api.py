"""The one door for programs: from a piece file to its areas, supplies, plan and price.

    read_piece, read_piece_text -> measure -> supplies, jars, plan, quote, cautions -> bench

This module states the order of the stages. The commands call these functions and compute nothing
themselves. All amounts are metric: m2, m, L, kg, hours; lengths of parts are mm.

A mistake in a piece file is a value: `Reading.problems`, or what `check` returns. Asking for a
number that the file does not allow raises `MistakesError` with the same problems, so that no number
comes out of a file with a mistake. Nothing else is raised for what a piece file says.

Importing this module takes no time: each function imports what it works with.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from os import PathLike
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from surfacecalc.problems import Problem, format_problem

if TYPE_CHECKING:  # imported where they are made, so that importing this module costs nothing
    from surfacecalc.cautions import Caution
    from surfacecalc.gear.needed_too import NeededToo
    from surfacecalc.model.pieces import Piece
    from surfacecalc.model.ranges import Factor
    from surfacecalc.needs.draws import Draws
    from surfacecalc.needs.jars import Jar
    from surfacecalc.needs.uses import Need
    from surfacecalc.plans.plan import Plan
    from surfacecalc.prices.quotes import Quote
    from surfacecalc.supplies.bench import Bench
    from surfacecalc.supplies.parts_on_hand import MixOnHand
    from surfacecalc.supplies.shopping import Supply, SupplyError
    from surfacecalc.supplies.together import Trip
    from surfacecalc.zones.areas import Measured

__all__ = [
    "MeasuredPiece",
    "MistakesError",
    "Problem",
    "Reading",
    "assumed_in_quote",
    "bench",
    "cautions",
    "check",
    "jars",
    "measure",
    "mixes_on_hand",
    "needed_too",
    "plan",
    "quote",
    "read_piece",
    "read_piece_text",
    "supplies",
    "supplies_together",
]


Answer = TypeVar("Answer")


class MistakesError(ValueError):
    """A number was asked for that the piece file does not allow; its text lists the mistakes.

    Attributes:
        file: the piece file, or the name that was given to a text.
        problems: the mistakes, and the notes beside them.
    """

    def __init__(self, file: Path, problems: Sequence[Problem]) -> None:
        super().__init__("\n".join(format_problem(one, str(file)) for one in problems))
        self.file = file
        self.problems = tuple(problems)


@dataclass(frozen=True)
class Reading:
    """A piece file that was read.

    Attributes:
        file: where it is, or the name that was given to a text.
        piece: the piece, None where anything must be corrected.
        problems: mistakes and notes, in the order of the file.
    """

    file: Path
    piece: "Piece | None"
    problems: tuple[Problem, ...]

    @property
    def lines(self) -> list[str]:
        """The problems as the commands print them: file:line: where: message."""
        return [format_problem(one, str(self.file)) for one in self.problems]


@dataclass(frozen=True)
class MeasuredPiece:
    """A piece without mistakes, measured; what every function after `measure` takes.

    Attributes:
        file: where its file is, or the name that was given to a text.
        piece: the piece.
        measured: its areas [m2], by zone and face, and how far zones meet [m].
        notes: what is worth a second look, in the order of the file.
    """

    file: Path
    piece: "Piece"
    measured: "Measured"
    notes: tuple[Problem, ...] = ()


def read_piece(path: str | PathLike[str]) -> Reading:
    """Read a piece file.

    Args:
        path: the file. Meshes and the user's own products are looked for in its folder.

    Returns:
        The piece, or the mistakes in it. A file that is missing or cannot be read is a mistake too.
    """
    from surfacecalc.reading.piece_file import read_piece as read

    file = Path(path)
    piece, problems = read(file)
    return Reading(file, piece, tuple(problems))


def read_piece_text(
    text: str | bytes, folder: str | PathLike[str] = ".", *, name: str = "piece.toml"
) -> Reading:
    """Read a piece from the text of a piece file, without a file.

    Args:
        text: what would be in the file; bytes are UTF-8.
        folder: where meshes and the user's own products are looked for.
        name: what problems name as the file.

    Returns:
        The piece, or the mistakes in it.
    """
    from surfacecalc.reading.piece_file import read_piece_text as read

    piece, problems = read(text, Path(folder))
    return Reading(Path(name), piece, tuple(problems))


def measure(reading: Reading) -> MeasuredPiece:
    """Measure a piece: the exposed area of each zone and face [m2], and how far zones meet [m].

    Raises:
        MistakesError: the file has a mistake.
    """
    from surfacecalc.checks import notes_on_file, notes_on_measures
    from surfacecalc.zones.areas import measure as areas_of

    piece = reading.piece
    if piece is None:
        raise MistakesError(reading.file, reading.problems)
    measured = areas_of(piece)
    notes = [*reading.problems, *notes_on_file(piece), *notes_on_measures(piece, measured)]
    notes.sort(key=lambda note: (note.file, note.line or 0))
    return MeasuredPiece(reading.file, piece, measured, tuple(notes))


def check(reading: Reading, start: datetime | None = None) -> list[Problem]:
    """Return every mistake that reading, measuring, packing or planning finds, and all notes.

    Args:
        reading: a piece file that was read.
        start: as in `plan`.
    """
    try:
        job = measure(reading)
    except MistakesError as error:
        return list(error.problems)
    problems = list(job.notes)
    stages: tuple[Callable[[], object], ...] = (lambda: supplies(job), lambda: plan(job, start))
    for stage in stages:
        try:
            stage()
        except MistakesError as error:
            problems += error.problems
    return problems


def supplies(job: MeasuredPiece) -> "list[Supply]":
    """Return the supply list: need, what is on hand, packs and cost [L, kg, m, m2 or pieces].

    Raises:
        MistakesError: a supply that is needed has no pack that could be bought.
    """
    from surfacecalc.supplies.shopping import supplies_of

    return _of_needs(job, supplies_of)


def supplies_together(jobs: Sequence[MeasuredPiece]) -> "Trip":
    """Return one supply list for several pieces; packs and mixes are shared across them.

    Raises:
        MistakesError: prices are in two currencies, or a supply has no pack that could be bought.
    """
    from surfacecalc.supplies.shopping import SupplyError
    from surfacecalc.supplies.together import together

    _check_currencies(jobs)
    try:
        return together([(job.piece, job.measured) for job in jobs])
    except SupplyError as error:
        where = f'{error.need.what} "{error.need.name}"'
        problem = Problem("mend", None, where, str(error), str(jobs[0].file))
        raise MistakesError(jobs[0].file, [problem]) from error


def jars(job: MeasuredPiece) -> "list[Jar]":
    """Return how far each jar on hand goes: for each number of coats, how sure it is to last.

    Raises:
        MistakesError: all is bought for together, and a supply has no pack that could be bought.
    """
    from surfacecalc.needs.jars import jars as jars_of

    return _of_needs(job, jars_of)


def mixes_on_hand(job: MeasuredPiece) -> "list[MixOnHand]":
    """Return what leftover jars make of each mix that they are parts of, and how far that goes.

    Raises:
        MistakesError: a part of a mix has no pack that could be bought.
    """
    from surfacecalc.supplies.parts_on_hand import has_parts_on_hand
    from surfacecalc.supplies.parts_on_hand import mixes_on_hand as mixes_of

    if not any(has_parts_on_hand(mix) for mix in job.piece.shelf.products.values()):
        return []
    return _of_needs(job, lambda piece, *rest: mixes_of(piece, job.measured, *rest))


def plan(job: MeasuredPiece, start: datetime | None = None) -> "Plan":
    """Return what to do when, and when the piece can be handled and used.

    Args:
        job: a measured piece.
        start: when the work may begin where the file does not say, local time without a zone;
            default: now.

    Raises:
        MistakesError: the order of the work or the hours do not allow a plan.
    """
    from surfacecalc import clock
    from surfacecalc.plans.plan import make_plan

    found = make_plan(job.piece, job.measured, start or clock.now())
    if isinstance(found, list):
        raise MistakesError(job.file, found)
    return found


def bench(job: MeasuredPiece, made: "Plan", bought: "Sequence[Supply]") -> "Bench":
    """Return what each task of a plan uses, the batches to mix, and where to stop and stir.

    Args:
        job: a measured piece.
        made: its plan.
        bought: its supply list.

    Returns:
        By zone and number of the task, as in the plan: likely amounts [L or kg]. Tasks without an
        entry use no product and no water.
    """
    from surfacecalc.needs.draws import Draws
    from surfacecalc.supplies.bench import bench_of

    return bench_of(job.piece, made, bought, Draws())


def quote(job: MeasuredPiece) -> "Quote":
    """Return the price for a wanted rate, what a given price pays, or both.

    Raises:
        MistakesError: the file has no [price] or no hours, or the supply list has a mistake.
    """
    from surfacecalc.plans.tasks import hands_on_h
    from surfacecalc.prices.quotes import quote as quote_of

    bought = supplies(job)
    found = quote_of(job.piece, bought, hands_on_h(job.piece, job.measured))
    if isinstance(found, Problem):
        raise MistakesError(job.file, [found])
    return found


def assumed_in_quote(job: MeasuredPiece, found: "Quote") -> "list[Factor]":
    """Return the assumed figures behind a quote, the one that moves the price most first."""
    from surfacecalc.plans.tasks import tasks_of
    from surfacecalc.prices.assumed_figures import figures_of_quote

    tasks = [task for zone in tasks_of(job.piece, job.measured).values() for task in zone]
    return [one.factor for one in figures_of_quote(job.piece, found, tasks)]


def cautions(*jobs: MeasuredPiece) -> "list[Caution]":
    """Return the cautions that apply to one piece, or to several, each once."""
    from surfacecalc.cautions import cautions as cautions_of
    from surfacecalc.cautions import cautions_together

    if len(jobs) == 1:
        return cautions_of(jobs[0].piece, jobs[0].measured)
    return cautions_together((job.piece, job.measured) for job in jobs)


def needed_too(*jobs: MeasuredPiece) -> "list[NeededToo]":
    """Return what the work on one piece or several needs and no step lists, each thing once."""
    from surfacecalc.gear.needed_too import needed_too_together

    return needed_too_together((job.piece, job.measured) for job in jobs)


def _check_currencies(jobs: Sequence[MeasuredPiece]) -> None:
    """Raise a mistake where the prices of two files are in two currencies."""
    priced = [job for job in jobs if job.piece.settings.currency]
    for job in priced[1:]:
        currency, first = job.piece.settings.currency, priced[0].piece.settings.currency
        if currency != first:
            message = (
                f'the prices here are in {currency}, but in "{priced[0].file}" they are in {first};'
                " make a separate list for each currency"
            )
            raise MistakesError(
                job.file, [Problem("mend", None, "currency", message, str(job.file))]
            )
    if priced:
        _check_coins(jobs, priced[0].piece.settings.currency)


def _check_coins(jobs: Sequence[MeasuredPiece], currency: str | None) -> None:
    """Raise a mistake where a file without a currency has prices that those of others cannot have.

    Args:
        jobs: all of them.
        currency: that of the others, in which its prices are taken.
    """
    from surfacecalc.units.coins import coin_of

    coin = coin_of(currency)
    finer = (
        (job, goods, pack.price)
        for job in jobs
        if job.piece.settings.currency is None
        for goods in job.piece.shelf.goods()
        for pack in goods.packs
        if pack.price is not None and pack.price % coin
    )
    for job, goods, price in finer:
        message = (
            f"{goods.name}: price = {price} has more decimals than the smallest coin of {currency},"
            f" {coin}; this file gives no currency, and the prices of the others are in {currency}"
        )
        raise MistakesError(
            job.file, [Problem("mend", goods.line, "packs", message, str(job.file))]
        )


def _of_needs(job: MeasuredPiece, answer: "Callable[[Piece, list[Need], Draws], Answer]") -> Answer:
    """Return what follows from the needs of a job at the point that is bought for."""
    from surfacecalc.needs.draws import Draws
    from surfacecalc.needs.job import job_needs
    from surfacecalc.supplies.all_enough import bought_for
    from surfacecalc.supplies.shopping import SupplyError

    draws = Draws()
    needs = job_needs(job.piece, job.measured, draws)
    try:
        return answer(*bought_for(job.piece, needs, draws), draws)
    except SupplyError as error:
        raise MistakesError(job.file, [_supply_mistake(job.piece, error)]) from error


def _supply_mistake(piece: "Piece", error: "SupplyError") -> Problem:
    line, file = _place_of(piece, error.need)
    return Problem("mend", line, f'{error.need.what} "{error.need.name}"', str(error), file)


def _place_of(piece: "Piece", need: "Need") -> tuple[int | None, str]:
    """Return the line, and the file where it is the user's own, that say in what a need is sold."""
    from surfacecalc.model.shelf import record_file

    found = piece.shelf.find(need.supplied)
    return (found.line, record_file(found)) if found else (None, "")
