"""The virtual golfer: a mean swing, how it varies from ball to ball, and how it warms up."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

import numpy as np

from loftwright.arrays import BoolArray, FloatArray, frozen_array
from loftwright.constants import DEGREE, MILE_PER_HOUR, MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.impact import REFERENCE_HEAD, Head, ImpactLaw

SWING_COLUMNS: Final = (
    "head_speed",
    "attack",
    "path",
    "face",
    "loft",
    "strike_toe",
    "strike_high",
)
"""What a swing brings to the ball, in the order of every array of swings; SI and radians."""

SWING_UNITS: Final[FloatArray] = frozen_array(
    [MILE_PER_HOUR, DEGREE, DEGREE, DEGREE, DEGREE, MILLIMETRE, MILLIMETRE]
)
HEAD_SPEED, ATTACK, PATH, FACE, LOFT, TOE, HIGH = range(7)

FACE_EDGE: Final[FloatArray] = frozen_array([35.0 * MILLIMETRE, 24.0 * MILLIMETRE])
PATH_WITH_FACE: Final = 0.4
LOFT_WITH_ATTACK: Final = 0.5
SPREAD_BETWEEN_GOLFERS: Final = 0.15
MISHIT_FACTOR: Final = 2.5
WARM_UP_BALLS: Final = 8.0
COLD_SPEED: Final = -1.5 * MILE_PER_HOUR
COLD_HIGH: Final = -2.0 * MILLIMETRE
HANDS: Final = ("right", "left")
HEAD_SPEEDS: Final = (45.0 * MILE_PER_HOUR, 140.0 * MILE_PER_HOUR)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ability:
    """Golfers of one ability: the mean swing and what varies, in swing columns.

    Attributes
    ----------
    mean : FloatArray, shape (7,)
        The typical golfer's mean swing.
    sd : FloatArray, shape (7,)
        From ball to ball.
    between : FloatArray, shape (2,)
        Standard deviation of the mean strike between golfers, toe and high [m].
    """

    mean: FloatArray
    sd: FloatArray
    between: FloatArray

    def __post_init__(self) -> None:
        for name in ("mean", "sd", "between"):
            object.__setattr__(self, name, frozen_array(getattr(self, name)))


def _ability(mean: list[float], sd: list[float], between: list[float]) -> Ability:
    return Ability(
        mean=np.array(mean) * SWING_UNITS,
        sd=np.array(sd) * SWING_UNITS,
        between=np.array(between) * MILLIMETRE,
    )


ABILITIES: Final[Mapping[str, Ability]] = MappingProxyType(
    {
        "tour": _ability(
            [113.0, -1.0, 0.0, 0.0, 12.6, 0.0, 3.0],
            [1.0, 0.8, 1.0, 1.0, 0.9, 6.5, 4.5],
            [5.0, 3.0],
        ),
        "low": _ability(
            [105.0, 0.0, 0.0, 0.0, 13.2, 0.0, 1.0],
            [1.3, 1.0, 1.4, 1.5, 1.2, 8.0, 5.5],
            [6.0, 4.0],
        ),
        "mid": _ability(
            [94.0, -0.5, 0.0, 0.0, 14.5, 0.0, 0.0],
            [1.8, 1.4, 2.2, 2.5, 1.7, 11.0, 7.5],
            [8.0, 5.0],
        ),
        "high": _ability(
            [85.0, -1.0, 0.0, 0.0, 15.5, 0.0, -1.0],
            [2.4, 1.9, 3.0, 3.5, 2.3, 14.0, 9.0],
            [9.0, 6.0],
        ),
        "senior": _ability(
            [75.0, -0.5, 0.0, 0.0, 16.5, 0.0, 0.0],
            [1.8, 1.4, 2.2, 2.5, 1.7, 11.0, 7.5],
            [8.0, 5.0],
        ),
    }
)
"""Assumed swings by ability, in mph, degrees and millimetres.

No paper with within-golfer standard deviations could be read. Those of face and path are chosen
so that the angular scatter of drives follows Broadie's order (about 3.4, 4.5 and 6 degrees for
tour, scratch and golfers of the nineties; from memory). Betzler, Monk, Wallace and Otto 2012,
Journal of Sports Sciences 30(5):439-448, found better golfers less variable (from memory).
"""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class VirtualGolfer:
    """One golfer, in swing columns and the golfer's own signs.

    Attributes
    ----------
    ability : str
        A key of `ABILITIES`.
    mean : FloatArray, shape (7,)
        Mean swing once warm.
    sd : FloatArray, shape (7,)
        From ball to ball; path goes with face (0.4) and loft with attack (0.5).
    hand : str
        `right` or `left`; turns what the ball does, not the golfer's signs.
    head : Head
        Of every club.
    law : ImpactLaw
        The constants of impact of this golfer's head and ball.
    """

    ability: str
    mean: FloatArray
    sd: FloatArray
    hand: str = "right"
    head: Head = REFERENCE_HEAD
    law: ImpactLaw = field(default_factory=ImpactLaw)

    def __post_init__(self) -> None:
        object.__setattr__(self, "mean", frozen_array(self.mean))
        object.__setattr__(self, "sd", frozen_array(self.sd))
        if self.hand not in HANDS:
            raise InputError(f"{self.hand!r} is no hand", place="hand", mend="Give right or left.")

    @property
    def covariance(self) -> FloatArray:
        """Return the covariance of swings, shape (7, 7)."""
        return swing_correlation() * np.outer(self.sd, self.sd)

    def swings(
        self,
        normals: FloatArray,
        shifts: FloatArray,
        *,
        ball: FloatArray | None = None,
        mishit: BoolArray | None = None,
    ) -> FloatArray:
        """Return swings made of standard normal numbers.

        Parameters
        ----------
        normals : FloatArray, shape (n, 7)
            Independent and standard normal.
        shifts : FloatArray, shape (n, 7)
            What the club does to each swing.
        ball : FloatArray, shape (n,), optional
            Place of each ball in the visit, from 0; warm without it.
        mishit : BoolArray, shape (n,), optional
            Balls whose strike strays 2.5 times as far.

        Returns
        -------
        FloatArray, shape (n, 7)
            Deliveries for `loftwright.physics.impact.strike_many`; the strike ends at the edge
            of the face.
        """
        deviations = normals @ np.linalg.cholesky(swing_correlation()).T * self.sd
        if mishit is not None:
            deviations[mishit, TOE:] *= MISHIT_FACTOR
        swings = self.mean + shifts + deviations
        if ball is not None:
            cold = np.exp(-ball / WARM_UP_BALLS)
            swings[:, HEAD_SPEED] += COLD_SPEED * cold
            swings[:, HIGH] += COLD_HIGH * cold
        swings[:, TOE:] = np.clip(swings[:, TOE:], -FACE_EDGE, FACE_EDGE)
        return swings

    def in_the_world(self, launches: FloatArray) -> FloatArray:
        """Return launches of a right-handed impact, shape (n, 5), in world signs."""
        if self.hand == "right":
            return launches
        mirrored: FloatArray = launches * np.array([1.0, 1.0, 1.0, -1.0, -1.0])
        return mirrored


def swing_correlation() -> FloatArray:
    """Return the correlation of swing columns, shape (7, 7)."""
    correlation = np.eye(7)
    correlation[PATH, FACE] = correlation[FACE, PATH] = PATH_WITH_FACE
    correlation[ATTACK, LOFT] = correlation[LOFT, ATTACK] = LOFT_WITH_ATTACK
    return correlation


def make_golfer(
    ability: str, rng: np.random.Generator, head_speed: float | None = None, hand: str = "right"
) -> VirtualGolfer:
    """Draw one golfer of an ability.

    Parameters
    ----------
    ability : str
        A key of `ABILITIES`.
    rng : numpy.random.Generator
        Draws the mean strike and how far each standard deviation lies from the ability's.
    head_speed : float, optional
        Mean head speed instead of the ability's [m s^-1]; the spreads stay.
    hand : str, optional
        `right` or `left`.

    Returns
    -------
    VirtualGolfer

    Raises
    ------
    InputError
        For an unknown ability or hand, or a head speed outside 45 to 140 mph.

    Notes
    -----
    Each standard deviation is multiplied by a lognormal number of mean 1 that varies 15 %.
    """
    if ability not in ABILITIES:
        raise InputError(
            f"{ability!r} is no ability", place="golfer", mend=f"Give {', '.join(ABILITIES)}."
        )
    kind = ABILITIES[ability]
    mean = kind.mean.copy()
    mean[TOE:] += kind.between * rng.standard_normal(2)
    spread = SPREAD_BETWEEN_GOLFERS
    factors = np.exp(spread * rng.standard_normal(7) - 0.5 * spread**2)
    if head_speed is not None:
        if not HEAD_SPEEDS[0] <= head_speed <= HEAD_SPEEDS[1]:
            raise InputError(
                f"a head speed of {head_speed / MILE_PER_HOUR:.0f} mph lies outside 45 to 140 mph",
                place="head_speed",
            )
        mean[HEAD_SPEED] = head_speed
    return VirtualGolfer(ability=ability, mean=mean, sd=kind.sd * factors, hand=hand)
