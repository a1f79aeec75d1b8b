"""What one ball of a fitting says of how the head came in and where it was struck."""

from dataclasses import dataclass, replace
from enum import StrEnum
from math import hypot
from typing import Final

import numpy as np

from loftwright.bay.now import FittingNow, Swing
from loftwright.bay.outside import rule_of
from loftwright.domain.club_kind import Told as ToTell
from loftwright.domain.golfer import Hand
from loftwright.errors import ConvergenceError, InputError, NotFoundError
from loftwright.physics.ball_reading import GOOD, MEASURED, BallReading
from loftwright.physics.delivery_belief import DELIVERY, UNKNOWN_CLUB
from loftwright.physics.inverse_impact import DeliveryEstimate, delivery_from_ball
from loftwright.report.delivery_words import MOSTLY_BELIEVED
from loftwright.services.last_ball import last_ball
from loftwright.services.own_ball import OwnBall, own_ball
from loftwright.services.spin_setting import Learned, SpinSetting, read_spin
from loftwright.services.studio import Studio

WIDER: Final = 1.25
"""For what the model of impact itself leaves out (judgement)."""

NINE_IN_TEN: Final = 1.645
"""Standard deviations either way that hold nine chances in ten of a normal error."""

STRIKE: Final = ("toe", "high")


class Kind(StrEnum):
    """Where a figure comes from."""

    MEASURED = "measured"
    BALL = "from the ball"
    BALL_AND_MARK = "from the ball and the mark"
    MARK = "from the mark"
    BALL_AND_PATH = "from the ball, attack and path"


class Refusal(StrEnum):
    """Why nothing, or no strike, can be said."""

    NO_BALL = "no ball"
    NOT_READ = "not read"
    LACKING = "lacking"
    CALCULATED = "calculated"
    OUTSIDE = "outside"
    """The club is no driver."""
    IMPOSSIBLE = "impossible"
    NO_STRIKE = "no strike"
    SET = "set"


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One figure of a delivery.

    Attributes
    ----------
    name : str
        One of `DELIVERY`, or face_to_path.
    value, low, high : float
        Best estimate, and where it lies nine times in ten [m/s, rad or m].
    kind : Kind
    usual : bool
        Whether it is what golfers usually do more than what this ball says.
    """

    name: str
    value: float
    low: float
    high: float
    kind: Kind
    usual: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class BallDelivery:
    """What a ball says.

    Attributes
    ----------
    ball : Swing, optional
        None while no ball was read.
    told : tuple of Told
        Empty where nothing can be said.
    refusals : tuple of Refusal
        Why nothing can be said, or nothing of the strike.
    lacking : tuple of str
        Launch numbers in the way, in the words of the column list.
    left_out : tuple of str
        Delivery columns that nobody said are measured.
    spin : SpinSetting, optional
        Learned from this shop's marked shots and used here; None if the usual one was.
    odd_numbers : bool
        Whether the numbers hardly go together for a driver's head.
    """

    ball: Swing | None
    told: tuple[Told, ...] = ()
    refusals: tuple[Refusal, ...] = ()
    lacking: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    spin: SpinSetting | None = None
    odd_numbers: bool = False

    def of(self, name: str) -> Told | None:
        """Return one figure."""
        return next((one for one in self.told if one.name == name), None)


def delivery_of(studio: Studio, fitting: str, ball: int | None = None) -> BallDelivery:
    """Return what a ball of a fitting says of its delivery.

    Parameters
    ----------
    studio : Studio
    fitting : str
    ball : int, optional
        Sequence under which it entered the record; the last one read without it.

    Raises
    ------
    NotFoundError
        If there is no such fitting, or it has no such ball.
    """
    opened = studio.store.fitting(fitting).value
    now = studio.standing(opened.id)
    swing = last_ball(now) if ball is None else now.swing(ball)
    if swing is None and ball is not None:
        raise NotFoundError(
            f"no ball entered the record under {ball}",
            place="ball",
            mend="Open it from the bay or from the page of mends.",
        )
    if swing is None:
        return BallDelivery(ball=None, refusals=(Refusal.NO_BALL,))
    hand = studio.store.golfer(opened.golfer).value.hand
    return solved(swing, now, hand, read_spin(studio), invented=opened.invented)


def solved(
    swing: Swing, now: FittingNow, hand: Hand, learned: Learned, *, invented: bool
) -> BallDelivery:
    """Return what a ball says, given what the shop learned of balls and faces.

    Parameters
    ----------
    swing : Swing
    now : FittingNow
    hand : Hand
    learned : Learned
    invented : bool
        Whether the fitting's golfer is.
    """
    if swing.numbers is None:
        return BallDelivery(ball=swing, refusals=(Refusal.NOT_READ,))
    if not rule_of(now, swing.club, ToTell.DELIVERY).may:
        return BallDelivery(ball=swing, refusals=(Refusal.OUTSIDE,))
    own = own_ball(swing, now, hand)
    if own.reading is None:
        why = Refusal.LACKING if own.missing else Refusal.CALCULATED
        return BallDelivery(ball=swing, refusals=(why,), lacking=own.missing or own.calculated)
    spin = learned.of(swing.strip, invented=invented)
    errors = replace(GOOD, mark=own.mark_error) if own.reading.mark is not None else GOOD
    constants = UNKNOWN_CLUB if spin is None else spin.constants()
    try:
        found = delivery_from_ball(own.reading, errors=errors, constants=constants)
    except (ConvergenceError, InputError):
        return BallDelivery(ball=swing, refusals=(Refusal.IMPOSSIBLE,), left_out=own.left_out)
    of_a_set = swing.mark is not None and swing.mark_set is not None
    refusals = () if found.strike_told else (Refusal.SET if of_a_set else Refusal.NO_STRIKE,)
    return BallDelivery(
        ball=swing,
        told=_told(found, own),
        refusals=refusals,
        left_out=own.left_out,
        spin=spin,
        odd_numbers=found.hardly_fits,
    )


def _told(found: DeliveryEstimate, own: OwnBall) -> tuple[Told, ...]:
    ball = own.reading
    if ball is None:
        return ()
    rows = []
    for place, name in enumerate(DELIVERY):
        if name in STRIKE and not found.strike_told:
            continue
        value, doubt = float(found.mean[place]), WIDER * float(found.sd[place])
        kind = _kind(name, ball, by_device=own.mark_by_device)
        if kind in {Kind.MEASURED, Kind.MARK}:
            value, doubt = _read(name, ball), getattr(GOOD, name, own.mark_error)
        usual = kind is Kind.BALL and bool(found.left[place] > MOSTLY_BELIEVED)
        rows.append(_row(name, value, doubt, kind, usual=usual))
    rows.insert(4, _face_to_path(found, ball, by_device=own.mark_by_device))
    return tuple(rows)


def _face_to_path(found: DeliveryEstimate, ball: BallReading, *, by_device: bool) -> Told:
    if ball.face is not None and ball.path is not None:
        doubt = hypot(GOOD.face, GOOD.path)
        return _row("face_to_path", ball.face - ball.path, doubt, Kind.MEASURED)
    value, doubt = found.face_to_path
    return _row("face_to_path", value, WIDER * doubt, _kind("", ball, by_device=by_device))


def _row(name: str, value: float, doubt: float, kind: Kind, *, usual: bool = False) -> Told:
    reach = NINE_IN_TEN * doubt
    return Told(
        name=name, value=value, low=value - reach, high=value + reach, kind=kind, usual=usual
    )


def _kind(name: str, ball: BallReading, *, by_device: bool) -> Kind:
    if name in MEASURED and getattr(ball, name) is not None:
        return Kind.MEASURED
    if name in STRIKE:
        if ball.mark is None:
            return Kind.BALL_AND_PATH
        return Kind.MEASURED if by_device else Kind.MARK
    return Kind.BALL if ball.mark is None else Kind.BALL_AND_MARK


def _read(name: str, ball: BallReading) -> float:
    if name in STRIKE and ball.mark is not None:
        return ball.mark[STRIKE.index(name)]
    return float(np.asarray(getattr(ball, name), dtype=np.float64))
