"""Balls of pasted and uploaded tables: own lines, lasting keys, doubts under the table's name."""

import pytest

from loftwright.domain.device import Origin
from loftwright.errors import IntakeError, UsageError
from loftwright.intake.doubts import DoubtsError
from loftwright.intake.file_rows import key_of, rows_of
from loftwright.intake.options import ReadOptions
from loftwright.intake.pasted import rows_of_text, rows_of_upload

TABLE = """Player's balls, 14 May
Club\tBall speed (mph)\tCarry (yd)\tNote
Birch\t148\t240\t"a
b"
Birch\t149\t242\t
\t\t\t
Elm\t150\t245\tlast
"""


def test_own_lines_are_kept_letter_for_letter() -> None:
    rows = rows_of_text(TABLE, ReadOptions())
    assert [shot.line for shot in rows.shots] == [
        'Birch\t148\t240\t"a\nb"',
        "Birch\t149\t242\t",
        "Elm\t150\t245\tlast",
    ]


def test_a_key_depends_on_the_line_and_its_likes_above_alone() -> None:
    head = "Ball speed (mph),Carry (yd)\n"
    short = rows_of(f"{head}148,240\n".encode(), "one.csv", ReadOptions())
    long = rows_of(f"{head}150,250\n148,240\r\n148,240".encode(), "other.csv", ReadOptions())
    assert long.shots[1].key == short.shots[0].key == key_of("148,240", 1)
    assert long.shots[2].key == key_of("148,240", 2)


def test_without_a_club_column_the_ball_names_no_club() -> None:
    rows = rows_of_text("Ball speed (mph),Carry (yd)\n148,240\n", ReadOptions())
    assert rows.shots[0].club == ""


def test_a_doubt_names_the_table_as_its_reader_knows_it() -> None:
    with pytest.raises(DoubtsError) as caught:
        rows_of_upload(b"Ball speed,Carry\n148,240\n149,242\n", "today.csv", ReadOptions())
    assert caught.value.place == "today.csv"
    assert caught.value.doubts[0].options


def test_an_error_names_the_table_as_its_reader_knows_it() -> None:
    with pytest.raises(IntakeError) as caught:
        rows_of_upload(b"%PDF", "today.csv", ReadOptions())
    assert caught.value.place == "today.csv"
    assert "/" not in str(caught.value)


def test_a_wrong_option_stays_a_wrong_use() -> None:
    with pytest.raises(UsageError):
        rows_of_text(TABLE, ReadOptions(columns=("Carry",)))


def test_answers_settle_a_pasted_table() -> None:
    text = "Ball speed,Carry\n148,240\n149,242\n"
    rows = rows_of_text(
        text, ReadOptions(columns=("Carry=carry[yd]", "Ball speed=ball speed[mph]"))
    )
    assert len(rows.shots) == 2
    assert rows.settled == ("Carry=carry[yd]", "Ball speed=ball speed[mph]")


def test_what_the_reading_came_to_can_be_settled() -> None:
    rows = rows_of_text(TABLE, ReadOptions())
    assert any(text.endswith("Ball speed (mph)=ball speed[mph]") for text in rows.settled)
    again = rows_of_text(TABLE, ReadOptions(columns=rows.settled))
    assert again.shots == rows.shots


def test_columns_and_refused_rows_are_told() -> None:
    rows = rows_of_text(TABLE + "Average\t149\t242\t\n", ReadOptions())
    assert rows.refused[0].row == 8
    origins = {column.means: column.origin for column in rows.columns}
    assert origins["spin"] is Origin.ABSENT


def test_marks_of_unknown_order_are_left_to_the_set() -> None:
    text = "Ball speed (mph),Carry (yd),Strike toe (mm),Mark set\n148,240,5,1\n149,242,-3,1\n"
    rows = rows_of_text(text, ReadOptions())
    assert all(shot.numbers.strike_toe is None for shot in rows.shots)
    assert "set 1" in rows.shots[0].problems[0]
    assert any("unknown order" in warning for warning in rows.warnings)


def test_a_ball_not_read_is_a_ball() -> None:
    text = "Club,Ball speed (mph),Carry (yd),Read\nElm,148,240,yes\nElm,,,no\n"
    rows = rows_of_text(text, ReadOptions())
    assert [shot.read for shot in rows.shots] == [True, False]


@pytest.mark.parametrize(("text", "says"), [(" \n", "nothing"), ("a\x00b", "no character")])
def test_text_that_is_no_table_is_refused(text: str, says: str) -> None:
    with pytest.raises(IntakeError, match=says):
        rows_of_text(text, ReadOptions())


def test_an_upload_without_a_name_has_one_in_messages() -> None:
    with pytest.raises(IntakeError) as caught:
        rows_of_upload(b"", " ", ReadOptions())
    assert caught.value.place == "uploaded file"
