"""Which tasks go on beside each other: what is off the piece, and what zones do in one session.

Tasks of a zone follow each other, in one chain. Two things cut it into several:

* Hardware that was taken off is worked on beside the zone, in any gap. It comes off once, and goes
  on again once, after every zone that it is fitted to.
* Coats that are put on together are one session of their zones, and each of them waits for all.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from surfacecalc.model.pieces import Piece
from surfacecalc.model.step_facts import (
    fits_hardware,
    handwork_of,
    hardware_worked,
    removes_hardware,
    together_with,
)
from surfacecalc.model.step_supplies import hardware_of
from surfacecalc.model.steps import HandWord, Step
from surfacecalc.work.sittings import sittings
from surfacecalc.zones.areas import Measured, ZoneArea

if TYPE_CHECKING:  # which is made with the help of this module
    from surfacecalc.plans.tasks import Task

ByZone = Mapping[str, Sequence["Task"]]


@dataclass
class _Session:
    """A step that is a chain of its own.

    Attributes:
        key: the name of the chain; no zone can have it.
        step: the step, of the first of its zones.
        zones: those that have it.
        tasks: its tasks, of all zones in one.
    """

    key: str
    step: Step
    zones: list[str] = field(default_factory=list)
    tasks: list["Task"] = field(default_factory=list)


@dataclass
class _Chains:
    """Chains of tasks, and which chains must be over before each of them."""

    tasks: dict[str, list["Task"]] = field(default_factory=dict)
    follows: dict[str, set[str]] = field(default_factory=dict)

    def add(self, key: str, tasks: Sequence["Task"], after: set[str]) -> None:
        self.tasks.setdefault(key, []).extend(tasks)
        self.follows.setdefault(key, set()).update(after - {key})


def with_tracks(piece: Piece, measured: Measured, tasks: ByZone) -> dict[str, tuple["Task", ...]]:
    """Return the tasks of each zone with their chains; a session is with the first of its zones.

    Args:
        piece: the piece.
        measured: its areas.
        tasks: of each zone, in their order.
    """
    zones = {zone.zone.name: zone for zone in measured.zones}
    sessions, chains = _sessions(piece, zones, tasks), _Chains()
    walks = {name: _ZoneWalk(name, chains) for name in zones}
    for session in _moving(sessions, removes_hardware):
        for name in set(_fitted(piece, session)) - set(session.zones):
            walks[name].before.add(session.key)
    for name, zone in zones.items():
        walks[name].through(zone, tasks[name], sessions)
    for session in _moving(sessions, fits_hardware):
        for name in set(_fitted(piece, session)) - set(session.zones):
            chains.follows[session.key] |= walks[name].before
    found: dict[str, list[Task]] = {name: [] for name in zones}
    for task in _with_chains(chains, walks):
        found[task.zone].append(task)
    return {name: tuple(sorted(own, key=lambda task: task.number)) for name, own in found.items()}


def chains_of(tasks: ByZone) -> dict[str, tuple["Task", ...]]:
    """Return the tasks of each chain in their order, by the name of the chain."""
    found: dict[str, list[Task]] = {}
    for task in (task for own in tasks.values() for task in own):
        found.setdefault(task.chain, []).append(task)
    return {key: tuple(own) for key, own in found.items()}


class _ZoneWalk:
    """Puts the tasks of one zone into chains, step by step.

    Attributes:
        before: chains that must be over before what comes next; in the end, those that end it.
        own: its chains without those of hardware.
    """

    def __init__(self, name: str, chains: _Chains) -> None:
        self.before: set[str] = set()
        self.own: list[str] = []
        self._name, self._chains = name, chains
        self._open = ""
        self._off: dict[str, str] = {}
        self._beside: dict[str, str] = {}

    def through(
        self, zone: ZoneArea, tasks: Sequence["Task"], sessions: Mapping[str, _Session]
    ) -> None:
        """Go through all steps of the zone."""
        for number, step in enumerate(zone.zone.steps, start=1):
            session = sessions.get(_session_key(step))
            if session is None:
                self._go_on([task for task in tasks if task.step == number])
            else:
                once = session.tasks if self._name == session.zones[0] else []
                self._join(session.key, step, once)

    def _go_on(self, tasks: Sequence["Task"]) -> None:
        """Put tasks behind the last one of the zone."""
        if not tasks:
            return
        if not self._open:
            self._open = f"{self._name}\n{len(self.own)}" if self.own else self._name
            self.own.append(self._open)
        self._chains.add(self._open, tasks, self.before)
        self.before = {self._open}

    def _join(self, key: str, step: Step, tasks: Sequence["Task"]) -> None:
        """Put a session behind the last task of the zone, or beside it."""
        worked, done = hardware_worked(step), handwork_of(step)
        if worked is not None:
            self._beside[worked] = f"{self._off[worked]}\n{worked}"
            off = [replace(task, off=worked) for task in tasks]
            self._chains.add(self._beside[worked], off, {self._off[worked]})
            return
        after = set(self.before)
        for name in done.hardware if done is not None else ():
            after |= {self._beside.pop(name)} if name in self._beside else set()
            self._off[name] = key
        if done is None:
            self.own.append(key)
        self._chains.add(key, tasks, after)
        self.before, self._open = {key}, ""


def _with_chains(chains: _Chains, walks: Mapping[str, _ZoneWalk]) -> Iterator["Task"]:
    """Yield each task with its chain, and the chains that must be over before it."""
    for key, tasks in chains.tasks.items():
        follows = chains.follows[key] & chains.tasks.keys()
        for task in tasks:
            zones = (walks[name].own or walks[name].before for name in task.after)
            written = {chain for own in zones for chain in own} - {key}
            yield replace(task, chain=key, follows=tuple(sorted(follows | written)))
            follows = set()


def _sessions(piece: Piece, zones: Mapping[str, ZoneArea], tasks: ByZone) -> dict[str, _Session]:
    """Return the steps that are chains of their own, by the name of the chain."""
    found: dict[str, _Session] = {}
    for name, zone in zones.items():
        for number, step in enumerate(zone.zone.steps, start=1):
            key = _session_key(step)
            if key:
                session = found.setdefault(key, _Session(key, step))
                session.zones.append(name)
                more = [task for task in tasks[name] if task.step == number]
                session.tasks = _joined(piece, zone, step, session.tasks, more)
    return {key: one for key, one in found.items() if _is_apart(piece, zones, one)}


def _session_key(step: Step) -> str:
    """Return the name of the chain that a step may be; empty for one that never is."""
    if together_with(step):
        return f"\ntogether {together_with(step)}"
    done = handwork_of(step)
    is_moved = done is not None and (removes_hardware(done.do) or fits_hardware(done.do))
    return f"\nline {step.line}" if is_moved or hardware_worked(step) is not None else ""


def _is_apart(piece: Piece, zones: Mapping[str, ZoneArea], session: _Session) -> bool:
    """Whether a step is a chain of its own; otherwise it is done where it stands in its zone."""
    if hardware_worked(session.step) is not None:
        return all(_is_off(zones[name], session.step) for name in session.zones)
    is_worked_apart = any(
        hardware_worked(step) in hardware_of(session.step) and _is_off(zone, step)
        for zone in zones.values()
        for step in zone.zone.steps
    )
    return is_worked_apart or len({*session.zones, *_fitted(piece, session)}) > 1


def _is_off(zone: ZoneArea, worked: Step) -> bool:
    """Whether the hardware that a step works on was taken off in its zone, and is not on again."""
    is_off = False
    for step in zone.zone.steps:
        done = handwork_of(step)
        if step.line == worked.line:
            break
        if done is not None and hardware_worked(worked) in done.hardware:
            is_off = removes_hardware(done.do)
    return is_off


def _fitted(piece: Piece, session: _Session) -> list[str]:
    """Return the zones that the hardware of a step is fitted to, as far as the file says."""
    named = (piece.shelf.hardware[name] for name in hardware_of(session.step))
    return list(dict.fromkeys(zone for one in named for zone in one.on))


def _moving(
    sessions: Mapping[str, _Session], is_word: Callable[[HandWord], bool]
) -> Iterator[_Session]:
    """Yield the sessions in which hardware comes off, or goes on again."""
    for session in sessions.values():
        done = handwork_of(session.step)
        if done is not None and is_word(done.do):
            yield session


def _joined(
    piece: Piece, zone: ZoneArea, step: Step, before: list["Task"], more: list["Task"]
) -> list["Task"]:
    """Return the tasks of a session with those of one more zone in it.

    Hands-on time adds up, and so does the set-up, of which each zone has its share.
    """
    if not before or not more:
        return before or more
    is_shared = not together_with(step)
    return [
        replace(
            one,
            also=(*one.also, zone.zone.name),
            # of what is shared, all is done here, and not a part of a total
            words=all_of_it.words if is_shared else max(one.words, other.words, key=len),
            work_h=one.work_h + other.work_h,
            set_up_h=one.set_up_h + other.set_up_h,
            spray=one.spray and other.spray and one.spray.beside(other.spray),
            after=tuple(dict.fromkeys((*one.after, *other.after))),
            rests=tuple(dict.fromkeys((*one.rests, *other.rests))),
        )
        for one, other, all_of_it in zip(
            before, more, sittings(piece, zone, step, 1.0), strict=True
        )
    ]
