"""Rows as they are gathered: quotation marks, choices and what they name."""

import pytest

from loftwright.errors import IntakeError
from loftwright.intake.table import ReadOptions, read_shots
from shot_tables import Drive, Rows, Writer, adds_up, own_rows


def noted(drives: list[Drive], columns: int) -> Rows:
    """Return a table whose last column stands in quotation marks."""
    rows: Rows = [["Ball speed (mph)", "Launch", "Spin", "Direction", "Club"]]
    keys = ("ball speed", "launch", "spin", "direction", "club")
    rows += [[*(drive[key] for key in keys)] for drive in drives]
    return [[*row[: columns - 1], f'"{row[-1]}"'] for row in rows]


@pytest.mark.parametrize("columns", [2, 5])
@pytest.mark.parametrize("place", [9, 22])
def test_a_quotation_mark_that_stays_open_swallows_no_rows(
    write: Writer, drives: list[Drive], columns: int, place: int
) -> None:
    rows = noted(drives, columns)
    assert len(read_shots(write(rows), ReadOptions()).shots) == 24
    rows[place][-1] = str(rows[place][-1])[:-1]
    for row in rows[place + 1 :]:
        row[-1] = str(row[-1]).strip('"')
    with pytest.raises(IntakeError, match=f"row {place + 1} goes on over the rows") as caught:
        read_shots(write(rows), ReadOptions())
    assert "quotation mark" in caught.value.mend


def test_a_quotation_mark_that_is_closed_rows_later_swallows_none(
    write: Writer, drives: list[Drive]
) -> None:
    rows = noted(drives, 5)
    rows[9][-1], rows[12][-1] = '"Own', 'Own"'
    rows[10][-1] = rows[11][-1] = "Own"
    with pytest.raises(IntakeError, match="row 10 goes on over the rows"):
        read_shots(write(rows), ReadOptions())


def test_notes_and_headings_may_have_several_lines(write: Writer, drives: list[Drive]) -> None:
    rows: Rows = [["Club", '"Ball\nspeed (mph)"', "Note"]]
    rows += [[d["club"], d["ball speed"], '"low, on the heel\nlost, right"'] for d in drives]
    table = read_shots(write(rows), ReadOptions())
    assert len(table.shots) == 24
    assert [shot.row for shot in table.shots[:2]] == [3, 5]
    assert table.shots[0].note == "low, on the heel\nlost, right"


def test_a_foreign_byte_beyond_the_first_rows_tells_the_encoding(
    write: Writer, drives: list[Drive]
) -> None:
    rows = own_rows(drives * 80)
    for place, row in enumerate(rows[1:]):
        row[0] = place + 1
    rows[-1][2] = "Käfer"
    path = write(rows, encoding="cp1252")
    assert path.stat().st_size > 1 << 16
    table = read_shots(path, ReadOptions())
    assert table.shots[-1].club == "Käfer"
    assert any("cp1252" in warning for warning in table.warnings)


@pytest.mark.parametrize(
    ("options", "mend"),
    [
        (ReadOptions(columns=("bal_speed=spin[rpm]",)), "nearest is 'ball_speed_mph'"),
        (ReadOptions(columns=("???=spin[rpm]",)), "There are 'ball', 'time', 'club'"),
        (ReadOptions(club_column="Clubs"), "nearest is 'club'"),
        (ReadOptions(only=("clup=Own",)), "nearest is 'club'"),
        (ReadOptions(only=("club=Ahs",)), "nearest is 'Ash'; there are 'Own', 'Ash', 'Birch'"),
        (ReadOptions(only=("kind=iron",)), "There is nothing under it"),
        (ReadOptions(only=("time=10:02",)), "There is nothing under it"),
    ],
)
def test_a_name_that_is_not_in_the_file_is_mended_by_the_nearest(
    write: Writer, drives: list[Drive], options: ReadOptions, mend: str
) -> None:
    with pytest.raises(IntakeError) as caught:
        read_shots(write(own_rows(drives)), options)
    assert mend in caught.value.mend


def test_rows_are_chosen_by_day_time_and_club_at_once(write: Writer, drives: list[Drive]) -> None:
    rows = own_rows(drives)
    for place, row in enumerate(rows[1:]):
        row[1] = f"2026-05-0{1 + place // 12} 10:{place:02d}"
    path = write(rows)
    table = read_shots(path, ReadOptions(only=("day=2026-05-01", "CLUB=ash")))
    assert [shot.row for shot in table.shots] == [6, 7, 8, 9]
    assert {refusal.why for refusal in table.refused} == {
        "not asked for: only day=2026-05-01",
        "not asked for: only CLUB=ash",
    }
    assert adds_up(table)
    one = read_shots(path, ReadOptions(only=("time=2026-05-01 10:03",)))
    assert [shot.row for shot in one.shots] == [5]


def test_most_rows_wider_than_the_headings_ask_for_a_heading(
    write: Writer, drives: list[Drive]
) -> None:
    rows = own_rows(drives)
    rows[1:] = [[place, *row] for place, row in enumerate(rows[1:])]
    with pytest.raises(IntakeError, match="give every column a heading"):
        read_shots(write(rows), ReadOptions())
