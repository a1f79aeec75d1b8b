"""The spin setting of balls and faces as a page: what the shop's marked shots tell of it."""

from dataclasses import dataclass
from datetime import date
from typing import Final

from loftwright.constants import DEGREE
from loftwright.physics.delivery_belief import UNKNOWN_CLUB
from loftwright.report.numbers import count
from loftwright.report.range_rows import RangeOf, range_rows
from loftwright.report.screen_numbers import Show
from loftwright.report.theme_svg import for_screen
from loftwright.services.ball_delivery import NINE_IN_TEN
from loftwright.services.spin_setting import USUAL, Learned, Left, SpinSetting

USUAL_DOUBT: Final = UNKNOWN_CLUB.sd("spin_factor")


@dataclass(frozen=True, slots=True, kw_only=True)
class SpinRow:
    """One ball and face."""

    ball: str
    face: str
    best: str
    reach: str
    shots: str
    visits: str
    learned: str
    attack: str
    height: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SpinView:
    """The page.

    Attributes
    ----------
    left : tuple of str
        Why other balls taught nothing.
    """

    sentence: str
    lead: str
    picture: str
    words: str
    rows: tuple[SpinRow, ...]
    left: tuple[str, ...]
    version: int


def spin_view(learned: Learned, show: Show) -> SpinView:
    """Return the page of spin settings."""
    rows = tuple(_row(one, show) for one in learned.settings)
    drawn = [_range("Usual, nothing learned", USUAL, USUAL_DOUBT, sure=False)]
    drawn += [_range(_name(one), one.spin, one.doubt, sure=True) for one in learned.settings]
    return SpinView(
        sentence=_sentence(learned, show),
        lead=_lead(learned),
        picture=for_screen(range_rows(drawn, title="Spin settings", prefix="spin", show=show)),
        words=" ".join(f"{one.name}: {_reach(one.low, one.high, show)}." for one in drawn),
        rows=rows,
        left=_left(learned.left),
        version=learned.version,
    )


def used_words(one: SpinSetting, show: Show) -> str:
    """Return which learned spin setting was used, and how well it is known."""
    whose = "invented shots" if one.invented else "marked shots"
    return (
        f"Spin setting of {_name(one)}: {show.number(one.spin, 2)}, "
        f"{_around(one.spin, one.doubt, show)}, from {one.shots} {whose} on "
        f"{count(one.visits, 'visit')}, learned {_day(one)}."
    )


def usual_words(show: Show) -> str:
    """Return that the usual spin setting was used."""
    return (
        f"Spin setting: the usual {show.number(USUAL, 2)}, {_around(USUAL, USUAL_DOUBT, show)}; "
        "nothing was learned of this ball and face."
    )


def _sentence(learned: Learned, show: Show) -> str:
    if not learned.settings:
        reach = _around(USUAL, USUAL_DOUBT, show)
        return f"No spin setting was learned yet: {reach} is assumed of every ball and face."
    most = learned.settings[0]
    return f"{_capital(_name(most))} has a spin setting of {_around(most.spin, most.doubt, show)}."


def _lead(learned: Learned) -> str:
    if not learned.settings:
        return "Five marked shots of a visit teach it, attack angle and head speed measured."
    if all(one.invented for one in learned.settings):
        return "From invented golfers: it says nothing of a real ball."
    return (
        "How much of a rigid ball’s spin this ball keeps; loft and head are hard to tell from it."
    )


def _row(one: SpinSetting, show: Show) -> SpinRow:
    return SpinRow(
        ball=one.ball,
        face=one.face or "not said",
        best=show.number(one.spin, 2),
        reach=_around(one.spin, one.doubt, show),
        shots=f"{one.shots}",
        visits=f"{one.visits}",
        learned=_day(one),
        attack=show.signed(one.by_attack * DEGREE, 2),
        height=show.signed(one.by_height, 1),
    )


def _left(left: Left) -> tuple[str, ...]:
    told = (
        (left.not_agreed, "of golfers who did not agree that the shop learns from them"),
        (left.no_mark, "without a mark that a fitter made"),
        (left.no_delivery, "without attack angle, head speed and all launch numbers measured"),
        (left.no_ball, "whose kind of ball nobody said"),
        (left.too_few, "of visits with fewer than five that could teach"),
    )
    return tuple(f"{count(number, 'ball')} {why}" for number, why in told if number)


def _range(name: str, best: float, doubt: float, *, sure: bool) -> RangeOf:
    reach = NINE_IN_TEN * doubt
    return RangeOf(name=_capital(name), best=best, low=best - reach, high=best + reach, sure=sure)


def _around(best: float, doubt: float, show: Show) -> str:
    return _reach(best - NINE_IN_TEN * doubt, best + NINE_IN_TEN * doubt, show)


def _reach(low: float, high: float, show: Show) -> str:
    return f"{show.number(low, 2)} to {show.number(high, 2)}"


def _day(one: SpinSetting) -> str:
    """Return the day on which it was learned, never broken over two lines."""
    return f"{date.fromisoformat(one.learned):%-d %B %Y}".replace(" ", "\N{NO-BREAK SPACE}")


def _name(one: SpinSetting) -> str:
    return f"{one.ball}, face {one.face}" if one.face else one.ball


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
