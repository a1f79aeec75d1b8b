"""Launch numbers as vectors, and shots that have no run."""

from math import pi

import numpy as np
import pytest

from loftwright.constants import DEGREE
from loftwright.physics.tee import has_no_run, spin_axis, start_state


def test_a_ball_starts_along_its_launch_and_direction() -> None:
    x, y, z, vx, vy, vz, spin = start_state(60.0, 30.0 * DEGREE, 250.0, 10.0 * DEGREE)
    assert (x, y, z, spin) == (0.0, 0.0, 0.0, 250.0)
    assert vy == pytest.approx(30.0)
    assert vz / vx == pytest.approx(np.tan(10.0 * DEGREE))
    assert np.hypot(vx, vz) == pytest.approx(60.0 * np.cos(30.0 * DEGREE))


def test_pure_backspin_turns_about_the_right_of_the_start_line() -> None:
    assert spin_axis(0.0, 0.0) == (0.0, 0.0, 1.0)
    axis, start = spin_axis(0.0, 0.3), start_state(60.0, 0.2, 250.0, 0.3)
    lift = np.cross(axis, start[3:6])
    assert lift[1] > 0.0
    assert lift @ start[3:6] == pytest.approx(0.0, abs=1e-12)


def test_a_positive_tilt_pushes_to_the_right() -> None:
    push = np.cross(spin_axis(10.0 * DEGREE, 0.0), (60.0, 10.0, 0.0))
    assert push[2] > 0.0


@pytest.mark.parametrize(
    ("launch", "spin", "tilt", "topped"),
    [
        (0.2, 250.0, 0.0, False),
        (0.2, 250.0, 0.49 * pi, False),
        (0.2, 250.0, 0.5 * pi, False),
        (0.2, 250.0, 0.51 * pi, True),
        (0.2, 250.0, -pi, True),
        (0.2, 0.0, pi, False),
        (0.0, 250.0, 0.0, True),
        (-0.1, 250.0, 0.0, True),
    ],
)
def test_level_downward_and_topspin_shots_have_no_run(
    launch: float, spin: float, tilt: float, topped: bool
) -> None:
    for direction in (0.0, 0.4, -2.0):
        start = start_state(60.0, launch, spin, direction)
        assert has_no_run(start, spin_axis(tilt, direction)) is topped
