"""A club's line on the page of what we saw: its figures, and what they rest on."""

from dataclasses import dataclass

from loftwright.evidence.decide import FEWEST_BALLS
from loftwright.evidence.result import (
    Against,
    Believed,
    ClubResult,
    Decision,
    Estimate,
    Figures,
    RankedOn,
)
from loftwright.report.belief_words import rests_on
from loftwright.report.numbers import LIKELY_RANGE, NONE
from loftwright.report.screen_numbers import Show


@dataclass(frozen=True, slots=True, kw_only=True)
class ClubRow:
    """One club: plain average beside what is said of it.

    Attributes
    ----------
    plain, swung, same : str
        Differences in total, or in the carry that the device shows; the dash where one may not
        be said.
    speed : str
        Difference in the ball speed that the device shows; the dash with launch and spin.
    swung_range, same_range, speed_range : str
        Nine chances in ten; empty where there is no range.
    """

    club: str
    balls: int
    plain: str
    swung: str
    swung_range: str
    same: str
    same_range: str
    rests: str
    speed: str
    speed_range: str


def club_row(decision: Decision, club: ClubResult, show: Show) -> ClubRow:
    """Return the line of a club.

    Parameters
    ----------
    decision : Decision
    club : ClubResult
        One of its clubs.
    show : Show
    """
    zero = club.club == decision.own and decision.against is Against.OWN
    device = decision.ranked_on is RankedOn.DEVICE_CARRY
    swung = club.device_carry if device else _total(club.as_you_swing_it)
    same = _total(club.from_the_same_swing)
    speed = club.device_ball_speed
    return ClubRow(
        club=club.club,
        balls=club.balls,
        plain=_plain(decision, club, show, zero=zero),
        swung=_difference(swung, show, zero=zero),
        swung_range=_range(swung, show, zero=zero),
        same=_difference(same, show, zero=zero and same is not None),
        same_range=_range(same, show, zero=zero),
        speed=_difference(speed, show, zero=zero and speed is not None, quantity="speed"),
        speed_range=_range(speed, show, zero=zero, quantity="speed"),
        rests=_rests(club, decision.believed, zero=zero, device=device),
    )


def _total(figures: Figures | None) -> Estimate | None:
    return figures.total if figures else None


def _plain(decision: Decision, club: ClubResult, show: Show, *, zero: bool) -> str:
    """Return a club's plain average against that of the own club, or against their mean."""
    told = {one.club: one.plain_total for one in decision.clubs if one.plain_total is not None}
    if club.club not in told:
        return NONE
    if zero:
        return "0"
    own = told.get(decision.own or "") if decision.against is Against.OWN else None
    base = sum(told.values()) / len(told) if own is None else own
    return show.yards_apart(told[club.club] - base)


def _difference(
    estimate: Estimate | None, show: Show, *, zero: bool, quantity: str = "distance"
) -> str:
    if zero:
        return "0"
    if estimate is None:
        return NONE
    return f"{show.apart(quantity, estimate.mean)} {show.unit(quantity).name}"


def _range(
    estimate: Estimate | None, show: Show, *, zero: bool, quantity: str = "distance"
) -> str:
    if estimate is None or zero:
        return ""
    low, high = estimate.interval(LIKELY_RANGE)
    return f"{show.apart(quantity, low)} to {show.apart(quantity, high)}"


def _rests(club: ClubResult, believed: Believed, *, zero: bool, device: bool) -> str:
    if club.balls < FEWEST_BALLS:
        return "too few balls"
    if club.value is None and club.device_carry is None:
        return "not hit on a day with the others"
    if zero:
        return "the club to beat"
    return "on its balls, as read" if device else rests_on(club.physics_share, believed)
