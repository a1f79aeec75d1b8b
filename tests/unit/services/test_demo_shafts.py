"""The invented shafts read on a bench as they were invented to.

Self-consistent: frequency and torque were computed with an independent program, to a unit of the
last digit.
"""

import numpy as np
import pytest

from loftwright.constants import (
    CYCLE_PER_MINUTE,
    DEGREE,
    FOOT_POUND,
    GRAM,
    INCH,
    MILLIMETRE,
)
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.deflection import twist
from loftwright.physics.shaft.frequency import frequency
from loftwright.physics.shaft.mount import Mount
from loftwright.services.demo_rack import SHAFTS
from loftwright.services.demo_shafts import DEMO_SHAFTS, MAKER

# cycles a minute, degrees at 1 ft lb, grams, balance point in mm from the butt
FIGURES = {
    "Heron": (258.45, 4.186, 62.0, 577.3),
    "Badger": (267.91, 3.713, 66.0, 560.4),
    "Kestrel": (255.01, 4.495, 58.0, 577.3),
    "Otter": (231.64, 5.207, 52.0, 591.4),
    "Ibex": (263.83, 3.713, 70.0, 571.4),
    "Linnet": (253.57, 4.27, 60.0, 577.3),
}
SHAFTS_BY_NAME = {shaft.name: shaft for shaft in DEMO_SHAFTS}


@pytest.mark.parametrize("name", FIGURES)
def test_an_invented_shaft_reads_as_it_was_invented_to(name: str) -> None:
    cycles, degrees, grams, balance = FIGURES[name]
    shaft = SHAFTS_BY_NAME[name].profile
    mount, weight = Mount(clamp=127.0 * MILLIMETRE), TipBody(mass=205.0 * GRAM)
    found = frequency(shaft, mount, weight) / CYCLE_PER_MINUTE
    assert found == pytest.approx(cycles, abs=0.01)
    turned = twist(shaft, 127.0 * MILLIMETRE, shaft.length - 25.4 * MILLIMETRE, FOOT_POUND)
    assert turned / DEGREE == pytest.approx(degrees, abs=1e-3)
    assert shaft.mass / GRAM == pytest.approx(grams, abs=0.01)
    assert shaft.balance / MILLIMETRE == pytest.approx(balance, abs=0.1)


def test_invented_shafts_are_plainly_invented_and_all_different() -> None:
    assert MAKER == SHAFTS
    assert "invented" in MAKER
    assert len(SHAFTS_BY_NAME) == 6
    butts = [float(shaft.diameter[0]) / INCH for shaft in DEMO_SHAFTS]
    assert sorted(np.round(butts, 3)) == [0.6] * 5 + [0.62]
