"""Units as people write them."""

import math
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright import constants as c
from loftwright.errors import InputError
from loftwright.units import DIMENSIONS, factor, find_unit, known_unit, parse_quantity, to_unit

TRADE_WORDS = (
    ("mph", "speed", 0.44704),
    ("km/h", "speed", 1.0 / 3.6),
    ("m/s", "speed", 1.0),
    ("ft/s", "speed", 0.3048),
    ("yds", "length", 0.9144),
    ("ft", "length", 0.3048),
    ('"', "length", 0.0254),
    ("mm", "length", 1e-3),
    ("°", "angle", math.pi / 180.0),
    ("Grad", "angle", math.pi / 180.0),
    ("rpm", "spin", 2.0 * math.pi / 60.0),
    ("U/min", "spin", 2.0 * math.pi / 60.0),
    ("cpm", "frequency", 1.0 / 60.0),
    ("g", "mass", 1e-3),
    ("oz", "mass", 0.028349523125),
    ("%", "share", 0.01),
)


@pytest.mark.parametrize(("word", "dimension", "scale"), TRADE_WORDS)
def test_trade_words_have_their_exact_sizes(word: str, dimension: str, scale: float) -> None:
    """Inch, foot, yard, mile and pound: international agreement of 1959, exact."""
    assert factor(word, dimension)[0] == pytest.approx(scale, rel=1e-15)
    assert factor(word, dimension)[1] == 0.0


def test_own_table_agrees_with_pint_where_pint_knows_the_word() -> None:
    import pint  # noqa: PLC0415 - only for the comparison

    registry: pint.UnitRegistry[float] = pint.UnitRegistry(cache_folder=None)
    for word in ("mph", "yard", "foot", "inch", "mm", "gram", "ounce", "pound", "grain", "hour"):
        unit = find_unit(word)
        assert unit is not None
        theirs = registry.Quantity(1.0, word).to_base_units()
        assert unit.scale == pytest.approx(theirs.magnitude * _kilo(str(theirs.units)), rel=1e-12)


def _kilo(units: str) -> float:
    return 1e-3 if units == "gram" else 1.0


def test_words_that_a_units_library_refuses_or_misreads_are_our_own() -> None:
    gr = find_unit("gr")
    assert gr is not None
    assert gr.scale == pytest.approx(6.479891e-5, rel=1e-12)
    rpm, capital, cpm = find_unit("rpm"), find_unit("RPM"), find_unit("cpm")
    assert rpm == capital
    assert rpm is not None
    assert cpm is not None
    assert rpm.dimension != cpm.dimension
    assert find_unit("rev") is not None
    twist = find_unit("°/ft·lb")
    assert twist is not None
    # One degree at one foot-pound: 0.0174533 rad over 1.3558179 N m.
    assert twist.scale == pytest.approx(0.01287289, rel=1e-6)


def test_turns_are_not_cycles_and_shares_are_not_angles() -> None:
    with pytest.raises(InputError, match="not of spin"):
        factor("cpm", "spin")
    with pytest.raises(InputError, match="not of angle"):
        factor("%", "angle")
    with pytest.raises(InputError, match="not a unit"):
        factor("furlongish", "length")
    with pytest.raises(InputError, match="no dimension"):
        factor("m", "lengthiness")


def test_units_outside_our_table_come_from_pint_with_their_dimension_checked() -> None:
    assert factor("knot", "speed")[0] == pytest.approx(1852.0 / 3600.0, rel=1e-12)
    assert factor("degR", "temperature")[0] == pytest.approx(5.0 / 9.0, rel=1e-12)
    assert find_unit("radian/second") is None
    assert find_unit("volt") is None
    assert find_unit("__class__") is None


def test_pint_is_not_imported_for_the_words_of_the_trade() -> None:
    code = (
        "import sys; from loftwright.units import parse_quantity, known_unit;"
        "parse_quantity('148', 'mph', place='x'); parse_quantity('76 m/s', 'mph', place='x');"
        "known_unit('nothing'); raise SystemExit('pint' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


@pytest.mark.parametrize(
    ("text", "unit", "expected"),
    [
        ("148", "mph", 148 * c.MILE_PER_HOUR),
        ("76 m/s", "mph", 76.0),
        ("76m/s", "mph", 76.0),
        ("238,5 km/h", "mph", 238.5 / 3.6),
        ("-3", "deg", -3 * c.DEGREE),
        ("−3", "deg", -3 * c.DEGREE),
        ("1.5e3 rpm", "rpm", 1500 * c.REVOLUTION_PER_MINUTE),
        ("5'11\"", "ft", 71 * c.INCH),
        ("5 ft 11 in", "m", 71 * c.INCH),
        ("75", "degF", 297.0388888888889),
        ("24 °C", "degF", 297.15),
        ("50", "%", 0.5),
        (".5", "mm", 0.0005),
    ],
)
def test_plain_numbers_take_the_default_unit_and_written_units_win(
    text: str, unit: str, expected: float
) -> None:
    assert parse_quantity(text, unit, place="--x") == pytest.approx(expected, rel=1e-14)


@pytest.mark.parametrize(
    "text",
    ["", "fast", "nan", "inf", "1e999", "12 rpm", "12 parsnips", "1,2,3", "12 mph mph", "--5"],
)
def test_what_is_no_speed_is_an_error_that_names_its_place(text: str) -> None:
    with pytest.raises(InputError) as caught:
        parse_quantity(text, "mph", place="--ball-speed")
    assert caught.value.place == "--ball-speed"


def test_an_unknown_default_unit_is_an_error() -> None:
    with pytest.raises(InputError, match="not a unit"):
        parse_quantity("1", "parsnips", place="--x")
    with pytest.raises(InputError, match="not a unit"):
        to_unit(1.0, "parsnips")


def test_every_unit_of_the_table_is_found_under_its_own_name() -> None:
    for word in ("mph", "yd", "deg", "rpm", "g", "degC", "s", "cpm", "%", "N.m", "hPa", "N"):
        unit = known_unit(word)
        assert unit is not None
        assert unit.name == word
        assert unit.dimension in DIMENSIONS


@given(
    value=st.floats(-1e6, 1e6),
    unit=st.sampled_from(["mph", "km/h", "yd", "ft", "mm", "deg", "rpm", "oz", "degF", "%"]),
)
def test_to_unit_undoes_parse(value: float, unit: str) -> None:
    si = parse_quantity(repr(value), unit, place="x")
    assert to_unit(si, unit) == pytest.approx(value, rel=1e-12, abs=1e-9)
