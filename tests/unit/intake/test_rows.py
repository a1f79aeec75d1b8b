"""Every row of a table is a ball, refused with a reason, or a repeat."""

import pytest

from loftwright.constants import MILE_PER_HOUR
from loftwright.errors import IntakeError
from loftwright.intake.own_table import HEADER
from loftwright.intake.table import ReadOptions, read_shots
from shot_tables import (
    OWN_KEYS,
    Drive,
    Rows,
    Writer,
    adds_up,
    number,
    own_rows,
)


def test_cells_that_cannot_be_are_not_measured_and_named(
    write: Writer, drives: list[Drive]
) -> None:
    rows = own_rows(drives)
    rows[3][3], rows[4][3], rows[5][3], rows[6][4] = "NaN", "inf", 400, "flat"
    rows[7][6] = -5
    rows[8][8] = 140
    table = read_shots(write(rows), ReadOptions())
    said = " / ".join(table.warnings)
    assert "rows 4, 5" in said
    assert "row 6: '400' cannot be ball speed" in said
    assert "row 7: 'flat' is no number" in said
    assert "row 8: '-5' cannot be spin" in said
    assert [shot.ball_speed for shot in table.shots[2:5]] == [None, None, None]
    assert table.shots[7].head_speed == pytest.approx(140 * MILE_PER_HOUR)
    assert len(table.shots) == 24


def test_balls_hit_but_not_read_keep_their_place_and_marks(
    write: Writer, drives: list[Drive]
) -> None:
    rows = own_rows(drives)
    rows[4][15] = "no"
    rows[6][3:15] = [*[""] * 9, 3.0, -2.0, "A"]
    rows[6][15:] = ["no", ""]
    table = read_shots(write(rows), ReadOptions())
    assert [shot.row for shot in table.shots if not shot.read] == [5, 7]
    lost, marked = table.shots[3], table.shots[5]
    assert lost.ball_speed is None
    assert lost.carry is None
    assert lost.strike_toe is not None
    assert marked.mark_set == "A"
    assert [shot.order for shot in table.shots] == list(range(24))
    assert any("row 5 says that it was not read" in warning for warning in table.warnings)


@pytest.mark.parametrize("word", ["nein", "No", "faux", "0", "not read"])
def test_a_ball_that_was_not_read_says_so_in_several_languages(
    write: Writer, drives: list[Drive], word: str
) -> None:
    rows = own_rows(drives)
    rows[3][15] = word
    assert [
        shot.row for shot in read_shots(write(rows), ReadOptions()).shots if not shot.read
    ] == [4]


def test_a_word_that_is_neither_yes_nor_no_is_named(write: Writer, drives: list[Drive]) -> None:
    rows = own_rows(drives)
    rows[3][15], rows[4][15], rows[5][15] = "perhaps", "--", "TRUE"
    table = read_shots(write(rows), ReadOptions())
    assert all(shot.read for shot in table.shots)
    assert table.warnings == ("row 4, 'read': 'perhaps' is neither yes nor no",)


def test_a_club_with_dashes_only_was_hit_and_not_read(write: Writer, drives: list[Drive]) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Spin (rpm)"]]
    rows += [[d["club"], d["ball speed"], d["spin"]] for d in drives]
    rows[5][1:] = ["--", "--"]
    rows.append(["Exported by the desk", "", ""])
    table = read_shots(write(rows), ReadOptions())
    assert [shot.row for shot in table.shots if not shot.read] == [6]
    assert [(refusal.row, refusal.why) for refusal in table.refused] == [
        (26, "holds no number of a ball")
    ]
    assert adds_up(table)


def test_a_row_whose_every_number_cannot_be_was_hit_and_not_read(write: Writer) -> None:
    rows: Rows = [["Club", "Ball speed (mph)", "Spin (rpm)"]]
    rows += [["Ash", "148.2", "2500"] for _ in range(9)]
    rows += [["Birch", "", "999999"], ["Cedar", "147.0", "999999"]]
    table = read_shots(write(rows), ReadOptions())
    assert [(shot.club, shot.read) for shot in table.shots[-2:]] == [
        ("Birch", False),
        ("Cedar", True),
    ]
    assert adds_up(table)


def test_repeated_rows_count_once_and_are_listed(write: Writer, drives: list[Drive]) -> None:
    rows = own_rows(drives)
    rows += [rows[5], rows[9]]
    again = list(rows[7])
    again[0] = "99"
    rows.append(again)
    table = read_shots(write(rows), ReadOptions())
    assert [(double.row, double.of) for double in table.duplicates] == [(26, 6), (27, 10)]
    assert len(table.shots) == 25
    assert adds_up(table)


def test_equal_speeds_without_ball_numbers_are_no_repeats(write: Writer) -> None:
    rows = [["Club", "Ball speed (mph)", "Carry (yd)"]]
    rows += [["Ash", "148.2", "240.0"], ["Ash", "148.2", "240.0"], ["Birch", "147.0", "236.0"]]
    table = read_shots(write(rows), ReadOptions())
    assert len(table.shots) == 3
    assert not table.duplicates


def test_repeated_headings_further_down_are_not_read(write: Writer, drives: list[Drive]) -> None:
    rows = own_rows(drives)
    table = read_shots(write([*rows[:10], rows[0], [], *rows[10:]]), ReadOptions())
    assert (table.read, len(table.shots)) == (24, 24)
    assert table.shots[-1].row == 27
    units: Rows = [["Club", "Ball speed", "Spin"], ["", "mph", "rpm"]]
    balls: Rows = [[d["club"], d["ball speed"], d["spin"]] for d in drives]
    again = read_shots(write([*units, *balls[:9], [], *units, *balls[9:]]), ReadOptions())
    assert (again.read, len(again.shots)) == (24, 24)


@pytest.mark.parametrize("label", ["Average", "avg.", "Mittelwert", "Moyenne", "σ", "平均"])
def test_averages_at_the_foot_are_refused_by_their_word(
    write: Writer, drives: list[Drive], label: str
) -> None:
    rows = own_rows(drives)
    rows.append(["", "", label, 147.0, 12.0, 0.0, 2700, 0.0, *[""] * 7, "", ""])
    table = read_shots(write(rows), ReadOptions())
    assert [refusal.row for refusal in table.refused] == [26]
    assert label in table.refused[0].why
    assert adds_up(table)


def test_averages_at_the_foot_are_refused_by_their_numbers(
    write: Writer, drives: list[Drive]
) -> None:
    rows = own_rows(drives)
    means = [sum(number(d, key) for d in drives) / 24 for key in OWN_KEYS]
    rows.append(["", "", "", *(f"{mean:.1f}" for mean in means), "", "", ""])
    table = read_shots(write(rows), ReadOptions())
    assert [(refusal.row, refusal.why) for refusal in table.refused] == [
        (26, "is the average of the rows above it")
    ]


def test_a_club_whose_name_sounds_like_a_sum_is_a_club(write: Writer, drives: list[Drive]) -> None:
    rows = own_rows(drives)
    names = {"Own": "Average Joe", "Ash": "Standard", "Birch": "Max"}
    for row in rows[1:]:
        row[2] = names[str(row[2])]
    table = read_shots(write(rows), ReadOptions())
    assert {shot.club for shot in table.shots} == set(names.values())
    assert len(table.shots) == 24


def test_rows_that_are_not_ours_are_refused_as_told(write: Writer, drives: list[Drive]) -> None:
    table = read_shots(write(own_rows(drives)), ReadOptions(not_ours=(3, 7)))
    assert [refusal.row for refusal in table.refused] == [3, 7]
    assert adds_up(table)
    with pytest.raises(IntakeError, match="row 99"):
        read_shots(write(own_rows(drives)), ReadOptions(not_ours=(99,)))


def test_rows_wider_than_the_headings_are_refused(write: Writer, drives: list[Drive]) -> None:
    rows = own_rows(drives)
    rows[4] = [*rows[4], "stray"]
    rows[5] = rows[5][:14]
    table = read_shots(write(rows), ReadOptions())
    assert [(refusal.row, refusal.why) for refusal in table.refused] == [
        (5, "has 18 cells under 17 headings")
    ]
    assert any("row 6 has 14 cells" in warning for warning in table.warnings)


@pytest.mark.parametrize(
    ("rows", "says"),
    [
        ([list(HEADER)], "no row below"),
        ([list(HEADER), ["words", "and", "words"]], "no ball among 1 rows"),
        ([["Club", "Head speed (mph)"], ["Ash", "101"], ["Ash", "102"]], "no column of it gives"),
    ],
)
def test_tables_without_balls_are_errors(write: Writer, rows: list[list[str]], says: str) -> None:
    with pytest.raises(IntakeError, match=says):
        read_shots(write(rows), ReadOptions())


def test_one_ball_and_one_club_are_read(write: Writer, drives: list[Drive]) -> None:
    assert len(read_shots(write(own_rows(drives[:1])), ReadOptions()).shots) == 1
    clubless = [row[:2] + row[3:] for row in own_rows(drives)]
    table = read_shots(write(clubless), ReadOptions())
    assert {shot.club for shot in table.shots} == {"(no club named)"}
    assert any("no column names the club" in warning for warning in table.warnings)
