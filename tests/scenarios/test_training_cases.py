"""Ten training cases played through: what each teaches is true of the very balls that are hit.

Every case is played by the order that hangs in its bay and with its own seed; several are played
under seeds 1 to 8 as well, for one seed shows what can happen and not how often. Figures are
self-consistent: golfer, clubs and comparison are this program's own.
"""

from functools import cache

import pytest

from loftwright.constants import YARD
from loftwright.evidence.result import State
from loftwright.services.training_debrief import LookBack
from loftwright.training.case_files import known_cases
from loftwright.training.debrief import TOO_CLOSE, TrueClub
from training_rooms import played

SEEDS = range(1, 9)


@cache
def own_seed(case: str) -> LookBack:
    return played(case)


@cache
def of_seed(case: str, seed: int) -> LookBack:
    return played(case, seed=seed)


def by_shaft(back: LookBack) -> dict[str, TrueClub]:
    return {one.shaft: one for one in back.debrief.clubs}


def shaft_of(back: LookBack, club: str | None) -> str:
    return next(one.shaft for one in back.debrief.clubs if one.club == club)


def plain_pick(back: LookBack) -> str:
    assert back.debrief.end is not None
    return shaft_of(back, back.debrief.end.plain_pick)


def comparison_pick(back: LookBack) -> str:
    assert back.debrief.end is not None
    return shaft_of(back, back.debrief.end.pick)


def chance(back: LookBack, shaft: str) -> float:
    assert back.debrief.end is not None
    return back.debrief.end.chances[by_shaft(back)[shaft].club]


def plain_against_own(back: LookBack, shaft: str) -> float:
    """Return a club's plain average against the own one's [yd]."""
    assert back.debrief.end is not None
    plain = back.debrief.end.plain
    return (plain[by_shaft(back)[shaft].club] - plain["Own"]) / YARD


def said_against_own(back: LookBack, shaft: str) -> float:
    """Return what the comparison says of a club against the own one [yd]."""
    assert back.debrief.end is not None
    return back.debrief.end.said[by_shaft(back)[shaft].club].mean / YARD


def costs(case: str, kind: str) -> int:
    """Return under how many of eight seeds a pick gives up more than a yard."""
    found = [getattr(of_seed(case, seed).debrief, kind) for seed in SEEDS]
    return sum(one > YARD for one in found)


@pytest.mark.parametrize("name", [case.name for case in known_cases()])
def test_a_case_plays_through(name: str) -> None:
    back = own_seed(name)
    found = back.debrief
    assert found.call == TOO_CLOSE
    assert found.kept == "Own"
    assert found.balls == back.case.balls
    assert len(found.moments) <= 3
    assert found.cost == pytest.approx(found.clubs[0].value)
    assert found.cost >= 0.0


def test_low_strikes_look_like_a_shaft_that_spins() -> None:
    """Wren is truly 4.8 yd better; its average stands 4.3 yd below Stoat's, which has 0.5."""
    back = own_seed("larkspur")
    assert by_shaft(back)["Wren"].value / YARD == pytest.approx(4.8, abs=0.2)
    assert plain_pick(back) == "Stoat"
    assert comparison_pick(back) == "Wren"
    (spell,) = back.debrief.without
    assert len(spell.balls) == 6
    assert shaft_of(back, spell.plain_pick) == "Wren"
    # Plain averages miss it under four of eight seeds, the comparison under one (18 and 7 of 24).
    assert costs("larkspur", "plain_cost") > costs("larkspur", "tool_cost")


def test_a_long_warm_up_looks_like_a_fast_shaft() -> None:
    """Vole is truly 0.8 yd short of the own club; averages say 10.8 longer, the comparison 3.2."""
    back = own_seed("tansy")
    true = by_shaft(back)["Vole"].value / YARD
    assert true == pytest.approx(-0.8, abs=0.2)
    assert plain_pick(back) == "Vole"
    assert plain_against_own(back, "Vole") > 9.0
    # The order takes most of it off, never all: nothing else tells a warm golfer from a club.
    missed = said_against_own(back, "Vole") - true
    assert 0.0 < missed < 0.5 * (plain_against_own(back, "Vole") - true)


def test_near_copies_cannot_be_told_apart() -> None:
    back = own_seed("yarrow")
    clubs = by_shaft(back)
    assert abs(clubs["Shrew"].value - clubs["Dormouse"].value) < 0.6 * YARD
    assert min(clubs["Shrew"].value, clubs["Dormouse"].value) > 4.0 * YARD
    assert len(back.debrief.alike) == 2
    # Both ways of averaging find the pair under every seed, and neither tells its two apart: the
    # lead changes from seed to seed. Under one of eight, and one of 24, the comparison is more
    # than 95 % sure, and of the one that is 0.4 yd worse.
    picks, sure = set(), 0
    for seed in SEEDS:
        one = of_seed("yarrow", seed)
        assert plain_pick(one) in {"Shrew", "Dormouse"}
        picks.add(comparison_pick(one))
        sure += max(chance(one, "Shrew"), chance(one, "Dormouse")) > 0.95
    assert picks == {"Shrew", "Dormouse"}
    assert sure <= 1


def test_where_there_is_nothing_to_find_averages_find_something() -> None:
    back = own_seed("sorrel")
    assert all(one.value == 0.0 for one in back.debrief.clubs)
    assert plain_against_own(back, "Marten") > 4.0
    assert back.debrief.end is not None
    assert back.debrief.end.state is State.TOO_CLOSE
    strong = [of_seed("sorrel", seed).debrief.end for seed in SEEDS]
    assert sum(one is not None and one.state is State.STRONG for one in strong) <= 1


def test_a_shaft_that_moves_the_strike_escapes_the_comparison() -> None:
    """Bittern lifts the strike 7 mm and is 4.1 yd better by it alone: honestly missed."""
    back = own_seed("bryony")
    club = by_shaft(back)["Bittern"]
    assert club.value / YARD == pytest.approx(4.1, abs=0.2)
    assert not any(club.does[:6])
    assert plain_pick(back) == "Bittern"
    assert comparison_pick(back) != "Bittern"
    # Averages miss it under two of eight seeds, the comparison under five (8 and 18 of 24).
    assert costs("bryony", "tool_cost") > costs("bryony", "plain_cost")
    assert "mostly misses it" in " ".join(back.case.lesson.split())


def test_a_lighter_club_adds_speed_and_everybody_sees_it() -> None:
    back = own_seed("teasel")
    assert by_shaft(back)["Swift"].value / YARD == pytest.approx(5.7, abs=0.3)
    for seed in SEEDS:
        assert plain_pick(of_seed("teasel", seed)) == "Swift"
        assert comparison_pick(of_seed("teasel", seed)) == "Swift"
    assert chance(back, "Swift") > 0.7


def test_balls_that_were_not_read_cost_sureness_where_nobody_says_so() -> None:
    """With eight seconds from ball to ball a mark slides on to the next: 0.66 falls to 0.49."""
    said = played("campion", seconds=8.0)
    unsaid = played("campion", seconds=8.0, says_unread=False)
    assert (said.dropped, said.noted, said.waiting) == (3, 3, 0)
    assert (unsaid.dropped, unsaid.noted) == (3, 0)
    assert plain_pick(said) == plain_pick(unsaid) == "Polecat"
    assert comparison_pick(said) == comparison_pick(unsaid) == "Curlew"
    assert chance(unsaid, "Curlew") < chance(said, "Curlew") - 0.05


def test_a_left_hander_loses_it_to_the_right_with_a_closed_face() -> None:
    back = own_seed("mallow")
    clubs = by_shaft(back)
    assert clubs["Ermine"].offline > clubs["Old Timothy"].offline > clubs["Lapwing"].offline
    assert clubs["Ermine"].offline > 0.0
    assert back.debrief.best == clubs["Lapwing"].club
    assert plain_pick(back) == "Ermine"
    assert comparison_pick(back) == "Lapwing"


def test_loft_carries_a_slow_swing_further_and_finishes_it_at_the_same_place() -> None:
    """2.5 deg of loft: 15 yd more carry, 0.8 more total; 1.6 mph: 6 more carry, 5 more total."""
    back = own_seed("figwort")
    clubs = by_shaft(back)
    assert clubs["Goldcrest"].carry / YARD == pytest.approx(15.1, abs=1.0)
    assert clubs["Goldcrest"].total / YARD == pytest.approx(0.8, abs=0.5)
    assert clubs["Firecrest"].carry / YARD == pytest.approx(6.2, abs=0.5)
    assert clubs["Firecrest"].total / YARD == pytest.approx(5.1, abs=0.5)
    assert plain_pick(back) == "Goldcrest"


def test_the_own_club_is_best_and_an_average_says_otherwise() -> None:
    back = own_seed("comfrey")
    assert back.debrief.best == "Own"
    assert back.debrief.cost == 0.0
    assert all(one.value < -3.0 * YARD for one in back.debrief.clubs[1:])
    assert plain_pick(back) == "Whinchat"
    assert comparison_pick(back) == "Old Quaking"
