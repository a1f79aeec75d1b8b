"""A measured profile as a swing needs it, against a separate beam of the tests' own."""

import numpy as np
import pytest

from loftwright.physics.shaft.profile import uniform_mass_profile
from loftwright.physics.shaft_swing.basis import REFERENCE_SWUNG_HEAD
from loftwright.physics.shaft_swing.measured import swung
from loftwright.physics.shaft_swing.players import PLAYERS, Loading
from loftwright.physics.shaft_swing.swings import swing
from swung_shafts import SHAFT_MASS, STATIONS, STIFFNESS, shaft

TORSION = np.linspace(38.0, 10.0, len(STATIONS))
MEASURED = swung(
    uniform_mass_profile(STATIONS, STIFFNESS, TORSION, SHAFT_MASS), REFERENCE_SWUNG_HEAD
)


def test_a_measured_shaft_swings_at_the_frequencies_of_a_separate_beam() -> None:
    """Self-consistent: 4.594, 63.7 and 169.6 Hz by a prototype of the same equations."""
    found = MEASURED.frequencies / (2.0 * np.pi)
    assert found == pytest.approx([4.594, 63.7, 169.6], rel=1e-3)
    assert MEASURED.frequencies == pytest.approx(shaft().frequencies, rel=1e-4)


@pytest.mark.parametrize("loading", Loading)
def test_a_measured_shaft_comes_to_the_ball_as_a_separate_beam_does(loading: Loading) -> None:
    found, expected = (swing(one, PLAYERS[loading]) for one in (MEASURED, shaft()))
    assert found.head_speed == pytest.approx(expected.head_speed, abs=1e-3)
    assert found.delivered_loft == pytest.approx(expected.delivered_loft, abs=1e-5)
    assert found.droop_angle == pytest.approx(expected.droop_angle, abs=1e-5)
