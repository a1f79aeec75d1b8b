"""What must hold of swings for any shaft and player in range."""

from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from loftwright.constants import MILE_PER_HOUR
from loftwright.evidence.shaft_prior import Effect, shaft_prior
from loftwright.physics.shaft_swing.basis import REFERENCE_SWUNG_HEAD, ShaftBasis, swing_basis
from loftwright.physics.shaft_swing.bracket import brackets
from loftwright.physics.shaft_swing.matching import matched
from loftwright.physics.shaft_swing.players import PLAYERS, Loading
from loftwright.physics.shaft_swing.swings import swing
from swung_shafts import beam_shapes, profile_of, shaft

few = settings(deadline=None, max_examples=10)
factors = st.floats(0.8, 1.25)
loadings = st.sampled_from(list(Loading))
speeds = st.floats(80.0, 122.0).map(lambda mph: mph * MILE_PER_HOUR)


def scaled(factor: float) -> ShaftBasis:
    stiffness = profile_of("reference")
    return swing_basis(beam_shapes(lambda x: factor * stiffness(x)), REFERENCE_SWUNG_HEAD)


@few
@given(factors)
def test_frequencies_grow_by_the_root_of_the_stiffness(factor: float) -> None:
    expected = shaft().frequencies * sqrt(factor)
    assert scaled(factor).frequencies == pytest.approx(expected, rel=1e-6)


@few
@given(factors, factors, loadings)
def test_a_stiffer_shaft_lags_less(one: float, other: float, loading: Loading) -> None:
    soft, stiff = sorted((one, other))
    lags = [swing(scaled(factor), PLAYERS[loading]).lag for factor in (soft, stiff)]
    assert lags[0] >= lags[1] - 1e-8


@few
@given(factors, loadings, speeds)
def test_a_change_and_its_way_back_cancel(factor: float, loading: Loading, speed: float) -> None:
    player, other = matched(PLAYERS[loading], shaft(), speed), scaled(factor)
    forth = brackets([other], shaft(), player)[0].held_torques
    back = brackets([shaft()], other, player)[0].held_torques
    assert forth.delivered_loft == -back.delivered_loft
    assert forth.head_speed == -back.head_speed


@few
@given(factors, loadings, speeds)
def test_no_prior_of_a_stiffness_is_sure_of_loft_or_speed(
    factor: float, loading: Loading, speed: float
) -> None:
    """The prior must stay weak: no stiffness along the whole shaft is told apart beforehand."""
    player = matched(PLAYERS[loading], shaft(), speed)
    found = brackets([scaled(factor)], shaft(), player)[0]
    beliefs = shaft_prior({loading: found}, factor - 1.0)
    assert abs(beliefs[Effect.HEAD_SPEED].mean) < 0.5 * MILE_PER_HOUR
    assert not beliefs[Effect.HEAD_SPEED].distinguishable
    assert not beliefs[Effect.DYNAMIC_LOFT].distinguishable
