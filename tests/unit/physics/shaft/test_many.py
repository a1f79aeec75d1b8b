"""The rack at once against one shaft at a time."""

import numpy as np
import pytest

from bench_shafts import FIVE_INCHES, REFERENCE, WEIGHT, section_firmer
from loftwright.constants import INCH
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.shaft import many
from loftwright.physics.shaft.deflection import tip_slope, twist
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.many import screen
from loftwright.physics.shaft.profile import stiffened, trimmed

RACK = [
    REFERENCE,
    trimmed(REFERENCE, tip=1.0 * INCH),
    stiffened(REFERENCE, np.linspace(1.2, 0.8, 13)),
    section_firmer(REFERENCE, "upper middle"),
    section_firmer(REFERENCE, "tip"),
]


def test_a_rack_is_read_as_its_shafts_are() -> None:
    found = screen(RACK, FIVE_INCHES, WEIGHT, 1.0 * INCH)
    for place, shaft in enumerate(RACK):
        assert found.frequencies[place] == pytest.approx(
            frequency(shaft, FIVE_INCHES, WEIGHT), rel=1e-9
        )
        assert found.tip_slopes[place] == tip_slope(shaft, FIVE_INCHES)
        assert found.twists[place] == twist(shaft, 5.0 * INCH, shaft.length - 1.0 * INCH, 1.0)


def test_an_empty_rack_is_said_to_be_empty() -> None:
    with pytest.raises(InputError, match="no shaft to screen"):
        screen([], FIVE_INCHES, WEIGHT, 0.0)


def test_a_mode_that_does_not_settle_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(many, "MOST_STEPS", 1)
    with pytest.raises(ConvergenceError, match="did not settle in 1 steps"):
        screen(RACK[:1], FIVE_INCHES, WEIGHT, 0.0)
