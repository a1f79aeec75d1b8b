"""How much spin a drive keeps.

Sources: Smits and Smith 1994 (decay 2.0e-5 times speed times spin over radius) and Penner 2001,
eq. (16): a drive lands with about three quarters of its spin. Tavares, Shannon and Melvin 1999
read 2.5e-5 from radar. Status: read second-hand.
"""

import pytest

from drives import conditions, drive
from loftwright.physics.flight import fly
from loftwright.physics.motion import rates


@pytest.mark.parametrize(
    ("ball_speed", "launch", "spin"), [(175.7, 10.0, 2520.0), (160, 12, 2600)]
)
def test_a_drive_lands_with_about_three_quarters_of_its_spin(
    ball_speed: float, launch: float, spin: float
) -> None:
    start = drive(ball_speed, launch, spin)
    kept = fly(start, conditions()).landing_spin / start.spin
    assert kept == pytest.approx(0.75, abs=0.05)


def test_the_rate_is_the_printed_one_in_air_of_the_density_it_was_measured_in() -> None:
    medium = conditions().medium
    printed = 2.0e-5 * 60.0 * 270.0 / (0.04267 / 2.0)
    found = -rates((0.0, 9.0, 0.0, 60.0, 0.0, 0.0, 270.0), (0.0, 0.0, 1.0), medium)[6]
    assert found == pytest.approx(printed * conditions().air.density / 1.20, rel=1e-9)
