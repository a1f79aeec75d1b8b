"""Fly one ball at a place."""

import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.home import STANDARD_TEMPERATURE, Turf
from loftwright.errors import InputError
from loftwright.services.flight import Flight, Launch, fly_ball

DRIVE = Launch(
    ball_speed=170.0 * MILE_PER_HOUR,
    launch=11.5 * DEGREE,
    spin=2200.0 * REVOLUTION_PER_MINUTE,
)


def at_sea(turf: Turf = Turf.NORMAL, wind_along: float = 0.0, wind_across: float = 0.0) -> Flight:
    """Fly the drive at sea level."""
    return fly_ball(
        DRIVE,
        temperature=STANDARD_TEMPERATURE,
        altitude=0.0,
        humidity=0.5,
        turf=turf,
        wind_along=wind_along,
        wind_across=wind_across,
    )


def test_the_usual_place_gives_the_reference_drive() -> None:
    # Self-consistent reference of the stated flight equations, high-order integration.
    flown = at_sea()
    assert flown.carry / YARD == pytest.approx(279.919, abs=0.1)
    assert flown.total / YARD == pytest.approx(310.348, abs=0.2)


def test_firmer_turf_runs_further_and_wind_acts_as_named() -> None:
    total = {turf: at_sea(turf=turf).total for turf in Turf}
    assert total[Turf.SOFT] < total[Turf.NORMAL] < total[Turf.FIRM]
    wind = 10.0 * MILE_PER_HOUR
    calm = at_sea()
    assert at_sea(wind_along=wind).carry > calm.carry
    assert at_sea(wind_across=wind).carry_offline > calm.carry_offline


def test_a_storm_is_refused() -> None:
    with pytest.raises(InputError, match="outside the flight model"):
        at_sea(wind_along=60.0 * MILE_PER_HOUR)
