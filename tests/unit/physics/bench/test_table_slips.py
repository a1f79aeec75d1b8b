"""Slips of many rows at once: undone on paper, named with their rows, and nothing changed."""

from dataclasses import replace

import numpy as np
import pytest

from bench_readings import LENGTH, PLAIN, noisy, swing, three_points, torque, weighed
from loftwright.constants import FOOT_POUND, GRAM, GRAVITY, INCH, MILLIMETRE, POUND_FORCE
from loftwright.errors import InputError
from loftwright.physics.bench.measure import Measured, measure
from loftwright.physics.bench.readings import Reading, ThreePoint, Torque
from loftwright.physics.bench.slips import Slip
from loftwright.physics.shaft.deflection import three_point

SHORT = 250.0 * MILLIMETRE
TABLE = noisy(three_points(PLAIN, 11, 76.2 * MILLIMETRE), np.random.default_rng(3))
SWUNG = [*TABLE, *noisy([*weighed(PLAIN), swing(PLAIN)], np.random.default_rng(4))]


def read_over(readings: list[Reading], span: float, start: int, end: int) -> list[Reading]:
    """Return readings of which some were read over another span than was typed."""
    found = list(readings)
    for at in range(start, end):
        one = found[at]
        assert isinstance(one, ThreePoint)
        ratio = three_point(PLAIN, one.station, span, 1.0) / three_point(
            PLAIN, one.station, one.span, 1.0
        )
        found[at] = replace(one, value=one.value * ratio)
    return found


def loaded(readings: list[Reading], unit: float) -> list[Reading]:
    """Return readings whose loads were typed in another unit."""
    return [
        replace(one, force=one.force / unit) for one in readings if isinstance(one, ThreePoint)
    ]


def without(found: Measured) -> float:
    """Return EI at 500 mm of the shaft that stands beside."""
    assert found.without is not None
    return float(found.without.bending.values[20])


def test_a_clean_table_has_none() -> None:
    for readings in (TABLE, SWUNG):
        found = measure(LENGTH, readings)
        assert (found.table_mends, found.undone, found.without) == ((), False, None)


@pytest.mark.parametrize(("start", "end"), [(4, 11), (0, 5)], ids=["from a row on", "up to a row"])
def test_another_span_of_some_rows_is_named_with_them(start: int, end: int) -> None:
    found = measure(LENGTH, read_over(TABLE, SHORT, start, end))
    first = found.table_mends[0]
    assert (first.slip, first.places) == (Slip.SPAN, tuple(range(start, end)))
    assert found.undone
    mended = first.readings[start]
    assert isinstance(mended, ThreePoint)
    assert mended.span == pytest.approx(SHORT, abs=5.0 * MILLIMETRE)
    assert without(found) == pytest.approx(51.0, rel=0.05)


@pytest.mark.parametrize("unit", [GRAVITY, POUND_FORCE], ids=["kg", "lb"])
def test_loads_in_another_unit_are_named_by_how_far_off_all_shafts_lie(unit: float) -> None:
    found = measure(LENGTH, loaded(TABLE, unit))
    assert found.table_mends[0].slip is Slip.UNIT
    assert found.table_mends[0].places == tuple(range(11))
    assert without(found) == pytest.approx(51.0, rel=0.06)
    wrong = float(found.piece.bending.values[20])
    assert wrong == pytest.approx(51.0 / unit, rel=0.2)


def test_loads_in_grams_are_refused_with_the_unit_asked_for() -> None:
    with pytest.raises(InputError, match=r"load of 5098\.58 N") as refused:
        loaded(TABLE, GRAM * GRAVITY)
    assert refused.value.mend == "Check the unit: g, kg or lb instead of N?"


def test_deflections_in_inches_are_named() -> None:
    firm: list[Reading] = [
        replace(one, force=500.0, value=10.0 * one.value, typed="")
        for one in TABLE
        if isinstance(one, ThreePoint)
    ]
    wrong = [replace(one, value=one.value * MILLIMETRE / INCH) for one in firm]
    first = measure(LENGTH, wrong).table_mends[0]
    assert (first.slip, len(first.places)) == (Slip.UNIT, 11)
    assert first.readings[0].value == pytest.approx(firm[0].value, rel=1e-12)


def test_a_span_of_all_rows_is_told_by_a_frequency_and_by_nothing_else() -> None:
    alone = measure(LENGTH, read_over(TABLE, SHORT, 0, 11))
    assert alone.table_mends == ()
    swung = measure(LENGTH, read_over(SWUNG, SHORT, 0, 11))
    assert swung.table_mends[0].slip is Slip.SPAN
    assert swung.table_mends[0].places == tuple(range(11))
    assert swung.undone


def test_moments_of_all_twists_in_inch_pounds_are_named() -> None:
    inch_pound = FOOT_POUND / 12.0
    turns = [torque(PLAIN, float(at)) for at in np.arange(0.3, 1.1, 0.1)]
    wrong = [replace(one, moment=one.moment / inch_pound) for one in turns]
    first = measure(LENGTH, [*weighed(PLAIN), *wrong]).table_mends[0]
    assert (first.slip, first.places) == (Slip.UNIT, tuple(range(2, 2 + len(turns))))
    mended = first.readings[2]
    assert isinstance(mended, Torque)
    assert mended.moment == pytest.approx(1.0, rel=1e-9)


def test_a_station_left_out_where_the_taper_is_steep_is_asked_for() -> None:
    steep = three_points(PLAIN, 11, 76.2 * MILLIMETRE, 0.002)
    values = [one.value for one in steep]
    wrong: list[Reading] = [
        replace(one, value=value)
        for one, value in zip(steep, values[:6] + values[7:], strict=False)
    ]
    first = measure(LENGTH, wrong).table_mends[0]
    assert (first.slip, first.places) == (Slip.MISSING, tuple(range(6, 10)))
    assert isinstance(first.readings[6], ThreePoint)
    assert first.readings[6].station == pytest.approx(0.15 + 7 * 0.0762)


def test_one_wrong_row_is_still_one_wrong_row() -> None:
    bad = list(TABLE)
    bad[4] = replace(bad[4], value=1.4 * bad[4].value, typed="")
    found = measure(LENGTH, bad)
    assert [doubt.place for doubt in found.doubts] == [4]
    assert not found.undone


def test_a_wrong_row_beside_a_wrong_span_is_named_as_well() -> None:
    wrong = read_over(TABLE, SHORT, 4, 11)
    wrong[1] = replace(wrong[1], value=1.4 * wrong[1].value, typed="")
    found = measure(LENGTH, wrong)
    assert found.undone
    assert found.table_mends[0].slip is Slip.SPAN
    assert [doubt.place for doubt in found.doubts] == [1]


def test_few_rows_say_nothing_of_many() -> None:
    assert measure(LENGTH, TABLE[:2]).table_mends == ()
