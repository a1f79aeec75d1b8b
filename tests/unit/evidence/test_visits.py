"""Several visits: intercepts, gates, what joins clubs and what is not compared."""

from dataclasses import replace

import numpy as np
import pytest

from bay_fittings import NAMES, joined_visits, two_visits
from fittings import made_balls
from loftwright.domain.home import Home
from loftwright.errors import InputError
from loftwright.evidence.alarms import alarms
from loftwright.evidence.balls import Balls
from loftwright.evidence.budget import Budget
from loftwright.evidence.compare import Comparison, compare, decide
from loftwright.evidence.design import gated_covariates
from loftwright.evidence.device_carry import decide_on_carry
from loftwright.evidence.priors import VISIT_SD
from loftwright.evidence.result import Against, Decision, State
from loftwright.evidence.scales import LAUNCH_SCALE
from loftwright.evidence.visit import Beliefs, set_up
from loftwright.evidence.visits import Joined, apart_warnings, joined, joining_club, visit_columns

APART = ((0, 1, 2), (3, 4))


def compared(balls: Balls) -> Comparison:
    return compare(balls, Home(), Beliefs())


def decided(balls: Balls, budget: Budget | None = None) -> Decision:
    return decide(compared(balls), budget or Budget())


def apart(seed: int = 1) -> Balls:
    return two_visits(seed, "low", clubs=APART)[2]


def joined_of(balls: Balls) -> Joined:
    return joined(balls, np.ones(len(balls), dtype=np.bool_))


def test_without_a_word_of_visits_there_is_one() -> None:
    balls = made_balls(1)
    assert balls.visit.tolist() == [0] * len(balls)
    assert visit_columns(balls).shape == (len(balls), 0)
    assert set_up(balls, Beliefs()).columns.names[-1] == "drift"


def test_a_visit_before_the_first_is_refused() -> None:
    balls = made_balls(1, balls=4)
    with pytest.raises(InputError, match="row 4 has none"):
        replace(balls, visit=np.array([0, 0, -1, 0]))


def test_visits_of_another_number_of_balls_are_refused() -> None:
    with pytest.raises(InputError, match="expected"):
        replace(made_balls(1, balls=4), visit=np.zeros(3, dtype=np.int64))


def test_every_visit_has_an_intercept_of_its_own() -> None:
    _, _, balls = two_visits(1, "low")
    setup = set_up(balls, Beliefs())
    assert setup.columns.names[-2:] == ("visit_0", "visit_1")
    places = setup.columns.index("visit_0", "visit_1")
    assert setup.launch_rows.covariates[:, places].sum(axis=1) == pytest.approx(1.0)
    assert (setup.launch_prior.coefficient_sd[:, places] == VISIT_SD).all()
    assert setup.swing_prior is not None
    assert (setup.swing_prior.coefficient_sd[:, -2:] == VISIT_SD).all()


@pytest.mark.parametrize("seed", range(1, 7))
def test_a_device_that_shows_more_does_not_move_clubs_hit_on_both_visits(seed: int) -> None:
    """Self-consistent; over sixty seeds no launch difference moved by more than 0.03 units."""
    _, _, plain = two_visits(seed, "mid", offset=np.zeros(5))
    _, _, other = two_visits(seed, "mid")
    differences = [
        (one.launches[2] - one.launches[0]) / LAUNCH_SCALE
        for one in (compared(plain).visit.swung, compared(other).visit.swung)
    ]
    assert np.abs(differences[1] - differences[0]).max() < 0.05


def test_the_pull_of_the_intercepts_prior_is_small() -> None:
    """Self-consistent: three times the offset pulls the difference by a fraction of its doubt."""
    _, _, plain = two_visits(3, "low", offset=np.zeros(5))
    far = replace(plain, launch=plain.launch + 9.0 * LAUNCH_SCALE * (plain.visit == 1)[:, None])
    before, after = compared(plain).visit.swung, compared(far).visit.swung
    moved = (after.launches[3] - after.launches[0]) - (before.launches[3] - before.launches[0])
    block = before.covariance
    doubt = np.diag(block[3, :, 3] + block[0, :, 0] - block[3, :, 0] - block[0, :, 3])
    assert np.abs(moved / np.sqrt(doubt)).max() < 0.5


def test_taken_for_one_visit_the_other_device_moves_them() -> None:
    _, _, plain = two_visits(3, "low", offset=np.zeros(5))
    _, _, other = two_visits(3, "low")
    one_day = np.zeros(len(plain), dtype=np.int64)
    first, second = (
        compared(replace(balls, visit=one_day)).visit.swung.launches for balls in (plain, other)
    )
    moved = ((second[3] - second[1]) - (first[3] - first[1])) / LAUNCH_SCALE
    assert np.abs(moved).max() > 0.5


def test_what_a_visit_makes_goes_with_warm_up_and_the_parts_still_sum() -> None:
    _, _, balls = two_visits(2, "low")
    decision = decided(balls)
    for pair in decision.pairs:
        assert pair.parts is not None
        assert pair.raw_total is not None
        assert pair.parts.sum() == pytest.approx(pair.raw_total, abs=1e-9)
    moved = next(one for one in decision.pairs if {one.a, one.b} == {"Ash", "Cedar"})
    assert moved.parts is not None
    assert abs(moved.parts.warm_up) > 0.5


def test_a_reading_is_gated_by_its_own_visit() -> None:
    _, _, balls = two_visits(1, "low")
    delivery = np.array(balls.delivery)
    delivery[balls.visit == 1, 0] += 8.0
    shifted = replace(balls, delivery=delivery)
    setup = set_up(shifted, Beliefs())
    assert not [one for one in setup.gated if one.column == "head_speed"]
    delivery[30, 0] += 15.0
    wild = replace(balls, delivery=delivery)
    _, gated = gated_covariates(wild, setup.columns, setup.slopes)
    assert [one.ball for one in gated if one.column == "head_speed"] == [30]


def test_a_visit_without_delivery_is_compared_through_its_ball_data() -> None:
    _, _, balls = two_visits(1, "low")
    delivery = np.array(balls.delivery)
    delivery[balls.visit == 1] = np.nan
    decision = decided(replace(balls, delivery=delivery))
    assert all(pair.p_a_better is not None for pair in decision.pairs)


def test_clubs_with_no_chain_of_shared_clubs_are_not_compared() -> None:
    decision = decided(apart())
    told = {club.club: club for club in decision.clubs}
    assert [club.club for club in decision.clubs][-2:] in (["Cedar", "Elm"], ["Elm", "Cedar"])
    for name in ("Cedar", "Elm"):
        assert told[name].value is None
        assert told[name].p_best is None
        assert told[name].as_you_swing_it is None
        assert told[name].from_the_same_swing is None
        assert told[name].level is None
        assert told[name].plain_total is not None
    for pair in decision.pairs:
        across = len({pair.a, pair.b} & {"Cedar", "Elm"}) == 1
        assert (pair.p_a_better is None) == across
        assert (pair.parts is None) == across
        assert (pair.raw_total is None) == across
    assert decision.against is Against.OWN
    assert decision.state is not State.STRONG


def test_it_is_said_which_clubs_to_hit_again() -> None:
    (said,) = (one for one in decided(apart()).warnings if "not compared" in one)
    assert said == (
        "Cedar and Elm were not hit on one visit with Own, Ash or Birch, nor with a club that "
        "was: they are not compared, because what differs could be the day. Hit Own, Ash or "
        "Birch on the same visit as Cedar or Elm to join them"
    )


def test_one_club_apart_is_spoken_of_as_one() -> None:
    _, _, balls = two_visits(1, "low", clubs=((0, 1), (3,)), balls=(12, 4))
    (said,) = apart_warnings(balls, joined_of(balls))
    assert said.startswith("Cedar was not hit on one visit with Own or Ash")
    assert "it is not compared" in said


def test_today_with_strangers_only_the_own_club_joins_them() -> None:
    decision = decided(apart())
    assert decision.next_club is not None
    assert decision.next_club.club == "Own"
    assert "today's clubs" in decision.next_club.why


def test_today_with_the_own_club_a_stranger_joins() -> None:
    one, other = (
        made.take(np.flatnonzero(made.visit == place))
        for place, made in ((1, apart()), (0, apart()))
    )
    decision = decided(joined_visits((one, other)))
    assert decision.next_club is not None
    assert decision.next_club.club in {"Cedar", "Elm"}
    assert "one ball today lets it be compared" in decision.next_club.why


def test_a_chain_of_shared_clubs_joins_visits() -> None:
    three = (
        made_balls(1, clubs=5, balls=10),
        made_balls(2, clubs=5, balls=10),
        made_balls(3, clubs=5, balls=10),
    )
    hit = ((0, 1), (1, 2), (2, 3))
    visits = tuple(
        replace(one, club=np.array([two[i % 2] for i in range(10)]))
        for one, two in zip(three, hit, strict=True)
    )
    found = joined_of(joined_visits(visits))
    assert found.together(0, 3)
    assert not found.outside.any()


def test_without_the_own_club_the_visit_with_most_balls_is_ranked() -> None:
    _, _, balls = two_visits(1, "low", clubs=((1, 2), (3, 4)), balls=(8, 20))
    found = joined_of(replace(balls, own=None))
    assert [NAMES[club] for club in np.flatnonzero(found.inside)] == ["Cedar", "Elm"]
    assert joining_club(found, None, 1) in {3, 4}
    assert joining_club(found, None, 3) in {1, 2}


def test_balls_without_a_total_join_nothing() -> None:
    _, _, balls = two_visits(1, "low", clubs=((0, 1, 2), (0, 3, 4)))
    counted = ~((balls.club == 0) & (balls.visit == 1))
    assert joined(balls, counted).outside[[3, 4]].all()


def carry_only(balls: Balls) -> Balls:
    launch = np.full_like(balls.launch, np.nan)
    launch[:, 0] = balls.launch[:, 0]
    return replace(
        balls,
        launch=launch,
        delivery=np.full_like(balls.delivery, np.nan),
        marks=np.full_like(balls.marks, np.nan),
    )


def test_a_devices_carry_has_visits_too() -> None:
    decision = decide_on_carry(carry_only(apart()), Beliefs(), Budget())
    told = {club.club: club for club in decision.clubs}
    assert told["Cedar"].device_carry is None
    assert told["Cedar"].device_ball_speed is None
    assert told["Ash"].device_carry is not None
    assert any("not compared" in one for one in decision.warnings)
    assert decision.next_club is not None
    assert decision.next_club.club == "Own"


def test_a_devices_offset_in_carry_does_not_move_shared_clubs() -> None:
    _, _, balls = two_visits(4, "low", offset=np.zeros(5))
    plain = carry_only(balls)
    other = replace(plain, carry=plain.carry + 10.0 * (plain.visit == 1))
    first, second = (decide_on_carry(one, Beliefs(), Budget()) for one in (plain, other))
    for name in ("Birch", "Cedar"):
        a, b = (
            next(club.device_carry for club in one.clubs if club.club == name)
            for one in (first, second)
        )
        assert a is not None
        assert b is not None
        assert b.mean == pytest.approx(a.mean, abs=0.3 * a.sd)


def test_the_first_ball_of_a_new_visit_is_fitted_from_cold() -> None:
    _, _, balls = two_visits(1, "low", balls=(24, 1))
    before = compared(balls.take(np.arange(24)))
    after = compare(balls, Home(), Beliefs(), before.visit.state)
    assert after.value.tolist() == compared(balls).value.tolist()


def test_doubts_take_each_visit_by_itself() -> None:
    """A second device's offset is no reason to doubt marks, settings or clubs."""
    _, _, balls = two_visits(2, "low", offset=20.0 * LAUNCH_SCALE)
    assert alarms(set_up(balls, Beliefs())) == ()
