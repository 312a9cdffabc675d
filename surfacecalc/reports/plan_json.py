"""A plan for other programs."""

from datetime import datetime
from typing import overload

from surfacecalc.model.pieces import Piece
from surfacecalc.plans.likely_ends import CASES
from surfacecalc.plans.plan import Plan, PlanEntry
from surfacecalc.reports.input_words import input_text
from surfacecalc.reports.json_shapes import SCHEMA, PlanData, TaskData, printed
from surfacecalc.units.display import Units
from surfacecalc.work.task_words import format_week


def plan_json(piece: Piece, plan: Plan) -> str:
    """Return a plan as one JSON object: hours, and local times without a zone."""
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
        "tasks": [_task(entry) for entry in plan.entries],
        "drying_unknown": list(plan.unknown),
        "mind": [*plan.mind, *filter(None, [plan.dust])],
        "assumed": [input_text(factor, Units.METRIC) for factor in plan.assumed],
    }
    return printed(value)


def _task(entry: PlanEntry) -> TaskData:
    task = entry.task
    return {
        "zone": task.zone,
        "step": task.step,
        "task": task.words,
        "line": task.line,
        "sessions": [{"from": _time(start), "to": _time(end)} for start, end in entry.sessions],
        "hands_on_h": task.hands_on_h,
        "set_up_h": task.set_up_h,
        "can_pause": task.may_stop,
        "wait_h": task.wait.next_h,
        "next_from": _time(entry.next_from),
        "handled_from": _time(entry.handled_from),
        "used_from": _time(entry.used_from),
    }


@overload
def _time(time: datetime) -> str: ...
@overload
def _time(time: None) -> None: ...
def _time(time: datetime | None) -> str | None:
    return None if time is None else time.isoformat(timespec="minutes")
