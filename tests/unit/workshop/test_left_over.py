"""What is left over of loft and face does to the ball."""

import pytest

from loftwright.constants import DEGREE, REVOLUTION_PER_MINUTE
from loftwright.workshop.left_over import delivery_of, effect
from ordered import PROMISE


def test_the_delivery_is_that_of_the_promised_ball() -> None:
    found = delivery_of(PROMISE)
    assert found.head_speed == pytest.approx(46.0, abs=1.0)
    assert found.face == pytest.approx(0.0, abs=1e-9)
    assert 12.5 * DEGREE < found.loft < 16.0 * DEGREE


def test_four_tenths_of_loft_are_three_tenths_of_launch_and_eighty_turns_of_spin() -> None:
    """Self-consistent: about 0.82 deg of launch and 200 rpm a degree of loft."""
    found = effect(delivery_of(PROMISE), 0.4 * DEGREE)
    assert found.launch == pytest.approx(0.33 * DEGREE, abs=0.02 * DEGREE)
    assert found.spin == pytest.approx(80.0 * REVOLUTION_PER_MINUTE, rel=0.1)
    assert found.direction == pytest.approx(0.0, abs=1e-6)
    assert found.ball_speed < 0.0


def test_less_loft_does_the_contrary() -> None:
    delivery = delivery_of(PROMISE)
    more, less = effect(delivery, 0.5 * DEGREE), effect(delivery, -0.5 * DEGREE)
    assert less.launch == pytest.approx(-more.launch, rel=0.02)
    assert less.spin == pytest.approx(-more.spin, rel=0.02)


def test_an_open_face_starts_the_ball_to_its_own_side() -> None:
    found = effect(delivery_of(PROMISE), 0.0, 1.0 * DEGREE)
    assert found.direction == pytest.approx(0.82 * DEGREE, abs=0.03 * DEGREE)
