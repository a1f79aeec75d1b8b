"""One ball in words and in keys: its launch from an impact, and its flight."""

from math import isfinite

from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.physics.flight import Flight
from loftwright.physics.impact import Impact
from loftwright.report.layout import facts, notes
from loftwright.report.numbers import count, fixed
from loftwright.report.records import Record, rounded
from loftwright.report.screen_numbers import TRADE


def flight_record(flight: Flight) -> Record:
    """Return a flight with the keys of `loftwright flight`."""
    return {
        "carry_yd": rounded(flight.carry, YARD),
        "total_yd": rounded(flight.total, YARD),
        "carry_offline_yd": rounded(flight.carry_offline, YARD),
        "total_offline_yd": rounded(flight.total_offline, YARD),
        "peak_height_yd": rounded(flight.peak_height, YARD),
        "flight_time_s": rounded(flight.flight_time),
        "landing_angle_deg": rounded(flight.landing_angle, DEGREE),
        "landing_speed_mph": rounded(flight.landing_speed, MILE_PER_HOUR),
        "landing_spin_rpm": rounded(flight.landing_spin, REVOLUTION_PER_MINUTE),
        "bounces": flight.bounces,
        "warnings": list(flight.warnings),
    }


def flight_lines(flight: Flight) -> list[str]:
    """Return a flight in words: the answer, the figures behind it, what to mind."""
    carried = f"The ball carries {TRADE.yards(flight.carry)}"
    has_total = isfinite(flight.total)
    if has_total:
        _, run = TRADE.carry_and_run(flight.carry, flight.total)
        answer = f"{carried} and runs {run} yd: {TRADE.yards(flight.total)} in all."
    else:
        answer = f"{carried}; no total can be given."
    offline = f"{TRADE.sideways(flight.carry_offline)} where it lands"
    if has_total:
        offline += f", {TRADE.sideways(flight.total_offline)} where it stops"
    rows = [
        ("Offline", offline),
        ("Height", TRADE.height(flight.peak_height)),
        (
            "Landing",
            f"{TRADE.angle(flight.landing_angle)} down, {TRADE.speed(flight.landing_speed)}, "
            f"{TRADE.spin(flight.landing_spin)}",
        ),
        ("In the air", f"{fixed(flight.flight_time, 1)} s"),
        ("On the ground", count(flight.bounces, "bounce")),
    ]
    return [answer, "", *facts(rows), *notes(flight.warnings)]


def impact_record(impact: Impact) -> Record:
    """Return the launch of a ball with the keys of `loftwright impact`."""
    return {
        "ball_speed_mph": rounded(impact.ball_speed, MILE_PER_HOUR),
        "launch_deg": rounded(impact.launch, DEGREE),
        "direction_deg": rounded(impact.direction, DEGREE),
        "spin_rpm": rounded(impact.spin, REVOLUTION_PER_MINUTE),
        "axis_deg": rounded(impact.axis, DEGREE),
        "speed_ratio": rounded(impact.speed_ratio),
        "warnings": list(impact.warnings),
    }


def impact_lines(impact: Impact) -> list[str]:
    """Return the launch of a ball in words: the answer, the figures behind it, what to mind."""
    answer = (
        f"The ball leaves at {TRADE.speed(impact.ball_speed)}, {TRADE.angle(impact.launch)} up, "
        f"with {TRADE.spin(impact.spin)}."
    )
    rows = [
        ("Start line", _turned(impact.direction)),
        ("Spin axis", f"{_turned(impact.axis)}, across the launch direction"),
        ("Ball speed per club speed", fixed(impact.speed_ratio, 3)),
    ]
    return [answer, "", *facts(rows), *notes(impact.warnings)]


def _turned(value: float) -> str:
    """Return an angle to the side with L or R."""
    size = TRADE.angle(abs(value))
    if size == TRADE.angle(0.0):
        return size
    return f"{size} {'R' if value > 0.0 else 'L'}"
