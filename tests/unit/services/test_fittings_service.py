"""A fitting is opened, planned, planned again when late, and gone on with on another day."""

from dataclasses import replace
from datetime import timedelta

import pytest

from loftwright.bay.now import FittingNow
from loftwright.bay.replay import replay
from loftwright.constants import DEGREE, INCH
from loftwright.domain.acts import ClubDropped, HandedOver, ShotArrived, WarmUpDone
from loftwright.domain.fitting import DeviceCard, Strip
from loftwright.domain.golfer import Golfer, Identity
from loftwright.domain.names import OWN, TREES
from loftwright.domain.numbers import ShotNumbers
from loftwright.errors import ConflictError, InputError, NotFoundError
from loftwright.evidence.plan import Pace
from loftwright.services.acting import act
from loftwright.services.fittings import Wish, join_club, open_fitting, open_visit, plan_visit
from loftwright.services.golfer_opening import Visitor, open_for_new
from loftwright.services.measuring import keep_profile
from loftwright.services.rack_adding import OwnClub
from loftwright.services.studio import Studio
from shafts import a_profile
from studios import Clock, a_club, a_head, studio_in_memory

MINUTE = 60.0
METER = DeviceCard(name="meter")


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def studio(clock: Clock) -> Studio:
    made = studio_in_memory(clock)
    head = a_head(made)
    for name, grams, length in (
        ("Reedmace", 60.0, 45.25),
        ("Sedge", 50.0, 45.5),
        ("Teasel", 65.0, 45.0),
        ("Bulrush", 70.0, 45.0),
    ):
        a_club(made, head, name, grams, length)
    return made


@pytest.fixture
def fitting(studio: Studio) -> str:
    own = OwnClub(loft=10.5 * DEGREE, length=45.5 * INCH, shaft_mass=0.060)
    visitor = Visitor(golfer=Golfer(id=""), identity=Identity(name="Ottoline"), own=own)
    return open_for_new(studio, visitor, bay="Bay 1").id


def shop(studio: Studio) -> tuple[str, ...]:
    return tuple(one.id for one in studio.store.rack().assemblies.values() if one.owner is None)


def shafts_by_name(now: FittingNow) -> dict[str, str]:
    return {club.name: club.card.shaft for club in now.clubs}


def planned_names(now: FittingNow) -> set[str]:
    assert now.plan is not None
    return {club for club, _ in now.plan.plan.sets}


def test_clubs_are_named_by_trees_in_the_order_of_the_wish_and_the_own_joins_first(
    studio: Studio, fitting: str
) -> None:
    wanted = shop(studio)[:3]
    now = plan_visit(studio, fitting, Wish(assemblies=wanted, balls=36), seed=1)
    assert [club.name for club in now.clubs] == [OWN, *TREES[:3]]
    assert [club.card.assembly for club in now.clubs[1:]] == list(wanted)
    assert now.plan is not None
    assert (now.plan.plan.balls, now.plan.plan.seed, now.plan.plan.given_up) == (36, 1, ())
    assert planned_names(now) == {OWN, *TREES[:3]}
    assert now.plan.plan.sets[0][0] == now.plan.plan.sets[-1][0] == OWN


def test_a_club_is_measured_while_its_shaft_has_a_profile_that_stands(
    studio: Studio, fitting: str
) -> None:
    wanted = shop(studio)
    assemblies = studio.store.rack().assemblies
    kept = [keep_profile(studio, a_profile(piece=assemblies[one].shaft)) for one in wanted[:2]]
    studio.store.set_profile_aside(kept[1].id, "span misread")
    now = plan_visit(studio, fitting, Wish(assemblies=wanted[:3], balls=36), seed=1)
    assert [club.card.measured for club in now.clubs] == [False, True, False, False]
    keep_profile(studio, a_profile(piece=assemblies[wanted[3]].shaft))
    now = join_club(studio, fitting, wanted[3])
    assert now.clubs[-1].card.measured
    assert not now.clubs[2].card.measured


def test_the_same_seed_gives_the_same_order_and_another_does_not(
    studio: Studio, fitting: str
) -> None:
    orders = []
    for seed in (5, 5, 6):
        now = plan_visit(studio, fitting, Wish(assemblies=shop(studio)), seed=seed)
        assert now.plan is not None
        orders.append(now.plan.plan.sets)
    assert orders[0] == orders[1] != orders[2]


def test_the_same_key_plans_once(studio: Studio, fitting: str) -> None:
    wish = Wish(assemblies=shop(studio))
    first = plan_visit(studio, fitting, wish, key="k")
    again = plan_visit(studio, fitting, wish, key="k")
    assert again == first


def test_names_are_kept_when_it_is_planned_again_and_a_new_club_gets_a_new_one(
    studio: Studio, fitting: str
) -> None:
    every = shop(studio)
    first = plan_visit(studio, fitting, Wish(assemblies=(every[2], every[0])), seed=1)
    act(studio, fitting, [ClubDropped(club="Ash")])
    again = plan_visit(studio, fitting, Wish(assemblies=(every[3], every[0])), seed=2)
    names = shafts_by_name(again)
    assert shafts_by_name(first).items() <= names.items()
    assert planned_names(again) == {OWN, "Birch", "Cedar"}
    bulrush = next(name for name, shaft in names.items() if "Bulrush" in shaft)
    assert bulrush == "Cedar"
    ash = again.club("Ash")
    assert ash is not None
    assert ash.out == "dropped"


def test_blind_names_are_dealt_by_the_seed_and_kept_as_well(studio: Studio, fitting: str) -> None:
    wanted = shop(studio)
    dealt = plan_visit(studio, fitting, Wish(assemblies=wanted, blind=True), seed=3)
    names = [club.name for club in dealt.clubs[1:]]
    assert names != list(TREES[:4])
    assert len({*names}) == 4
    assert set(names) <= set(TREES)
    assert dealt.plan is not None
    assert dealt.plan.plan.blind
    again = plan_visit(studio, fitting, Wish(assemblies=wanted, blind=True), seed=4)
    assert shafts_by_name(again) == shafts_by_name(dealt)


def test_late_is_planned_with_fewer_clubs_and_says_what_is_given_up(
    studio: Studio, fitting: str
) -> None:
    wanted = shop(studio)
    plan_visit(studio, fitting, Wish(assemblies=wanted, seconds=90 * MINUTE), seed=1)
    late = Wish(assemblies=wanted, seconds=25 * MINUTE)
    walking = Pace(talk=0.0, warm_up=0.0, baseline=0.0)
    now = plan_visit(studio, fitting, late, seed=1, pace=walking)
    assert now.plan is not None
    told = now.plan.plan.given_up
    assert any("clubs, not 5" in one or "balls, not 40" in one for one in told)
    assert "stay open" in told[-1]
    assert now.plan.plan.balls < 40
    assert OWN in planned_names(now)
    assert len(now.clubs) == 5


def test_too_little_time_is_refused_and_the_old_plan_stands(studio: Studio, fitting: str) -> None:
    before = plan_visit(studio, fitting, Wish(assemblies=shop(studio)), seed=1)
    with pytest.raises(InputError, match="minutes") as told:
        plan_visit(studio, fitting, Wish(assemblies=shop(studio), seconds=3 * MINUTE))
    assert told.value.mend
    assert replay(studio.record(fitting)) == before


def test_a_club_that_is_not_in_the_rack_is_refused_before_anything_is_written(
    studio: Studio, fitting: str
) -> None:
    for wanted in (("nothing",), (*shop(studio), "nothing")):
        with pytest.raises(InputError, match="no club 'nothing'") as told:
            plan_visit(studio, fitting, Wish(assemblies=wanted))
        assert told.value.place == "clubs"
    with pytest.raises(InputError, match="no club 'nothing'"):
        join_club(studio, fitting, "nothing")
    assert studio.record(fitting) == ()


def test_more_clubs_than_names_are_refused(studio: Studio, fitting: str) -> None:
    head = a_head(studio, "Bittern 440")
    for place in range(len(TREES)):
        a_club(studio, head, f"Rush {place}", 60.0, 45.0)
    with pytest.raises(InputError, match="more than a fitting has names for"):
        plan_visit(studio, fitting, Wish(assemblies=shop(studio), balls=400))
    assert studio.record(fitting) == ()


def test_two_screens_do_not_plan_over_each_other(studio: Studio, fitting: str) -> None:
    wish = Wish(assemblies=shop(studio))
    plan_visit(studio, fitting, wish, by="tablet", seen=0)
    before = studio.record(fitting)
    with pytest.raises(ConflictError, match="tablet"):
        plan_visit(studio, fitting, wish, by="laptop", seen=0)
    assert studio.record(fitting) == before


def test_a_club_joins_in_the_middle_under_the_next_name(studio: Studio, fitting: str) -> None:
    every = shop(studio)
    plan_visit(studio, fitting, Wish(assemblies=every[:2]), seed=1)
    now = join_club(studio, fitting, every[3])
    assert [club.name for club in now.clubs] == [OWN, "Ash", "Birch", "Cedar"]
    assert "Bulrush" in now.clubs[-1].card.shaft


def test_the_card_of_a_club_does_not_follow_the_rack(studio: Studio, fitting: str) -> None:
    every = shop(studio)
    before = plan_visit(studio, fitting, Wish(assemblies=every[:2]), seed=1).club("Ash")
    kept = studio.store.rack().assemblies[every[0]]
    version = studio.store.item(every[0]).version
    studio.store.put(replace(kept, price=123), version=version)
    assert plan_visit(studio, fitting, Wish(assemblies=every[:2]), seed=2).club("Ash") == before


def test_a_second_visit_counts_on_and_begins_with_its_own_warm_up(
    studio: Studio, fitting: str, clock: Clock
) -> None:
    plan_visit(studio, fitting, Wish(assemblies=shop(studio)[:2]), seed=1)
    open_visit(studio, fitting, device=METER, strip=Strip(ball="premium"), warm_up=False)
    ball = ShotArrived(numbers=ShotNumbers(ball_speed=66.0))
    act(studio, fitting, [HandedOver(club="Ash"), ball])
    clock.at += timedelta(days=7)
    now = open_visit(studio, fitting, device=DeviceCard(name="other box"))
    assert (now.in_hand, now.plan, now.visit is not None) == (None, None, True)
    assert [visit.day for visit in now.visits] == [
        (clock.at - timedelta(days=7)).date(),
        clock.at.date(),
    ]
    act(studio, fitting, [HandedOver(club="Own"), ball, WarmUpDone()])
    now = act(studio, fitting, [ball])
    assert [(one.visit, one.number, one.order) for one in now.swings] == [
        (0, 1, 0),
        (1, 0, 0),
        (1, 2, 1),
    ]
    assert [club.name for club in now.clubs] == [OWN, "Ash", "Birch"]


def test_a_couple_is_tied_from_both_sides(studio: Studio, fitting: str) -> None:
    second = open_fitting(
        studio, studio.store.fitting(fitting).value.golfer, bay="Bay 1", partner=fitting
    )
    assert second.partner == fitting
    assert studio.store.fitting(fitting).value.partner == second.id


def test_a_fitting_is_opened_for_a_golfer_who_is_known(studio: Studio) -> None:
    with pytest.raises(NotFoundError):
        open_fitting(studio, "nobody", bay="Bay 1")
    assert studio.store.fittings() == ()
