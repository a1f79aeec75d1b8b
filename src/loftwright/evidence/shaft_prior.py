"""What is believed of another shaft before the first ball with it: a weak prior, no verdict.

The mean comes from the swing model, shrunk; the spread is wider than most means, because golfers
adapt and nobody knows how beforehand. A set of balls with each shaft overtakes it.

References
----------
MacKenzie and Boucher 2017, J. Sports Sci., doi 10.1080/02640414.2016.1157262 (abstract): with two
    stiffnesses no difference of mean head speed (P = .14) nor of the face at impact, but half of
    33 golfers differed in speed.
Betzler, Monk, Wallace and Otto 2012, Sports Biomech. 11(2):223-238 (abstract): 217 against 272
    cycles a minute, 0.45 % more head speed with the softer club; face unchanged.
MacKenzie and Sprigings 2009, Sports Eng. 12:13-19 (abstract): in simulation, stiffness matters for
    dynamic loft and closing only.
The figures of the table are judgements from these and from the model's bracket and players.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from math import hypot, isfinite, log, sin, sqrt
from types import MappingProxyType
from typing import Final, NamedTuple

from loftwright.constants import DEGREE, MILE_PER_HOUR
from loftwright.errors import InputError
from loftwright.physics.shaft_swing.bracket import Bracket
from loftwright.physics.shaft_swing.equations import PLANE
from loftwright.physics.shaft_swing.players import Loading
from loftwright.physics.sleeve import Convention

DEGREES_OF_FREEDOM: Final = 5
"""Of the Student t that carries every standard deviation below."""
STATED_CHANGE: Final = 0.15
"""Change of stiffness for which the wider spreads are stated."""
LOFT_SHARE: Final = 0.5
SPEED_SHARE: Final = 0.33
"""Of the speed change with torques held, which is an upper bound: per stiffness about three times
what 217 against 272 cycles a minute gave."""
LAUNCH_OF_LOFT: Final = 0.85
"""Launch follows dynamic loft by this share (from memory)."""
RATIO_POWER: Final = 0.5
"""Of the model's ratio of scatters."""


class Effect(StrEnum):
    """What another shaft may change."""

    DYNAMIC_LOFT = "dynamic_loft"
    LAUNCH = "launch"
    HEAD_SPEED = "head_speed"
    FACE = "face"
    PATH = "path"
    ATTACK = "attack"
    LIE = "lie"


class Spread(NamedTuple):
    """Standard deviation for another shape of one stiffness, and for 15 % of stiffness.

    `quick_late` multiplies both for a golfer with a quick change and a late release.
    """

    shape: float
    stiffness: float
    quick_late: float
    basis: str


SPREADS: Final[Mapping[Effect, Spread]] = MappingProxyType(
    {
        Effect.DYNAMIC_LOFT: Spread(
            0.5 * DEGREE, 0.7 * DEGREE, 1.4, "width of the bracket, players, and adaptation"
        ),
        Effect.LAUNCH: Spread(0.45 * DEGREE, 0.6 * DEGREE, 1.4, "a share of dynamic loft"),
        Effect.HEAD_SPEED: Spread(
            0.6 * MILE_PER_HOUR, 0.9 * MILE_PER_HOUR, 1.0, "0.45 % on average; half of golfers"
        ),
        Effect.FACE: Spread(0.7 * DEGREE, 0.8 * DEGREE, 1.2, "no mean change; twist not modelled"),
        Effect.PATH: Spread(0.7 * DEGREE, 0.8 * DEGREE, 1.2, "no mean change"),
        Effect.ATTACK: Spread(
            0.4 * DEGREE, 0.5 * DEGREE, 1.0, "the model's change is below 0.35°"
        ),
        Effect.LIE: Spread(0.3 * DEGREE, 0.4 * DEGREE, 1.0, "all players agree within 0.2°"),
    }
)
SCATTER_FACTORS: Final = (1.25, 1.3)
"""One standard deviation of the ratio of scatters: another shape, and 15 % of stiffness."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Belief:
    """What is believed of one effect, shaft X less the own one: Student t with 5 degrees.

    Attributes
    ----------
    mean, sd : float
        In SI.
    """

    mean: float
    sd: float

    @property
    def scale(self) -> float:
        """Scale of the Student t with that standard deviation."""
        return self.sd * sqrt((DEGREES_OF_FREEDOM - 2.0) / DEGREES_OF_FREEDOM)

    @property
    def distinguishable(self) -> bool:
        """Whether the mean is as large as the doubt; else say "not distinguishable"."""
        return abs(self.mean) >= self.sd


def shaft_prior(
    brackets: Mapping[Loading, Bracket],
    stiffness_change: float,
    *,
    convention: Convention = Convention.C,
) -> Mapping[Effect, Belief]:
    """Return what is believed of another shaft less the own one, before any ball.

    Parameters
    ----------
    brackets : mapping of Loading to Bracket
        From the swing model, one for each way in which the golfer may load a shaft.
    stiffness_change : float
        Relative to the own shaft, as 2 ln of the ratio of frequencies in one set-up.
    convention : Convention
        How a bend in the plane of the swing becomes loft of the club: A, the grip is not turned;
        C, the golfer squares the face, as published means of the face say.

    Returns
    -------
    mapping of Effect to Belief
        [rad] and [m s^-1].

    Raises
    ------
    InputError
        Without a bracket, with a stiffness that is not a number, or under convention B.

    Notes
    -----
    Between no change and 15 % the standard deviation grows in a straight line, and on beyond.
    Where the loading is in doubt, the means are averaged and half their distance is added in
    squares; the wider factor holds.
    """
    if not brackets:
        raise InputError(
            "no swing of the golfer was given.",
            place="brackets",
            mend="Give one for the golfer's loading, or for both.",
        )
    turn = _loft_of_bend(convention)
    means = [_means(bracket, turn) for bracket in brackets.values()]
    late = Loading.QUICK_LATE in brackets
    beliefs = {}
    for effect, spread in SPREADS.items():
        values = [mean[effect] for mean in means]
        apart = 0.5 * (max(values) - min(values))
        sd = _between(spread.shape, spread.stiffness, stiffness_change)
        sd *= spread.quick_late if late else 1.0
        beliefs[effect] = Belief(mean=sum(values) / len(values), sd=hypot(sd, apart))
    return MappingProxyType(beliefs)


def scatter_prior(ratio: float, stiffness_change: float) -> Belief:
    """Return what is believed of the logarithm of the ratio of swing-to-swing scatters of loft.

    Parameters
    ----------
    ratio : float
        The model's: with the other shaft, by with the own.
    stiffness_change : float
        As in `shaft_prior`.

    Returns
    -------
    Belief
        Of the natural logarithm.

    Raises
    ------
    InputError
        If the ratio is not above 0, or the stiffness is not a number.
    """
    if not (isfinite(ratio) and ratio > 0.0):
        raise InputError(
            f"a ratio of scatters of {ratio:g} cannot be: above 0.",
            place="ratio",
            mend="Divide one standard deviation by the other.",
        )
    shape, stiffness = (log(factor) for factor in SCATTER_FACTORS)
    return Belief(mean=RATIO_POWER * log(ratio), sd=_between(shape, stiffness, stiffness_change))


def shaft_shift(
    beliefs: Mapping[Effect, Belief],
) -> tuple[float, float, float, float, float]:
    """Return what is believed of a shaft as the shift of a club's delivery.

    Parameters
    ----------
    beliefs : mapping of Effect to Belief
        From `shaft_prior`.

    Returns
    -------
    tuple of float
        Head speed [m s^-1], attack, path, face and dynamic loft [rad], as `ClubTraits.shift`
        takes them.

    Notes
    -----
    Launch enters as dynamic loft, through the impact's own slope; the share of `LAUNCH_OF_LOFT`
    serves what is told before the balls. Means only: the doubt stays that of the clubs' effects.
    """
    speed, attack, path, face, loft = (
        beliefs[effect].mean
        for effect in (
            *(Effect.HEAD_SPEED, Effect.ATTACK, Effect.PATH),
            *(Effect.FACE, Effect.DYNAMIC_LOFT),
        )
    )
    return speed, attack, path, face, loft


def _means(bracket: Bracket, loft_of_bend: float) -> Mapping[Effect, float]:
    loft = LOFT_SHARE * bracket.delivered_loft * loft_of_bend
    return {
        Effect.DYNAMIC_LOFT: loft,
        Effect.LAUNCH: LAUNCH_OF_LOFT * loft,
        Effect.HEAD_SPEED: SPEED_SHARE * bracket.held_torques.head_speed,
        Effect.FACE: 0.0,
        Effect.PATH: 0.0,
        Effect.ATTACK: 0.0,
        Effect.LIE: bracket.droop_angle,
    }


def _loft_of_bend(convention: Convention) -> float:
    """Return loft of the club per angle in the plane of the swing."""
    if convention is Convention.A:
        return sin(PLANE)
    if convention is Convention.C:
        return 1.0 / sin(PLANE)
    raise InputError(
        "a club soled flat says nothing of a bend in the swing.",
        place="convention",
        mend="Take C, the face squared, or A, the grip not turned.",
    )


def _between(shape: float, stiffness: float, change: float) -> float:
    if not isfinite(change):
        raise InputError(
            f"a change of stiffness of {change} cannot be.",
            place="stiffness change",
            mend="Take both frequencies in one set-up.",
        )
    return shape + (stiffness - shape) * abs(change) / STATED_CHANGE
