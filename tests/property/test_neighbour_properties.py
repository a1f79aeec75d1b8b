"""Clubs that were not hit, whatever heads and shafts a fitting has."""

from functools import cache

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from loftwright.constants import DEGREE
from loftwright.domain.home import Home
from loftwright.evidence.clubs import ClubTraits, shares
from loftwright.evidence.compare import Comparison, compare
from loftwright.evidence.neighbours import Neighbour, beside
from loftwright.evidence.visit import Beliefs
from loftwright.training.device import DEVICES
from loftwright.training.sequence import shuffled_blocks
from loftwright.training.world import World, simulate_fitting

CLUBS = ("Own", "Ash", "Birch")
HIT = (
    ClubTraits(head="a", shaft="1"),
    ClubTraits(head="b", shaft="2"),
    ClubTraits(head="b", shaft="1"),
)
heads, shafts = st.sampled_from(["a", "b"]), st.sampled_from(["1", "2", "3"])
traits = st.builds(ClubTraits, head=heads, shaft=shafts)
neighbours = st.lists(
    st.one_of(
        traits.map(lambda one: Neighbour(name="", traits=one)),
        st.integers(0, 2).map(lambda i: Neighbour(name="", traits=HIT[i], base=CLUBS[i])),
    ),
    min_size=1,
    max_size=6,
)


@cache
def compared(device: str) -> Comparison:
    fitting = simulate_fitting(World(device=DEVICES[device], clubs=3), "mid", 4)
    balls = fitting.play(shuffled_blocks(3, 18, np.random.default_rng(3)))
    return compare(balls, Home(), Beliefs(traits=HIT))


def named(found: list[Neighbour], loft: float) -> tuple[Neighbour, ...]:
    doubt = (0.1, 0.0, 0.0, 0.0, loft * DEGREE, 0.001, 0.001)
    return tuple(
        Neighbour(name=f"built {place}", traits=one.traits, base=one.base, doubt=doubt)
        for place, one in enumerate(found)
    )


@given(st.lists(traits, min_size=1, max_size=8))
def test_shares_are_a_covariance(found: list[ClubTraits]) -> None:
    assert np.linalg.eigvalsh(shares(tuple(found))).min() > 0.0


@settings(deadline=None, max_examples=40)
@given(neighbours, st.floats(0.0, 0.5), st.sampled_from(["full", "no-marks", "ball-only"]))
def test_doubt_is_whole_and_no_club_that_was_hit_moves(
    found: list[Neighbour], loft: float, device: str
) -> None:
    comparison = compared(device)
    told = beside(comparison, HIT, named(found, loft))
    assert (told.value[:3] == comparison.value).all()
    assert (told.value_covariance[:3, :3] == comparison.value_covariance).all()
    spread = np.linalg.eigvalsh(told.value_covariance)
    assert spread.min() > -1e-9 * spread.max()
    assert np.isfinite(told.value).all()
    for result in told.results:
        assert result.value is not None
        assert result.value.sd > 0.0
