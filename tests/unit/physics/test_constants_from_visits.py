"""The spin factor from the mean balls of several visits."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.constants import DEGREE
from loftwright.errors import EvidenceError
from loftwright.evidence.spreads import Spreads
from loftwright.physics.ball_reading import BallReading
from loftwright.physics.constants_from_balls import constants_from_visits
from loftwright.physics.delivery_belief import UNKNOWN_CLUB
from loftwright.physics.heads import REFERENCE_HEAD
from loftwright.physics.impact import strike_many
from loftwright.physics.impact_law import ImpactLaw
from loftwright.physics.usual_ball import usual_ball
from struck import USUAL

SPREAD = Spreads(factor=0.6).delivery
BEFORE = UNKNOWN_CLUB.sd("spin_factor")


def visit(seed: int, spin_factor: float) -> BallReading:
    """Return the mean ball of thirty marked shots whose delivery was measured."""
    rng = np.random.default_rng(seed)
    deliveries = rng.multivariate_normal(USUAL, SPREAD, 30)
    deliveries[:, 1] += rng.normal(0.0, 2.0 * DEGREE)
    law = ImpactLaw(spin_factor=spin_factor)
    launch = strike_many(REFERENCE_HEAD, deliveries, law)
    toe, high = deliveries[:, 5:].mean(axis=0)
    usual = usual_ball(launch, SPREAD, mark=(float(toe), float(high))).reading
    speed, attack, path = deliveries[:, :3].mean(axis=0)
    return replace(usual, head_speed=float(speed), attack=float(attack), path=float(path))


def visits(count: int, spin_factor: float) -> list[BallReading]:
    return [visit(seed, spin_factor) for seed in range(1, count + 1)]


@pytest.mark.parametrize("spin_factor", [0.77, 0.97])
def test_the_spin_factor_moves_towards_the_true_one(spin_factor: float) -> None:
    """Self-consistent: the balls were struck with it."""
    found = constants_from_visits(visits(4, spin_factor)).constants
    true = spin_factor - ImpactLaw().spin_factor
    told = float(found.mean[1])
    assert 0.3 * abs(true) < told * np.sign(true) < 1.05 * abs(true)
    assert abs(told - true) < 2.0 * found.sd("spin_factor")


def test_more_visits_tell_more_but_never_all() -> None:
    one, many = (
        constants_from_visits(visits(count, 0.87)).constants.sd("spin_factor") for count in (1, 12)
    )
    assert BEFORE > one > 1.03 * many
    assert many > 0.4 * BEFORE


def test_a_device_that_is_off_on_every_visit_is_not_averaged_away() -> None:
    found = constants_from_visits(visits(9, 0.87))
    alone = constants_from_visits(
        [replace(one, attack=(one.attack or 0.0) + 0.5 * DEGREE) for one in visits(9, 0.87)]
    )
    moved = alone.constants.mean[1] - found.constants.mean[1]
    assert moved == pytest.approx(0.5 * DEGREE * found.by_attack, rel=0.2)
    assert found.by_attack > 0.0


@pytest.mark.parametrize("lost", ["mark", "attack"])
def test_a_visit_without_mark_or_attack_teaches_nothing(lost: str) -> None:
    told = replace(visit(1, 0.87), **{lost: None})  # type: ignore[arg-type]
    with pytest.raises(EvidenceError, match="marked balls with their attack angle"):
        constants_from_visits([told])
    with pytest.raises(EvidenceError):
        constants_from_visits([])
