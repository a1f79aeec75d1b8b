"""The steepest angle of the path of a drive.

Source: EP 4,218,964 A1, paragraphs 36 and 37: a governing body's trajectory program, fed with
range data of 19 balls at 260 ft/s, 15 degrees and 3000 rpm, gives greatest flight-path angles of
18.93 to 20.60 degrees. Status: read second-hand. Air of 75 degrees Fahrenheit at sea level is from
memory.
"""

import numpy as np

from drives import conditions
from loftwright.constants import DEGREE, FOOT, REVOLUTION_PER_MINUTE
from loftwright.physics.flight import Launch, follow

LAUNCH = Launch(ball_speed=260.0 * FOOT, launch=15.0 * DEGREE, spin=3000.0 * REVOLUTION_PER_MINUTE)


def test_the_path_of_a_ball_of_today_is_as_steep_as_those_of_the_nineteen() -> None:
    vx, vy, vz = follow(LAUNCH, conditions()).velocity.T
    steepest = np.arctan2(vy, np.hypot(vx, vz)).max() / DEGREE
    assert 18.93 <= steepest <= 20.60
