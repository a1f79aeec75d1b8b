"""Rows that sum up others, and balls and clubs that only look like it."""

import pytest

from loftwright.intake.table import ReadOptions, read_shots
from shot_tables import Drive, Rows, Writer, adds_up, number


def test_a_ball_that_equals_the_mean_in_few_digits_is_a_ball(write: Writer) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Launch (deg)", "Carry (yd)"]]
    rows += [["Ash", 146, 11, 236], ["Ash", 150, 15, 244], ["Ash", 148, 13, 240]]
    rows += [["Birch", 147, 12, 238], ["Birch", 149, 14, 242]]
    table = read_shots(write(rows), ReadOptions())
    assert len(table.shots) == 5
    assert not table.refused


def test_the_average_of_each_clubs_balls_is_refused_by_its_numbers(
    write: Writer, drives: list[Drive]
) -> None:
    keys = ("ball speed", "launch", "direction", "spin")
    headings = ["Ball speed (mph)", "Launch (deg)", "Direction (deg)", "Spin (rpm)"]
    rows: Rows = [["Club", *headings]]
    for place in range(0, 24, 4):
        block = drives[place : place + 4]
        rows += [[drive["club"], *(drive[key] for key in keys)] for drive in block]
        means = (sum(number(drive, key) for drive in block) / 4 for key in keys)
        rows.append([block[0]["club"], *(f"{mean:.2f}" for mean in means)])
    table = read_shots(write(rows), ReadOptions())
    assert [refusal.row for refusal in table.refused] == [6, 11, 16, 21, 26, 31]
    assert {refusal.why for refusal in table.refused} == {"is the average of the rows above it"}
    assert len(table.shots) == 24
    assert adds_up(table)


@pytest.mark.parametrize("run", [1, 3])
def test_a_first_column_of_clubs_may_hold_one_called_like_a_sum(
    write: Writer, drives: list[Drive], run: int
) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Spin (rpm)"]]
    for place, drive in enumerate(drives):
        rows.append([("Max", "Own")[place // run % 2], drive["ball speed"], drive["spin"]])
    rows.append(["Mean", 147, 2700])
    table = read_shots(write(rows), ReadOptions())
    assert [refusal.row for refusal in table.refused] == [26]
    assert {shot.club for shot in table.shots} == {"Max", "Own"}


def test_extremes_at_the_foot_are_refused_where_the_club_stands(
    write: Writer, drives: list[Drive]
) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Spin (rpm)"]]
    rows += [[drive["club"], drive["ball speed"], drive["spin"]] for drive in drives]
    rows += [["Min", 143, 2300], ["Max", 151, 3100], ["Average", 147, 2700]]
    table = read_shots(write(rows), ReadOptions())
    assert [refusal.row for refusal in table.refused] == [26, 27, 28]
    assert adds_up(table)
