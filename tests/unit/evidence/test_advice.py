"""Change, keep or not yet: on the safe side of the own club."""

from dataclasses import replace

import pytest

from loftwright.constants import YARD
from loftwright.domain.home import Home
from loftwright.evidence.advice import FIRM, Call, advise, chance_above
from loftwright.evidence.result import (
    Against,
    ClubResult,
    Decision,
    Estimate,
    Pair,
    Pattern,
    RankedOn,
    State,
)

P = {
    ("Ash", "Own"): 0.93,
    ("Ash", "Birch"): 0.70,
    ("Ash", "Cedar"): 0.60,
    ("Birch", "Own"): 0.80,
}


def yards(mean: float, sd: float = 2.0) -> Estimate:
    return Estimate(mean=mean * YARD, sd=sd * YARD, df=30.0)


def fitting(values: dict[str, float], chances: dict[tuple[str, str], float]) -> Decision:
    """Return a comparison whose clubs are worth so much, ranked as given."""
    clubs = tuple(
        ClubResult(club=name, balls=8, value=yards(mean, 0.0 if name == "Own" else 2.0))
        for name, mean in values.items()
    )
    names = list(values)
    pairs = tuple(
        Pair(a=a, b=b, p_a_better=chances.get((a, b), 0.99), raw_total=None, parts=None)
        for index, a in enumerate(names)
        for b in names[index + 1 :]
    )
    return Decision(
        state=State.TOO_CLOSE,
        ranked_on=RankedOn.AS_YOU_SWING_IT,
        against=Against.OWN,
        own="Own",
        clubs=clubs,
        pairs=pairs,
        odd_balls=(),
        next_club=None,
        regret=None,
        p_leader_near_best=None,
        home=Home(),
        pattern=Pattern(total=8.0 * YARD, offline=15.0 * YARD),
        claims=(),
    )


VALUES = {"Ash": 4.0, "Birch": 2.0, "Cedar": 1.0, "Own": 0.0}


def test_a_firm_gain_over_the_own_club_is_a_change_with_its_rivals_named() -> None:
    advice = advise(fitting(VALUES, P))
    assert advice.call is Call.CHANGE
    assert (advice.leader, advice.other, advice.p) == ("Ash", "Own", 0.93)
    assert advice.rivals == ("Cedar", "Birch")
    assert advice.p_against_all == 0.60


@pytest.mark.parametrize(
    ("p", "call"),
    [
        (FIRM, Call.CHANGE),
        (FIRM - 0.001, Call.KEEP_OWN),
        (0.65, Call.KEEP_OWN),
        (0.649, Call.TOO_CLOSE),
    ],
)
def test_the_own_club_is_left_only_from_the_firm_rung_up(p: float, call: Call) -> None:
    assert advise(fitting(VALUES, {**P, ("Ash", "Own"): p})).call is call


def test_a_sure_gain_that_is_worth_nothing_is_no_change() -> None:
    values = {"Ash": 0.9, "Own": 0.0}
    assert advise(fitting(values, {("Ash", "Own"): 0.999})).call is Call.KEEP_OWN


def test_an_own_club_that_leads_is_kept_against_its_nearest_rival() -> None:
    values = {"Own": 0.0, "Ash": -1.0, "Birch": -4.0}
    advice = advise(fitting(values, {("Own", "Ash"): 0.55}))
    assert advice.call is Call.KEEP_OWN
    assert (advice.other, advice.p) == ("Ash", 0.55)


def test_without_an_own_club_the_nearest_rival_decides() -> None:
    values = {"Ash": 2.0, "Birch": 1.0, "Cedar": -3.0}
    decision = replace(fitting(values, {("Ash", "Birch"): 0.7}), own=None, against=Against.MEAN)
    advice = advise(decision)
    assert (advice.call, advice.other) == (Call.LEADER, "Birch")
    close = replace(fitting(values, {("Ash", "Birch"): 0.6}), own=None, against=Against.MEAN)
    assert advise(close).call is Call.TOO_CLOSE


def test_a_carry_of_the_device_never_sends_a_club_away() -> None:
    decision = fitting(VALUES, P)
    clubs = tuple(
        ClubResult(club=club.club, balls=club.balls, device_carry=club.value)
        for club in decision.clubs
    )
    device = replace(decision, ranked_on=RankedOn.DEVICE_CARRY, clubs=clubs)
    assert advise(device).call is Call.LEADER
    likely = tuple(replace(pair, p_a_better=FIRM - 0.001) for pair in device.pairs)
    assert advise(replace(device, pairs=likely)).call is Call.KEEP_OWN
    close = tuple(replace(pair, p_a_better=0.6) for pair in device.pairs)
    assert advise(replace(device, pairs=close)).call is Call.TOO_CLOSE


def test_fewer_than_two_figures_are_too_few() -> None:
    decision = fitting(VALUES, P)
    assert advise(replace(decision, clubs=decision.clubs[:1])).call is Call.TOO_FEW
    assert advise(replace(decision, state=State.TOO_FEW)).call is Call.TOO_FEW


def test_nothing_is_said_of_an_own_club_that_was_not_hit_enough() -> None:
    decision = fitting(VALUES, {**P, ("Ash", "Birch"): 0.7, ("Ash", "Cedar"): 0.75})
    pairs = tuple(
        replace(pair, p_a_better=None) if pair.b == "Own" else pair for pair in decision.pairs
    )
    advice = advise(replace(decision, against=Against.MEAN, pairs=pairs))
    assert (advice.call, advice.leader, advice.other) == (Call.LEADER, "Ash", "Birch")
    assert "Own" not in advice.rivals


def test_no_pair_that_may_be_ranked_is_too_few() -> None:
    decision = fitting(VALUES, P)
    unknown = tuple(replace(pair, p_a_better=None) for pair in decision.pairs)
    assert advise(replace(decision, pairs=unknown)).call is Call.TOO_FEW


def test_more_balls_tell_when_they_more_likely_than_not_settle_the_pair() -> None:
    decision = fitting({"Ash": 3.0, "Own": 0.0}, {("Ash", "Own"): 0.6})
    steady = replace(decision, pattern=Pattern(total=1.0 * YARD, offline=YARD))
    wild = replace(decision, pattern=Pattern(total=40.0 * YARD, offline=YARD))
    assert advise(steady).more_balls_tell is True
    assert (
        advise(replace(wild, clubs=fitting({"Ash": 0.5, "Own": 0.0}, {}).clubs)).more_balls_tell
        is False
    )
    assert advise(replace(decision, pattern=None)).more_balls_tell is None


def test_the_chance_above_a_threshold_is_that_of_a_t_distribution() -> None:
    # Student's t with 30 degrees of freedom: 0.95 below 1.697 (printed tables).
    estimate = Estimate(mean=1.697, sd=1.0, df=30.0)
    assert chance_above(estimate) == pytest.approx(0.95, abs=1e-4)
    assert chance_above(estimate, 1.697) == pytest.approx(0.5)
    assert chance_above(Estimate(mean=1.0, sd=0.0, df=30.0)) == 1.0
    assert chance_above(Estimate(mean=0.0, sd=0.0, df=30.0)) == 0.0
