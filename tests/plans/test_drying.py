"""What temperature and damp air do to waits."""

import pytest

from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.shelf import Drying, Product
from surfacecalc.model.workshop import Workshop
from surfacecalc.plans.drying import Dries, drying_of, remarks_on_air, temperature_factor


def hours(key: str, value: float, source: str = "label") -> Factor:
    return Factor(Input("recoat", of=key), Range.fixed(value), source)  # type: ignore[arg-type]


def likely_h(dries: Dries) -> tuple[float, float, float]:
    return dries.dry.likely_h, dries.recoat.likely_h, dries.cure.likely_h


def product(kind: str = "oil varnish", coldest_c: float | None = 4.0) -> Product:
    coldest = None if coldest_c is None else hours("coldest", coldest_c, "published")
    drying = Drying(hours("dry", 6), hours("recoat", 8), hours("cure", 480), coldest)
    return Product("varnish", kind, "varnish", "volume", (), (), 0.0, None, 1, drying=drying)


@pytest.mark.parametrize(("temperature_c", "times"), [(10, 2.0), (20, 1.0), (30, 0.5)])
def test_drying_doubles_with_each_ten_degrees_less(temperature_c: float, times: float) -> None:
    """Common practice, and marked as assumed."""
    assert times == temperature_factor(temperature_c)


def test_all_times_of_a_product_follow_the_temperature() -> None:
    dries = drying_of(product(), Workshop(temperature_c=10))
    assert dries is not None
    assert (12, 16, 960) == likely_h(dries)


def test_times_stand_as_written_where_no_temperature_is_given() -> None:
    dries = drying_of(product(), Workshop())
    assert dries is not None
    assert (6, 8, 480) == likely_h(dries)
    assert "Drying times are for 20 C (68 F)." == next(remarks_on_air(Workshop(), [product()]))


def test_nothing_is_known_of_a_product_without_drying_times() -> None:
    unknown = Product("dye", "dye", "stain", "volume", (), (), 0.0, None, 1)
    assert drying_of(unknown, Workshop()) is None


def test_cold_air_of_a_product_without_drying_times_is_told_all_the_same() -> None:
    """It has no coldest temperature to be too cold for; 10 degrees less take twice as long."""
    unknown = Product("dye", "dye", "stain", "volume", (), (), 0.0, None, 1)
    (told,) = remarks_on_air(Workshop(temperature_c=10), [unknown])
    assert told.startswith("At 10 C (50 F) drying takes 2 times as long")


@pytest.mark.parametrize("kind", ["oil varnish", "two-part varnish"])
def test_effect_of_temperature_is_marked_as_assumed(kind: str) -> None:
    told = " ".join(remarks_on_air(Workshop(temperature_c=15), [product(kind)]))
    assert (
        "1.41 times as long as at 20 C (68 F) (assumed: twice as long for each 10 C less)" in told
    )


def test_too_cold_is_told_below_the_limit_only() -> None:
    assert "3 C (37.4 F) is too cold for varnish" in " ".join(
        remarks_on_air(Workshop(temperature_c=3), [product()])
    )
    assert "too cold" not in " ".join(remarks_on_air(Workshop(temperature_c=4), [product()]))
    nothing_known = [product(coldest_c=None)]
    assert "too cold" not in " ".join(remarks_on_air(Workshop(temperature_c=3), nothing_known))


@pytest.mark.parametrize(
    ("humidity", "said"),
    [(0.7, None), (0.71, "above 70 % finishes dry slowly"), (0.9, "above 70 % finishes dry slowly"),
     (0.91, "above 90 % finishes dry very slowly")],
)  # fmt: skip
def test_damp_air_is_told(humidity: float, said: str | None) -> None:
    remarks = " ".join(remarks_on_air(Workshop(temperature_c=20, humidity=humidity), [product()]))
    assert (said or "") in remarks
    assert ("damp" in remarks) == (said is not None)


def test_air_as_usual_needs_no_remark() -> None:
    assert [] == list(remarks_on_air(Workshop(temperature_c=20, humidity=0.5), [product()]))
