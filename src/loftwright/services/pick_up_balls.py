"""The balls of a pick-up: their order, what was otherwise before, and what they say."""

from loftwright.bay.confounders import CONDITIONS, WORDS
from loftwright.bay.now import FittingNow, Swing
from loftwright.bay.setups import set_up_of
from loftwright.domain.check_acts import PickUpBegun
from loftwright.domain.fitting import DeviceCard, PlanCard, Strip
from loftwright.domain.names import OWN
from loftwright.evidence.build_limits import build_limits
from loftwright.evidence.same_club import FEWEST_BUILT, FEWEST_TESTED, SameClub, same_club
from loftwright.services.evidence import Desk
from loftwright.services.pick_up_bars import Pair
from loftwright.services.settings import read_settings
from loftwright.services.shaft_shifts import shaft_shifts
from loftwright.services.studio import Studio
from loftwright.services.terms import read_terms

FIRST_SET, BUILT_SET = 3, 4
"""Balls of a set with the club that is compared with, and with the built one; two of each."""


def plan_of(built: str, pair: Pair) -> PlanCard:
    """Return the order of a pick-up: sets in turn, the club that is compared with first."""
    first = pair.tested if pair.rotation else OWN
    turn = ((first, FIRST_SET), (built, BUILT_SET))
    return PlanCard(sets=2 * turn, in_order=True)


def usual_start(now: FittingNow, pair: Pair) -> tuple[DeviceCard | None, Strip]:
    """Return device and conditions of the day on which the tested club was hit last.

    Parameters
    ----------
    now : FittingNow
    pair : Pair
    """
    balls = _tested_before(now, pair, len(now.visits))
    if not balls:
        return None, Strip()
    return now.visits[balls[-1].visit].device, balls[-1].strip


def unlike(now: FittingNow, begun: PickUpBegun, pair: Pair) -> tuple[str, ...]:
    """Return what differs between the pick-up and the day when the tested club was hit before.

    Parameters
    ----------
    now : FittingNow
    begun : PickUpBegun
    pair : Pair
    """
    before = _tested_before(now, pair, begun.visit)
    if not before or begun.visit >= len(now.visits):
        return ()
    then, day = before[-1], now.visits[begun.visit]
    today = [one.strip for one in now.balls if one.visit == begun.visit] or [now.strip]
    device = now.visits[then.visit].device.name
    told = []
    if device != day.device.name:
        told.append(f"What measures the balls: {device} then, {day.device.name} now.")
    for name in CONDITIONS:
        was, is_now = getattr(then.strip, name), getattr(today[-1], name)
        if was and is_now and was != is_now:
            told.append(f"{WORDS[name][0].upper()}{WORDS[name][1:]}: {was} then, {is_now} now.")
    return tuple(told)


def _tested_before(now: FittingNow, pair: Pair, visit: int) -> list[Swing]:
    return [
        one
        for one in now.balls
        if one.visit < visit and not one.odd and set_up_of(one, now) == pair.tested_label
    ]


def what_balls_say(
    studio: Studio, desk: Desk, fitting: str, now: FittingNow, begun: PickUpBegun, pair: Pair
) -> tuple[SameClub | None, bool]:
    """Return what the balls say, and whether the device gives too little for anything.

    Parameters
    ----------
    studio : Studio
    desk : Desk
    fitting : str
    now : FittingNow
    begun : PickUpBegun
    pair : Pair
    """
    golfer = studio.store.golfer(studio.store.fitting(fitting).value.golfer).value
    convention = read_settings(studio).settings.convention
    shifts = shaft_shifts(studio, golfer, now)
    # By physics alone: the record believes clubs of the same parts alike, which is the question.
    table = desk.compared(fitting, now, golfer, convention, shifts)
    comparison = table.comparison
    day = [one for one in now.balls if one.visit == begun.visit and one.numbers is not None]
    flown = [one for one in day if _flies(one)]
    if comparison is None or not flown:
        return None, bool(day)
    clubs = comparison.visit.setup.balls.clubs
    if begun.built not in clubs or pair.tested_label not in clubs:
        return _first_balls(flown, now, begun, pair), False
    limits = build_limits(comparison, read_terms(studio).terms.tolerances)
    said = same_club(comparison, limits, begun.built, pair.tested_label, rotation=pair.rotation)
    return said, False


def _flies(ball: Swing) -> bool:
    numbers = ball.numbers
    return numbers is not None and None not in {numbers.ball_speed, numbers.launch, numbers.spin}


def _first_balls(day: list[Swing], now: FittingNow, begun: PickUpBegun, pair: Pair) -> SameClub:
    """Return what stands before both clubs were hit: how many balls of the fewest there are."""
    labels = [set_up_of(one, now) for one in day if not one.odd]
    built, tested = labels.count(begun.built), labels.count(pair.tested_label)
    wanted = FEWEST_TESTED if pair.rotation else 0
    return SameClub(
        against=None,
        numbers=(),
        built=built,
        tested=tested,
        had=min(built, FEWEST_BUILT) + min(tested, wanted),
        needed=FEWEST_BUILT + wanted,
        joined=False,
    )
