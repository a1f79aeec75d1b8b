"""What a shop's record teaches, in the form in which a comparison takes it."""

from dataclasses import dataclass
from typing import Final

from loftwright.arrays import FloatArray
from loftwright.evidence.spreads import SpreadTable

SWING_EFFECTS: Final = ("head_speed", "attack", "face_to_path", "face", "toe", "high")
"""What a club is known to do to a swing, in order: mph, degrees, and ten millimetres of strike."""

SLOPE_COLUMNS: Final = ("toe", "high", "toe_squared", "high_squared", *SWING_EFFECTS[:4])
"""On what the shop's slopes are, in order."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class KnownClubs:
    """What the record expects of a fitting's clubs beyond their physics, in the balls' signs.

    Attributes
    ----------
    launch : FloatArray, shape (5, S)
        What each changes in the launch numbers from the same swing, in scaled units.
    launch_covariance : FloatArray, shape (5 S, 5 S)
        Of all that is not known of it, with the club running fastest.
    swing : FloatArray, shape (6, S)
        What each changes in the swing.
    swing_covariance : FloatArray, shape (6 S, 6 S)
    fittings : tuple of int
        In how many the nearest thing that the record knows of each club was hit.
    own, swing_own : FloatArray, shapes (5, 5), (6, 6), optional
        What of the covariances is each club's own, shared with no other; of it a club keeps most
        when it is only built a little otherwise.
    """

    launch: FloatArray
    launch_covariance: FloatArray
    swing: FloatArray
    swing_covariance: FloatArray
    fittings: tuple[int, ...]
    own: FloatArray | None = None
    swing_own: FloatArray | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ShopBeliefs:
    """What a shop's fittings have taught, for one fitting; in the balls' signs.

    Attributes
    ----------
    version : int
        Of what was learned, from 1.
    fittings : int
        That taught it.
    table : SpreadTable
        How swings spread and what clubs that nobody knows may do.
    slopes : FloatArray, shape (5, 8)
        By how much launch follows `SLOPE_COLUMNS` more than physics says, in scaled units.
    slope_sd : FloatArray, shape (5, 8)
        How golfers differ in them.
    borrowed : bool
        Whether the slopes are those of other heads than the ones hit here.
    clubs : KnownClubs
    """

    version: int
    fittings: int
    table: SpreadTable
    slopes: FloatArray
    slope_sd: FloatArray
    borrowed: bool
    clubs: KnownClubs
