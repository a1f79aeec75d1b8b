"""A sleeve that sat one step weak: what it adds by the convention that squares the face.

Self-consistent: 1.5 deg of bore to the target on a head of 10.5 deg loft and 58 deg lie gives
1.77 deg of loft, and the impact model about 1.45 deg of launch and 380 rpm at the centre.
"""

import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.physics.heads import REFERENCE_HEAD
from loftwright.physics.impact import Delivery, Impact, strike
from loftwright.physics.sleeve import Bore, Convention, turned


def drive(added: float) -> Impact:
    delivery = Delivery(
        head_speed=113.0 * MILE_PER_HOUR,
        attack=1.0 * DEGREE,
        path=0.0,
        face=0.0,
        loft=13.0 * DEGREE + added,
    )
    return strike(REFERENCE_HEAD, delivery)


def test_one_step_weak_adds_launch_and_spin() -> None:
    bore = Bore(angle=1.5 * DEGREE, azimuth=0.0)
    added = turned(10.5 * DEGREE, 58.0 * DEGREE, 0.0, bore, Convention.C).loft - 10.5 * DEGREE
    assert added / DEGREE == pytest.approx(1.77, abs=0.005)
    planned, found = drive(0.0), drive(added)
    assert (found.launch - planned.launch) / DEGREE == pytest.approx(1.45, abs=0.02)
    more_spin = (found.spin - planned.spin) / REVOLUTION_PER_MINUTE
    assert more_spin == pytest.approx(380.0, abs=5.0)
