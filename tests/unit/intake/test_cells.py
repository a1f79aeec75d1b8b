"""One cell of a table."""

import pytest

from loftwright.intake.cells import (
    decimal_evidence,
    decimal_of,
    is_blank,
    is_blank_label,
    number_of,
    read_cell,
)


@pytest.mark.parametrize(
    ("text", "decimal", "value"),
    [
        ("148.2", ".", 148.2),
        ("148,2", ".", 148.2),
        ("-0.5", ".", -0.5),
        ("−0.5", ".", -0.5),
        (".5", ".", 0.5),
        ("2,650", ".", 2650.0),
        ("2.650", ",", 2650.0),
        ("2.650", ".", 2.65),
        ("2,650", ",", 2.65),
        ("1,234.5", ",", 1234.5),
        ("1.234,5", ".", 1234.5),
        ("1,234,567", ".", 1234567.0),
        ("2 650", ".", 2650.0),
        ("2\u202f650,5", ".", 2650.5),
        ("2'650", ".", 2650.0),
        ("1e3", ".", 1000.0),
        ("13,5°", ".", 13.5),
        ("٤٢", ".", 42.0),
    ],
)
def test_numbers_are_read_in_both_decimal_manners(text: str, decimal: str, value: float) -> None:
    assert read_cell(text, decimal).value == pytest.approx(value)


@pytest.mark.parametrize(
    ("text", "value", "side"),
    [
        ("12.3 R", 12.3, "r"),
        ("12.3R", 12.3, "r"),
        ("L 4.1", 4.1, "l"),
        ("R: 4.1", 4.1, "r"),
        ("3.1 in-out", 3.1, "in-out"),
        ("2 open", 2.0, "open"),
        ("4,2 links", 4.2, "links"),
        ("5 H", 5.0, "h"),
    ],
)
def test_sides_may_stand_before_or_after(text: str, value: float, side: str) -> None:
    cell = read_cell(text)
    assert cell.value == pytest.approx(value)
    assert cell.side == side


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("148 mph", 148.0, "mph"),
        ("12' 3\"", 12.25, "ft"),
        ("12 ft 3 in", 12.25, "ft"),
        ("-5'6\"", -5.5, "ft"),
        ("45m", 45.0, "m"),
        ("4.2 yd L", 4.2, "yd"),
        ("2,650 rpm", 2650.0, "rpm"),
    ],
)
def test_cells_may_name_their_unit(text: str, value: float, unit: str) -> None:
    cell = read_cell(text)
    assert cell.value == pytest.approx(value)
    assert cell.unit is not None
    assert cell.unit.name == unit


@pytest.mark.parametrize("text", ["", " ", "-", "--", "—", "n/a", "N/A", "none", "k.A.", "."])
def test_dashes_and_blanks_are_not_measured(text: str) -> None:
    cell = read_cell(text)
    assert cell.value is None
    assert not cell.problem
    assert is_blank(text)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("NaN", "finite"),
        ("inf", "finite"),
        ("-Infinity", "finite"),
        ("#DIV/0!", "finite"),
        ("1e999", "no number"),
        ("abc", "no number"),
        ("1,2,3", "no number"),
        ("12.3.4", "no number"),
        ("-3 L", "sign and a side"),
        ("R 3 L", "not understood"),
        ("12 blue moons", "not understood"),
        ("2650*", "estimate"),
        ("~2650", "estimate"),
        ("12' 13\"", "feet and inches"),
    ],
)
def test_what_is_no_measured_number_says_why(text: str, why: str) -> None:
    cell = read_cell(text)
    assert cell.value is None
    assert why in cell.problem


def test_a_lone_letter_may_be_a_club_but_no_number() -> None:
    assert is_blank("x")
    assert not is_blank_label("X")
    assert is_blank_label("--")


def test_only_some_cells_prove_the_decimal_mark() -> None:
    assert decimal_evidence("148,2") == ","
    assert decimal_evidence("148.25") == "."
    assert decimal_evidence("2.650") == ""
    assert decimal_evidence("0,125") == ","
    assert decimal_evidence("1.234,5") == ","
    assert decimal_evidence("2650") == ""
    assert decimal_of(["2.650", "148,2"], ".") == ","
    assert decimal_of(["2.650"], ",") == ","


def test_numbers_with_broken_groups_are_refused() -> None:
    assert number_of("12,34,567", ".") is None
    assert number_of("1.2.3,4", ".") is None
    assert number_of("", ".") is None
