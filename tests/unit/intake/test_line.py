"""One ball typed on a line: order, words, units, sides, marks, and errors that name the word."""

from math import degrees, radians

import pytest

from loftwright.constants import MILE_PER_HOUR, MILLIMETRE, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.numbers import ShotNumbers
from loftwright.errors import IntakeError
from loftwright.intake.line import TypedBall, ball_from_line
from loftwright.intake.line_order import METRIC, WORDS, LineOrder, keys_of, read_order

CLUBS = ("Own", "Elm", "Birch")


def typed(text: str, order: LineOrder | None = None) -> TypedBall:
    return ball_from_line(text, order or LineOrder(), key="1", clubs=CLUBS)


def numbers(text: str, order: LineOrder | None = None) -> ShotNumbers:
    return typed(text, order).shot.numbers


def refusal(text: str, order: LineOrder | None = None) -> IntakeError:
    with pytest.raises(IntakeError) as caught:
        typed(text, order)
    assert caught.value.mend
    return caught.value


def test_plain_numbers_are_taken_in_order() -> None:
    found = numbers("148.2 12.1 2510 -2 8")
    assert found.ball_speed == pytest.approx(148.2 * MILE_PER_HOUR)
    assert found.launch == pytest.approx(radians(12.1))
    assert found.spin == pytest.approx(2510 * REVOLUTION_PER_MINUTE)
    assert found.direction == pytest.approx(radians(-2))
    assert found.axis == pytest.approx(radians(8))


def test_the_line_is_kept_letter_for_letter() -> None:
    ball = typed(" 148,2  12 2510")
    assert ball.shot.line == " 148,2  12 2510"
    assert ball.shot.key == "1"


def test_words_say_what_a_number_is() -> None:
    ball = typed("speed 148 launch 12 spin 2500 mark 5t 3h")
    assert ball.shot.numbers.spin == pytest.approx(2500 * REVOLUTION_PER_MINUTE)
    assert ball.mark is not None
    assert (ball.mark.toe, ball.mark.high) == pytest.approx((5 * MILLIMETRE, 3 * MILLIMETRE))


def test_words_and_plain_numbers_go_together() -> None:
    found = numbers("speed=148 12.1 2510 carry: 240")
    assert degrees(found.launch or 0.0) == pytest.approx(12.1)
    assert found.carry == pytest.approx(240 * YARD)


def test_a_blank_stands_for_what_was_not_measured() -> None:
    found = numbers("148 - 2510 . 8")
    assert (found.launch, found.direction) == (None, None)
    assert found.axis == pytest.approx(radians(8))


def test_another_order_can_be_set() -> None:
    order = read_order("dir, launch speed")
    found = numbers("-2 12 148", order)
    assert found.direction == pytest.approx(radians(-2))
    assert found.ball_speed == pytest.approx(148 * MILE_PER_HOUR)


def test_metric_units_can_be_set() -> None:
    order = LineOrder(units=METRIC)
    found = numbers("66.2 12 2500 carry 220", order)
    assert (found.ball_speed, found.carry) == pytest.approx((66.2, 220.0))


@pytest.mark.parametrize(
    "text", ["66.2m/s", "66.2 m/s", "speed 66.2m/s", "speed 238.32km/h", "238.32 km/h"]
)
def test_a_number_may_carry_its_unit(text: str) -> None:
    assert numbers(text).ball_speed == pytest.approx(66.2)


@pytest.mark.parametrize("text", ["dir 2L", "dir 2 l", "dir -2", "dir 2 left", "dir 2degL"])
def test_a_side_may_be_a_letter(text: str) -> None:
    assert numbers(f"148 {text}").direction == pytest.approx(radians(-2))


def test_face_and_path_have_sides_of_their_own() -> None:
    found = numbers("148 face 2c path 3o attack 1d")
    assert (found.face, found.path, found.attack) == pytest.approx(
        (radians(-2), radians(-3), radians(-1))
    )


def test_a_club_may_stand_alone_or_be_named() -> None:
    assert typed("elm 148 12").shot.club == "Elm"
    assert typed("148 12 club birch").shot.club == "Birch"
    assert typed("148 club Fir").shot.club == "Fir"
    assert typed("148").shot.club == ""


def test_a_ball_not_read_is_one_word() -> None:
    ball = typed("unread")
    assert not ball.shot.read
    assert ball.shot.numbers == ShotNumbers()


def test_a_ball_not_read_may_have_a_mark() -> None:
    assert typed("unread mark thin").mark is not None


@pytest.mark.parametrize(
    ("text", "toe", "high"),
    [
        ("mark 3h 5t", 5.0, 3.0),
        ("mark 5heel 3l", -5.0, -3.0),
        ("mark 5 heel 3 low", -5.0, -3.0),
        ("mark -5 3", -5.0, 3.0),
        ("mark 5mmt 3mmh", 5.0, 3.0),
        ("mark 5,5t 0h", 5.5, 0.0),
        ("mark toe-high", 14.0, 8.0),
        ("mark slightly heel low carry 240", -7.0, -8.0),
    ],
)
def test_marks_are_read_in_millimetres_or_words(text: str, toe: float, high: float) -> None:
    mark = typed(f"148 {text}").mark
    assert mark is not None
    assert (mark.toe, mark.high) == pytest.approx((toe * MILLIMETRE, high * MILLIMETRE))


def test_a_mark_has_the_fitters_own_error() -> None:
    ball = ball_from_line("148 mark 5t 3h", LineOrder(), key="1", mark_error=0.0031)
    assert ball.mark is not None
    assert ball.mark.error == 0.0031


def test_a_mark_in_words_has_the_error_of_its_words() -> None:
    ball = ball_from_line("148 mark toe", LineOrder(), key="1", mark_error=0.0031)
    assert ball.mark is not None
    assert ball.mark.error == pytest.approx(6 * MILLIMETRE)


def test_spin_and_axis_follow_from_back_and_side_spin() -> None:
    found = numbers("148 back 2400 sidespin 700r")
    assert found.spin == pytest.approx(2500 * REVOLUTION_PER_MINUTE)
    assert found.axis is not None
    assert found.axis > 0.0


@pytest.mark.parametrize(
    ("text", "place", "says"),
    [
        ("148 12x", "word 2", "'12x'"),
        ("148 12 sping 2500", "word 3", "'sping'"),
        ("148 12 2510 -2 8 9", "word 6", "'9' is one number too many"),
        ("speed 148 speed 149", "word 4", "'149'"),
        ("speed", "word 1", "no number stands after 'speed'"),
        ("148 carry far", "word 2", "'carry'"),
        ("999", "word 1", "4.5 to 235 mph"),
        ("148 240", "word 2", "-20 to 70 deg"),
        ("2,510", "word 1", "thousands"),
        ("148 12 2.510", "word 3", "thousands"),
        ("148 dir -2L", "word 3", "sign and a side"),
        ("148 dir 2yd", "word 3", "'2yd' is no direction"),
        ("148 mark", "word 2", "both its places"),
        ("148 mark 5t", "word 3", "both its places"),
        ("148 mark 5t 3t", "word 4", "'3t'"),
        ("148 mark -5t 3h", "word 3", "sign and a side"),
        ("148 mark 5q 3h", "word 3", "'5q'"),
        ("148 mark 99t 0h", "word 4", "beside the head"),
        ("148 mark toe heel", "word 4", "no one place"),
        ("148 mark toe mark heel", "word 4", "a mark already"),
        ("elm birch 148", "word 2", "second club"),
        ("148 club", "word 2", "no club"),
        ("elm", "line", "no number"),
        ("", "line", "no number"),
        ("1" * 400, "line", "too long"),
        ("148 \x00", "line", "no character"),
    ],
)
def test_what_is_not_understood_is_named(text: str, place: str, says: str) -> None:
    error = refusal(text)
    assert error.place == place
    assert says in error.message


def test_the_nearest_word_is_named() -> None:
    assert "spin" in refusal("148 sping 2500").mend


@pytest.mark.parametrize("word", WORDS)
def test_every_word_of_the_table_takes_a_number(word: str) -> None:
    key = LineOrder().key(WORDS[word])
    assert refusal(f"{word} 999999").message.endswith(key.unit)


@pytest.mark.parametrize("text", ["speed speed", "speed wind", ""])
def test_an_order_that_cannot_be_is_refused(text: str) -> None:
    with pytest.raises(IntakeError, match="order"):
        read_order(text)


def test_an_order_has_units_that_can_be() -> None:
    with pytest.raises(IntakeError, match="cannot be typed in yd"):
        LineOrder(units={"ball speed": "yd"})
    with pytest.raises(IntakeError, match="cannot be typed"):
        LineOrder(columns=("club",))


def test_plain_heights_are_feet_unless_units_are_metric() -> None:
    assert LineOrder().key("peak height").unit == "ft"
    assert LineOrder(units=METRIC).key("peak height").unit == "m"
    assert keys_of("peak height").keys() == {"yd", "ft", "m"}
