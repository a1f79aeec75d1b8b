"""The spin setting of a ball and a face, learned from the shop's own marked shots.

It is learned when somebody asks, kept with the day on which it was learned, and used until it is
learned again: a ball that was read yesterday says today what it said then.
"""

import json
from collections import defaultdict
from collections.abc import Collection, Sequence
from dataclasses import asdict, dataclass, replace
from typing import Any, Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.bay.now import FittingNow, Swing
from loftwright.domain.fitting import Fitting, Strip
from loftwright.domain.golfer import Golfer, Hand
from loftwright.errors import LoftwrightError
from loftwright.evidence.spreads import Spreads, spread_factor
from loftwright.physics.ball_reading import BallReading
from loftwright.physics.constants_from_balls import (
    FEWEST_SHOTS,
    SharedConstants,
    constants_from_visits,
)
from loftwright.physics.delivery_belief import CONSTANTS, UNKNOWN_CLUB, ConstantsBelief
from loftwright.physics.impact_law import ImpactLaw
from loftwright.physics.usual_ball import usual_ball
from loftwright.services.own_ball import own_ball
from loftwright.services.studio import Studio

NAME: Final = "spin"
"""Under which the store keeps what was learned."""

USUAL: Final = ImpactLaw().spin_factor
"""The spin factor that is assumed of a ball and face nobody learned anything of."""

_SHARED: Final = ("spin_factor", "tangential_restitution")
"""What belongs to ball and face; the rest belongs to heads and devices."""

_PLACES: Final = [CONSTANTS.index(name) for name in _SHARED]
_MEASURED: Final = ("head_speed", "attack")


@dataclass(frozen=True, slots=True, kw_only=True)
class SpinSetting:
    """How much of a rigid body's spin one kind of ball keeps from one kind of face.

    Attributes
    ----------
    ball, face : str
        As the bay's conditions name them; the face empty where nobody said.
    invented : bool
        Learned from invented golfers, and used for them alone.
    spin : float
        Spin factor.
    doubt : float
        Its standard deviation, with what device and marks may be off by on every visit.
    rolling, rolling_doubt, together : float
        Tangential restitution of the same ball and face, its standard deviation, and how the
        two doubts go together.
    by_height : float
        How the doubt goes together with the height of the heads' centre of gravity, -1 to 1.
    by_attack : float
        How far the spin factor moves if every attack angle was read too high [rad^-1].
    shots, visits : int
        That told it.
    learned : str
        The day, in the shop's zone.
    """

    ball: str
    face: str
    invented: bool
    spin: float
    doubt: float
    rolling: float
    rolling_doubt: float
    together: float
    by_height: float
    by_attack: float
    shots: int
    visits: int
    learned: str

    def constants(self) -> ConstantsBelief:
        """Return what is believed of a club with this ball and face: its head is unknown."""
        mean, covariance = np.array(UNKNOWN_CLUB.mean), np.array(UNKNOWN_CLUB.covariance)
        mean[_PLACES] = self.spin - USUAL, self.rolling
        between = self.together * self.doubt * self.rolling_doubt
        covariance[np.ix_(_PLACES, _PLACES)] = [
            [self.doubt**2, between],
            [between, self.rolling_doubt**2],
        ]
        return ConstantsBelief(mean=mean, covariance=covariance)


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """Balls that could not teach, counted by the reason.

    Attributes
    ----------
    not_agreed, no_mark, no_delivery, no_ball : int
        The golfer did not agree; no mark of its own; attack or head speed not measured, or a
        launch number missing; the kind of ball not said.
    too_few : int
        Balls of visits with fewer than five that could teach.
    """

    not_agreed: int = 0
    no_mark: int = 0
    no_delivery: int = 0
    no_ball: int = 0
    too_few: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned:
    """What was learned of balls and faces.

    Attributes
    ----------
    settings : tuple of SpinSetting
        The most shots first.
    left : Left
        Why other balls taught nothing.
    version : int
        Under which it was read; 0 for what was not kept yet.
    """

    settings: tuple[SpinSetting, ...] = ()
    left: Left = Left()
    version: int = 0

    def of(self, strip: Strip, *, invented: bool) -> SpinSetting | None:
        """Return what is known of the ball and face that a ball was hit with."""
        wanted = (said(strip.ball), said(strip.treatment), invented)
        return next((one for one in self.settings if _key(one) == wanted), None)


def said(text: str) -> str:
    """Return a condition as it is compared: case and outer spaces mean nothing."""
    return " ".join(text.casefold().split())


def read_spin(studio: Studio) -> Learned:
    """Return what was learned last; nothing if nobody ever asked."""
    kept = studio.store.setting(NAME)
    if not kept.value:
        return Learned(version=kept.version)
    record: dict[str, Any] = json.loads(kept.value)
    return Learned(
        settings=tuple(SpinSetting(**row) for row in record["settings"]),
        left=Left(**record["left"]),
        version=kept.version,
    )


def keep_spin(studio: Studio, learned: Learned, *, version: int) -> int:
    """Keep what was learned and return the new version.

    Parameters
    ----------
    studio : Studio
    learned : Learned
    version : int
        Under which the one that it replaces was read.

    Raises
    ------
    ConflictError
        If somebody else kept something since it was read.
    """
    return studio.store.set_setting(NAME, spin_text(learned), version=version)


def spin_text(learned: Learned) -> str:
    """Return what was learned as the store keeps it."""
    record = asdict(learned)
    del record["version"]
    return json.dumps(record, ensure_ascii=False, sort_keys=True)


def learn_spin(studio: Studio, *, without: Collection[str] = ()) -> Learned:
    """Learn the spin setting of every ball and face from all fittings, open and closed.

    Parameters
    ----------
    studio : Studio
    without : collection of str
        Fittings that are to be erased and teach nothing more.
    """
    lessons: dict[tuple[str, str, bool], list[_Lesson]] = defaultdict(list)
    left = Left()
    for kept in studio.store.fittings():
        fitting = kept.value
        if fitting.id in without:
            continue
        golfer = studio.store.golfer(fitting.golfer).value
        now = studio.standing(fitting.id)
        if not (fitting.invented or golfer.consents.shop_record):
            left = replace(left, not_agreed=left.not_agreed + len(now.balls))
            continue
        left = _teach(lessons, left, fitting, golfer, now)
    today = studio.today().isoformat()
    found = [_setting(key, some, today) for key, some in sorted(lessons.items())]
    return Learned(settings=tuple(sorted(found, key=lambda one: -one.shots)), left=left)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lesson:
    """The mean ball of one visit with one ball and face."""

    ball: str
    face: str
    reading: BallReading
    shots: int


def _teach(
    lessons: dict[tuple[str, str, bool], list[_Lesson]],
    left: Left,
    fitting: Fitting,
    golfer: Golfer,
    now: FittingNow,
) -> Left:
    """Add a fitting's mean balls, and return the count of balls that taught nothing."""
    groups: dict[tuple[int, str, str], list[tuple[Swing, BallReading]]] = defaultdict(list)
    for swing in now.balls:
        reading, why = _able(swing, now, golfer.hand)
        if reading is None:
            left = replace(left, **{why: getattr(left, why) + 1}) if why else left
            continue
        strip = swing.strip
        groups[swing.visit, said(strip.ball), said(strip.treatment)].append((swing, reading))
    for (_, ball, face), some in sorted(groups.items()):
        lesson = _lesson(some) if len(some) >= FEWEST_SHOTS else None
        if lesson is None:
            left = replace(left, too_few=left.too_few + len(some))
        else:
            lessons[ball, face, fitting.invented].append(lesson)
    return left


def _able(swing: Swing, now: FittingNow, hand: Hand) -> tuple[BallReading | None, str]:
    """Return a ball that can teach, or the name of the count that it joins; none if it is odd."""
    if swing.odd or swing.numbers is None:
        return None, ""
    ball = own_ball(swing, now, hand)
    if ball.mark_by_device or ball.reading is None or ball.reading.mark is None:
        whole = ball.reading is not None or swing.mark is None
        return None, "no_mark" if whole else "no_delivery"
    if any(getattr(ball.reading, name) is None for name in _MEASURED):
        return None, "no_delivery"
    if not swing.strip.ball.strip():
        return None, "no_ball"
    return ball.reading, ""


def _lesson(some: list[tuple[Swing, BallReading]]) -> _Lesson | None:
    """Return the mean ball of a visit; None if no delivery of the usual head gives it."""
    readings = [reading for _, reading in some]
    launch = np.array([[r.ball_speed, r.launch, r.spin, r.axis, r.direction] for r in readings])
    clubs = sorted({swing.club or "" for swing, _ in some})
    club = np.array([clubs.index(swing.club or "") for swing, _ in some], dtype=np.int64)
    spread = Spreads(factor=spread_factor(launch[:, 1], club)).delivery
    toe, high = np.array([reading.mark for reading in readings]).mean(axis=0)
    try:
        usual = usual_ball(launch, spread, mark=(float(toe), float(high))).reading
    except LoftwrightError:
        return None
    newest = some[-1][0].strip
    return _Lesson(
        ball=newest.ball.strip(),
        face=newest.treatment.strip(),
        reading=replace(
            usual,
            head_speed=_mean([one.head_speed for one in readings]),
            attack=_mean([one.attack for one in readings]),
            path=_mean([one.path for one in readings]),
            face=_mean([one.face for one in readings]),
            loft=_mean([one.loft for one in readings]),
        ),
        shots=len(some),
    )


def _mean(read: Sequence[float | None]) -> float | None:
    """Return the mean of a column that was measured of every ball; None otherwise."""
    told = [one for one in read if one is not None]
    return float(np.mean(told)) if len(told) == len(read) else None


def _setting(key: tuple[str, str, bool], lessons: list[_Lesson], today: str) -> SpinSetting:
    found: SharedConstants = constants_from_visits([one.reading for one in lessons])
    constants = found.constants
    spin, rolling, height = (CONSTANTS.index(name) for name in (*_SHARED, "height"))
    doubts = np.sqrt(np.diag(constants.covariance))
    together: FloatArray = constants.covariance / np.outer(doubts, doubts)
    return SpinSetting(
        ball=lessons[-1].ball,
        face=lessons[-1].face,
        invented=key[2],
        spin=USUAL + float(constants.mean[spin]),
        doubt=float(doubts[spin]),
        rolling=float(constants.mean[rolling]),
        rolling_doubt=float(doubts[rolling]),
        together=float(together[spin, rolling]),
        by_height=float(together[spin, height]),
        by_attack=found.by_attack,
        shots=sum(one.shots for one in lessons),
        visits=len(lessons),
        learned=today,
    )


def _key(one: SpinSetting) -> tuple[str, str, bool]:
    return said(one.ball), said(one.face), one.invented
