"""A plan for other programs."""

from datetime import datetime
from typing import overload

from surfacecalc.model.pieces import Piece
from surfacecalc.plans.likely_ends import CASES
from surfacecalc.plans.plan import Plan, PlanEntry
from surfacecalc.reports.input_words import input_text
from surfacecalc.reports.json_shapes import SCHEMA, PlanData, printed
from surfacecalc.reports.task_shapes import (
    BatchData,
    PortionData,
    SpareCoatData,
    StopData,
    TaskData,
)
from surfacecalc.supplies.bench import Batch, Bench, SpareCoat
from surfacecalc.supplies.portions import Portion
from surfacecalc.supplies.stops import StopPoint
from surfacecalc.units.display import Units
from surfacecalc.work.task_words import format_week


def plan_json(piece: Piece, plan: Plan, bench: Bench) -> str:
    """Return a plan as one JSON object: hours, amounts, and local times without a zone."""
    ends = plan.likely_ends
    by = None if plan.unknown else ends  # what is not known may take any time
    value: PlanData = {
        "schema": SCHEMA,
        "piece": piece.settings.name,
        "count": piece.settings.count,
        "working_hours": format_week(plan.windows),
        "working_hours_assumed": not plan.has_own_hours,
        "hands_on_h": plan.hands_on_h,
        "hands_on_each_h": plan.hands_on_h / piece.settings.count,
        "hands_on_low_h": ends.low_h if ends else None,
        "hands_on_high_h": ends.high_h if ends else None,
        "set_up_h": plan.set_up_h,
        "days": plan.days,
        "shortest": plan.is_shortest,
        "rules_cost_days": plan.rules_cost.days,
        "worked": _time(plan.worked),
        "handled": _time(plan.handled),
        "delivered": _time(plan.delivered),
        "used": _time(plan.used),
        "cases": CASES,
        "worked_by": _time(by.worked if by else None),
        "handled_by": _time(by.handled if by else None),
        "delivered_by": _time(by.delivered if by else None),
        "used_by": _time(by.used if by else None),
        "closed": [
            {"first": days.first.isoformat(), "last": days.last.isoformat()} for days in plan.closed
        ],
        "clock_changes": [day.isoformat() for day in plan.clock_changes],
        "tasks": [_task(entry, bench) for entry in plan.entries],
        "drying_unknown": list(plan.unknown),
        "mind": [*plan.mind, *filter(None, [plan.dust])],
        "assumed": [input_text(factor, Units.METRIC) for factor in plan.assumed],
    }
    return printed(value)


def _task(entry: PlanEntry, bench: Bench) -> TaskData:
    task = entry.task
    needed = bench.get((task.zone, task.number))
    return {
        "zone": task.zone,
        "zones": list(task.zones),
        "step": task.step,
        "task": task.words,
        "line": task.line,
        "sessions": [{"from": _time(start), "to": _time(end)} for start, end in entry.sessions],
        "hands_on_h": task.hands_on_h,
        "set_up_h": task.set_up_h,
        "can_pause": task.may_stop,
        "wait_h": task.wait.next_h,
        "sprayed_l": task.spray.litres if task.spray else None,
        "cup_fillings": task.spray.fillings if task.spray else None,
        "next_from": _time(entry.next_from),
        "handled_from": _time(entry.handled_from),
        "used_from": _time(entry.used_from),
        "amounts": [_portion(one) for one in needed.portions] if needed else [],
        "only_if_needed": needed is not None and needed.is_only_if_needed,
        "batches": [_batch(one) for one in needed.batches] if needed else [],
        "pour_together_first": [*needed.stir_first] if needed else [],
        "stops": [_stop(one) for one in needed.stops] if needed else [],
        "spare_coats": [_spare(one) for one in needed.spare] if needed else [],
    }


def _portion(one: Portion) -> PortionData:
    return {
        "supply": one.supply,
        "role": one.role,
        "amount": one.amount,
        "unit": one.unit,
        "share": one.share,
    }


def _batch(batch: Batch) -> BatchData:
    return {
        "mix": batch.mix,
        "amount": batch.amount,
        "unit": batch.unit,
        "on_hand": batch.on_hand,
        "parts": [
            {"supply": name, "amount": amount, "unit": unit} for name, amount, unit in batch.parts
        ],
    }


def _stop(stop: StopPoint) -> StopData:
    return {
        "supply": stop.supply,
        "least": stop.least,
        "unit": stop.unit,
        "coat": stop.coat or None,
        "zones": [*stop.zones],
        "planned": stop.is_planned,
        "mix": stop.is_mix,
    }


def _spare(spare: SpareCoat) -> SpareCoatData:
    return {"coat": spare.coat, "amounts": [_portion(one) for one in spare.portions]}


@overload
def _time(time: datetime) -> str: ...
@overload
def _time(time: None) -> None: ...
def _time(time: datetime | None) -> str | None:
    return None if time is None else time.isoformat(timespec="minutes")
