"""What follows a comparison by a shop's record: doubts, shares, the carry ranking, pick-ups."""

from dataclasses import replace

import numpy as np
import pytest

from fittings import made_balls
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE, YARD
from loftwright.domain.home import Home
from loftwright.domain.tolerances import Tolerances
from loftwright.errors import InputError
from loftwright.evidence.alarms import Alarm, alarms
from loftwright.evidence.balls import Balls
from loftwright.evidence.budget import Budget
from loftwright.evidence.build_limits import build_limits
from loftwright.evidence.clubs import ClubTraits
from loftwright.evidence.compare import compare, decide
from loftwright.evidence.device_carry import decide_on_carry
from loftwright.evidence.neighbours import Neighbour, beside
from loftwright.evidence.predict import NextBall, predict_ball
from loftwright.evidence.result import Decision
from loftwright.evidence.same_club import same_club
from loftwright.evidence.scales import LAUNCH_SCALE
from loftwright.evidence.shop_beliefs import ShopBeliefs
from loftwright.evidence.unhit_effects import KnownNext
from loftwright.evidence.visit import Beliefs, set_up
from shop_told import of_those_hit, physics_told, told

TRAITS = tuple(ClubTraits(head=f"head {one}", shaft=f"shaft {one}") for one in range(4))
WEAK = np.array([-3.0 * MILE_PER_HOUR, 7.0 * DEGREE, 1900.0 * REVOLUTION_PER_MINUTE, 0.0, 0.0])
"""What nine degrees more loft do to a drive."""


def ball_alone(seed: int, balls: int = 40) -> Balls:
    return made_balls(seed, balls=balls, missing_marks=1.0, delivery=False)


def knowing(balls: Balls, club: int, launch: np.ndarray, *, sure: float = 0.1) -> ShopBeliefs:
    """Return what a shop says that knows well what clubs do, which is nothing but of one."""
    plain = physics_told(balls, TRAITS)
    clubs = plain.clubs
    does = np.zeros_like(clubs.launch)
    does[:, club] = launch / LAUNCH_SCALE
    return replace(
        plain,
        clubs=replace(
            clubs,
            launch=does,
            launch_covariance=sure * clubs.launch_covariance,
            swing_covariance=sure * clubs.swing_covariance,
        ),
    )


def raised(balls: Balls, shop: ShopBeliefs) -> dict[str, Alarm]:
    setup = set_up(balls, Beliefs(traits=TRAITS, shop=shop))
    return {one.kind: one for one in alarms(setup)}


@pytest.mark.parametrize("seed", [2, 5])
def test_a_club_in_hand_by_mistake_is_known_by_what_is_expected_of_it(seed: int) -> None:
    balls = ball_alone(seed)
    launch = balls.launch.copy()
    launch[balls.club == 2] += WEAK
    balls = replace(balls, launch=launch)
    last = int(np.flatnonzero(balls.club == 2)[-1])
    now = balls.take(np.arange(last + 1))
    shop = knowing(now, 2, WEAK)
    assert "still_this_club" not in raised(now, shop)
    club = now.club.copy()
    club[-1] = 0
    doubt = raised(replace(now, club=club), shop)["still_this_club"]
    assert doubt.say == "Still Own? The last ball fits another club better."


def test_doubts_of_a_shop_that_knows_the_physics_alone_are_those_of_physics() -> None:
    balls = made_balls(7, balls=40)
    shop = physics_told(balls, TRAITS)
    by_physics = {one.kind for one in alarms(set_up(balls, Beliefs(traits=TRAITS)))}
    assert raised(balls, shop).keys() == by_physics


def test_figures_rest_on_belief_as_much_as_by_physics_where_the_record_knows_no_more() -> None:
    one_head = tuple(replace(one, head="one") for one in TRAITS)
    for balls in (made_balls(7, balls=24), ball_alone(7)):
        usual = decided(balls, Beliefs(traits=one_head))
        told = decided(balls, Beliefs(traits=one_head, shop=physics_told(balls, one_head)))
        for one, other in zip(usual.clubs, told.clubs, strict=True):
            assert other.club == one.club
            assert other.physics_share == pytest.approx(one.physics_share, rel=1e-6)


def decided(balls: Balls, beliefs: Beliefs) -> Decision:
    return decide(compare(balls, Home(), beliefs), Budget())


def test_before_balls_tell_otherwise_carry_ranks_a_club_by_what_is_known_of_it() -> None:
    balls = ball_alone(3, balls=8)
    carry = np.full(len(balls), 210.0 * YARD)
    launch = np.full(balls.launch.shape, np.nan)
    balls = replace(balls, launch=launch, carry=carry)
    faster = np.array([4.0 * MILE_PER_HOUR, 0.0, 0.0, 0.0, 0.0])
    told = decide_on_carry(balls, Beliefs(shop=knowing(balls, 3, faster)), Budget())
    plain = decide_on_carry(balls, Beliefs(), Budget())
    assert told.clubs[0].club == balls.clubs[3]
    assert {one.device_carry.mean for one in plain.clubs if one.device_carry} == {0.0}


def test_a_club_that_is_well_known_rests_more_on_belief_in_a_pick_up() -> None:
    balls = made_balls(9, balls=40)
    belief = []
    for sure in (1.0, 0.1):
        shop = knowing(balls, 2, np.zeros(5), sure=sure)
        comparison = compare(balls, Home(), Beliefs(traits=TRAITS, shop=shop))
        said = same_club(
            comparison, build_limits(comparison, Tolerances()), balls.clubs[2], balls.clubs[1]
        )
        belief.append([one.belief for one in said.numbers])
    assert (np.array(belief[1]) > np.array(belief[0])).all()


def test_clubs_hit_and_not_hit_must_be_believed_by_the_same_record() -> None:
    balls = made_balls(9, balls=24)
    new = (Neighbour(name="new", traits=ClubTraits(head="head 1", shaft="kestrel")),)
    by_shop = compare(balls, Home(), Beliefs(traits=TRAITS, shop=physics_told(balls, TRAITS)))
    with pytest.raises(InputError, match="by different lights"):
        beside(by_shop, TRAITS, new)
    with pytest.raises(InputError, match="by different lights"):
        beside(compare(balls, Home(), Beliefs(traits=TRAITS)), TRAITS, new, by_shop_of(balls))


@pytest.mark.parametrize("measured", ["everything", "ball alone"])
def test_the_first_ball_of_a_known_club_is_predicted_as_by_a_fit_with_it(measured: str) -> None:
    balls = made_balls(6, balls=40) if measured == "everything" else ball_alone(6)
    new = ClubTraits(head="head 1", shaft="kestrel")
    everyone = told(6, balls, (*TRAITS, new))
    hit = of_those_hit(everyone, len(TRAITS))
    comparison = compare(balls, Home(), Beliefs(traits=TRAITS, shop=hit))
    known = KnownNext(hit=TRAITS, traits=new, shop=everyone)
    ball = NextBall(club="new", order=40.0, known=known)
    found = predict_ball(comparison, ball, Home()).forecasts
    beliefs = Beliefs(traits=(*TRAITS, new), shop=everyone)
    whole = compare(replace(balls, clubs=(*balls.clubs, "new")), Home(), beliefs)
    expected = predict_ball(whole, NextBall(club="new", order=40.0), Home()).forecasts
    for one, other in zip(found[:5], expected[:5], strict=True):
        assert one.mean == pytest.approx(other.mean, rel=1e-6, abs=1e-6)
        assert one.ranges[1] == pytest.approx(other.ranges[1], rel=2e-2, abs=1e-2)
    plain = predict_ball(comparison, NextBall(club="new", order=40.0), Home()).forecasts
    assert abs(found[0].mean - plain[0].mean) > 0.02


def by_shop_of(balls: Balls) -> ShopBeliefs:
    return physics_told(balls, (*TRAITS, ClubTraits(head="head 1", shaft="kestrel")))


def test_what_is_built_a_little_otherwise_keeps_most_of_its_own() -> None:
    """A built club follows its base as far as 0.8 of what is the base's own."""
    balls = made_balls(4, balls=40)
    everyone = (*TRAITS, TRAITS[1])
    built = (Neighbour(name="built", traits=TRAITS[1], base=balls.clubs[1]),)
    apart = []
    for own in (False, True):
        shop = physics_told(balls, TRAITS)
        more = physics_told(balls, everyone)
        if own:
            block = more.clubs.launch_covariance.reshape(5, 5, 5, 5)[:, 4, :, 4]
            swing = more.clubs.swing_covariance.reshape(6, 5, 6, 5)[:, 4, :, 4]
            more = replace(more, clubs=replace(more.clubs, own=0.3 * block, swing_own=0.3 * swing))
        comparison = compare(balls, Home(), Beliefs(traits=TRAITS, shop=shop))
        found = beside(comparison, TRAITS, built, more)
        apart.append(found.difference("built", balls.clubs[1]).sd)
    assert apart[1] < apart[0]
