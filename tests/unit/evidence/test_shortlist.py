"""A shortlist names few shafts, unlike each other, and only what can be handed over here."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

import pytest

from loftwright.constants import DEGREE, INCH, MILE_PER_HOUR
from loftwright.domain.golfer import Wish
from loftwright.domain.home import Home
from loftwright.domain.likeness import likeness
from loftwright.domain.shortlist import ShaftOnHand, Sought
from loftwright.errors import InputError
from loftwright.evidence.shaft_prior import Effect
from loftwright.evidence.shortlist import (
    MOST,
    LeftOutFor,
    Shortlist,
    Without,
    figure,
    loft_step,
    near_copies,
    shortlist,
)
from loftwright.physics.shaft.profile import trimmed
from loftwright.physics.shaft_swing.players import Loading
from loftwright.services.demo_bench import demo_profile
from loftwright.services.demo_shafts import DEMO_SHAFTS

DAY = date(2026, 3, 1)


def on_hand(name: str, *, seed: int = 1, elsewhere: str = "") -> ShaftOnHand:
    shaft = next(one for one in DEMO_SHAFTS if one.name == name)
    measured = demo_profile(shaft, piece=f"{name} {seed}", day=DAY, seed=seed)
    return ShaftOnHand(name=f"{name} {seed}", measured=measured, elsewhere=elsewhere)


OWN = on_hand("Linnet")
OTHERS = tuple(
    on_hand(name, seed=seed)
    for seed, name in enumerate(("Heron", "Badger", "Kestrel", "Otter", "Ibex"), start=2)
)
SOUGHT = Sought(
    head_speed=93.0 * MILE_PER_HOUR,
    length=45.25 * INCH,
    own=OWN,
    wish=Wish.HIGHER,
    loadings=(Loading.SMOOTH_EARLY,),
)


@pytest.fixture(scope="module")
def higher() -> Shortlist:
    return shortlist(SOUGHT, OTHERS)


def reasons(found: Shortlist) -> Mapping[str, LeftOutFor]:
    return {one.shaft.name: one.why for one in found.left_out}


def test_every_shaft_is_named_once_and_at_most_three_are_to_be_tried(higher: Shortlist) -> None:
    assert len(higher.shafts) == MOST
    named = [one.shaft.name for one in higher.shafts] + list(reasons(higher))
    assert sorted(named) == sorted(one.name for one in OTHERS)


def test_the_first_is_the_likeliest_to_do_what_is_wished(higher: Shortlist) -> None:
    worth = [
        one.beliefs[Effect.LAUNCH].mean / one.beliefs[Effect.LAUNCH].sd for one in higher.shafts
    ]
    assert worth == sorted(worth, reverse=True)
    lower = shortlist(replace(SOUGHT, wish=Wish.LOWER), OTHERS)
    assert lower.shafts[0].beliefs[Effect.LAUNCH].mean <= worth[-1]


def test_a_wish_that_no_shaft_reaches_beyond_its_doubt_is_too_close_to_call(
    higher: Shortlist,
) -> None:
    doubts = [figure(one, Wish.HIGHER) for one in higher.shafts]
    assert higher.too_close == all(abs(one.mean) < one.sd for one in doubts)


def test_for_a_straighter_ball_no_shaft_is_told_apart() -> None:
    found = shortlist(replace(SOUGHT, wish=Wish.STRAIGHTER), OTHERS)
    assert found.too_close
    apart = [one.apart.distance or 0.0 for one in found.shafts]
    assert apart == sorted(apart, reverse=True)


def test_a_second_sample_of_the_own_shaft_is_no_news() -> None:
    again = on_hand("Linnet", seed=9)
    found = shortlist(SOUGHT, (again, OTHERS[1]))
    assert reasons(found)[again.name] is LeftOutFor.LIKE_OWN


def test_near_copies_never_stand_on_the_list_together() -> None:
    copies = tuple(on_hand("Kestrel", seed=seed) for seed in (21, 22, 23))
    found = shortlist(SOUGHT, copies)
    assert len(found.shafts) == 1
    assert set(reasons(found).values()) == {LeftOutFor.LIKE_ANOTHER}
    first, second = (one.measured for one in copies[:2])
    assert near_copies(likeness(first, second))
    assert not near_copies(likeness(first, OTHERS[1].measured))


def test_what_cannot_be_handed_over_is_named_with_who_has_it() -> None:
    locked = on_hand("Otter", seed=7, elsewhere="it is in Bay 4")
    found = shortlist(SOUGHT, (locked, OTHERS[0]))
    assert [one.shaft.name for one in found.shafts] == [OTHERS[0].name]
    assert found.left_out[0].why is LeftOutFor.ELSEWHERE
    assert found.left_out[0].words == "it is in Bay 4"


def test_a_shaft_that_is_too_short_for_the_club_says_by_how_much() -> None:
    kestrel = next(one for one in DEMO_SHAFTS if one.name == "Kestrel")
    cut = replace(
        kestrel, profile=trimmed(kestrel.profile, butt=80.0e-3), diameter=kestrel.diameter
    )
    short = ShaftOnHand(name="short", measured=demo_profile(cut, piece="c", day=DAY, seed=3))
    found = shortlist(SOUGHT, (short,))
    assert found.shafts == ()
    assert found.left_out[0].why is LeftOutFor.TOO_SHORT
    wanted = SOUGHT.length - 1.875 * INCH
    assert found.left_out[0].by == pytest.approx(wanted - cut.profile.length, abs=1e-9)


def test_without_a_measured_own_shaft_only_levers_are_left() -> None:
    found = shortlist(replace(SOUGHT, own=None), OTHERS)
    assert found.without is Without.OWN_NOT_MEASURED
    assert found.shafts == ()
    assert found.too_close
    assert shortlist(SOUGHT, ()).without is Without.NONE_MEASURED


def test_an_open_loading_widens_the_doubt(higher: Shortlist) -> None:
    both = shortlist(replace(SOUGHT, loadings=tuple(Loading)), OTHERS)
    first = higher.shafts[0]
    same = next(one for one in both.shafts if one.shaft.name == first.shaft.name)
    assert same.beliefs[Effect.LAUNCH].sd > first.beliefs[Effect.LAUNCH].sd


def test_a_slow_golfer_bends_a_shaft_less_than_a_fast_one() -> None:
    slow, fast = (
        shortlist(replace(SOUGHT, head_speed=mph * MILE_PER_HOUR), OTHERS[2:3]).shafts[0]
        for mph in (75.0, 114.0)
    )
    speeds = [abs(one.beliefs[Effect.DYNAMIC_LOFT].mean) for one in (slow, fast)]
    assert speeds[0] < speeds[1]


def test_a_degree_of_loft_launches_by_less_than_a_degree_and_slow_golfers_gain_by_it() -> None:
    slow, fast = (loft_step(mph * MILE_PER_HOUR, Home()) for mph in (70.0, 110.0))
    for step in (slow, fast):
        assert 0.7 * DEGREE < step.launch < 0.95 * DEGREE
        assert step.spin > 0.0
        assert step.ball_speed < 0.0
    assert slow.total > fast.total


def test_a_golfer_who_cannot_be_is_refused() -> None:
    with pytest.raises(InputError, match="head speed"):
        replace(SOUGHT, head_speed=10.0 * MILE_PER_HOUR)
    with pytest.raises(InputError, match="loading"):
        replace(SOUGHT, loadings=())
    with pytest.raises(InputError, match="tip trim"):
        replace(SOUGHT, tip_trim=0.3)


def test_an_own_profile_too_short_for_its_club_is_refused() -> None:
    with pytest.raises(InputError, match="too short for its club"):
        shortlist(replace(SOUGHT, length=51.0 * INCH), OTHERS)
