"""The shapes of a task in the JSON of a plan: its sessions, and what the bench needs for it."""

from typing import TypedDict

SessionData = TypedDict("SessionData", {"from": str, "to": str})


class PortionData(TypedDict):
    """What a task uses of a supply; share: of the product that it is stirred into."""

    supply: str
    role: str
    amount: float
    unit: str
    share: float | None


class BatchPartData(TypedDict):
    """What goes into a batch of a mix."""

    supply: str
    amount: float
    unit: str


class BatchData(TypedDict):
    """A mix that is made before its first use, beyond what is on hand."""

    mix: str
    amount: float
    unit: str
    on_hand: float
    parts: list[BatchPartData]


class StopData(TypedDict):
    """With less than `least` left after the task, there may not be enough for the coat that comes.

    coat: its number in its step, from 1; null where it is not a coat. planned: whether it is in the
    plan; else only some jobs need it.
    """

    supply: str
    least: float
    unit: str
    coat: int | None
    zones: list[str]
    planned: bool
    mix: bool


class SpareCoatData(TypedDict):
    """A coat after the last planned one of its step, which only some jobs need."""

    coat: int
    amounts: list[PortionData]


class TaskData(TypedDict):
    """A task of the plan.

    amounts: what it uses, likely values; only_if_needed: whether some jobs do without this coat;
    pour_together_first: jars that may not be enough for it.
    """

    zone: str
    zones: list[str]
    step: int
    task: str
    line: int
    sessions: list[SessionData]
    hands_on_h: float
    set_up_h: float
    can_pause: bool
    wait_h: float
    sprayed_l: float | None
    cup_fillings: int | None
    next_from: str
    handled_from: str
    used_from: str
    amounts: list[PortionData]
    only_if_needed: bool
    batches: list[BatchData]
    pour_together_first: list[str]
    stops: list[StopData]
    spare_coats: list[SpareCoatData]
