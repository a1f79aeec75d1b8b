"""What a comparison of clubs came to: values for pages, keys and paper."""

from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from typing import Final

from loftwright.domain.home import Home


class State(StrEnum):
    """How far the evidence carries."""

    STRONG = "strong"
    GOOD_ENOUGH = "good_enough"
    TOO_CLOSE = "too_close"
    TOO_FEW = "too_few"


class RankedOn(StrEnum):
    """The figure that orders the clubs."""

    AS_YOU_SWING_IT = "as_you_swing_it"
    DEVICE_CARRY = "device_carry"


class Against(StrEnum):
    """What differences are taken against."""

    OWN = "own"
    MEAN = "mean"


@lru_cache(maxsize=256)
def _t_quantile(probability: float, df: float) -> float:
    from scipy.special import stdtrit  # noqa: PLC0415 - scipy is slow to import

    return float(stdtrit(df, probability))


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """A figure with its doubt: a scaled t distribution.

    Attributes
    ----------
    mean, sd : float
        Centre and scale, in SI and radians.
    df : float
        Degrees of freedom.
    """

    mean: float
    sd: float
    df: float

    def interval(self, probability: float) -> tuple[float, float]:
        """Return the central range that holds the figure with this probability."""
        half = self.sd * _t_quantile(0.5 + probability / 2.0, self.df)
        return self.mean - half, self.mean + half


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """Differences of one club to the club or mean that all are taken against.

    Launch numbers and what they become at home, SI and radians, world signs. `None` where it
    may not be said.
    """

    ball_speed: Estimate | None = None
    launch: Estimate | None = None
    direction: Estimate | None = None
    spin: Estimate | None = None
    axis: Estimate | None = None
    carry: Estimate | None = None
    total: Estimate | None = None
    offline: Estimate | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """Where a club's average drive goes at home, as the golfer swings it; SI and radians.

    `start_offline` and `curve` part the offline distance at landing: where the ball would have
    landed had it kept its start line, and what it curved from there; right positive. `aim` is how
    far to the right of the golfer's own aim to aim, where drives finish, so that the club scores
    best. Without direction and axis what rests on the side is not a number.
    """

    ball_speed: float
    launch: float
    direction: float
    spin: float
    axis: float
    carry: float
    total: float
    offline: float
    start_offline: float
    curve: float
    peak_height: float
    landing_angle: float
    fairways_in_14: float
    strokes_per_round: float
    aim: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ClubResult:
    """What was seen of one club, in ranked order within its comparison.

    Attributes
    ----------
    balls : int
        Balls used, odd ones among them.
    value : Estimate, optional
        Expected score at home as a length [m], against own or mean, as the golfer swings it.
    p_best : float, optional
        Probability that no other club is worth more.
    physics_share : float
        0 when the figure rests on balls alone, 1 when on the prior alone.
    plain_total : float, optional
        Plain mean of the re-flown totals [m].
    """

    club: str
    balls: int
    value: Estimate | None = None
    p_best: float | None = None
    as_you_swing_it: Figures | None = None
    from_the_same_swing: Figures | None = None
    level: Level | None = None
    physics_share: float = 1.0
    plain_total: float | None = None
    device_ball_speed: Estimate | None = None
    device_carry: Estimate | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """Why two plain averages of total differ [m]; the parts sum to the difference.

    Balls set aside are among the odd balls; what differs between visits goes with warm-up.
    """

    odd_balls: float
    strike: float
    swing: float
    warm_up: float
    club: float
    left_over: float

    def sum(self) -> float:
        """Return the sum of all six parts."""
        return (
            self.odd_balls + self.strike + self.swing + self.warm_up + self.club + self.left_over
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two clubs, the higher ranked first; every sign is a minus b.

    Of clubs that no chain of clubs hit on the same visits joins, nothing is told.
    """

    a: str
    b: str
    p_a_better: float | None
    raw_total: float | None
    parts: Parts | None


@dataclass(frozen=True, slots=True, kw_only=True)
class OddBall:
    """A ball that counts for less than half: its row, weight (0 to 1) and what is odd in it."""

    row: int
    weight: float
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """One rung of the claims ladder.

    Attributes
    ----------
    say : str
    may : bool
    why : str
    hole : float, optional
        Length of the standard hole that it was worked out on [m], said before the reason; None
        where none stood for the golfer's own.
    """

    say: str
    may: bool
    why: str
    hole: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class NextClub:
    """The club to hand over next, with the reason given to the fitter."""

    club: str
    why: str
    gain: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """The one shared scatter of drives at home: standard deviations [m]."""

    total: float
    offline: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Believed:
    """On what a comparison rested before the first ball.

    Attributes
    ----------
    version : int
        Of what the shop has learned; 0 for physics alone.
    fittings : int
        That taught it.
    physics_share : float
        How much of it is physics, 1 to 0.
    borrowed : bool
        Whether slopes are those of other heads than the one that is hit.
    lost : bool
        Whether that version can no longer be read, so that physics alone was believed.
    """

    version: int = 0
    fittings: int = 0
    physics_share: float = 1.0
    borrowed: bool = False
    lost: bool = False


PHYSICS_ALONE: Final = Believed()


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """A comparison, whole.

    Attributes
    ----------
    clubs : tuple of ClubResult
        In ranked order; clubs that may not be ranked come last.
    regret : float, optional
        What choosing the leader now is expected to give up against the best club [m].
    p_leader_near_best : float, optional
        Probability that the leader is within one yard of the best.
    home : Home
        The home used, its holes filled in.
    believed : Believed
        Before the first ball.
    """

    state: State
    ranked_on: RankedOn
    against: Against
    own: str | None
    clubs: tuple[ClubResult, ...]
    pairs: tuple[Pair, ...]
    odd_balls: tuple[OddBall, ...]
    next_club: NextClub | None
    regret: float | None
    p_leader_near_best: float | None
    home: Home
    pattern: Pattern | None
    claims: tuple[Claim, ...]
    warnings: tuple[str, ...] = ()
    believed: Believed = PHYSICS_ALONE
