"""Marks that are known more or less well: each counts with its own error."""

from dataclasses import replace

import numpy as np
import pytest

from fittings import made_balls
from loftwright.constants import MILLIMETRE
from loftwright.domain.fitting import MARK_ERROR
from loftwright.domain.home import Home
from loftwright.errors import InputError
from loftwright.evidence.balls import Balls, SpareMark
from loftwright.evidence.budget import Budget
from loftwright.evidence.compare import Comparison, compare, decide
from loftwright.evidence.marks import candidates, error_level, strike_model, usual_error
from loftwright.evidence.visit import Beliefs, set_up

COARSE = 6.0 * MILLIMETRE
SPREAD = np.array([11.0, 7.5]) * MILLIMETRE


def compared(balls: Balls) -> Comparison:
    return compare(balls, Home(), Beliefs())


def coarse(balls: Balls, which: slice) -> Balls:
    error = np.array(balls.mark_error)
    error[which] = COARSE
    return replace(balls, mark_error=error)


def contrast_sd(comparison: Comparison) -> float:
    block = comparison.value_covariance
    return float(np.sqrt(block[0, 0] + block[1, 1] - 2.0 * block[0, 1]))


def test_without_a_word_a_mark_has_a_fitters_error() -> None:
    assert made_balls(1).mark_error.tolist() == [MARK_ERROR] * 24


@pytest.mark.parametrize("error", [np.nan, np.inf, -1e-3])
def test_an_error_that_no_mark_has_is_refused(error: float) -> None:
    balls = made_balls(1, balls=4)
    with pytest.raises(InputError, match="row 3 has no error"):
        replace(balls, mark_error=np.array([0.001, error, 0.001, 0.001]))


def test_most_marks_set_the_usual_error_and_the_finer_of_two() -> None:
    balls = made_balls(1, missing_marks=0.0)
    assert usual_error(balls) == MARK_ERROR
    assert usual_error(coarse(balls, slice(12))) == MARK_ERROR
    assert usual_error(coarse(balls, slice(13))) == COARSE


def test_marks_that_are_not_there_set_nothing() -> None:
    balls = coarse(made_balls(1, missing_marks=1.0), slice(24))
    assert usual_error(balls) == MARK_ERROR


def test_a_coarse_mark_is_held_back_further_and_leaves_more_unknown() -> None:
    model = strike_model(np.zeros((0, 2)), SPREAD)
    marks = np.array([[0.02, 0.01], [0.02, 0.01], [np.nan, np.nan]])
    error = np.array([MARK_ERROR, COARSE, COARSE])
    expected, left = model.expected(marks, error), model.left(marks, error)
    pull = SPREAD**2 / (SPREAD**2 + COARSE**2)
    assert expected[1] == pytest.approx(pull * marks[1])
    assert (expected[1] < expected[0]).all()
    assert left[1] == pytest.approx(SPREAD**2 * COARSE**2 / (SPREAD**2 + COARSE**2))
    assert (left[0] < left[1]).all()
    assert (left[1] < left[2]).all()
    assert left[2].tolist() == model.variance.tolist()
    assert model.expected(marks)[1].tolist() == expected[0].tolist()


def test_coarse_marks_do_not_widen_the_golfers_strikes() -> None:
    """2,500 usual marks give the spread by their median deviation to some 2 %."""
    rng = np.random.default_rng(1)
    true = SPREAD * rng.standard_normal((4000, 2))
    error = np.where(np.arange(4000) < 1500, 3.0 * COARSE, MARK_ERROR)
    marks = true + error[:, None] * rng.standard_normal((4000, 2))
    model = strike_model(marks, SPREAD, error)
    assert np.sqrt(model.variance) == pytest.approx(SPREAD, rel=0.08)


def test_the_error_belongs_to_the_mark_in_a_set_of_unknown_order() -> None:
    balls = made_balls(1, balls=3, clubs=1, set_of=3, missing_marks=0.0)
    spare = SpareMark(mark_set=0, toe=0.03, high=0.0, error=0.004)
    told = replace(balls, mark_error=np.array([0.001, 0.002, 0.003]), spare_marks=(spare,))
    listed = candidates(told)
    known = {
        tuple(mark): error
        for mark, error in zip(balls.marks.tolist(), told.mark_error, strict=True)
    }
    known[0.03, 0.0] = 0.004
    assert len(listed.error) == 12
    for mark, error in zip(listed.marks.tolist(), listed.error, strict=True):
        assert known[tuple(mark)] == error


def test_the_order_in_which_such_a_set_is_written_changes_nothing() -> None:
    balls = made_balls(3, set_of=3, missing_marks=0.0)
    told = coarse(balls, slice(0, 24, 2))
    first = told.take(np.arange(24))
    turn = np.arange(24).reshape(8, 3)[:, [2, 0, 1]].ravel()
    marks = replace(told, marks=told.marks[turn], mark_error=told.mark_error[turn])
    assert compared(marks).value == pytest.approx(compared(first).value, abs=1e-9)


def test_a_coarse_ball_carries_more_noise_than_a_usual_one_and_less_than_none() -> None:
    balls = coarse(made_balls(1, missing_marks=0.25), slice(0, 6))
    setup = set_up(balls, Beliefs())
    along = np.abs(setup.launch_prior.coefficients)
    spread = {}
    for place, noise in enumerate(setup.launch_rows.classes):
        kind = noise.directions.shape[0], bool((setup.launch_rows.noise == place).any())
        total = ((along @ noise.directions.T) ** 2 * noise.variances).sum()
        spread[total] = kind
    usual, told, none = sorted(spread)
    assert usual == 0.0
    assert 0.0 < told < none
    assert all(present for _, present in spread.values())


def test_the_swing_model_knows_that_coarse_marks_scatter_more() -> None:
    balls = coarse(made_balls(1, missing_marks=0.0), slice(0, 6))
    rows = set_up(balls, Beliefs()).swing_rows
    assert rows is not None
    extra = [one.response_variances for one in rows.classes if not one.complete]
    assert len(extra) == 1
    assert extra[0] is not None
    assert extra[0].tolist() == pytest.approx([0.0, 0.0, 0.0, 0.0, 1.3175, 1.3175])


def test_coarser_marks_widen_the_range() -> None:
    """Over twenty fittings, since what is learned of the noise differs from one to the next."""
    wider = []
    for seed in range(1, 21):
        balls = made_balls(seed, delivery=False, missing_marks=0.0, balls=40)
        usual, some, every = (
            contrast_sd(compared(one))
            for one in (balls, coarse(balls, slice(0, 40, 2)), coarse(balls, slice(None)))
        )
        wider.append((some / usual, every / usual))
    mean = np.mean(wider, axis=0)
    error = np.std(wider, axis=0) / np.sqrt(len(wider))
    assert (mean > 1.0 + 2.0 * error).all()


def test_finer_marks_than_most_take_nothing_from_the_noise() -> None:
    balls = made_balls(1, missing_marks=0.0)
    error = np.array(balls.mark_error)
    error[:4] = 0.5 * MILLIMETRE
    setup = set_up(replace(balls, mark_error=error), Beliefs())
    assert len(setup.launch_rows.classes) == 1
    assert setup.launch_rows.classes[0].complete


def test_noise_knows_errors_on_a_short_ladder() -> None:
    error = np.array([0.5, 1.75, 1.8, 1.95, 6.0, np.inf]) * MILLIMETRE
    level = error_level(error, MARK_ERROR) / MILLIMETRE
    assert level == pytest.approx([1.75, 1.75, 1.75, 2.0, 6.0, np.inf])
    assert level[:3].tolist() == [MARK_ERROR / MILLIMETRE] * 3


def test_an_error_of_its_own_for_every_mark_makes_few_kinds_of_noise() -> None:
    balls = made_balls(1, balls=40, missing_marks=0.0)
    error = np.linspace(1.75, 4.0, 40) * MILLIMETRE
    assert len(set_up(replace(balls, mark_error=error), Beliefs()).launch_rows.classes) <= 10


def test_parts_close_with_marks_of_three_errors_and_none() -> None:
    balls = made_balls(2, balls=40, missing_marks=0.2)
    error = np.array(balls.mark_error)
    error[::3], error[1::3] = COARSE, 1.0 * MILLIMETRE
    decision = decide(compared(replace(balls, mark_error=error)), Budget())
    for pair in decision.pairs:
        assert pair.parts is not None
        assert pair.raw_total is not None
        assert pair.parts.sum() == pytest.approx(pair.raw_total, abs=1e-9)
