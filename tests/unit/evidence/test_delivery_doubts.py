"""Delivery columns that steadily contradict the balls are doubted, and no others."""

from dataclasses import replace

import numpy as np
import pytest

from bay_fittings import joined_visits
from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.evidence.alarm import Alarm
from loftwright.evidence.alarms import alarms
from loftwright.evidence.balls import Balls
from loftwright.evidence.delivery_doubts import (
    FEWEST_BALLS,
    STANDS_OFF,
    delivery_alarms,
    standings,
)
from loftwright.evidence.visit import Beliefs, set_up
from loftwright.training.column_study import Offset, off, right_fitting
from loftwright.training.device import DEVICES

FULL = DEVICES["full"]
FACE = Offset(column="face", by=2.5 * DEGREE)


def fitting(seed: int = 2, count: int = 40) -> Balls:
    return right_fitting(FULL, seed, count)


def raised(balls: Balls, beliefs: Beliefs | None = None) -> tuple[Alarm, ...]:
    return delivery_alarms(set_up(balls, beliefs or Beliefs()))


def test_columns_that_agree_with_the_balls_are_not_doubted() -> None:
    for seed in range(2, 12):
        assert raised(fitting(seed)) == ()


def test_a_turned_face_column_is_told_with_its_size_and_its_balls() -> None:
    balls = fitting()
    (alarm,) = raised(off(balls, FACE))
    assert alarm.kind == "delivery_column"
    assert alarm.say.startswith("Face angle reads ")
    assert "° further right than" in alarm.say
    assert "balls and marks tell" in alarm.say
    assert alarm.say.endswith("is the device aimed at the target?")
    assert set(alarm.rows) <= set(balls.row.tolist())
    assert len(alarm.rows) >= FEWEST_BALLS


@pytest.mark.parametrize(
    ("column", "by", "words"),
    [
        ("face", -3.0 * DEGREE, "further left"),
        ("path", 6.0 * DEGREE, "Club path reads "),
        ("attack", -9.0 * DEGREE, "further down than"),
        ("head_speed", 9.0 * MILE_PER_HOUR, "% higher than"),
    ],
)
def test_every_column_is_named_with_its_own_question(column: str, by: float, words: str) -> None:
    alarm = raised(off(fitting(), Offset(column=column, by=by)))[0]
    assert words in alarm.say


def test_the_farthest_column_comes_first_beside_the_other_doubts() -> None:
    balls = off(off(fitting(), FACE), Offset(column="head_speed", by=15.0 * MILE_PER_HOUR))
    found = [one for one in alarms(set_up(balls, Beliefs())) if one.kind == "delivery_column"]
    scores = {one.column: abs(one.score) for one in standings(set_up(balls, Beliefs()))}
    assert len(found) == 2
    assert found[0].say.startswith(
        "Head speed" if scores["head_speed"] > scores["face"] else "Face angle"
    )
    assert min(scores["face"], scores["head_speed"]) >= STANDS_OFF


def test_few_balls_or_nothing_measured_raise_no_doubt() -> None:
    balls = off(fitting(), FACE)
    few = balls.take(np.arange(FEWEST_BALLS - 1))
    assert standings(set_up(few, Beliefs())) == ()
    nothing = replace(balls, delivery=np.full((len(balls), 4), np.nan))
    assert standings(set_up(nothing, Beliefs())) == ()


def test_without_marks_the_balls_hardly_tell_the_face() -> None:
    balls = off(fitting(), FACE)
    bare = replace(balls, marks=np.full((len(balls), 2), np.nan))
    (face,) = [one for one in standings(set_up(bare, Beliefs())) if one.column == "face"]
    assert not face.marked
    assert face.doubt > 1.2 * DEGREE
    assert raised(bare) == ()


def test_odd_and_misread_balls_do_not_move_what_the_balls_tell() -> None:
    balls = fitting()
    launch = balls.launch.copy()
    launch[5, 4] += 20.0 * DEGREE
    launch[6, 2] *= 3.0
    spoilt = {
        one.column: one for one in standings(set_up(replace(balls, launch=launch), Beliefs()))
    }
    for one in standings(set_up(balls, Beliefs())):
        assert spoilt[one.column].score == pytest.approx(one.score, abs=0.4)


def test_each_visit_is_asked_of_its_own_device() -> None:
    balls = joined_visits((fitting(4), off(fitting(3), FACE)))
    (alarm,) = raised(balls)
    assert set(alarm.rows) <= set(balls.row[balls.visit == 1].tolist())


def test_a_left_handers_column_is_doubted_alike() -> None:
    balls = off(fitting(), FACE)
    mirrored = replace(
        balls,
        launch=balls.launch * np.array([1.0, 1.0, 1.0, -1.0, -1.0]),
        delivery=balls.delivery * np.array([1.0, 1.0, -1.0, -1.0]),
        marks=balls.marks * np.array([-1.0, 1.0]),
    )
    beliefs = Beliefs(head=Beliefs().head.mirrored())
    (alarm,), (other,) = raised(balls), raised(mirrored, beliefs)
    assert other.say == alarm.say.replace("right", "left")
    assert other.rows == alarm.rows


def test_the_order_of_rows_and_balls_set_aside_change_nothing() -> None:
    balls = off(fitting(), FACE)
    shuffled = balls.take(np.random.default_rng(1).permutation(len(balls)))
    assert raised(shuffled)[0].say == raised(balls)[0].say
    ghost = balls.take(np.array([0])).launch * 1.2
    with_ghost = replace(
        balls.take(np.append(np.arange(len(balls)), 0)),
        launch=np.vstack([balls.launch, ghost]),
        set_aside=np.append(np.zeros(len(balls), dtype=bool), True),
    )
    assert raised(with_ghost) == raised(balls)
