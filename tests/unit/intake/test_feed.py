"""One ball of a shot feed: keys, units, refusals, and the schema made from the same table."""

import json
from math import atan2, hypot, nan, radians

import pytest
from pydantic import ValidationError

from loftwright.constants import MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.numbers import FIELDS, ShotNumbers
from loftwright.errors import IntakeError
from loftwright.intake.feed import FeedShot, shot_from_record
from loftwright.intake.feed_keys import EXAMPLE, KEYS, NUMBER_KEYS, TEXT_KEYS
from loftwright.intake.feed_model import FEED_MODEL, feed_schema
from loftwright.intake.quantities import QUANTITIES


def ball(**keys: object) -> FeedShot:
    return shot_from_record({"key": "1", **keys})


def refusal(record: object) -> IntakeError:
    with pytest.raises(IntakeError) as caught:
        shot_from_record(record)
    assert caught.value.mend
    return caught.value


def test_the_example_is_read() -> None:
    shot = shot_from_record(dict(EXAMPLE))
    assert shot.key == "bay-1-0017"
    assert (shot.club, shot.time, shot.read) == ("Birch", "10:42:07", True)
    assert shot.problems == ()
    numbers = shot.numbers
    assert numbers.ball_speed == pytest.approx(148.2 * MILE_PER_HOUR)
    assert numbers.launch == pytest.approx(radians(12.1))
    assert numbers.direction == pytest.approx(radians(-2.0))
    assert numbers.spin == pytest.approx(2510.0 * REVOLUTION_PER_MINUTE)
    assert numbers.axis == pytest.approx(radians(8.0))
    measured = {"ball_speed", "launch", "direction", "spin", "axis"}
    assert {name for name in FIELDS if getattr(numbers, name) is not None} == measured


def test_the_whole_record_is_kept_as_the_devices_line() -> None:
    assert json.loads(shot_from_record(dict(EXAMPLE)).line) == dict(EXAMPLE)


def test_the_senders_own_line_is_kept_letter_for_letter() -> None:
    assert ball(carry_yd=240, line=" 240;;x ").line == " 240;;x "


def test_a_line_told_beside_the_record_is_kept() -> None:
    assert shot_from_record({"key": "1", "carry_yd": 240}, line="raw").line == "raw"


def test_every_field_of_a_ball_has_a_key() -> None:
    named = {QUANTITIES[key.means].field for key in NUMBER_KEYS.values()}
    assert named - {""} == set(FIELDS)


def test_a_key_ends_in_its_unit() -> None:
    endings = {"m/s": "ms", "km/h": "kmh"}
    for name, key in NUMBER_KEYS.items():
        assert name == f"{key.means.replace(' ', '_')}_{endings.get(key.unit, key.unit)}"


def test_speeds_in_three_units_are_one_speed() -> None:
    speeds = [
        ball(ball_speed_mph=148.0).numbers.ball_speed,
        ball(ball_speed_ms=148.0 * MILE_PER_HOUR).numbers.ball_speed,
        ball(ball_speed_kmh=148.0 * MILE_PER_HOUR * 3.6).numbers.ball_speed,
    ]
    assert speeds == pytest.approx([148.0 * MILE_PER_HOUR] * 3)


def test_two_units_of_one_quantity_may_each_be_rounded_and_the_finer_is_kept() -> None:
    assert ball(carry_yd=241, carry_m=220.4).numbers.carry == pytest.approx(220.4)
    assert ball(carry_yd=241.03, carry_m=220).numbers.carry == pytest.approx(241.03 * YARD)


def test_two_units_of_one_quantity_that_disagree_are_refused() -> None:
    error = refusal({"key": "1", "carry_yd": 240, "carry_m": 240})
    assert error.place == "carry_yd, carry_m"
    assert "240 yd and 240 m" in error.message


def test_spin_and_axis_follow_from_back_and_side_spin() -> None:
    numbers = ball(back_spin_rpm=2400, side_spin_rpm=700).numbers
    assert numbers.spin == pytest.approx(hypot(2400, 700) * REVOLUTION_PER_MINUTE)
    assert numbers.axis == pytest.approx(atan2(700, 2400))


def test_back_spin_alone_is_taken_for_spin_and_said() -> None:
    shot = ball(back_spin_rpm=2400)
    assert shot.numbers.spin == pytest.approx(2400 * REVOLUTION_PER_MINUTE)
    assert shot.numbers.axis is None
    assert "back spin alone" in shot.problems[0]


def test_an_axis_that_cannot_be_is_left_out_and_said() -> None:
    shot = ball(back_spin_rpm=-500, side_spin_rpm=100, ball_speed_mph=80)
    assert shot.numbers.axis is None
    assert shot.numbers.ball_speed == pytest.approx(80 * MILE_PER_HOUR)
    assert "axis" in shot.problems[0]


def test_face_follows_from_path_and_face_to_path() -> None:
    numbers = ball(path_deg=3.0, face_to_path_deg=-2.0).numbers
    assert numbers.face == pytest.approx(radians(1.0))


def test_a_ball_hit_and_not_read_has_no_launch_but_keeps_the_club() -> None:
    shot = ball(read=False, spin_rpm=2500, head_speed_mph=101, club="Elm")
    assert not shot.read
    assert shot.numbers == ShotNumbers(head_speed=101 * MILE_PER_HOUR)
    assert "spin" in shot.problems[0]


def test_a_ball_not_read_needs_no_number() -> None:
    assert ball(read=False).numbers == ShotNumbers()


def test_nothing_measured_may_be_sent_as_null() -> None:
    assert ball(carry_yd=240, spin_rpm=None, club=None).numbers.spin is None


def test_blanks_about_a_club_are_no_part_of_its_name() -> None:
    assert ball(carry_yd=240, club=" Elm ").club == "Elm"


@pytest.mark.parametrize(
    ("record", "place", "says"),
    [
        ([1], "ball", "a list"),
        (None, "ball", "None"),
        ({}, "key", "no key"),
        ({"key": "  ", "carry_yd": 240}, "key", "no key"),
        ({"key": 17, "carry_yd": 240}, "key", "17 is not text"),
        ({"key": "1"}, "ball", "no number"),
        ({"key": "1", "club": "Elm"}, "ball", "no number"),
        ({"key": "1", "spin_rpm": "2500"}, "spin_rpm", "'2500' is text"),
        ({"key": "1", "spin_rpm": True}, "spin_rpm", "True is not a number"),
        ({"key": "1", "spin_rpm": [2500]}, "spin_rpm", "a list is not a number"),
        ({"key": "1", "spin_rpm": {}}, "spin_rpm", "an object is not a number"),
        ({"key": "1", "spin_rpm": nan}, "spin_rpm", "finite"),
        ({"key": "1", "spin_rpm": float("-inf")}, "spin_rpm", "finite"),
        ({"key": "1", "spin_rpm": 10**400}, "spin_rpm", "0 to 15000 rpm"),
        ({"key": "1", "ball_speed_mph": 500}, "ball_speed_mph", "4.5 to 235 mph"),
        ({"key": "1", "ball_speed_ms": 148.2}, "ball_speed_ms", "2.012 to 105.1 m/s"),
        ({"key": "1", "carry_yd": 240, "club": 7}, "club", "7 is not text"),
        ({"key": "1", "carry_yd": 240, "club": "x" * 81}, "club", "81 characters"),
        ({"key": "a\x00b", "carry_yd": 240}, "key", "no character"),
        ({"key": "1", "carry_yd": 240, "line": "\ud800"}, "line", "no character"),
        ({"key": "1", "read": "no"}, "read", "'no' is neither"),
        ({"key": "1", "read": 0}, "read", "0 is neither"),
    ],
)
def test_a_ball_that_cannot_be_is_refused_by_key_and_value(
    record: object, place: str, says: str
) -> None:
    error = refusal(record)
    assert error.place == place
    assert says in error.message


def test_a_number_too_long_to_print_is_refused() -> None:
    assert "more than 60 digits" in refusal({"key": "1", "spin_rpm": 10**5000}).message


@pytest.mark.parametrize(
    ("key", "near"),
    [
        ("ball_speed", "ball_speed_mph or ball_speed_ms or ball_speed_kmh"),
        ("sping_rpm", "spin_rpm"),
        ("Carry_YD", "carry_yd"),
        ("clubs", "club"),
        ("x" * 100_000, ""),
        (17, ""),
    ],
)
def test_a_key_that_is_not_known_names_the_nearest(key: object, near: str) -> None:
    error = refusal({"key": "1", "carry_yd": 240, key: 1})
    assert "is not known" in error.message
    assert near in error.mend
    assert len(str(error)) < 300


def test_the_schema_has_the_keys_of_the_parser() -> None:
    schema = feed_schema()
    assert tuple(schema["properties"]) == KEYS
    assert schema["required"] == ["key"]
    assert schema["additionalProperties"] is False
    for name, key in NUMBER_KEYS.items():
        number = schema["properties"][name]["anyOf"][0]
        assert (number["minimum"], number["maximum"]) == (key.low, key.high)
    for name, text in TEXT_KEYS.items():
        said = schema["properties"][name]
        assert text.longest in {said.get("maxLength"), said.get("anyOf", [{}])[0].get("maxLength")}


def test_the_model_takes_what_the_parser_takes() -> None:
    model = FEED_MODEL.model_validate(dict(EXAMPLE))
    again = shot_from_record(model.model_dump(exclude_unset=True))
    assert again.numbers == shot_from_record(dict(EXAMPLE)).numbers


@pytest.mark.parametrize(
    "record",
    [
        {},
        {"key": " "},
        {"key": 1},
        {"key": "1", "spin_rpm": "2500"},
        {"key": "1", "spin_rpm": nan},
        {"key": "1", "spin_rpm": 15001},
        {"key": "1", "read": 1},
        {"key": "1", "wind": 3},
        {"key": "1", "club": "x" * 81},
    ],
)
def test_the_model_refuses_what_the_parser_refuses(record: dict[str, object]) -> None:
    refusal(record)
    with pytest.raises(ValidationError):
        FEED_MODEL.model_validate(record)


def test_a_key_names_a_unit_it_can_be_converted_from() -> None:
    for key in NUMBER_KEYS.values():
        low, high = QUANTITIES[key.means].limits
        assert key.low * key.scale == pytest.approx(low, rel=1e-3, abs=1e-9)
        assert key.high * key.scale == pytest.approx(high, rel=1e-3)
