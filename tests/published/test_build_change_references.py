"""What small changes of build do to head speed, against published measurements.

Read as abstracts only; ball to head speed and golfers' speed are from memory.
"""

import numpy as np
import pytest

from loftwright.constants import DEGREE, GRAM, INCH, MILE_PER_HOUR
from loftwright.evidence.build_changes import (
    FOUR_GRAMS,
    SPEED_OF_HEAD_MASS,
    SPEED_OF_LENGTH,
    SPEED_OF_SHAFT_MASS,
    head_mass_changed,
    length_changed,
    shaft_mass_changed,
)
from loftwright.physics.heads import REFERENCE_HEAD

BALL_TO_HEAD = 1.45
GOOD_GOLFER = 50.0


def test_length_adds_ball_speed_as_measured_within_its_doubt() -> None:
    """1.168 to 1.270 m: 1.8 m/s of ball (Kenny, Wallace & Otto 2008, Sports Biomech. 7(3):322)."""
    change = length_changed(1.270 - 1.168, GOOD_GOLFER)
    said, doubt = BALL_TO_HEAD * change.shift[0], BALL_TO_HEAD * change.doubt[0]
    assert said == pytest.approx(1.8, abs=doubt)
    assert said > 1.8


def test_a_longer_club_is_swung_faster_by_less_than_its_length() -> None:
    """With inertia to the power -0.26 (Cross & Bower 2006, J. Sports Sci. 24(1):23-30)."""
    by_law = (1.0 - 2.0 * 0.26) / (45.0 * INCH)
    assert SPEED_OF_LENGTH < by_law < 1.0 / (45.0 * INCH)


def test_mass_alone_changes_speed_little() -> None:
    """Speed stayed about the same with more mass at one inertia (Cross & Bower 2006)."""
    assert abs(SPEED_OF_SHAFT_MASS) * 10.0 * GRAM < 0.005


def test_half_an_inch_and_four_grams_of_a_mid_golfer() -> None:
    """Self-consistent: 0.39 and 0.15 mph at 94 mph."""
    speed = 94.0 * MILE_PER_HOUR
    length = length_changed(0.5 * INCH, speed).shift[0] / MILE_PER_HOUR
    mass = shaft_mass_changed(4.0 * GRAM, speed).shift[0] / MILE_PER_HOUR
    assert length == pytest.approx(0.39, abs=0.01)
    assert mass == pytest.approx(-0.15, abs=0.005)


def test_a_kilogram_of_head_slows_a_club_by_its_share_of_the_inertia() -> None:
    """Speed with inertia to the power -0.26 (Cross & Bower 2006); 200 g of head, 60 g of shaft."""
    before = (200.0 + 60.0 / 3.0) * 45.0**2
    after = (204.0 + 60.0 / 3.0) * 45.0**2
    by_law = (after / before) ** -0.26 - 1.0
    assert pytest.approx(by_law, rel=0.02) == SPEED_OF_HEAD_MASS * FOUR_GRAMS


def test_a_heavier_head_gives_the_ball_what_two_bodies_share() -> None:
    """(1 + e) M / (M + m), textbook: 0.36 % of ball speed for 4 g on 204 g (from memory)."""
    speed = 42.0
    straight = np.array([speed, 0.0, 0.0, 0.0, 1.0 * DEGREE])
    ball, head = 45.93, REFERENCE_HEAD.mass / GRAM
    by_law = (head + 4.0) / (head + 4.0 + ball) * (head + ball) / head - 1.0
    gain = head_mass_changed(FOUR_GRAMS, straight, REFERENCE_HEAD).launch[0] / (1.45 * speed)
    assert gain == pytest.approx(by_law, rel=0.1)
