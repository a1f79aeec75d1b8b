"""The next ball is predicted behind the pages, before it comes."""

from threading import Event, Thread

import pytest

from bays import Bay, a_bay
from loftwright.domain.acts import (
    Closed,
    HandedOver,
    RunMoved,
    SettingSeen,
    Vetoed,
    VisitOpened,
    WarmUpDone,
)
from loftwright.domain.fitting import DeviceCard
from loftwright.domain.golfer import Golfer
from loftwright.domain.home import Home
from loftwright.domain.prediction import QUANTITIES, Prediction, Rests
from loftwright.evidence.compare import Comparison
from loftwright.evidence.predict import Foreseen, NextBall, predict_ball
from loftwright.services import predicting
from loftwright.services.evidence import Desk
from loftwright.services.live import Hub
from loftwright.services.predicting import Predictor, predict_next
from loftwright.services.shots import Incoming, take
from serving import served


@pytest.fixture
def desk() -> Desk:
    return Desk()


def with_balls(count: int = 8) -> Bay:
    bay = a_bay()
    for club in ("Own", "Ash"):
        bay.hand(club)
        bay.balls(count // 2)
    return bay


def with_speed(bay: Bay, speed: float) -> None:
    kept = bay.studio.store.golfer(bay.golfer.id)
    golfer: Golfer = kept.value
    told = Golfer(id=golfer.id, hand=golfer.hand, home=golfer.home, head_speed=speed)
    bay.studio.store.change_golfer(told, version=kept.version)


def width(prediction: Prediction, quantity: str) -> float:
    found = prediction.forecast(quantity)
    assert found is not None
    low, high = found.ranges[1]
    return high - low


def test_the_next_ball_of_the_club_in_hand_is_kept_with_all_that_it_rests_on(desk: Desk) -> None:
    bay = with_balls()
    made = predict_next(bay.studio, desk, bay.fitting)
    assert made is not None
    assert bay.studio.store.predictions(bay.fitting) == (made,)
    assert (made.set_up, made.bay, made.device) == ("Ash", "Bay 1", "meter")
    assert made.after == bay.now.upto
    assert made.rests is Rests.BALLS
    assert {one.quantity for one in made.forecasts} == set(QUANTITIES)
    assert made.home.holes == ()


def test_one_state_of_a_fitting_is_predicted_once(desk: Desk) -> None:
    bay = with_balls()
    assert predict_next(bay.studio, desk, bay.fitting) is not None
    assert predict_next(bay.studio, desk, bay.fitting) is None
    bay.ball()
    assert predict_next(bay.studio, desk, bay.fitting) is not None


def test_a_club_not_hit_yet_is_predicted_from_the_others_with_more_doubt(desk: Desk) -> None:
    bay = with_balls()
    known = predict_next(bay.studio, desk, bay.fitting)
    bay.hand("Birch")
    fresh = predict_next(bay.studio, desk, bay.fitting)
    assert known is not None
    assert fresh is not None
    assert fresh.rests is Rests.OTHER_CLUBS
    assert width(fresh, "ball_speed") > width(known, "ball_speed")


def test_more_loft_on_the_sleeve_is_predicted_to_launch_higher(desk: Desk) -> None:
    bay = with_balls()
    bay.hand("Birch")
    middle = predict_next(bay.studio, desk, bay.fitting)
    bay.do(SettingSeen(setting="one up"))
    up = predict_next(bay.studio, desk, bay.fitting)
    assert middle is not None
    assert up is not None
    assert up.set_up == "Birch, one up"
    before, after = middle.forecast("launch"), up.forecast("launch")
    assert before is not None
    assert after is not None
    assert after.mean > before.mean


def test_before_the_first_ball_only_what_was_stated_can_be_said(desk: Desk) -> None:
    bay = a_bay()
    assert predict_next(bay.studio, desk, bay.fitting) is None
    with_speed(bay, 42.0)
    made = predict_next(bay.studio, desk, bay.fitting)
    assert made is not None
    assert made.rests is Rests.STATED
    speed = made.forecast("ball_speed")
    assert speed is not None
    assert 55.0 < speed.mean < 65.0


def test_a_new_day_widens_what_is_predicted(desk: Desk) -> None:
    bay = with_balls(16)
    before = predict_next(bay.studio, desk, bay.fitting)
    bay.clock.forward(24 * 60)
    bay.do(VisitOpened(day=bay.clock.at.date(), bay="Bay 2", device=DeviceCard(name="other")))
    bay.do(HandedOver(club="Ash"), WarmUpDone(unseen=3))
    first = predict_next(bay.studio, desk, bay.fitting)
    bay.ball()
    second = predict_next(bay.studio, desk, bay.fitting)
    assert before is not None
    assert first is not None
    assert second is not None
    assert (first.bay, first.device) == ("Bay 2", "other")
    assert width(first, "ball_speed") > width(second, "ball_speed") > width(before, "ball_speed")


def test_nothing_is_predicted_while_warming_up_without_a_club_vetoed_or_closed(
    desk: Desk,
) -> None:
    cold = a_bay(warm=False)
    with_speed(cold, 42.0)
    assert predict_next(cold.studio, desk, cold.fitting) is None
    cold.do(HandedOver(club="Own"))
    assert predict_next(cold.studio, desk, cold.fitting) is None
    bay = with_balls()
    bay.do(Vetoed(club="Ash"))
    assert predict_next(bay.studio, desk, bay.fitting) is None
    bay.hand("Own")
    bay.do(Closed())
    assert predict_next(bay.studio, desk, bay.fitting) is None


def test_a_ball_that_is_quicker_than_its_prediction_is_not_predicted(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    bay = with_balls()

    def slowly(comparison: Comparison, ball: NextBall, home: Home) -> Foreseen:
        bay.ball()
        return predict_ball(comparison, ball, home)

    monkeypatch.setattr(predicting, "predict_ball", slowly)
    assert predict_next(bay.studio, desk, bay.fitting) is None
    assert bay.studio.store.predictions(bay.fitting) == ()


def test_it_predicts_behind_the_pages_whatever_happens_in_a_fitting(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(predicting, "AFTER_PAGES", 0.0)
    bay = with_balls()
    done, stop = Event(), Event()
    kept = bay.studio.store.predict

    def keep(fitting: str, prediction: Prediction) -> bool:
        found = kept(fitting, prediction)
        done.set()
        return found

    monkeypatch.setattr(bay.studio.store, "predict", keep)
    predictor = Predictor(bay.studio, desk)
    predictor.resume()
    thread = Thread(target=predictor.run, args=(stop,))
    thread.start()
    try:
        assert done.wait(60.0), "what was open when it started was not predicted"
        done.clear()
        ball = bay.ball()
        assert done.wait(60.0), "a ball was not followed by a prediction"
        done.clear()
        bay.do(RunMoved(first=ball.sequence, last=ball.sequence, club="Own"))
        assert done.wait(60.0), "a mend was not followed by a prediction"
    finally:
        stop.set()
        predictor.wake()
        thread.join(60.0)
    assert not thread.is_alive()
    assert len(bay.studio.store.predictions(bay.fitting)) >= 3


def test_what_cannot_be_predicted_does_not_stop_the_others(
    desk: Desk, caplog: pytest.LogCaptureFixture
) -> None:
    bay = with_balls()
    predictor = Predictor(bay.studio, desk)
    stop = Event()

    def named(fitting: str) -> None:
        predictor.told(f"fitting:{fitting}")

    predictor.told("bay:Bay 1")
    named("nobody's")
    named(bay.fitting)
    wanted = bay.studio.store.predict

    def keep(fitting: str, prediction: Prediction) -> bool:
        stop.set()
        return wanted(fitting, prediction)

    bay.studio.store.predict = keep  # type: ignore[method-assign]
    predictor.run(stop)
    assert "nobody's" in caplog.text
    assert len(bay.studio.store.predictions(bay.fitting)) == 1


def test_a_ball_under_another_key_of_the_feed_is_predicted_like_any_other(desk: Desk) -> None:
    bay = with_balls()
    made = predict_next(bay.studio, desk, bay.fitting)
    numbers = bay.now.balls[-1].numbers
    assert numbers is not None
    take(bay.studio, bay.fitting, Incoming(numbers=numbers, key="k"), source="feed")
    assert bay.studio.store.predictions(bay.fitting) == (made,)


def test_the_application_predicts_while_it_runs_and_again_after_a_restart(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(predicting, "AFTER_PAGES", 0.0)
    bay = with_balls()
    kept, made = bay.studio.store.predict, Event()

    def keep(fitting: str, prediction: Prediction) -> bool:
        found = kept(fitting, prediction)
        made.set()
        return found

    monkeypatch.setattr(bay.studio.store, "predict", keep)
    with served(bay.app()):
        assert made.wait(60.0)
    first = bay.studio.store.predictions(bay.fitting)
    bay.studio.hub = Hub()
    bay.ball()
    assert bay.studio.store.predictions(bay.fitting) == first
    made.clear()
    with served(bay.app()):
        assert made.wait(60.0)
    (last,) = bay.studio.store.predictions(bay.fitting)[len(first) :]
    assert last.after == bay.now.upto
