"""The next ball: what is predicted of it, and on what that rests."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import t as student

from fittings import made_balls
from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.domain.home import Home
from loftwright.domain.prediction import PROBABILITIES, QUANTITIES, Forecast, Rests
from loftwright.evidence.balls import Balls
from loftwright.evidence.compare import compare
from loftwright.evidence.flight_map import conditions_at, outcomes
from loftwright.evidence.predict import (
    Foreseen,
    NextBall,
    forecasts_of,
    predict_ball,
    predict_from_stated,
)
from loftwright.evidence.visit import Beliefs

NEXT = 40.0
LAUNCH = np.array([66.0, 0.21, 270.0, 0.03, -0.01])
SCALE = np.diag([0.9, 0.025, 25.0, 0.1, 0.035]) ** 2


def foreseen(balls: Balls, club: str = "Ash", *, visit: int = 0, loft: float = 0.0) -> Foreseen:
    shift = (0.0, 0.0, 0.0, 0.0, loft)
    ball = NextBall(club=club, order=NEXT, visit=visit, shift=shift)
    return predict_ball(compare(balls, Home(), Beliefs()), ball, Home())


def one(found: Foreseen, quantity: str) -> Forecast:
    return next(forecast for forecast in found.forecasts if forecast.quantity == quantity)


def width(found: Foreseen, quantity: str, place: int = 1) -> float:
    low, high = one(found, quantity).ranges[place]
    return high - low


def test_launch_ranges_are_those_of_a_scaled_t() -> None:
    found = forecasts_of(LAUNCH, SCALE, 12.0, (0, 1, 2, 3, 4), Home())
    for place in range(5):
        for probability, (low, high) in zip(PROBABILITIES, found[place].ranges, strict=True):
            usual = student(12.0, LAUNCH[place], np.sqrt(SCALE[place, place]))
            assert (low, high) == pytest.approx(usual.interval(probability), rel=1e-9)


def test_carry_and_total_are_those_of_launches_so_spread() -> None:
    """Computed twice: quantiles of a hundred thousand other draws (self-consistent)."""
    rng = np.random.default_rng(20)
    count = 100_000
    away = rng.standard_normal((count, 5)) * np.sqrt(12.0 / rng.chisquare(12.0, count))[:, None]
    flown = outcomes(LAUNCH + away * np.sqrt(np.diag(SCALE)), conditions_at(Home()))
    found = {f.quantity: f for f in forecasts_of(LAUNCH, SCALE, 12.0, (0, 1, 2, 3, 4), Home())}
    for column, quantity in enumerate(("carry", "total")):
        values = flown[:, column][np.isfinite(flown[:, column])]
        spread = float(values.std())
        assert found[quantity].mean == pytest.approx(values.mean(), abs=0.08 * spread)
        for probability, ends in zip(PROBABILITIES, found[quantity].ranges, strict=True):
            tail = 0.5 * (1.0 - probability)
            wanted = np.quantile(values, [tail, 1.0 - tail])
            assert ends == pytest.approx(tuple(wanted), abs=0.2 * spread)


def test_the_same_balls_give_the_same_prediction_to_the_last_digit() -> None:
    balls = made_balls(3, clubs=3, balls=24)
    assert foreseen(balls).forecasts == foreseen(balls).forecasts


def test_every_quantity_is_predicted_where_the_device_gives_them_all() -> None:
    found = foreseen(made_balls(3, clubs=3, balls=24))
    assert tuple(forecast.quantity for forecast in found.forecasts) == QUANTITIES
    assert found.rests is Rests.BALLS


def test_what_the_device_does_not_give_is_not_predicted() -> None:
    balls = made_balls(3, clubs=3, balls=24)
    launch = balls.launch.copy()
    launch[:, 3:] = np.nan
    told = [forecast.quantity for forecast in foreseen(replace(balls, launch=launch)).forecasts]
    assert told == ["ball_speed", "launch", "spin", "carry", "total"]


def test_more_balls_narrow_what_is_predicted_towards_one_balls_scatter() -> None:
    balls = made_balls(5, clubs=2, balls=60)
    few, many = foreseen(balls.take(np.arange(4))), foreseen(balls)
    comparison = compare(balls, Home(), Beliefs())
    scatter = float(np.sqrt(comparison.visit.scatter[0, 0]))
    assert width(many, "ball_speed") < width(few, "ball_speed")
    assert width(many, "ball_speed") > 2.0 * 1.28 * scatter
    assert width(many, "ball_speed") < 2.0 * 1.45 * scatter


def test_a_club_that_is_faster_is_predicted_to_be_faster() -> None:
    balls = made_balls(4, clubs=2, balls=40)
    launch = balls.launch.copy()
    launch[balls.club == 1, 0] += 4.0 * MILE_PER_HOUR
    delivery = np.full((len(balls), 4), np.nan)
    marks = np.full((len(balls), 2), np.nan)
    known = replace(balls, launch=launch, delivery=delivery, marks=marks)
    slow, fast = (one(foreseen(known, club), "ball_speed").mean for club in balls.clubs)
    assert fast - slow > 2.0 * MILE_PER_HOUR


def test_a_club_not_hit_yet_rests_on_the_others_and_on_its_loft() -> None:
    balls = made_balls(3, clubs=3, balls=24)
    known, fresh = foreseen(balls), foreseen(balls, "Hazel")
    lofted = foreseen(balls, "Hazel", loft=2.0 * DEGREE)
    assert fresh.rests is Rests.OTHER_CLUBS
    for quantity in ("ball_speed", "launch", "spin"):
        assert width(fresh, quantity) > width(known, quantity)
    higher = one(lofted, "launch").mean - one(fresh, "launch").mean
    assert 1.0 * DEGREE < higher < 2.2 * DEGREE


def test_the_first_ball_of_another_day_is_predicted_with_more_doubt() -> None:
    balls = made_balls(3, clubs=3, balls=24)
    assert width(foreseen(balls, visit=1), "ball_speed") > 1.5 * width(
        foreseen(balls), "ball_speed"
    )


def test_a_day_with_balls_of_its_own_is_predicted_from_them() -> None:
    balls = made_balls(3, clubs=2, balls=40)
    second = np.arange(40) >= 20
    launch = balls.launch.copy()
    launch[second, 0] += 6.0 * MILE_PER_HOUR
    delivery = balls.delivery.copy()
    two_days = replace(balls, launch=launch, delivery=delivery, visit=second.astype(np.int64))
    first, now = (one(foreseen(two_days, visit=day), "ball_speed").mean for day in (0, 1))
    assert now - first == pytest.approx(6.0 * MILE_PER_HOUR, abs=1.5 * MILE_PER_HOUR)


def test_what_was_stated_predicts_a_first_ball_widely() -> None:
    found = predict_from_stated(45.0, Beliefs(), Home())
    assert found.rests is Rests.STATED
    assert one(found, "ball_speed").mean == pytest.approx(65.0, abs=3.0)
    balls = made_balls(3, clubs=3, balls=24)
    assert width(found, "ball_speed") > 2.0 * width(foreseen(balls), "ball_speed")
    steady = predict_from_stated(45.0, Beliefs(ability="tour"), Home())
    assert width(steady, "launch") < width(found, "launch")


def test_launches_that_mostly_never_rise_have_no_predicted_total() -> None:
    topped = np.array([66.0, -0.3, 270.0, 0.0, 0.0])
    found = forecasts_of(topped, SCALE, 12.0, (0, 1, 2, 3, 4), Home())
    assert "total" not in {forecast.quantity for forecast in found}
