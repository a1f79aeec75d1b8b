"""What must hold of any comparison that starts from what a shop has learned."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fittings import made_balls
from loftwright.domain.home import Home
from loftwright.evidence.balls import Balls
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.compare import Comparison, compare
from loftwright.evidence.neighbours import Neighbour, beside
from loftwright.evidence.shop_beliefs import ShopBeliefs
from loftwright.evidence.visit import Beliefs
from loftwright.physics.heads import REFERENCE_HEAD
from shop_told import mirrored, of_those_hit, reordered, told

TRAITS = (
    ClubTraits(head="own", shaft="otter"),
    ClubTraits(head="demo", shaft="heron"),
    ClubTraits(head="demo", shaft="badger"),
    ClubTraits(head="own", shaft="badger"),
)
UNHIT = (
    Neighbour(name="crossed", traits=ClubTraits(head="own", shaft="heron")),
    Neighbour(name="new", traits=ClubTraits(head="demo", shaft="kestrel")),
)
EVERYONE = (*TRAITS, *(one.traits for one in UNHIT))

seeds = st.integers(min_value=0, max_value=10_000)
measured = {
    "missing_marks": st.sampled_from([0.0, 0.3, 1.0]),
    "delivery": st.booleans(),
}


def compared(balls: Balls, shop: ShopBeliefs, traits: tuple[ClubTraits, ...]) -> Comparison:
    return compare(balls, Home(), Beliefs(traits=traits, shop=shop))


@settings(max_examples=12, deadline=None)
@given(seed=seeds, order=st.permutations(range(4)), **measured)
def test_relabelling_the_clubs_changes_nothing_but_their_places(
    seed: int, order: list[int], missing_marks: float, *, delivery: bool
) -> None:
    balls = made_balls(seed, missing_marks=missing_marks, delivery=delivery)
    shop = told(seed, balls, TRAITS)
    place = np.argsort(order)
    other = replace(
        balls,
        clubs=tuple(balls.clubs[club] for club in order),
        own=int(place[0]),
        club=place[balls.club],
    )
    traits = tuple(TRAITS[club] for club in order)
    first, second = compared(balls, shop, TRAITS), compared(other, reordered(shop, order), traits)
    assert second.value == pytest.approx(first.value[order], rel=1e-9, abs=1e-9)
    assert second.value_covariance == pytest.approx(
        first.value_covariance[np.ix_(order, order)], rel=1e-6, abs=1e-9
    )


@settings(max_examples=12, deadline=None)
@given(seed=seeds, **measured)
def test_a_left_handed_golfer_is_a_right_handed_one_in_a_mirror(
    seed: int, missing_marks: float, *, delivery: bool
) -> None:
    balls = made_balls(seed, missing_marks=missing_marks, delivery=delivery)
    shop = told(seed, balls, TRAITS)
    left = replace(
        balls,
        launch=balls.launch * [1.0, 1.0, 1.0, -1.0, -1.0],
        delivery=balls.delivery * [1.0, 1.0, -1.0, -1.0],
        marks=balls.marks * [-1.0, 1.0],
    )
    right = compared(balls, shop, TRAITS)
    beliefs = Beliefs(traits=TRAITS, shop=mirrored(shop), head=REFERENCE_HEAD.mirrored())
    other = compare(left, Home(), beliefs)
    assert other.value == pytest.approx(right.value, rel=1e-7, abs=1e-7)
    assert other.visit.swung.launches == pytest.approx(
        right.visit.swung.launches * [1.0, 1.0, 1.0, -1.0, -1.0], rel=1e-7, abs=1e-9
    )


@settings(max_examples=8, deadline=None)
@given(seed=seeds, **measured)
def test_a_club_that_was_not_hit_is_what_a_fit_with_it_and_without_a_ball_comes_to(
    seed: int, missing_marks: float, *, delivery: bool
) -> None:
    balls = made_balls(seed, missing_marks=missing_marks, delivery=delivery)
    everyone = told(seed, balls, EVERYONE)
    comparison = compared(balls, of_those_hit(everyone, len(TRAITS)), TRAITS)
    found = beside(comparison, TRAITS, UNHIT, everyone)
    whole = compared(
        replace(balls, clubs=(*balls.clubs, *(one.name for one in UNHIT))), everyone, EVERYONE
    )
    fitted = whole.visit.same
    assert found.same.launches == pytest.approx(fitted.launches, rel=1e-8, abs=1e-9)
    scale = np.abs(fitted.covariance).max()
    assert np.abs(found.same.covariance - fitted.covariance).max() < 1e-8 * scale
