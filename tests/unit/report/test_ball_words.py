"""One ball in words and keys."""

from math import nan

from loftwright.constants import DEGREE, FOOT, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.physics.flight import Flight
from loftwright.physics.impact import REFERENCE_HEAD, Delivery, strike
from loftwright.report.ball_words import flight_lines, flight_record, impact_lines, impact_record


def flown(total: float = 245.0, warnings: tuple[str, ...] = ()) -> Flight:
    return Flight(
        carry=231.0 * YARD,
        total=total * YARD,
        carry_offline=-3.2 * YARD,
        total_offline=-4.1 * YARD,
        peak_height=88.0 * FOOT,
        flight_time=6.42,
        landing_angle=37.4 * DEGREE,
        landing_speed=66.0 * MILE_PER_HOUR,
        landing_spin=1954.0 * REVOLUTION_PER_MINUTE,
        bounces=11,
        warnings=warnings,
    )


def test_a_flight_says_carry_run_and_side() -> None:
    lines = flight_lines(flown())
    assert lines[0] == "The ball carries 231 yd and runs 14 yd: 245 yd in all."
    assert "  Offline        3 yd left where it lands, 4 yd left where it stops" in lines
    assert "  Height         88 ft" in lines
    assert "  Landing        37.4° down, 66.0 mph, 1950 rpm" in lines
    assert "  On the ground  11 bounces" in lines


def test_a_topped_ball_has_no_total_and_says_why() -> None:
    topped = flown(nan, ("Topped: no total is given.",))
    lines = flight_lines(topped)
    assert lines[0] == "The ball carries 231 yd; no total can be given."
    assert "  Topped: no total is given." in lines
    record = flight_record(topped)
    assert record["total_yd"] is None
    assert record["warnings"] == ["Topped: no total is given."]


def test_a_flight_has_every_promised_key_in_trade_units() -> None:
    assert flight_record(flown()) == {
        "carry_yd": 231.0,
        "total_yd": 245.0,
        "carry_offline_yd": -3.2,
        "total_offline_yd": -4.1,
        "peak_height_yd": round(88.0 / 3.0, 9),
        "flight_time_s": 6.42,
        "landing_angle_deg": 37.4,
        "landing_speed_mph": 66.0,
        "landing_spin_rpm": 1954.0,
        "bounces": 11,
        "warnings": [],
    }


def test_an_impact_has_every_promised_key_and_its_own_axis() -> None:
    impact = strike(
        REFERENCE_HEAD,
        Delivery(
            head_speed=100.0 * MILE_PER_HOUR,
            attack=0.0,
            path=0.0,
            face=2.0 * DEGREE,
            loft=13.0 * DEGREE,
        ),
    )
    record = impact_record(impact)
    assert list(record) == [
        "ball_speed_mph",
        "launch_deg",
        "direction_deg",
        "spin_rpm",
        "axis_deg",
        "speed_ratio",
        "warnings",
    ]
    assert record["axis_deg"] == round(impact.axis / DEGREE, 9)
    lines = impact_lines(impact)
    assert lines[0].startswith("The ball leaves at 14")
    assert any(line.endswith("R, across the launch direction") for line in lines)
    assert any(line.startswith("  Start line") and line.endswith("° R") for line in lines)


def test_a_straight_ball_has_no_side() -> None:
    impact = strike(
        REFERENCE_HEAD,
        Delivery(
            head_speed=100.0 * MILE_PER_HOUR, attack=0.0, path=0.0, face=0.0, loft=13.0 * DEGREE
        ),
    )
    assert "  Start line                 0.0°" in impact_lines(impact)
