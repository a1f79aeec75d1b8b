"""A pick-up begun, hit and ended in a fitting; what bars it, and what it leaves on record."""

from dataclasses import replace
from datetime import timedelta

import pytest

from loftwright.bay.next_set import Step, next_set
from loftwright.constants import DEGREE
from loftwright.domain.acts import Closed, ClubDropped
from loftwright.domain.check_acts import Against, Outcome, PickedUp, PickUpBegun
from loftwright.domain.job_acts import JobAct
from loftwright.domain.numbers import ShotNumbers
from loftwright.domain.order_acts import Withdrawn
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.evidence.same_club import FEWEST_BUILT, FEWEST_TESTED
from loftwright.services.acting import act
from loftwright.services.demo_studio import DemoStudio, fill_demo
from loftwright.services.evidence import Desk
from loftwright.services.job import job_act, undo_job
from loftwright.services.pick_up import (
    begin_again,
    begin_pick_up,
    end_pick_up,
    pick_up_now,
)
from loftwright.services.pick_up_bars import Bar, begun_now, pair_of, picked_now
from loftwright.services.shots import Incoming, take
from loftwright.services.studio import Studio, new_id
from pick_ups import TESTED, Built, a_spec, bonded, ordered, put_in_rack, ready, received
from studios import Clock, studio_in_memory

CAP = 90


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def shop(clock: Clock) -> Studio:
    return studio_in_memory(clock)


@pytest.fixture
def demo(shop: Studio) -> DemoStudio:
    made = fill_demo(shop)
    assert made is not None
    return made


@pytest.fixture
def built(shop: Studio, clock: Clock, demo: DemoStudio) -> Built:
    return ready(shop, clock, demo)


def bar(studio: Studio, fitting: str) -> Bar:
    record = studio.store.job_record(fitting)
    found = pair_of(record, studio.standing(fitting), studio.store.rack(), studio.now())
    assert isinstance(found, Bar), found
    return found


def test_a_closed_fitting_opens_again_and_the_built_club_joins_under_a_tree(
    built: Built,
) -> None:
    assert built.now.closed
    visits = len(built.now.visits)
    begun = begin_pick_up(built.studio, built.fitting, built.start(), by="bench")
    now = built.now
    assert not now.closed
    assert begun == PickUpBegun(built="Fir", tested=TESTED, visit=visits)
    club = now.club("Fir")
    assert club is not None
    assert club.card.assembly == built.assembly
    assert now.visit is not None
    assert now.visit.index == visits
    assert not now.visit.warm


def test_device_and_ball_are_those_of_the_tested_club_s_day(built: Built) -> None:
    start = built.start()
    before = built.now.visits[0]
    assert start.device == before.device
    assert start.strip.ball == "premium, new"
    begin_pick_up(built.studio, built.fitting, start)
    assert pick_up_now(built.studio, Desk(), built.fitting).unlike == ()


def test_another_device_or_ball_is_named(built: Built) -> None:
    usual = built.start()
    other = replace(
        usual,
        device=replace(usual.device, name="Slate"),
        strip=replace(usual.strip, ball="range", tee=""),
    )
    begin_pick_up(built.studio, built.fitting, other)
    told = pick_up_now(built.studio, Desk(), built.fitting).unlike
    assert told == (
        "What measures the balls: Bay meter (invented) then, Slate now.",
        "The ball: premium, new then, range now.",
    )


def test_the_order_is_kept_set_by_set(built: Built) -> None:
    name = built.begin()
    seen = []
    for _ in range(4):
        wanted = next_set(built.now, CAP)
        assert wanted.step is Step.HAND_OVER
        assert wanted.club is not None
        seen.append((wanted.club, wanted.balls))
        built.hit(wanted.club, wanted.balls, as_club=TESTED)
    assert seen == [(TESTED, 3), (name, 4)] * 2
    assert next_set(built.now, CAP).step is Step.DONE


def test_nothing_is_said_before_the_first_sets(built: Built) -> None:
    name, desk = built.begin(), Desk()
    assert pick_up_now(built.studio, desk, built.fitting).said is None
    built.hit(TESTED, 2)
    found = pick_up_now(built.studio, desk, built.fitting).said
    assert found is not None
    assert (found.built, found.had, found.against) == (0, 2, None)
    built.hit(TESTED, 1)
    built.hit(name, 3, as_club=TESTED)
    found = pick_up_now(built.studio, desk, built.fitting).said
    assert found is not None
    assert (found.had, found.needed) == (6, FEWEST_BUILT + FEWEST_TESTED)
    assert found.against is None
    built.hit(name, 1, as_club=TESTED)
    found = pick_up_now(built.studio, desk, built.fitting).said
    assert found is not None
    assert found.against is not None


def test_a_club_that_plays_alike_is_not_called_different(built: Built) -> None:
    built.rotate(built.begin(), rounds=3)
    found = pick_up_now(built.studio, Desk(), built.fitting).said
    assert found is not None
    assert found.against in {Against.CONSISTENT, Against.CANNOT_TELL}
    assert found.differing == ()


def test_a_club_six_degrees_strong_is_called_different(built: Built) -> None:
    built.rotate(built.begin(), stronger=6.0 * DEGREE)
    found = pick_up_now(built.studio, Desk(), built.fitting).said
    assert found is not None
    assert found.against is Against.NOT
    launch = next(one for one in found.numbers if one.name == "launch")
    assert launch.apart.mean < 0.0


def test_the_handing_over_says_what_the_balls_said_and_closes(built: Built) -> None:
    built.rotate(built.begin(), stronger=6.0 * DEGREE)
    desk = Desk()
    picked = end_pick_up(
        built.studio, desk, built.fitting, taken=False, told=(), note="too low", by="bench"
    )
    assert picked == PickedUp(against=Against.NOT, taken=False, note="too low")
    assert picked_now(built.studio.store.job_record(built.fitting)) == picked
    assert built.now.closed


def test_a_club_that_stays_needs_a_reason_and_can_be_hit_again(built: Built) -> None:
    begin_pick_up(built.studio, built.fitting, built.start())
    desk = Desk()
    with pytest.raises(InputError, match="nobody says why"):
        end_pick_up(built.studio, desk, built.fitting, taken=False, told=())
    end_pick_up(built.studio, desk, built.fitting, taken=False, told=(), note="loft again")
    built.clock.forward(60 * 24 * 3)
    again = begin_pick_up(built.studio, built.fitting, built.start())
    assert again.visit == 2
    assert again.built == "Fir"
    assert len([one for one in built.now.clubs if one.card.assembly == built.assembly]) == 1


def test_a_club_can_be_handed_over_without_a_ball(built: Built) -> None:
    picked = end_pick_up(built.studio, Desk(), built.fitting, taken=True, told=("screw",))
    assert picked == PickedUp(against=None, taken=True, told=("screw",))
    with pytest.raises(ConflictError, match="taken already"):
        end_pick_up(built.studio, Desk(), built.fitting, taken=True, told=())


def test_a_taken_club_is_hit_again_only_because_of_a_complaint(built: Built) -> None:
    end_pick_up(built.studio, Desk(), built.fitting, taken=True, told=())
    built.clock.forward(60 * 24 * 40)
    with pytest.raises(ConflictError, match="the golfer has the club"):
        begin_pick_up(built.studio, built.fitting, built.start())
    begun = begin_again(built.studio, built.fitting, built.start(), by="bench")
    assert begun.complaint
    assert picked_now(built.studio.store.job_record(built.fitting)) is None
    built.hit(TESTED, 3)


def test_two_pick_ups_do_not_go_on_at_once(built: Built) -> None:
    begin_pick_up(built.studio, built.fitting, built.start())
    with pytest.raises(ConflictError, match="being hit already"):
        begin_pick_up(built.studio, built.fitting, built.start())


def test_the_same_key_begins_and_ends_once(built: Built) -> None:
    start = built.start()
    one = begin_pick_up(built.studio, built.fitting, start, key="k")
    assert begin_pick_up(built.studio, built.fitting, start, key="k") == one
    assert len(built.now.visits) == 2
    for _ in range(2):
        end_pick_up(built.studio, Desk(), built.fitting, taken=True, told=(), key="e")
    acts = [one.act for one in built.studio.store.job_record(built.fitting)]
    assert sum(isinstance(one, PickedUp) for one in acts) == 1


def test_pain_begins_nothing(built: Built) -> None:
    before = built.now.upto
    with pytest.raises(InputError, match="nobody swings today"):
        begin_pick_up(built.studio, built.fitting, replace(built.start(), pain=True))
    assert built.now.upto == before
    assert built.now.closed


def test_a_stale_page_begins_nothing(built: Built) -> None:
    seen = len(built.studio.store.job_record(built.fitting))
    with pytest.raises(ConflictError):
        begin_pick_up(built.studio, built.fitting, built.start(), seen=seen - 1)
    assert built.now.closed


def test_an_undone_beginning_begins_again_on_the_same_visit(built: Built) -> None:
    begin_pick_up(built.studio, built.fitting, built.start())
    record = built.studio.store.job_record(built.fitting)
    undo_job(built.studio, built.fitting, record[-1].sequence)
    assert begun_now(built.studio.store.job_record(built.fitting)) is None
    again = begin_pick_up(built.studio, built.fitting, built.start())
    assert again.visit == 1
    assert len(built.now.visits) == 2


def acts_until(studio: Studio, demo: DemoStudio, *acts: JobAct) -> None:
    ordered(studio, demo.finished, a_spec(studio, demo.finished))
    for one in acts:
        job_act(studio, demo.finished, [one])


def test_every_step_before_it_bars_it(shop: Studio, clock: Clock, demo: DemoStudio) -> None:
    fitting = demo.finished
    assert bar(shop, fitting).step == "order"
    acts_until(shop, demo)
    assert (bar(shop, fitting).step, bar(shop, fitting).message) == (
        "build",
        "no club is built yet",
    )
    club = put_in_rack(shop, fitting)
    job_act(shop, fitting, [bonded(shop, club, hours=24.0)])
    assert "cures until" in bar(shop, fitting).message
    clock.forward(24 * 60 - 1)
    assert "cures until" in bar(shop, fitting).message
    clock.forward(1)
    assert bar(shop, fitting).step == "final-check"
    job_act(shop, fitting, [received(Outcome.REWORK)])
    assert bar(shop, fitting).message == "the final check says rework"
    job_act(shop, fitting, [received()])
    built = Built(studio=shop, clock=clock, fitting=fitting, assembly=club.id)
    assert built.pair().rotation


def test_before_the_check_the_club_is_neither_hit_nor_handed_over(
    shop: Studio, clock: Clock, demo: DemoStudio
) -> None:
    built = ready(shop, clock, demo)
    start = built.start()
    job_act(shop, demo.finished, [received(Outcome.REJECT)])
    for what in (
        lambda: begin_pick_up(shop, demo.finished, start),
        lambda: end_pick_up(shop, Desk(), demo.finished, taken=True, told=()),
    ):
        with pytest.raises(ConflictError, match="the final check says reject"):
            what()
    assert built.now.closed


def test_an_order_that_is_off_has_no_pick_up(built: Built) -> None:
    job_act(built.studio, built.fitting, [Withdrawn(reason="moved away")])
    assert bar(built.studio, built.fitting).message == "the order is off: moved away"


def test_a_club_that_was_never_hit_has_nothing_to_be_set_against(
    shop: Studio, demo: DemoStudio
) -> None:
    ordered(shop, demo.finished, a_spec(shop, demo.finished, hit=False))
    club = put_in_rack(shop, demo.finished)
    job_act(shop, demo.finished, [bonded(shop, club)])
    job_act(shop, demo.finished, [received()])
    found = bar(shop, demo.finished)
    assert "never hit" in found.message
    assert found.step == ""
    assert end_pick_up(shop, Desk(), demo.finished, taken=True, told=()).taken


def test_a_built_club_that_is_in_no_rack_is_not_hit(built: Built) -> None:
    club = built.studio.store.rack().assemblies[built.assembly]
    elsewhere = replace(bonded(built.studio, club), assembly="sold")
    job_act(built.studio, built.fitting, [elsewhere, received()])
    found = bar(built.studio, built.fitting)
    assert found.message == "the built club is not in the rack"
    assert "as the golfer’s" in found.mend


def without_tested(built: Built) -> None:
    """Take the tested club apart: its head is on another shaft now."""
    rack = built.studio.store.rack()
    club = built.now.club(TESTED)
    assert club is not None
    made = rack.assemblies[club.card.assembly]
    kept = replace(made, shaft=built.now.clubs[2].card.shaft_piece)
    version = built.studio.store.item(made.id).version
    built.studio.store.put(kept, version=version)


def test_without_the_tested_club_the_own_one_ties_the_days(built: Built) -> None:
    without_tested(built)
    pair = built.pair()
    assert not pair.rotation
    assert pair.gone == f"{TESTED} has other parts now"
    name = built.begin()
    plan = built.now.plan
    assert plan is not None
    assert plan.plan.sets == (("Own", 3), (name, 4)) * 2
    built.hit("Own", 3)
    built.hit(name, 4, as_club=TESTED)
    found = pick_up_now(built.studio, Desk(), built.fitting).said
    assert found is not None
    assert found.needed == FEWEST_BUILT
    assert found.joined
    assert found.against is not None


def test_without_the_tested_club_and_the_own_one_nothing_ties_the_days(built: Built) -> None:
    without_tested(built)
    act(built.studio, built.fitting, [ClubDropped(club="Own")])
    found = bar(built.studio, built.fitting)
    assert "no club that was hit with it can be hit again" in found.message


def test_a_training_case_has_no_pick_up(shop: Studio) -> None:
    with pytest.raises(NotFoundError):
        pick_up_now(shop, Desk(), "training-00000000-0000-0000-0000-000000000000")


def test_a_device_without_launch_says_nothing(built: Built) -> None:
    name = built.begin()
    for club in (TESTED, name):
        built.hand_over(club)
        for _ in range(4):
            ball = ShotNumbers(ball_speed=66.0, carry=210.0)
            incoming = Incoming(numbers=ball, key=new_id(), device="Slate")
            take(built.studio, built.fitting, incoming, source="feed")
    found = pick_up_now(built.studio, Desk(), built.fitting)
    assert found.carry_alone
    assert found.said is None


def test_a_visit_of_today_is_gone_on_with(built: Built) -> None:
    begin_pick_up(built.studio, built.fitting, built.start())
    end_pick_up(built.studio, Desk(), built.fitting, taken=False, told=(), note="wrong grip")
    built.clock.at += timedelta(hours=1)
    again = begin_pick_up(built.studio, built.fitting, built.start())
    assert again.visit == 1
    assert len(built.now.visits) == 2
    act(built.studio, built.fitting, [Closed()])
