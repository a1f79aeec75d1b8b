"""What is believed before anything is read."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.arrays import frozen_array
from loftwright.errors import InputError
from loftwright.physics.bench.beliefs import SCALES, Beliefs, hats, unknowns


def test_a_driver_shaft_has_forty_seven_knots() -> None:
    layout = unknowns(1.143, Beliefs())
    assert layout.knots.size == 47
    assert layout.knots[-1] == pytest.approx(1.150)
    assert unknowns(1.150, Beliefs()).knots.size == 47


def test_the_mean_is_a_taper_from_butt_to_tip() -> None:
    layout = unknowns(1.150, Beliefs())
    bending = np.exp(layout.mean[layout.bending])
    assert (bending[0], bending[-1]) == pytest.approx((70.0, 23.0))
    assert np.diff(layout.mean[layout.bending], 2) == pytest.approx(0.0)
    assert [layout.scale(kind) for kind in SCALES] == list(range(96, 100))


def test_the_spread_is_the_sum_of_level_slope_wave_and_steps() -> None:
    layout = unknowns(1.150, Beliefs())
    covariance = layout.covariance[layout.bending, layout.bending]
    at_butt = 0.15**2 + 0.3**2 + 0.3**2 * 0.25 + 0.04**2
    assert covariance[0, 0] == pytest.approx(at_butt, rel=1e-8)
    apart = 0.5
    expected = (
        0.15**2 * np.exp(-(apart**2) / (2.0 * 0.2**2))
        + 0.3**2
        + 0.3**2 * (0.1 / 1.15 - 0.5) * (0.6 / 1.15 - 0.5)
        + 0.04**2 * np.exp(-apart / 0.1)
    )
    assert covariance[4, 24] == pytest.approx(expected, rel=1e-12)
    assert np.linalg.eigvalsh(layout.covariance).min() > 0.0
    assert (layout.covariance[layout.bending, layout.torsion] == 0.0).all()


def test_hats_add_up_to_one_and_are_linear() -> None:
    knots = frozen_array(0.025 * np.arange(47))
    points = frozen_array(np.linspace(0.0, 1.15, 301))
    assert hats(points, knots).sum(axis=-1) == pytest.approx(1.0)
    assert hats(points, knots) @ knots == pytest.approx(points)


@pytest.mark.parametrize(("name", "value"), [("rough", 0.0), ("level", -0.1), ("smooth", np.nan)])
def test_a_belief_that_is_none_is_refused(name: str, value: float) -> None:
    with pytest.raises(InputError, match="a positive figure"):
        replace(Beliefs(), **{name: value})  # type: ignore[arg-type]


def test_a_shaft_no_one_has_is_refused() -> None:
    with pytest.raises(InputError, match="mm or inches instead of m"):
        unknowns(45.0, Beliefs())
