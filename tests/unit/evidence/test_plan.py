"""The order of a fitting: shuffled, with the own club in it, within balls and minutes."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from loftwright.constants import YARD
from loftwright.domain.names import OWN, TREES
from loftwright.errors import InputError
from loftwright.evidence.plan import (
    MINUTE,
    MOST_CLUBS,
    SET_SIZE,
    Pace,
    Plan,
    PlanRequest,
    fewest_balls,
    make_plan,
)
from loftwright.evidence.power import Scatter

SCATTER = Scatter(total=10.0 * YARD, offline=20.0 * YARD)


def planned(
    clubs: int, balls: int, minutes: float | None = None, seed: int = 7, *, blind: bool = False
) -> Plan:
    request = PlanRequest(
        clubs=clubs,
        balls=balls,
        difference=3.0 * YARD,
        scatter=SCATTER,
        available=None if minutes is None else minutes * MINUTE,
        blind=blind,
    )
    return make_plan(request, np.random.default_rng(seed))


@st.composite
def sizes(draw: st.DrawFn) -> tuple[int, int]:
    clubs = draw(st.integers(2, MOST_CLUBS))
    return clubs, draw(st.integers(fewest_balls(clubs), 150))


@given(size=sizes(), seed=st.integers(0, 10**6), blind=st.booleans())
def test_every_plan_is_whole(size: tuple[int, int], seed: int, blind: bool) -> None:
    clubs, balls = size
    plan = planned(clubs, balls, seed=seed, blind=blind)
    order = [one.club for one in plan.sets]
    assert sum(one.balls for one in plan.sets) == plan.balls == balls
    assert all(1 <= one.balls <= SET_SIZE for one in plan.sets)
    assert all(a != b for a, b in pairwise(order))
    assert order[0] == order[-1] == OWN
    third = len(order) // 3
    assert OWN in order[third : len(order) - third]
    hit = {club: sum(one.balls for one in plan.sets if one.club == club) for club in plan.clubs}
    assert len(hit) == clubs
    assert max(hit.values()) - min(hit.values()) <= 1
    assert hit[OWN] == max(hit.values())


def test_each_tested_club_comes_up_once_in_every_block() -> None:
    plan = planned(5, 60)
    tested = [one.club for one in plan.sets if one.club != OWN]
    blocks = [tested[start : start + 4] for start in range(0, len(tested), 4)]
    assert len(blocks) == 4
    assert all(sorted(block) == sorted(plan.clubs[1:]) for block in blocks)


def test_the_seed_gives_the_same_plan_and_another_seed_another() -> None:
    assert planned(5, 40, seed=3) == planned(5, 40, seed=3)
    assert planned(5, 40, seed=3).sets != planned(5, 40, seed=4).sets


def test_every_order_of_a_block_is_as_likely_as_another() -> None:
    rng = np.random.default_rng(1)
    request = PlanRequest(clubs=4, balls=36, difference=YARD, scatter=SCATTER)
    first = [make_plan(request, rng).sets[1].club for _ in range(600)]
    # Three clubs can open the first block: 200 each, standard deviation 11.5.
    assert all(abs(first.count(club) - 200) < 50 for club in ("Ash", "Birch", "Cedar"))


def test_names_join_in_order_and_are_dealt_when_blind() -> None:
    assert planned(4, 30).clubs == (OWN, *TREES[:3])
    dealt = planned(4, 30, blind=True).clubs
    assert dealt[0] == OWN
    assert set(dealt[1:]) <= set(TREES)
    assert dealt != planned(4, 30, blind=True, seed=8).clubs


def test_time_is_that_of_balls_changes_and_what_is_never_cut() -> None:
    plan = planned(5, 40)
    # 8 + 10 + 5 min before, 40 balls of 35 s, 14 changes of 60 s, 10 min after.
    assert plan.duration / MINUTE == pytest.approx(33.0 + 40 * 35 / 60 + 14)
    assert plan.sets[0].start == 23.0 * MINUTE
    last = plan.sets[-1]
    assert last.start + last.balls * 35.0 + 10.0 * MINUTE == pytest.approx(plan.duration)


def test_an_hour_leaves_three_clubs_not_five() -> None:
    plan = planned(5, 40, minutes=60)
    assert len(plan.clubs) == 3
    # 33 min are fixed; nine sets of three with eight changes take 23.75 more, a tenth set each
    # with another block 2.75 a club.
    assert plan.balls == 27
    assert plan.duration <= 60.0 * MINUTE


@given(
    size=sizes(),
    minutes=st.floats(43.0, 200.0),
    ball=st.floats(20.0, 60.0),
    seed=st.integers(0, 9),
)
def test_a_plan_never_runs_over_and_never_cuts_the_warm_up(
    size: tuple[int, int], minutes: float, ball: float, seed: int
) -> None:
    pace = Pace(ball=ball)
    request = PlanRequest(
        clubs=size[0],
        balls=size[1],
        difference=3.0 * YARD,
        scatter=SCATTER,
        available=minutes * MINUTE,
        pace=pace,
    )
    # Two clubs and five balls of at most 60 s with four changes fit into 43 minutes.
    plan = make_plan(request, np.random.default_rng(seed))
    assert plan.duration <= minutes * MINUTE
    assert plan.sets[0].start == pace.talk + pace.warm_up + pace.baseline
    assert plan.sets[0].start >= pace.warm_up == 10.0 * MINUTE


def test_enough_minutes_give_up_nothing() -> None:
    plan = planned(5, 40, minutes=75)
    assert (len(plan.clubs), plan.balls) == (5, 40)


def test_what_is_seen_falls_with_more_balls() -> None:
    seen = planned(5, 40).seen
    assert [one.balls_per_club for one in seen] == [4, 8, 12, 20, 40]
    assert all(a.total > b.total for a, b in pairwise(seen))
    assert seen[0].offline == pytest.approx(2.0 * seen[0].total)


@pytest.mark.parametrize(
    ("clubs", "balls", "minutes", "place"),
    [
        (1, 40, None, "clubs"),
        (14, 99, None, "clubs"),
        (5, 10, None, "balls"),
        (5, 2001, None, "balls"),
        (5, 40, 35, "minutes"),
    ],
)
def test_what_cannot_be_planned_names_the_mend(
    clubs: int, balls: int, minutes: float | None, place: str
) -> None:
    with pytest.raises(InputError) as caught:
        planned(clubs, balls, minutes)
    assert caught.value.place == place
    assert caught.value.mend


def test_too_few_minutes_say_what_it_takes_and_keep_the_warm_up() -> None:
    # Five balls and four changes beside the 33 fixed minutes; sixteen balls and six changes.
    with pytest.raises(InputError, match="35 minutes do not suffice") as caught:
        planned(5, 40, 35)
    assert caught.value.mend == (
        "It takes 40 minutes at the very least and 49 to be worth while; "
        "the warm-up is not shortened."
    )
