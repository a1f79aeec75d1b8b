"""Quantities that a table gives in another form."""

import math

import pytest

from loftwright.domain.device import Column, Origin
from loftwright.intake.derive import derive

Values = list[float | None]


def columns_of(values: dict[str, Values], origin: Origin = Origin.MEASURED) -> dict[str, Column]:
    return {
        means: Column(
            column=means.title(), means=means, unit="rpm", origin=origin, source="heading"
        )
        for means in values
    }


def test_back_and_side_spin_give_spin_and_axis() -> None:
    values: dict[str, Values] = {"back spin": [300.0, None, 0.0], "side spin": [-40.0, 5.0, 0.0]}
    added, warnings = derive(values, columns_of(values))
    assert values["spin"] == [pytest.approx(math.hypot(300.0, 40.0)), None, 0.0]
    assert values["axis"] == [pytest.approx(math.atan2(-40.0, 300.0)), None, 0.0]
    assert [column.means for column in added] == ["spin", "axis"]
    assert added[0].column == "Back Spin, Side Spin"
    assert not warnings


def test_total_and_side_spin_give_the_axis_where_they_can() -> None:
    values: dict[str, Values] = {"spin": [300.0, 300.0, 0.0], "side spin": [30.0, 400.0, 0.0]}
    derive(values, columns_of(values))
    assert values["axis"] == [pytest.approx(math.asin(0.1)), None, None]


def test_back_spin_and_axis_give_total_spin() -> None:
    values: dict[str, Values] = {"back spin": [300.0], "axis": [0.2]}
    derive(values, columns_of(values))
    assert values["spin"] == [pytest.approx(300.0 / math.cos(0.2))]


def test_back_spin_alone_is_taken_for_spin_and_said() -> None:
    values: dict[str, Values] = {"back spin": [300.0]}
    _, warnings = derive(values, columns_of(values))
    assert values["spin"] == [300.0]
    assert "back spin alone" in warnings[0]


def test_face_and_path_follow_from_each_other() -> None:
    face: dict[str, Values] = {"face to path": [0.02], "path": [-0.05]}
    path: dict[str, Values] = {"face to path": [0.02], "face": [-0.03]}
    derive(face, columns_of(face))
    derive(path, columns_of(path))
    assert face["face"] == [pytest.approx(-0.03)]
    assert path["path"] == [pytest.approx(-0.05)]


def test_face_to_path_alone_makes_neither() -> None:
    values: dict[str, Values] = {"face to path": [0.02]}
    assert derive(values, columns_of(values)) == ([], [])
    assert set(values) == {"face to path"}


def test_what_is_made_of_a_calculated_column_is_calculated() -> None:
    values: dict[str, Values] = {"back spin": [300.0], "side spin": [-40.0]}
    added, _ = derive(values, columns_of(values, Origin.CALCULATED))
    assert {column.origin for column in added} == {Origin.CALCULATED}


def test_what_the_table_gives_is_not_made_again() -> None:
    values: dict[str, Values] = {
        "spin": [1.0],
        "axis": [0.5],
        "back spin": [2.0],
        "side spin": [3.0],
    }
    added, _ = derive(values, columns_of(values))
    assert not added
    assert values["spin"] == [1.0]
    blank: dict[str, Values] = {"side spin": [3.0], "face to path": [None]}
    assert derive(blank, columns_of(blank)) == ([], [])
