"""How often a doubt is raised where there is cause for it, and how often where there is none.

Golfers of five abilities by turns, seeds from 1001 on and no others, five clubs in sets of three;
thresholds were settled on seeds 1 to 150. Bounds were set before these figures were known, but
for the power of the doubt about a setting, which is only printed: a sleeve step is about as large
as how loft varies from swing to swing. The golfer's launch follows the impact model that the
doubts take their slopes from; a head of another kind would be doubted less surely.
"""

from collections import Counter
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from bay_fittings import (
    first,
    fitting,
    with_dropped_read,
    with_mark_left_out,
    with_wrong_setting,
    without_delivery,
)
from loftwright.evidence.alarms import Alarm, alarms
from loftwright.evidence.balls import Balls
from loftwright.evidence.visit import Beliefs, set_up
from study_tables import ABILITIES, Say

FIRST_SEED = 1001
EACH = 60
SWEPT = 20

pytestmark = [pytest.mark.study, pytest.mark.xdist_group("doubts in the bay")]
HOW = pytest.mark.parametrize("delivery", [True, False], ids=["full", "no delivery"])


def raised(balls: Balls) -> dict[str, Alarm]:
    return {one.kind: one for one in alarms(set_up(balls, Beliefs()))}


def seeds(count: int) -> range:
    return range(FIRST_SEED, FIRST_SEED + count)


def measured(balls: Balls, *, delivery: bool) -> Balls:
    return balls if delivery else without_delivery(balls)


def mirrored(balls: Balls) -> Balls:
    return replace(balls, marks=balls.marks * np.array([-1.0, 1.0]))


def share(told: list[bool]) -> float:
    return 100.0 * float(np.mean(told))


@HOW
@pytest.mark.parametrize("ability", ABILITIES)
def test_mirrored_marks_are_doubted_by_ball_20(delivery: bool, ability: str, say: Say) -> None:
    """Measured: every ability 98 % after 15 balls and 100 % after 20; no delivery 90 and 98 %."""
    found: dict[int, list[bool]] = {15: [], 20: []}
    for seed in seeds(EACH):
        balls = mirrored(measured(fitting(seed, ability), delivery=delivery))
        for count, told in found.items():
            told.append("mirrored_marks" in raised(first(balls, count)))
    say(
        f"mirrored marks, {ability}, {'full' if delivery else 'no delivery'}: doubted in "
        f"{share(found[15]):.0f} % after 15 balls, {share(found[20]):.0f} % after 20"
    )
    assert share(found[20]) >= 90.0


@HOW
@pytest.mark.parametrize("ability", ABILITIES)
def test_a_dropped_read_at_ball_8_is_doubted_by_ball_20(
    delivery: bool, ability: str, say: Say
) -> None:
    """Measured: a dropped read in 100 % of every ability, a mark left out in 95 to 98 %.

    The first ball named is off by half a ball on average and by at most two in 95 to 97 %; by 0.7
    and 90 to 93 % without delivery.
    """
    late, early, off = [], [], []
    for seed in seeds(EACH):
        balls = measured(fitting(seed, ability), delivery=delivery)
        dropped = raised(first(with_dropped_read(balls), 19)).get("shifted_marks")
        late.append(dropped is not None and "one ball late" in dropped.say)
        if dropped is not None:
            off.append(abs(dropped.rows[0] - int(with_dropped_read(balls).row[7])))
        lost = raised(first(with_mark_left_out(balls), 20)).get("shifted_marks")
        early.append(lost is not None and "one ball early" in lost.say)
    say(
        f"shifted marks, {ability}, {'full' if delivery else 'no delivery'}: late in "
        f"{share(late):.0f} %, early in {share(early):.0f} %; first ball off by "
        f"{np.mean(off):.1f} on average, at most 2 in {share([one <= 2 for one in off]):.0f} %"
    )
    assert share(late) >= 90.0
    assert share(early) >= 90.0


@cache
def swept(*, delivery: bool) -> tuple[dict[str, Counter[str]], int]:
    """Raise doubts after every ball of right fittings; count fittings, and balls for the club."""
    found: dict[str, Counter[str]] = {}
    balls_seen = 0
    for ability in ABILITIES:
        counted: Counter[str] = Counter()
        for seed in seeds(SWEPT):
            balls = measured(fitting(seed, ability), delivery=delivery)
            kinds: set[str] = set()
            for count in range(8, 41):
                now = raised(first(balls, count))
                kinds |= set(now) - {"still_this_club"}
                counted["still_this_club"] += "still_this_club" in now
                balls_seen += 1
            counted.update(kinds)
            counted["strange_run at the end"] += "strange_run" in now
        found[ability] = counted
    return found, balls_seen


@HOW
@pytest.mark.parametrize(
    ("kind", "most"), [("mirrored_marks", 1.0), ("shifted_marks", 2.0)], ids=["mirror", "shift"]
)
def test_right_marks_are_hardly_ever_doubted_by_ball_40(
    kind: str, most: float, delivery: bool, say: Say
) -> None:
    """Measured in 100 fittings: mirrored never, shifted never, without delivery once."""
    found, _ = swept(delivery=delivery)
    fittings = SWEPT * len(ABILITIES)
    told = 100.0 * sum(one[kind] for one in found.values()) / fittings
    say(
        f"{kind}, right marks, {'full' if delivery else 'no delivery'}: raised at any ball up to "
        f"40 in {told:.1f} % of {fittings} fittings"
    )
    assert told <= most


@HOW
def test_the_right_club_is_questioned_at_most_at_three_balls_in_a_hundred(
    delivery: bool, say: Say
) -> None:
    """Measured: at 1.5 % of balls, without delivery at 0.7 %."""
    found, seen = swept(delivery=delivery)
    told = 100.0 * sum(one["still_this_club"] for one in found.values()) / seen
    say(
        f"still this club, right club, {'full' if delivery else 'no delivery'}: asked at "
        f"{told:.1f} % of balls 8 to 40"
    )
    assert told <= 3.0


@HOW
def test_a_right_setting_is_doubted_in_few_fittings(delivery: bool, say: Say) -> None:
    """Measured: standing after 40 balls in 4 %, raised at any ball in 6 and 7 %."""
    found, _ = swept(delivery=delivery)
    fittings = SWEPT * len(ABILITIES)
    ever = 100.0 * sum(one["strange_run"] for one in found.values()) / fittings
    end = 100.0 * sum(one["strange_run at the end"] for one in found.values()) / fittings
    say(
        f"strange run, right setting, {'full' if delivery else 'no delivery'}: standing after 40 "
        f"balls in {end:.1f} %, raised at any ball in {ever:.1f} % of fittings"
    )
    assert end <= 10.0


@pytest.mark.parametrize("ability", ABILITIES)
def test_how_often_a_sleeve_one_step_weak_is_doubted_is_printed(ability: str, say: Say) -> None:
    """Measured with 8 and 12 balls of the club: tour 20 and 57 %, low 20 and 32, others 10 to 13.

    A mid golfer's loft varies by some 1.5 degrees a ball beyond what attack shows, so six balls
    tell 1.77 degrees from nothing at 2.4 standard errors if the run is known; it is not.
    """
    told: dict[int, list[bool]] = {40: [], 60: []}
    named: list[bool] = []
    for seed in seeds(EACH):
        for balls, found in told.items():
            made, wrong = with_wrong_setting(seed, ability, balls=balls)
            alarm = raised(made).get("strange_run")
            found.append(alarm is not None)
            if alarm is not None:
                named.append(bool(set(alarm.rows) & set(made.row[wrong].tolist())))
    say(
        f"six balls 1.77 degrees weak, {ability}: doubted in {share(told[40]):.0f} % where the "
        f"club has 8 balls, {share(told[60]):.0f} % where it has 12; the right club named in "
        f"{share(named):.0f} %"
    )
    by_chance = 100.0 / 5
    assert share(named) > by_chance


@pytest.mark.parametrize("strength", [1.0, 4.0, 8.0])
@pytest.mark.parametrize("ability", ["tour", "low", "mid", "high"])
def test_how_often_a_wrong_label_is_questioned_is_printed(
    ability: str, strength: float, say: Say
) -> None:
    """Measured, tour to high: usual clubs 19 to 7 %, four times as different 69 to 22, eight 81
    to 37.
    """
    told = []
    for seed in seeds(EACH // 2):
        balls = fitting(seed, ability, strength=strength)
        for count in (24, 31, 38):
            club = np.array(balls.club[:count])
            hand, taken = club[-1], 2 if club[-2] == club[-1] else 1
            others = [one for one in range(5) if one != hand and (club == one).sum() >= 3]
            if (club == hand).sum() - taken < 3 or not others:
                continue
            club[-taken:] = others[seed % len(others)]
            now = replace(first(balls, count), club=club)
            told.append("still_this_club" in raised(now))
    say(
        f"newest one or two balls under another club's name, {ability}, clubs {strength:.0f} "
        f"times as different as usual: asked in {share(told):.0f} % of {len(told)}"
    )
    assert len(told) > 20
