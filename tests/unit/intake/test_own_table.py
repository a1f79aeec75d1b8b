"""Our own shot table, written and known again."""

from pathlib import Path

import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.device import Origin
from loftwright.domain.shot import Shot
from loftwright.errors import IntakeError
from loftwright.intake.options import ReadOptions
from loftwright.intake.own_table import HEADER, shot_table_text, write_shots
from loftwright.intake.table import read_shots
from loftwright.training.deal import DealOptions, deal

SHOT = Shot(
    row=2,
    order=0,
    club='Ash, "stiff"',
    ball="1",
    ball_speed=148.04 * MILE_PER_HOUR,
    launch=12.36 * DEGREE,
    direction=-0.01 * DEGREE,
    spin=2650.4 * REVOLUTION_PER_MINUTE,
    axis=-3.0 * DEGREE,
    head_speed=101.0 * MILE_PER_HOUR,
    strike_toe=-0.0042,
    carry=241.26 * YARD,
)


def test_the_header_is_the_agreed_one() -> None:
    assert ",".join(HEADER) == (
        "ball,time,club,ball_speed_mph,launch_deg,direction_deg,spin_rpm,axis_deg,head_speed_mph,"
        "attack_deg,path_deg,face_deg,strike_toe_mm,strike_high_mm,mark_set,read,carry_yd"
    )


def test_a_shot_is_written_in_trade_units_with_sensible_digits() -> None:
    text = shot_table_text([SHOT])
    assert text.endswith("\n")
    assert "\r" not in text
    assert text.splitlines()[1] == (
        '1,,"Ash, ""stiff""",148.0,12.4,0.0,2650,-3.0,101.0,,,,-4.2,,,yes,241.3'
    )


def test_an_unread_ball_and_a_set_of_marks_are_written() -> None:
    row = shot_table_text(
        [Shot(row=2, order=0, club="Own", read=False, mark_set="B", time="10:02")]
    ).splitlines()[1]
    assert row == ",10:02,Own,,,,,,,,,,,,B,no,"


def test_a_value_that_is_not_finite_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(IntakeError, match="finite"):
        write_shots(tmp_path / "t.csv", [Shot(row=2, order=0, club="Own", spin=float("nan"))])
    assert not list(tmp_path.iterdir())


def test_the_same_shots_give_the_same_bytes(tmp_path: Path) -> None:
    shots = deal(DealOptions(seed=5, clubs=3, balls=12)).shots
    write_shots(tmp_path / "a.csv", shots)
    write_shots(tmp_path / "b.csv", shots)
    assert (tmp_path / "a.csv").read_bytes() == (tmp_path / "b.csv").read_bytes()


def test_a_column_without_a_cell_is_absent_not_measured(tmp_path: Path) -> None:
    path = tmp_path / "shots.csv"
    write_shots(path, deal(DealOptions(seed=3, clubs=3, balls=12)).shots)
    columns = {column.column: column for column in read_shots(path, ReadOptions()).columns}
    assert columns["time"].origin is Origin.ABSENT
    assert columns["time"].source == "blank"
    assert columns["club"].origin is Origin.MEASURED
