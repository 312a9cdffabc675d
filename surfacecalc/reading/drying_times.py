"""How a product dries: what its label says, and what its class says where it does not."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any, Literal

from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Range, Values
from surfacecalc.model.shelf import Drying
from surfacecalc.reading.tables import Table, shown
from surfacecalc.units.grammar import TEMPERATURE_EXAMPLE, AmountError, parse_temperature

TimeKey = Literal["dry", "recoat", "rub_out", "cure"]
RUB_OUT: TimeKey = "rub_out"
TIMES: tuple[TimeKey, ...] = ("dry", "recoat", "cure")
ORDER: tuple[TimeKey, ...] = ("dry", "recoat", RUB_OUT, "cure")
"""In which one is over after the other."""
KEYS = (*ORDER, "min_temp")
MOST_H = {"dry": 90 * 24.0, "recoat": 90 * 24.0, "cure": 366 * 24.0, RUB_OUT: 366 * 24.0}
"""Longer is a wrong unit."""
MOST_TEXT = {"dry": "90 days", "recoat": "90 days", "cure": "a year", RUB_OUT: "a year"}
COLDEST_C, WARMEST_C = -10.0, 45.0
"""No finish is put on below or above; the figure is another scale's."""
REASONS = {
    "recoat": "you cannot coat over wet finish",
    RUB_OUT: "a finish takes its next coat before it is hard enough to rub out",
    "cure": "a finish is ready for its next coat before it is fully cured",
}


def read_drying(table: Table, name: str, usual: Drying | None) -> Drying | None:
    """Return how a product dries, None for what is never left on the wood.

    Args:
        table: the table, which may have some of the keys.
        name: of the product or the class.
        usual: what its class says.
    """
    written = [key for key in KEYS if key in table]
    if usual is None:
        for key in written:
            table.mend(
                f"has {key}, but such a product is not left to dry on the wood; take {key} out", key
            )
        return None
    times = _times(table, name, usual)
    return Drying(
        times["dry"],
        times["recoat"],
        times["cure"],
        _coldest(table, name, usual),
        times.get(RUB_OUT),
    )


def _times(table: Table, name: str, usual: Drying) -> dict[TimeKey, Factor]:
    """Return the times by key: each as written, the others as usual but in order with these.

    A wait before rubbing out moves no other time; what leaves no film has none.
    """
    written = {key: _time(table, key) for key in ORDER if key in table}
    known = {key: values for key, values in written.items() if values is not None}
    _check_order(table, known)
    defaults: dict[TimeKey, Factor | None] = {
        "dry": usual.dry_h, "recoat": usual.recoat_h, "cure": usual.cure_h,
        RUB_OUT: usual.rub_out_h,
    }  # fmt: skip
    times = {}
    for key, default in defaults.items():
        what = Input("rub out" if key == "rub_out" else key, of=name)
        if key in known:
            times[key] = Factor(what, known[key], table.context.label, unit="h")
        elif default is not None:
            bounds = {other: values for other, values in known.items() if other != RUB_OUT}
            times[key] = _in_order(replace(default, what=what), key, bounds)
    return times


def _time(table: Table, key: str) -> Range | None:
    def read(value: Any, *keys: str | int) -> float | None:
        return table.amount(value, "time", *keys)

    def check(value: float) -> str | None:
        if value < 0:
            return "must be zero or more"
        return f"is over {MOST_TEXT[key]}; check the unit" if value > MOST_H[key] else None

    return table.range(key, read, check)


def _check_order(table: Table, known: dict[TimeKey, Range]) -> None:
    """Refuse a time that is shorter than one that is over before."""
    for key, values in known.items():
        before = ORDER[: ORDER.index(key)]
        if key == "cure":  # lacquer is rubbed out when it has cured, not before
            before = TIMES[:-1]
        for other in (other for other in before if other in known):
            if any(
                later < earlier
                for later, earlier in zip(_points(values), _points(known[other]), strict=True)
            ):
                table.refuse(key, f"is shorter than {other}; {REASONS[key]}")
                break


def _in_order(usual: Factor, key: TimeKey, known: dict[TimeKey, Range]) -> Factor:
    """Return a usual time, moved as far as the written ones make it; then it is an assumption."""
    values = usual.range
    for other, bound in known.items():
        choose = max if ORDER.index(other) < ORDER.index(key) else min
        low, likely, high = (
            choose(pair) for pair in zip(_points(values), _points(bound), strict=True)
        )
        values = Range(low, likely, high)
    if values == usual.range:
        return usual
    return replace(usual, range=values, source="assumed", reference="")


def _points(values: Values) -> tuple[float, float, float]:
    return values.low, values.likely, values.high


def _coldest(table: Table, name: str, usual: Drying) -> Factor | None:
    if "min_temp" not in table:
        coldest = usual.coldest_c
        return None if coldest is None else replace(coldest, what=Input("coldest", of=name))
    values = table.range("min_temp", _reader(table), _check_temperature)
    if values is None:
        return usual.coldest_c
    return Factor(Input("coldest", of=name), values, table.context.label, unit="C")


def _reader(table: Table) -> Callable[..., float | None]:
    def read(value: Any, *keys: str | int) -> float | None:
        try:
            if not isinstance(value, str):
                raise AmountError(f"has no unit; write it with one, such as {TEMPERATURE_EXAMPLE}")
            return float(parse_temperature(value))
        except AmountError as error:
            table.mend(f"min_temp = {shown(value)} {error}", *keys)
            return None

    return read


def _check_temperature(celsius: float) -> str | None:
    if COLDEST_C <= celsius <= WARMEST_C:
        return None
    return "must be from -10 C to 45 C (14 F to 113 F); check the number and the unit"
