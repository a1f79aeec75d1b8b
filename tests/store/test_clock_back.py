"""A clock that jumps changes neither the order of a record nor what is kept once."""

from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from bays import a_bay, drive
from loftwright.bay.pace import pace_of
from loftwright.domain.acts import Closed, Marked, Rested, ShotArrived
from loftwright.domain.fitting import Mark
from loftwright.errors import InputError
from loftwright.services.acting import act, undo
from loftwright.services.bay_now import bay_now
from loftwright.services.evidence import Desk
from loftwright.services.live import Hub
from loftwright.services.pairing import CODE_LIFE, Pairing
from loftwright.services.quiet import running, running_words
from loftwright.services.shots import Incoming, take
from loftwright.services.studio import Studio
from loftwright.store.sqlite import open_store
from loftwright.web.app import create_app
from studios import Clock
from web_client import asking

JUMPS = (
    timedelta(hours=-1),
    timedelta(days=-1),
    timedelta(days=1),
    timedelta(days=-400),
)
jumps = pytest.mark.parametrize("jump", JUMPS, ids=str)
SHIFTS = (
    datetime(2026, 3, 29, 0, 59, 30, tzinfo=UTC),
    datetime(2026, 10, 25, 0, 59, 30, tzinfo=UTC),
)
"""Half a minute before the hour changes in Vienna: EU directive 2000/84/EC, articles 2 and 3."""


def play(folder: Path, jump: timedelta) -> tuple[Studio, str]:
    """Hit two balls, let the clock jump, hit two more and undo an act of before."""
    clock = Clock()
    studio = Studio(store=open_store(folder), folder=folder, clock=clock)
    bay = a_bay(studio=studio, clock=clock)
    for number in (1, 2):
        take(studio, bay.fitting, ball(bay.rng, number), source="feed")
        clock.forward(0.5)
    rested = act(studio, bay.fitting, [Rested()], key="rest").upto
    clock.at += jump
    for number in (3, 2, 1, 4, 3):
        take(studio, bay.fitting, ball(bay.rng, number), source="feed")
        clock.forward(0.5)
    act(studio, bay.fitting, [Rested()], key="rest")
    undo(studio, bay.fitting, rested, seen=None)
    return studio, bay.fitting


def ball(rng: object, number: int) -> Incoming:
    del rng
    import numpy as np  # noqa: PLC0415 - a stream of each ball's own

    numbers = drive(np.random.default_rng(number), "Own")
    return Incoming(numbers=numbers, key=f"k{number}", device="meter")


@jumps
def test_a_record_keeps_its_order_and_takes_no_ball_twice(tmp_path: Path, jump: timedelta) -> None:
    studio, fitting = play(tmp_path, jump)
    record = studio.store.record(fitting)
    assert [one.sequence for one in record] == list(range(1, len(record) + 1))
    balls = [one.key for one in record if isinstance(one.act, ShotArrived)]
    assert balls == ["k1", "k2", "k3", "k4"]
    assert sum(isinstance(one.act, Rested) for one in record) == 1
    studio.store.close()


@jumps
def test_a_fitting_stands_as_if_the_clock_had_gone_on(tmp_path: Path, jump: timedelta) -> None:
    studio, fitting = play(tmp_path / "jumped", jump)
    plain, other = play(tmp_path / "plain", timedelta(0))
    found, wanted = studio.standing(fitting), plain.standing(other)
    assert [one.number for one in found.swings] == [one.number for one in wanted.swings]
    assert [one.club for one in found.swings] == [one.club for one in wanted.swings]
    said, told = (
        bay_now(one, Desk(), which).evidence.decision
        for one, which in ((studio, fitting), (plain, other))
    )
    assert said is not None
    assert told is not None
    assert said.clubs == told.clubs
    studio.store.close()
    plain.store.close()


@jumps
def test_no_page_shows_more_minutes_than_were_planned_or_a_time_below_nought(
    tmp_path: Path, jump: timedelta
) -> None:
    studio, fitting = play(tmp_path, jump)
    now = studio.standing(fitting)
    assert now.plan is not None
    assert now.plan.plan.seconds is not None
    pace = pace_of(now, studio.now(), care=False)
    assert pace.seconds_left is not None
    assert 0.0 <= pace.seconds_left <= now.plan.plan.seconds
    with asking(create_app(studio)) as browser:
        for page in ("", f"fittings/{fitting}/bay", f"fittings/{fitting}/plan"):
            answer = browser.get(f"/{page}")
            assert answer.status_code == 200
            for word in ("-1 min", "−1 min", "-1 sec", "−60", "-60 "):
                assert word not in answer.text
    studio.store.close()


@jumps
def test_a_fitting_counts_as_under_way_after_a_clock_was_set_back(
    tmp_path: Path, jump: timedelta
) -> None:
    studio, fitting = play(tmp_path, jump)
    (one,) = running(studio)
    assert one.fitting == fitting
    assert "-" not in running_words([one], studio.now() - timedelta(hours=1))
    act(studio, fitting, [Closed()])
    assert running(studio) == ()
    studio.store.close()


@jumps
def test_what_the_body_allows_is_forgotten_with_the_visit(tmp_path: Path, jump: timedelta) -> None:
    clock = Clock()
    studio = Studio(store=open_store(tmp_path), folder=tmp_path, clock=clock)
    bay = a_bay(studio=studio, clock=clock)
    day = studio.today()
    studio.store.set_limits(bay.golfer.id, day, "half swings (invented)")
    act(studio, bay.fitting, [Rested()])
    clock.at += jump
    act(studio, bay.fitting, [Closed()])
    assert studio.store.limits(bay.golfer.id, day) == ""
    studio.store.close()


@pytest.mark.parametrize("hours", [-24.0 * 400.0, -24.0, -1.0, 1.0, 24.0])
def test_a_pairing_code_lives_no_longer_where_the_clock_was_set_back(
    tmp_path: Path, hours: float
) -> None:
    clock = Clock()
    store = open_store(tmp_path)
    pairing = Pairing(store, Hub(), clock)
    code = pairing.new_code()
    clock.at += timedelta(hours=hours)
    with pytest.raises(InputError, match="no code stands"):
        pairing.let_in(code.figures, name="Tablet", role="fitter")
    assert pairing.code() is None
    fresh = pairing.new_code()
    clock.at += CODE_LIFE / 2
    assert pairing.let_in(fresh.figures, name="Tablet", role="fitter").device.name == "Tablet"
    store.close()


@pytest.mark.parametrize("shift", SHIFTS, ids=("to summer", "to winter"))
def test_a_visit_across_the_change_of_the_hour_counts_its_minutes_by_the_sun(
    tmp_path: Path, shift: datetime
) -> None:
    clock = Clock(at=shift)
    studio = Studio(store=open_store(tmp_path), folder=tmp_path, clock=clock)
    studio.zone = ZoneInfo("Europe/Vienna")
    bay = a_bay(studio=studio, clock=clock)
    before = pace_of(studio.standing(bay.fitting), studio.now(), care=False).seconds_left
    clock.forward(1.0)
    after = pace_of(studio.standing(bay.fitting), studio.now(), care=False).seconds_left
    assert before is not None
    assert after == pytest.approx(before - 60.0)
    bay.balls(2)
    bay.do(Marked(mark=Mark(toe=0.001, high=0.002)))
    record = studio.store.record(bay.fitting)
    assert [one.at for one in record] == sorted(one.at for one in record)
    studio.store.close()
