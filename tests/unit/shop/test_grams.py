"""What is left of the sums beyond physics is what would be left of every ball."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.arrays import FloatArray, frozen_array, frozen_index
from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.evidence.balls import Balls
from loftwright.shop.cells import FittingSums, fittings_of
from loftwright.shop.columns import DELIVERY, FEATURES, RESPONSES
from loftwright.shop.grams import grams_of, launch_gram, swing_gram
from loftwright.shop.physics import COLUMNS, Physics, golfers_delivery, physics_at
from loftwright.shop.record import Recorded
from shop_samples import a_fitting, shaft_effects, sums

pytest.importorskip("ibis")

# Right-handed, so that the balls are in the golfer's signs.
SHIFT = (0.5 * MILE_PER_HOUR, 0.1 * DEGREE, 0.1 * DEGREE, -0.2 * DEGREE, 0.7 * DEGREE)
PLAIN = replace(a_fitting(1, shaft_effects(3)), shifts={"Ash": SHIFT})


def told(recorded: Recorded) -> tuple[FittingSums, Physics]:
    (one,) = fittings_of(sums([recorded]))
    return one, physics_at(golfers_delivery(one.delivery))


def delivery(balls: Balls) -> FloatArray:
    """Return head speed, attack, face to path and face from their origins, by ball."""
    speed, attack, path, face = balls.delivery.T
    read = np.column_stack([speed, attack, face - path, face])
    return np.asarray((read - [one.origin for one in DELIVERY]) / [one.unit for one in DELIVERY])


def scaled(balls: Balls) -> FloatArray:
    origins, units = ([getattr(one, name) for one in RESPONSES] for name in ("origin", "unit"))
    return np.asarray((balls.launch - origins) / units)


def test_physics_is_taken_off_every_ball() -> None:
    """Sums that do not need the strike, which only the sums know: of order, who hit, delivery."""
    balls = PLAIN.balls
    fitting, physics = told(PLAIN)
    gram = launch_gram(fitting, physics)
    read = delivery(balls)
    middle = read - read.mean(axis=0)
    places = [FEATURES.index(one.column) for one in DELIVERY]
    order = np.column_stack([np.exp(-balls.order / 8.0), balls.order / 60.0])
    assert gram.gram[np.ix_(places, places)] == pytest.approx(middle.T @ middle, abs=1e-8)
    assert gram.gram[np.ix_(places, [9, 10])] == pytest.approx(middle.T @ order, abs=1e-8)
    raw = gram_without_strike(fitting, physics)
    left = scaled(balls) - physics.slopes[0] - middle @ physics.slopes[places]
    hit = np.eye(4)[balls.club][:, [balls.clubs.index(club) for club in gram.clubs]]
    left -= np.outer(balls.club == balls.clubs.index("Ash"), physics.launch_of(shift()))
    assert raw[len(FEATURES) :] == pytest.approx(hit.T @ left, abs=1e-7)
    assert raw[places] == pytest.approx(middle.T @ left, abs=1e-7)


def shift() -> FloatArray:
    return np.asarray(np.array(SHIFT) / [MILE_PER_HOUR, *4 * [DEGREE]])


def gram_without_strike(fitting: FittingSums, physics: Physics) -> FloatArray:
    """Return the cross sums with strike counted as if launch did not follow it."""
    slopes = physics.slopes.copy()
    slopes[1:5] = 0.0
    return launch_gram(fitting, replace(physics, slopes=frozen_array(slopes))).cross


def test_a_club_is_expected_to_do_from_the_same_swing_what_its_loft_does() -> None:
    _, physics = told(PLAIN)
    assert physics.launch_of(shift()) == pytest.approx(0.7 * physics.at.parts[:, 4])


def test_what_a_club_is_expected_to_do_to_the_swing_is_taken_off_it() -> None:
    fitting, physics = told(PLAIN)
    bare = swing_gram(fitting, physics)
    fitting, physics = told(replace(PLAIN, shifts={}))
    whole = swing_gram(fitting, physics)
    row = 3 + whole.clubs.index("Ash")
    change = (whole.cross - bare.cross)[row] / whole.gram[row, row]
    assert change == pytest.approx([0.5, 0.1, -0.3, -0.2, 0.0, 0.0], abs=1e-9)
    other = 3 + whole.clubs.index("Birch")
    assert whole.cross[other] == pytest.approx(bare.cross[other])


def test_slopes_that_a_head_is_known_by_are_taken_off_too() -> None:
    fitting, physics = told(PLAIN)
    more = 0.1 * np.ones((len(FEATURES), len(RESPONSES)))
    more[0] = 0.0
    added = launch_gram(fitting, replace(physics, slopes=frozen_array(physics.slopes + more)))
    known = launch_gram(fitting, physics, {"H": more})
    other = launch_gram(fitting, physics, {"K": more})
    assert known.cross == pytest.approx(added.cross)
    assert other.cross == pytest.approx(launch_gram(fitting, physics).cross)


def test_of_several_visits_only_what_is_within_each_counts() -> None:
    """A device that reads all balls of one visit otherwise changes nothing."""
    twice = replace(
        PLAIN,
        bays=("Bay 1", "Bay 1"),
        devices=("Slate", "Quill"),
        balls=replace(PLAIN.balls, visit=frozen_index(np.repeat([0, 1], 20))),
    )
    launch = PLAIN.balls.launch.copy()
    launch[20:] += [1.0, 0.0, 20.0, 0.02, 0.01]
    biased = replace(twice, balls=replace(twice.balls, launch=frozen_array(launch)))
    fitting, physics = told(twice)
    one = launch_gram(fitting, physics)
    other = launch_gram(told(biased)[0], physics)
    assert one.balls == 38
    assert other.cross == pytest.approx(one.cross, abs=1e-7)
    assert other.squares == pytest.approx(one.squares, abs=1e-6)
    assert not np.allclose(one.cross, launch_gram(told(PLAIN)[0], physics).cross)


def test_without_physics_sums_are_as_they_were_summed() -> None:
    (raw,) = grams_of(sums([PLAIN]))
    assert raw.squares == pytest.approx(scaled(PLAIN.balls).T @ scaled(PLAIN.balls))
    assert raw.balls == 40


def test_a_golfers_loft_is_the_one_that_the_mean_launch_asks_for() -> None:
    fitting, physics = told(PLAIN)
    assert physics.at.origin[1] == pytest.approx(fitting.delivery[4], abs=0.05 * DEGREE)
    assert COLUMNS.unmeasured == (False, False, False, False, True)
