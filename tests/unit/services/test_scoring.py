"""Every ball is scored against what was predicted before it was read, or not at all."""

import pytest

from bays import Bay, a_bay, drive
from loftwright.domain.acts import NotOurs, OddBall, RunMoved, RunSet, ShotArrived
from loftwright.domain.prediction import QUANTITIES, Rests
from loftwright.services.acting import act
from loftwright.services.evidence import Desk
from loftwright.services.predicting import predict_next
from loftwright.services.scoring import Fate, Scored, score_fitting
from loftwright.services.shots import Incoming, Taken, take


class Played:
    """A fitting whose balls are predicted when they are told to be."""

    def __init__(self) -> None:
        self.bay: Bay = a_bay()
        self.desk = Desk()
        for club in ("Own", "Ash"):
            self.bay.hand(club)
            self.bay.balls(3)

    def ball(self, *, predicted: bool = True) -> Taken:
        if predicted:
            assert predict_next(self.bay.studio, self.desk, self.bay.fitting) is not None
        return self.bay.ball()

    def told(self, *, source: str, after: int | None = None) -> Taken:
        assert predict_next(self.bay.studio, self.desk, self.bay.fitting) is not None
        ball = Incoming(numbers=drive(self.bay.rng, "Ash"), key="told", after=after)
        return take(self.bay.studio, self.bay.fitting, ball, source=source)

    def score(self) -> dict[int, Scored]:
        fitting = self.bay.studio.store.fitting(self.bay.fitting).value
        return {one.sequence: one for one in score_fitting(self.bay.studio, fitting)}


@pytest.fixture
def played() -> Played:
    return Played()


def test_a_predicted_ball_is_scored_in_every_quantity(played: Played) -> None:
    ball = played.ball()
    one = played.score()[ball.sequence]
    assert one.fate is Fate.SCORED
    assert set(one.inside) == set(QUANTITIES)
    assert (one.bay, one.device, one.rests) == ("Bay 1", "meter", Rests.BALLS)
    assert one.club == "Harrow 460, Reedmace Ash, middle"


def test_balls_without_a_prediction_count_as_not_predicted(played: Played) -> None:
    found = played.score()
    assert len(found) == 6
    assert {one.fate for one in found.values()} == {Fate.NOT_PREDICTED}


def test_one_prediction_serves_one_ball(played: Played) -> None:
    first, second = played.ball(), played.ball(predicted=False)
    found = played.score()
    assert found[first.sequence].fate is Fate.SCORED
    assert found[second.sequence].fate is Fate.NOT_PREDICTED


@pytest.mark.parametrize("source", ["table", "sheet"])
def test_what_was_pasted_or_copied_from_paper_is_not_predicted(
    played: Played, source: str
) -> None:
    ball = played.told(source=source)
    assert played.score()[ball.sequence].fate is Fate.NOT_PREDICTED


def test_a_ball_typed_in_between_others_is_not_predicted(played: Played) -> None:
    earlier = played.bay.now.balls[-2].sequence
    ball = played.told(source="keyboard", after=earlier)
    assert played.score()[ball.sequence].fate is Fate.NOT_PREDICTED


def test_a_ball_that_is_typed_in_its_turn_is_scored(played: Played) -> None:
    ball = played.told(source="keyboard")
    assert played.score()[ball.sequence].fate is Fate.SCORED


def test_a_ball_moved_to_another_club_drops_out_and_comes_back_when_that_is_undone(
    played: Played,
) -> None:
    ball = played.ball()
    move = RunMoved(first=ball.sequence, last=ball.sequence, club="Own")
    played.bay.do(move)
    assert played.score()[ball.sequence].fate is Fate.CHANGED
    played.bay.do(RunMoved(first=ball.sequence, last=ball.sequence, club="Ash"))
    assert played.score()[ball.sequence].fate is Fate.SCORED


def test_a_ball_with_another_setting_or_not_ours_drops_out(played: Played) -> None:
    one, two = played.ball(), played.ball()
    played.bay.do(RunSet(first=one.sequence, last=one.sequence, setting="one up"))
    played.bay.do(NotOurs(ball=two.sequence))
    found = played.score()
    assert found[one.sequence].fate is Fate.CHANGED
    assert found[two.sequence].fate is Fate.CHANGED
    assert not found[one.sequence].inside


def test_a_reading_that_nobody_predicted_and_is_not_ours_is_no_ball(played: Played) -> None:
    ball = played.ball(predicted=False)
    played.bay.do(NotOurs(ball=ball.sequence))
    assert ball.sequence not in played.score()


def test_an_odd_ball_stays_for_it_was_predicted_too(played: Played) -> None:
    ball = played.ball()
    before = played.score()[ball.sequence]
    played.bay.do(OddBall(ball=ball.sequence))
    assert played.score()[ball.sequence] == before


def test_a_ball_of_a_club_that_was_not_predicted_in_time_is_not_predicted(
    played: Played,
) -> None:
    assert predict_next(played.bay.studio, played.desk, played.bay.fitting) is not None
    played.bay.hand("Birch")
    ball = played.bay.ball()
    assert played.score()[ball.sequence].fate is Fate.NOT_PREDICTED


def test_a_ball_far_off_falls_outside_every_range(played: Played) -> None:
    assert predict_next(played.bay.studio, played.desk, played.bay.fitting) is not None
    ball = played.bay.ball(drive(played.bay.rng, "Ash", ball_speed=30.0))
    inside = played.score()[ball.sequence].inside
    assert inside["ball_speed"] == (False, False, False)
    assert inside["total"] == (False, False, False)


def test_what_a_device_left_out_of_a_ball_is_not_scored(played: Played) -> None:
    assert predict_next(played.bay.studio, played.desk, played.bay.fitting) is not None
    ball = played.bay.ball(drive(played.bay.rng, "Ash", axis=None))
    inside = played.score()[ball.sequence].inside
    assert set(inside) == {"ball_speed", "launch", "spin", "direction"}


def test_balls_that_came_together_are_not_predicted(played: Played) -> None:
    assert predict_next(played.bay.studio, played.desk, played.bay.fitting) is not None
    before = played.bay.now.upto
    numbers = [drive(played.bay.rng, "Ash") for _ in range(2)]
    act(
        played.bay.studio,
        played.bay.fitting,
        [ShotArrived(numbers=one, source="feed") for one in numbers],
    )
    found = played.score()
    assert {found[before + place].fate for place in (1, 2)} == {Fate.NOT_PREDICTED}
