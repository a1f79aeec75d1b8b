"""How single balls scatter: judged from the balls, the sooner the more numbers they give."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.domain.home import Home
from loftwright.evidence.compare import compare
from loftwright.evidence.visit import Beliefs
from loftwright.training.device import DEVICES
from loftwright.training.sequence import shuffled_blocks
from loftwright.training.world import World, simulate_fitting

CALM = World(device=DEVICES["ball-only"], mishits=0.0, misreads=0.0)
GOLFERS = range(1, 9)


def told_over_true(ability: str, balls: int, beliefs: Beliefs) -> np.ndarray:
    """Return the standard deviations told over those of sixty balls, by golfer and number."""
    found = []
    for number in GOLFERS:
        fitting = simulate_fitting(CALM, ability, number)
        order = shuffled_blocks(6, 60, np.random.default_rng(number))
        played = fitting.play(order)
        told = compare(played.take(np.arange(balls)), Home(), beliefs).visit.scatter
        means = np.array([played.launch[order == club].mean(axis=0) for club in range(6)])
        true = np.sqrt(((played.launch - means[order]) ** 2).sum(axis=0) / (60 - 6))
        found.append(np.sqrt(np.diag(told)) / true)
    return np.array(found)


@pytest.mark.parametrize(("ability", "widest"), [("tour", 1.25), ("high", 1.25)])
def test_twelve_balls_tell_a_steady_golfer_from_a_wild_one(ability: str, widest: float) -> None:
    ratio = told_over_true(ability, 12, Beliefs()).mean(axis=0)
    assert np.all(ratio < widest)
    assert np.all(ratio > 1.0 / widest)


def test_a_stated_ability_is_not_judged_anew_from_the_balls() -> None:
    fitting = simulate_fitting(CALM, "tour", 3)
    balls = fitting.play(shuffled_blocks(6, 12, np.random.default_rng(3)))
    scatter = [
        np.sqrt(np.diag(compare(balls, Home(), replace(Beliefs(), ability=one)).visit.scatter))
        for one in ("tour", "high")
    ]
    assert np.all(scatter[1] > 1.5 * scatter[0])
