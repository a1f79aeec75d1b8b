"""A paper sheet typed in later: true order, clubs, keys, and errors that lose nothing."""

import pytest

from loftwright.constants import MILE_PER_HOUR, MILLIMETRE
from loftwright.errors import IntakeError
from loftwright.intake.line_order import LineOrder
from loftwright.intake.sheet_rows import SheetBall, SheetError, balls_from_sheet, line_of_cells

SHEET = """
after 17
18 elm 148.2 12.1 2510 -2 8 mark toe-high

20. unread
19: 147.5 11.8 2600 1 -3 mark 5t 3h
after ball 23:
21 birch 149 - 2450
22 club Elm 150
"""


def balls(text: str) -> tuple[SheetBall, ...]:
    return balls_from_sheet(text, LineOrder(), sheet="s1", clubs=("Own", "Elm", "Birch"))


def test_balls_come_in_their_true_order() -> None:
    found = balls(SHEET)
    assert [ball.number for ball in found] == [18, 19, 20, 21, 22]
    assert [ball.after for ball in found] == [17, 17, 17, 23, 23]


def test_a_line_without_a_club_has_that_of_the_line_above() -> None:
    clubs = {ball.number: ball.ball.shot.club for ball in balls(SHEET)}
    assert clubs == {18: "Elm", 19: "Elm", 20: "Elm", 21: "Birch", 22: "Elm"}


def test_numbers_marks_and_unread_balls_are_taken() -> None:
    first, second, third, fourth, _ = (ball.ball for ball in balls(SHEET))
    assert first.shot.numbers.ball_speed == pytest.approx(148.2 * MILE_PER_HOUR)
    assert first.mark is not None
    assert first.mark.words == "toe-high"
    assert second.mark is not None
    assert second.mark.toe == pytest.approx(5 * MILLIMETRE)
    assert not third.shot.read
    assert fourth.shot.numbers.launch is None


def test_lines_without_a_place_come_last_and_first_comes_before_all() -> None:
    found = balls("1 elm 148\nfirst\n2 149")
    assert [(ball.number, ball.after) for ball in found] == [(1, None), (2, 0)]


def test_a_ball_typed_in_again_has_the_same_key() -> None:
    once, again = balls("18 elm 148.2"), balls("18 elm 148.3")
    other = balls_from_sheet("18 elm 148.2", LineOrder(), sheet="s2", clubs=("Elm",))
    assert once[0].ball.shot.key == again[0].ball.shot.key
    assert once[0].ball.shot.key != other[0].ball.shot.key


def test_the_line_is_kept() -> None:
    assert balls("18 elm 148.2")[0].ball.shot.line == "18 elm 148.2"


def test_every_line_that_is_not_understood_is_named() -> None:
    with pytest.raises(SheetError) as caught:
        balls("18 elm 148.2x\nelm 148\n19 149\n19 150\n20 birch")
    places = [error.place for error in caught.value.errors]
    assert places == ["line 1, word 2", "line 2", "line 4", "line 5"]
    assert "'148.2x'" in str(caught.value)
    assert "nothing was taken" in caught.value.mend


def test_a_ball_without_any_club_is_refused() -> None:
    with pytest.raises(SheetError, match="names no club"):
        balls("18 148.2")


def test_of_very_many_errors_the_first_are_listed() -> None:
    with pytest.raises(SheetError, match="and 3 more"):
        balls("\n".join(f"{number} elm x{number}y" for number in range(1, 9)))


@pytest.mark.parametrize("text", ["", " \n\n", "1 elm 148\n" * 201])
def test_a_sheet_of_no_or_too_many_lines_is_refused(text: str) -> None:
    with pytest.raises(IntakeError, match="lines cannot be read"):
        balls(text)


def test_cells_of_a_form_make_the_same_line() -> None:
    cells = {
        "ball": "18",
        "club": " Elm",
        "ball_speed": "148.2",
        "spin": "2510",
        "carry": "",
        "mark": "toe-high",
        "read": "yes",
    }
    line = line_of_cells(cells)
    assert line == "18 club Elm mark toe-high speed 148.2 spin 2510"
    (found,) = balls(line)
    assert found.ball.mark is not None
    assert found.ball.shot.numbers.spin is not None


def test_a_ball_not_read_is_a_cell_too() -> None:
    assert line_of_cells({"ball": "20", "club": "Elm", "read": "no"}) == "20 club Elm unread"


def test_a_cell_that_no_line_has_is_named() -> None:
    with pytest.raises(IntakeError) as caught:
        line_of_cells({"ball": "1", "wind": "3"})
    assert caught.value.place == "wind"
