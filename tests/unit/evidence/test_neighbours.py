"""Clubs that were not hit, told from those that were."""

from dataclasses import replace

import numpy as np
import pytest

from loftwright.constants import DEGREE, MILE_PER_HOUR, YARD
from loftwright.domain.home import Home
from loftwright.evidence.balls import Balls
from loftwright.evidence.clubs import ClubTraits, shares
from loftwright.evidence.compare import Comparison, compare
from loftwright.evidence.neighbours import (
    CONFIRMING_BALLS,
    Neighbour,
    Neighbourhood,
    beside,
    p_keep,
)
from loftwright.evidence.visit import Beliefs
from loftwright.training.device import DEVICES
from loftwright.training.sequence import shuffled_blocks
from loftwright.training.world import World, simulate_fitting

HIT = (
    ClubTraits(head="own", shaft="otter"),
    ClubTraits(head="demo", shaft="heron"),
    ClubTraits(head="demo", shaft="badger"),
    ClubTraits(head="own", shaft="badger"),
)
CROSSED = Neighbour(name="crossed", traits=ClubTraits(head="own", shaft="heron"))
STRONGER = Neighbour(
    name="stronger",
    traits=ClubTraits(head="demo", shaft="heron", shift=(0.0, 0.0, 0.0, 0.0, -1.0 * DEGREE)),
)
NEW_SHAFT = Neighbour(name="new", traits=ClubTraits(head="own", shaft="kestrel"))


def balls_of(device: str, seed: int = 3, count: int = 40) -> Balls:
    fitting = simulate_fitting(World(device=DEVICES[device], clubs=4), "mid", seed)
    return fitting.play(shuffled_blocks(4, count, np.random.default_rng(1)))


def compared(device: str = "full", seed: int = 3, count: int = 40) -> Comparison:
    return compare(balls_of(device, seed, count), Home(), Beliefs(traits=HIT))


def spread(found: Neighbourhood, first: str, second: str) -> float:
    a, b = found.names.index(first), found.names.index(second)
    c = found.value_covariance
    return float(np.sqrt(c[a, a] + c[b, b] - 2.0 * c[a, b]))


def worth(found: Neighbourhood, name: str) -> float:
    return float(found.value[found.names.index(name)] - found.value[0])


@pytest.mark.parametrize("device", sorted(DEVICES.keys() - {"speed-and-carry"}))
def test_a_neighbour_is_what_a_fit_with_that_club_without_a_ball_comes_to(device: str) -> None:
    balls = balls_of(device)
    told = beside(compare(balls, Home(), Beliefs(traits=HIT)), HIT, (CROSSED, STRONGER, NEW_SHAFT))
    more = (*HIT, CROSSED.traits, STRONGER.traits, NEW_SHAFT.traits)
    fitted = compare(replace(balls, clubs=told.names), Home(), Beliefs(traits=more)).visit.same
    assert told.same.launches == pytest.approx(fitted.launches, rel=1e-9, abs=1e-9)
    scale = np.abs(fitted.covariance).max()
    assert np.abs(told.same.covariance - fitted.covariance).max() < 1e-9 * scale


def test_it_holds_over_two_visits_and_without_the_sides_numbers() -> None:
    balls = balls_of("full")
    visit = (np.arange(len(balls)) >= 20).astype(np.int64)
    order = np.arange(len(balls), dtype=np.float64) % 20
    launch = np.where(np.arange(5) < 3, balls.launch, np.nan)
    for kind in (replace(balls, visit=visit, order=order), replace(balls, launch=launch)):
        told = beside(compare(kind, Home(), Beliefs(traits=HIT)), HIT, (CROSSED, STRONGER))
        more = (*HIT, CROSSED.traits, STRONGER.traits)
        fitted = compare(replace(kind, clubs=told.names), Home(), Beliefs(traits=more)).visit.same
        assert told.same.launches == pytest.approx(fitted.launches, rel=1e-9, abs=1e-9)
        scale = np.abs(fitted.covariance).max()
        assert np.abs(told.same.covariance - fitted.covariance).max() < 1e-9 * scale


@pytest.mark.parametrize("device", sorted(DEVICES.keys() - {"speed-and-carry"}))
def test_clubs_that_were_hit_stay_as_they_are_to_the_last_digit(device: str) -> None:
    comparison = compared(device)
    told = beside(comparison, HIT, (CROSSED, replace(STRONGER, base="Ash")))
    assert told.hit == len(HIT)
    assert (told.value[:4] == comparison.value).all()
    assert (told.value_covariance[:4, :4] == comparison.value_covariance).all()


def test_without_neighbours_nothing_is_added() -> None:
    told = beside(compared(), HIT, ())
    assert told.results == ()
    assert told.names == ("Own", "Ash", "Birch", "Cedar")


def test_every_row_told_has_figures_and_no_balls() -> None:
    (result,) = beside(compared(), HIT, (CROSSED,)).results
    assert result.balls == 0
    assert result.p_best is None
    assert result.value is not None
    assert result.as_you_swing_it is not None
    assert result.from_the_same_swing is not None
    assert result.level is not None
    assert result.level.total > result.level.carry > 100.0 * YARD


@pytest.mark.parametrize("device", ["full", "ball-only"])
def test_the_closer_kin_the_less_the_doubt(device: str) -> None:
    """A change of build of a club, its setting put together anew, then a shaft never hit."""
    built = Neighbour(name="built", traits=HIT[0], base="Own")
    anew = Neighbour(name="anew", traits=HIT[0])
    told = beside(compared(device), HIT, (built, anew, NEW_SHAFT))
    kin = [spread(told, name, "Own") for name in ("built", "anew", "new")]
    assert kin == sorted(kin)
    assert kin[0] < 0.8 * kin[2]


def test_doubt_of_the_physics_widens_and_moves_nothing() -> None:
    sure = Neighbour(name="sure", traits=STRONGER.traits, base="Ash")
    unsure = replace(sure, name="unsure", doubt=(0.5, 0.0, 0.0, 0.01, 0.01, 0.002, 0.002))
    for device in ("full", "no-marks", "ball-only"):
        told = beside(compared(device), HIT, (sure, unsure))
        assert worth(told, "unsure") == pytest.approx(worth(told, "sure"), abs=1e-9)
        assert spread(told, "unsure", "Ash") > 1.02 * spread(told, "sure", "Ash")


@pytest.mark.parametrize("device", ["full", "no-marks", "ball-only"])
def test_what_is_not_known_of_a_heads_weight_widens_and_moves_nothing(device: str) -> None:
    sure = Neighbour(name="sure", traits=HIT[0], base="Own")
    unsure = replace(
        sure,
        name="unsure",
        launch_doubts=((0.0, 0.0, 20.0, 0.0, 0.0), (0.0, 0.0, 0.0, 2.0 * DEGREE, 0.0)),
    )
    told = beside(compared(device), HIT, (sure, unsure))
    assert worth(told, "unsure") == pytest.approx(worth(told, "sure"), abs=1e-9)
    assert spread(told, "unsure", "Own") > 1.02 * spread(told, "sure", "Own")


@pytest.mark.parametrize("device", ["full", "no-marks", "ball-only"])
def test_ball_speed_by_impact_is_worth_as_much_whatever_was_measured(device: str) -> None:
    """A mile an hour of ball speed, all else held: 1.2 to 2.2 yd of total (self-consistent)."""
    heavier = Neighbour(
        name="heavier",
        traits=HIT[0],
        base="Own",
        launch=(1.0 * MILE_PER_HOUR, 0.0, 0.0, 0.0, 0.0),
    )
    as_it_is = replace(heavier, name="as it is", launch=(0.0,) * 5)
    told = beside(compared(device), HIT, (as_it_is, heavier))
    assert 1.2 < (worth(told, "heavier") - worth(told, "as it is")) / YARD < 2.2


@pytest.mark.parametrize("device", ["full", "no-marks", "ball-only"])
def test_more_speed_is_worth_its_yards_whatever_was_measured(device: str) -> None:
    """A mile an hour of head speed, all else held: 2 to 3 yd of total (self-consistent)."""
    faster = replace(HIT[0], shift=(1.0 * MILE_PER_HOUR, 0.0, 0.0, 0.0, 0.0))
    told = beside(
        compared(device),
        HIT,
        (
            Neighbour(name="as it is", traits=HIT[0], base="Own"),
            Neighbour(name="faster", traits=faster, base="Own"),
        ),
    )
    gain = (worth(told, "faster") - worth(told, "as it is")) / YARD
    assert 1.5 < gain < 3.5


def test_two_opposite_clicks_move_opposite_ways() -> None:
    weaker = replace(HIT[1], shift=(0.0, 0.0, 0.0, 0.0, 0.5 * DEGREE))
    stronger = replace(HIT[1], shift=(0.0, 0.0, 0.0, 0.0, -0.5 * DEGREE))
    told = beside(
        compared(),
        HIT,
        tuple(
            Neighbour(name=name, traits=traits, base="Ash")
            for name, traits in (("up", weaker), ("same", HIT[1]), ("down", stronger))
        ),
    )
    up, same, down = (told.swung.launches[4 + place] for place in range(3))
    assert up[1] - same[1] == pytest.approx(same[1] - down[1], rel=1e-6)
    assert up[1] > same[1]
    assert up[2] > same[2]


def test_a_shaft_that_was_hit_elsewhere_is_better_known_than_one_that_was_not() -> None:
    for device in ("full", "no-marks", "ball-only"):
        told = beside(compared(device), HIT, (CROSSED, NEW_SHAFT))
        assert spread(told, "crossed", "Own") < spread(told, "new", "Own")


def test_no_more_than_half_of_what_a_shaft_does_goes_with_it_into_another_head() -> None:
    """Ash is faster than it was: the crossed club moves by less than half of it."""
    comparison = compared("ball-only")
    fit = comparison.visit.launch
    theta = fit.theta.copy()
    place = theta.shape[1] - len(HIT)
    theta[0, place + 1] += 1.0
    moved = replace(comparison, visit=replace(comparison.visit, launch=replace(fit, theta=theta)))
    before, after = (beside(one, HIT, (CROSSED,)).same.launches for one in (comparison, moved))
    share = (after - before)[4, 0] / (after - before)[1, 0]
    assert 0.1 < share < 0.5


def test_order_of_neighbours_does_not_matter() -> None:
    comparison = compared()
    there = beside(comparison, HIT, (CROSSED, STRONGER))
    back = beside(comparison, HIT, (STRONGER, CROSSED))
    for name in ("crossed", "stronger"):
        assert worth(there, name) == pytest.approx(worth(back, name), abs=1e-9)
    assert there.p_above("crossed", "stronger") == pytest.approx(
        1.0 - back.p_above("stronger", "crossed"), abs=1e-9
    )


def test_shares_of_kin_are_a_covariance() -> None:
    base = replace(HIT[0], build="Own")
    traits = (base, *HIT[1:], base, base, HIT[0], CROSSED.traits)
    found = shares(traits)
    assert (np.diag(found) == 1.0).all()
    assert (found == found.T).all()
    assert np.linalg.eigvalsh(found).min() > 0.0
    assert found[0, 4] == 0.8
    assert found[0, 6] == 0.5


def test_keeping_is_surer_the_worse_the_others_and_needs_the_own_club() -> None:
    comparison = compared()
    kept = p_keep(comparison)
    assert kept is not None
    assert 0.0 <= kept <= 1.0
    worse = replace(comparison, value=comparison.value - np.array([0.0, 9.0, 9.0, 9.0]))
    surer = p_keep(worse)
    assert surer is not None
    assert surer > kept
    setup = comparison.visit.setup
    nobody = replace(setup, balls=replace(setup.balls, own=None))
    assert p_keep(replace(comparison, visit=replace(comparison.visit, setup=nobody))) is None


def test_a_club_is_put_forward_only_where_it_is_probably_better_by_a_yard() -> None:
    faster = replace(HIT[0], shift=(2.0 * MILE_PER_HOUR, 0.0, 0.0, 0.0, 0.0))
    comparison = compared()
    told = beside(comparison, HIT, (Neighbour(name="faster", traits=faster, base="Own"), CROSSED))
    assert told.leader is not None
    gain = told.difference("faster", told.leader)
    assert (told.put_forward == "faster") == (
        gain.mean >= YARD and told.p_above("faster", told.leader) >= 0.65
    )
    fastest = replace(HIT[0], shift=(5.0 * MILE_PER_HOUR, 0.0, 0.0, 0.0, 0.0))
    most = Neighbour(name="fastest", traits=fastest, base="Own")
    assert beside(comparison, HIT, (CROSSED, most)).put_forward == "fastest"
    slow = replace(HIT[0], shift=(-5.0 * MILE_PER_HOUR, 0.0, 0.0, 0.0, 0.0))
    least = Neighbour(name="slow", traits=slow, base="Own")
    assert beside(comparison, HIT, (least,)).put_forward is None


def test_five_balls_confirm() -> None:
    assert CONFIRMING_BALLS == 5
