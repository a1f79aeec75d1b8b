"""Units of columns, told, shown or open, and what single columns come to."""

from dataclasses import replace
from pathlib import Path

import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, YARD
from loftwright.domain.device import Origin
from loftwright.domain.shot import ShotTable
from loftwright.intake.doubts import DoubtsError
from loftwright.intake.table import ReadOptions, read_shots
from shot_tables import Drive, Rows, Writer, assert_same_launch, number, own_rows


def unit_of(table: ShotTable, means: str) -> str:
    return next(column.unit for column in table.columns if column.means == means)


def test_a_head_speed_in_a_known_unit_tells_the_ball_speeds(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [["Club", "Ball speed", "Head speed (km/h)"]]
    for drive in drives:
        ball = round(number(drive, "ball speed") * 0.73 * 1.609344, 1)
        head = round(number(drive, "head speed") * 0.73 * 1.609344, 1)
        rows.append([drive["club"], ball, head])
    assert unit_of(read_shots(write(rows), ReadOptions()), "ball speed") == "km/h"


def test_a_ball_speed_tells_the_head_speeds_unit(write: Writer, drives: list[Drive]) -> None:
    rows: Rows = [["Club", "Ball speed (km/h)", "Head speed"]]
    for drive in drives:
        ball = round(number(drive, "ball speed") * 0.75 * 1.609344, 1)
        head = round(number(drive, "head speed") * 0.75 * 1.609344, 1)
        rows.append([drive["club"], ball, head])
    assert unit_of(read_shots(write(rows), ReadOptions()), "head speed") == "km/h"


def test_small_angles_take_the_other_columns_unit(write: Writer, drives: list[Drive]) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Launch (deg)", "Attack"]]
    attacks = (0.2, -0.1, 0.1, -0.2, 0.2)
    rows += [
        [d["club"], d["ball speed"], d["launch"], attack]
        for d, attack in zip(drives, attacks, strict=False)
    ]
    table = read_shots(write(rows), ReadOptions())
    assert unit_of(table, "attack") == "deg"
    assert "other columns" in next(c.source for c in table.columns if c.means == "attack")


def test_angles_too_small_for_many_balls_are_asked(write: Writer, drives: list[Drive]) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Direction (deg)"]]
    rows += [[d["club"], d["ball speed"], number(d, "direction") / 57.3] for d in drives]
    with pytest.raises(DoubtsError, match="as rad they fit"):
        read_shots(write(rows), ReadOptions())


def test_radians_are_shown_by_their_size(write: Writer, drives: list[Drive]) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Launch"]]
    rows += [[d["club"], d["ball speed"], number(d, "launch") / 57.3] for d in drives]
    assert unit_of(read_shots(write(rows), ReadOptions()), "launch") == "rad"


def test_cells_in_their_own_units_are_each_converted(write: Writer, drives: list[Drive]) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Apex"]]
    rows += [[d["club"], d["ball speed"], "90' 6\""] for d in drives]
    rows[3][1] = "66.5 m/s"
    rows[4][2] = "28 m"
    table = read_shots(write(rows), ReadOptions())
    assert table.shots[2].ball_speed == pytest.approx(66.5)
    assert table.shots[0].peak_height == pytest.approx(90.5 * 0.3048)
    assert table.shots[3].peak_height == pytest.approx(28.0)


def test_a_cell_in_a_unit_of_something_else_is_not_measured(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [["Club", "Ball speed (mph)"]]
    rows += [[d["club"], d["ball speed"]] for d in drives]
    rows[3][1] = "148 rpm"
    table = read_shots(write(rows), ReadOptions())
    assert table.shots[2].ball_speed is None
    assert any("no unit of ball speed" in warning for warning in table.warnings)


def test_three_digits_after_a_comma_are_thousandths_where_thousands_cannot_be(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [["Club", "Ball speed (m/s)", "Launch", "Spin (rpm)", "Direction (deg)"]]
    for drive in drives:
        speed, launch = 0.44704 * number(drive, "ball speed"), number(drive, "launch")
        spin, start = f"{number(drive, 'spin') / 1000:.3f}", number(drive, "direction")
        cells = (f"{speed:.3f}", f"{launch:.3f}", spin, f"{start:.3f}")
        rows.append([drive["club"], *(cell.replace(".", ",") for cell in cells)])
    shots = read_shots(write(rows, delimiter=";"), ReadOptions()).shots
    assert_same_launch(shots, drives, rel=1e-3)
    assert shots[0].direction == pytest.approx(number(drives[0], "direction") * DEGREE, abs=1e-5)


@pytest.mark.parametrize("side", ["T", "H"])
def test_a_lone_letter_stands_for_the_side_its_heading_names(
    write: Writer, drives: list[Drive], side: str
) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Strike toe-heel (mm)", "Impact talon pointe"]]
    rows += [[d["club"], d["ball_speed".replace("_", " ")], f"7 {side}", "--"] for d in drives]
    table = read_shots(write(rows), ReadOptions())
    assert table.shots[0].strike_toe == pytest.approx(0.007 if side == "T" else -0.007)
    french = [row[:2] + row[:1:-1] for row in rows]
    french[0][2], french[0][3] = "Impact talon pointe (mm)", "Gizmo"
    for row in french[1:]:
        row[2], row[3] = "7 T", ""
    assert read_shots(write(french), ReadOptions()).shots[0].strike_toe == pytest.approx(-0.007)


def test_columns_that_decide_nothing_are_left_out_and_said(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Apex", "Total (yd)"]]
    rows += [[d["club"], d["ball speed"], 32, 9000] for d in drives]
    table = read_shots(write(rows), ReadOptions())
    said = " / ".join(table.warnings)
    assert "'Apex' is not used: nothing tells its unit" in said
    assert "'Total (yd)' is not used" in said
    assert table.shots[0].peak_height is None
    assert table.shots[0].total is None


def test_a_heading_with_the_unit_of_something_else_is_asked(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Spin axis (rpm)"]]
    rows += [[d["club"], d["ball speed"], d["axis"]] for d in drives]
    with pytest.raises(DoubtsError, match="rpm is no unit of it") as caught:
        read_shots(write(rows), ReadOptions())
    assert caught.value.doubts[0].options[0] == '--column "Spin axis (rpm)=axis[deg]"'


def test_two_columns_that_differ_over_one_quantity_are_asked(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [["Club", "Carry (yd)", "Carry distance (yd)", "Spin (rpm)"]]
    rows += [[d["club"], d["carry"], number(d, "carry") + 9, d["spin"]] for d in drives]
    path = write(rows)
    with pytest.raises(DoubtsError, match="both give carry and differ") as caught:
        read_shots(path, ReadOptions())
    assert caught.value.doubts[0].options == (
        '--column "Carry (yd)=carry"',
        '--column "Carry distance (yd)=carry"',
    )
    second = read_shots(path, ReadOptions(columns=("Carry distance (yd)=carry",)))
    assert second.shots[0].carry == pytest.approx((number(drives[0], "carry") + 9) * YARD)


def test_a_blank_column_of_what_is_derived_is_not_absent(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Spin (rpm)", "Back spin (rpm)", "Side spin (rpm)"]]
    rows += [[d["club"], d["ball speed"], "", d["spin"], number(d, "axis") * 40] for d in drives]
    table = read_shots(write(rows), ReadOptions())
    (spin,) = [column for column in table.columns if column.means == "spin"]
    assert spin.origin is Origin.UNKNOWN
    assert spin.source == "back spin and side spin"


def test_a_settled_club_column_is_remembered(
    write: Writer, drives: list[Drive], tmp_path: Path
) -> None:
    rows: Rows = [["Head", "Shaft", "Ball speed (mph)"]]
    rows += [["Round one", d["club"], d["ball speed"]] for d in drives]
    path = write(rows)
    told = ReadOptions(club_column="Shaft", mappings_path=tmp_path / "mappings.toml")
    first = read_shots(path, told)
    again = read_shots(path, replace(told, club_column=None))
    assert first.shots == again.shots
    assert {shot.club for shot in again.shots} == {"Own", "Ash", "Birch"}


def test_what_a_user_insists_on_is_taken_cell_by_cell(write: Writer, drives: list[Drive]) -> None:
    rows = own_rows(drives)
    for row in rows[1:]:
        row[3] = number(drives[0], "ball speed") * 1.609344
    rows[5][3] = 148.0
    told = ReadOptions(columns=("ball_speed_mph=ball speed[mph]",))
    table = read_shots(write(rows), told)
    assert [shot.row for shot in table.shots if shot.ball_speed is not None] == [6]
    assert table.shots[4].ball_speed == pytest.approx(148 * MILE_PER_HOUR)
    assert any("cannot be ball speed" in warning for warning in table.warnings)
