"""Ranges and picks for golfers made by impact and flight, seeds 1 to n and no others.

Six clubs act on the delivery; the decision is taken after 20, 40 and 60 balls in shuffled blocks,
with the widths of the product's own rule, undoubled unless said. What golfers' swings and clubs
do is a judgement throughout, so this shows that the machinery is right where its table is, and
the rows with clubs twice as strong what happens where it is not.

The bounds were set before the figures were known. One that is missed is an expected failure with
its figure beside it. Two things were settled after a first look at 100 golfers an ability: their
number was raised to 300, to make the paired errors smaller; and the truth of value takes one
scatter for all clubs, as a reading does. Scored with each club's own true scatter, which a reading
does not claim to know, value lay in its 80 % range 87 to 93 times in 100, for high golfers more
often than the 92 allowed.
"""

from functools import cache

import pytest
from _pytest.mark import ParameterSet

from loftwright.evidence.scales import LAUNCH_NAMES
from loftwright.evidence.spreads import JUDGED
from loftwright.training.device import DEVICES
from loftwright.training.scenarios import Scenario
from loftwright.training.summary import coverage, declared_share, gain
from loftwright.training.truth_study import StudyFitting, study_fitting
from loftwright.training.world import World
from study_tables import ABILITIES, Say

FITTINGS = 300
FEWER = 100
BUDGETS = (20, 40, 60)

pytestmark = pytest.mark.study


@cache
def fittings(
    ability: str,
    device: str,
    count: int,
    strength: float = 1.0,
    doubt: float = 1.0,
    *,
    no_difference: bool = False,
) -> list[StudyFitting]:
    world = World(device=DEVICES[device], strength=strength, no_difference=no_difference)
    scenario = Scenario(world=world, table=JUDGED, doubt=doubt)
    return [study_fitting(scenario, ability, number, BUDGETS) for number in range(1, count + 1)]


def every_ability(device: str) -> list[StudyFitting]:
    return [one for ability in ABILITIES for one in fittings(ability, device, FITTINGS)]


full = pytest.mark.xdist_group("golfers, everything measured")
ball_only = pytest.mark.xdist_group("golfers, ball data only")
KINDS = [pytest.param("full", marks=full), pytest.param("ball-only", marks=ball_only)]


@pytest.mark.parametrize("ability", ABILITIES)
@pytest.mark.parametrize("device", KINDS)
def test_ranges_of_value_hold_the_truth_as_often_as_they_say(
    device: str, ability: str, say: Say
) -> None:
    found = fittings(ability, device, FITTINGS)
    in_80, in_95 = coverage(found, "value_80"), coverage(found, "value_95")
    say(f"{device}, {ability}: value in its 80 % range {in_80}, in its 95 % range {in_95}")
    assert 75.0 <= in_80.mean <= 92.0
    assert 91.0 <= in_95.mean <= 100.0


@pytest.mark.parametrize("ability", ABILITIES)
@pytest.mark.parametrize("device", KINDS)
def test_parts_close_in_every_simulated_fitting(device: str, ability: str, say: Say) -> None:
    found = fittings(ability, device, FITTINGS)
    widest = max(outcome.closure for one in found for outcome in one.model.outcomes)
    say(f"{device}, {ability}: parts close to {widest:.0e} m in {3 * len(found)} decisions")
    assert widest < 1e-9


@pytest.mark.parametrize("ability", ABILITIES)
@pytest.mark.parametrize("device", KINDS)
def test_ranges_of_launch_as_swung_hold_the_truth_as_often_as_they_say(
    device: str, ability: str, say: Say
) -> None:
    found = fittings(ability, device, FITTINGS)
    for place, name in enumerate(LAUNCH_NAMES):
        in_80, in_95 = coverage(found, "swung_80", place), coverage(found, "swung_95", place)
        say(f"{device}, {ability}, {name} as swung: {in_80} and {in_95}")
        assert 73.0 <= in_80.mean <= 90.0, name
        assert 90.0 <= in_95.mean <= 100.0, name


@full
@pytest.mark.parametrize("ability", ABILITIES)
def test_ranges_from_the_same_swing_hold_the_truth_as_often_as_they_say(
    ability: str, say: Say
) -> None:
    found = fittings(ability, "full", FITTINGS)
    for place, name in enumerate(LAUNCH_NAMES[:3]):
        in_80, in_95 = coverage(found, "same_80", place), coverage(found, "same_95", place)
        say(f"full, {ability}, {name} from the same swing: {in_80} and {in_95}")
        assert 73.0 <= in_80.mean <= 90.0, name
        assert 90.0 <= in_95.mean <= 100.0, name


@full
@pytest.mark.xfail(
    strict=True,
    reason="98 to 100 % in the 80 % range: these clubs have no axis or direction of their own "
    "from the same swing, and the belief that every club has a little of both stays in the range",
)
@pytest.mark.parametrize("ability", ABILITIES)
def test_ranges_of_shape_from_the_same_swing_are_no_wider_than_they_say(
    ability: str, say: Say
) -> None:
    found = fittings(ability, "full", FITTINGS)
    for place in (3, 4):
        in_80 = coverage(found, "same_80", place)
        say(f"full, {ability}, {LAUNCH_NAMES[place]} from the same swing: {in_80}")
        assert in_80.mean <= 90.0


@pytest.mark.parametrize("budget", [0, 1, 2], ids=["20 balls", "40 balls", "60 balls"])
@pytest.mark.parametrize("device", KINDS)
def test_the_pick_gives_up_less_than_that_of_plain_averages(
    device: str, budget: int, say: Say
) -> None:
    found = gain(every_ability(device), budget, budget)
    say(f"{device}: gives up {found} yd less than plain averages of re-flown totals")
    assert found.mean > 2.0 * found.error


@full
def test_forty_balls_are_worth_more_than_sixty_averaged(say: Say) -> None:
    found = gain(every_ability("full"), 1, 2)
    say(f"40 balls against 60 averaged: {found} yd less given up")
    assert found.mean > 2.0 * found.error


@ball_only
def test_forty_balls_are_worth_more_than_sixty_averaged_with_ball_data_only(say: Say) -> None:
    found = gain(every_ability("ball-only"), 1, 2)
    say(f"ball data only, 40 balls against 60 averaged: {found} yd less given up")
    assert found.mean > 2.0 * found.error


@pytest.mark.parametrize("device", KINDS)
def test_twenty_balls_against_sixty_averaged_is_printed_and_not_claimed(
    device: str, say: Say
) -> None:
    found = gain(every_ability(device), 0, 2)
    say(f"{device}: 20 balls against 60 averaged: {found} yd less given up (not bounded)")
    assert found.error > 0.0


TOO_NARROW = {
    ("full", "mid"): "89.7 % (s.e. 1.1) in the 95 % range, 90 asked",
    ("full", "high"): "71.0 % (s.e. 1.6) in the 80 % range, 72 asked",
    ("full", "senior"): "68.4 and 88.8 % (s.e. 1.5, 1.2), 72 and 90 asked",
    ("ball-only", "senior"): "71.2 % (s.e. 1.6) in the 80 % range, 72 asked",
}
"""Found when these golfers became those of the large study, under bounds set for others."""


def _strong(device: str, ability: str) -> ParameterSet:
    missed = TOO_NARROW.get((device, ability))
    marks = [pytest.mark.xfail(strict=True, reason=missed)] if missed else []
    return pytest.param(device, ability, marks=marks, id=f"{device}-{ability}")


@pytest.mark.xdist_group("golfers, clubs twice as strong")
@pytest.mark.parametrize(
    ("device", "ability"),
    [_strong(device, ability) for device in ("full", "ball-only") for ability in ABILITIES],
)
def test_doubled_belief_covers_clubs_that_are_twice_as_strong(
    device: str, ability: str, say: Say
) -> None:
    found = fittings(ability, device, FEWER, strength=2.0, doubt=2.0)
    assert max(outcome.closure for one in found for outcome in one.model.outcomes) < 1e-9
    in_80, in_95 = coverage(found, "value_80"), coverage(found, "value_95")
    say(f"{device}, {ability}, clubs twice as strong: value {in_80} and {in_95}")
    assert in_80.mean >= 72.0
    assert in_95.mean >= 90.0


@pytest.mark.xdist_group("golfers, no true difference")
@pytest.mark.parametrize("ability", ABILITIES)
@pytest.mark.parametrize("device", ["full", "ball-only"])
def test_equal_clubs_are_hardly_ever_declared_different(
    device: str, ability: str, say: Say
) -> None:
    equal = fittings(ability, device, FEWER, no_difference=True)
    assert max(outcome.closure for one in equal for outcome in one.model.outcomes) < 1e-9
    found = declared_share(equal)
    say(f"{device}, {ability}, no true difference: {found} % of pairs declared")
    assert found.mean <= 4.0
