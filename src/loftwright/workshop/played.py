"""What was said of a club against the rounds that were played with it."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import sqrt
from typing import Final

from loftwright.constants import YARD
from loftwright.domain.after_acts import Round
from loftwright.domain.order import Promise

LEVEL: Final = 0.90
"""A range of the course's figures holds nine times in ten."""

FEWEST_ROUNDS: Final = 3
"""Below this nobody knows how much rounds differ (judgement)."""

FAIRWAY_DOUBT: Final = 1.0
"""How well the fairways of 14 are told beforehand: widths and trouble are taken as given
(judgement)."""

TOTAL_DOUBT: Final = 5.0 * YARD
"""How well a total is told beforehand: balls differ, and ground (judgement)."""

DRIVES: Final = 14.0
_READ_TO: Final = 1.0 * YARD
"""An average that was written down is not known better than to this."""


class CourseWord(StrEnum):
    """What the course says of what was said."""

    AS_SAID = "as_said"
    LESS = "less"
    MORE = "more"
    TOO_FEW = "too_few"


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """A figure that was said beside the same one as it was seen.

    Attributes
    ----------
    said : float or None
        None where nothing was told beforehand.
    seen : float
    low, high : float or None
        Range that holds the true figure 9 times in 10; None from a single round.
    doubt : float
        How well it was told beforehand.
    rounds, balls : int
        Behind what was seen.
    word : CourseWord or None
        None where nothing was said.
    """

    said: float | None
    seen: float
    low: float | None
    high: float | None
    doubt: float
    rounds: int
    balls: int
    word: CourseWord | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CourseResult:
    """What rounds say: fairways in 14 drives, and the total [m]; None where nobody wrote it.

    Attributes
    ----------
    together : float
        How many times as wide as independent drives would the fairways of rounds scatter, in
        variance; 1 where they do not cluster.
    """

    fairways: Compared | None
    total: Compared | None
    together: float


def course_result(rounds: Sequence[Round], promise: Promise | None) -> CourseResult:
    """Return what rounds say of what was said of a club.

    Parameters
    ----------
    rounds : sequence of Round
    promise : Promise or None
        What was said when it was chosen.

    Notes
    -----
    *Less* and *more*: the whole range lies beyond what was said and its doubt. *As said*: the
    whole range lies within twice that doubt. All else, and fewer than three rounds, is too few to
    tell. Fairways are those of 14 drives.
    """
    drives = tuple(one.drives for one in rounds)
    hits = tuple(one.fairways for one in rounds)
    fairways = total = None
    if drives:
        said = None if promise is None else promise.fairways_in_14
        share = sum(hits) / sum(drives)
        ends = clustered_interval(hits, drives)
        low, high = ends if ends is not None else (None, None)
        fairways = _compared(
            said,
            DRIVES * share,
            (None if low is None else DRIVES * low, None if high is None else DRIVES * high),
            FAIRWAY_DOUBT,
            (len(drives), sum(drives)),
        )
    long = [(one.total, one.measured) for one in rounds if one.total is not None]
    if long:
        seen = sum(total * count for total, count in long) / sum(count for _, count in long)
        total = _compared(
            None if promise is None else promise.total,
            seen,
            mean_interval([one for one, _ in long], [count for _, count in long]),
            TOTAL_DOUBT,
            (len(long), sum(count for _, count in long)),
        )
    return CourseResult(fairways=fairways, total=total, together=design_effect(hits, drives))


def wilson_interval(hits: float, drives: float, level: float = LEVEL) -> tuple[float, float]:
    """Return the range of a share by inverting the score test.

    Parameters
    ----------
    hits, drives : float
        Not necessarily whole: so many drives may count as fewer.
    level : float
        Chance with which the range holds the true share.

    References
    ----------
    Brown, Cai and DasGupta 2001, Interval estimation for a binomial proportion, Statistical
    Science 16:101-133, eq. (4).
    """
    z = _normal_quantile(0.5 + 0.5 * level)
    share, room = hits / drives, z * z
    middle = (hits + 0.5 * room) / (drives + room)
    inner = share * (1.0 - share) + room / (4.0 * drives)
    half = z * sqrt(drives) / (drives + room) * sqrt(max(inner, 0.0))
    return max(middle - half, 0.0), min(middle + half, 1.0)


def design_effect(hits: Sequence[int], drives: Sequence[int]) -> float:
    """Return how many times as wide as independent drives the hits of rounds scatter.

    Parameters
    ----------
    hits, drives : sequence of int
        Of each round.

    Returns
    -------
    float
        Ratio of variances, at least 1; 1 where one round alone cannot tell.

    References
    ----------
    McCullagh and Nelder 1989, Generalized linear models, 2nd ed., section 4.5.2: Pearson's
    statistic over its degrees of freedom (from memory).
    """
    if len(drives) < 2:
        return 1.0
    share = sum(hits) / sum(drives)
    if share in {0.0, 1.0}:
        return 1.0
    scatter = sum(
        (hit - count * share) ** 2 / (count * share * (1.0 - share))
        for hit, count in zip(hits, drives, strict=True)
    )
    return max(scatter / (len(drives) - 1), 1.0)


def clustered_interval(
    hits: Sequence[int], drives: Sequence[int], level: float = LEVEL
) -> tuple[float, float] | None:
    """Return the range of a share from rounds, whose drives are alike within a round.

    Parameters
    ----------
    hits, drives : sequence of int
        Of each round.
    level : float

    Returns
    -------
    tuple of (float, float) or None
        None from fewer than two rounds.

    Notes
    -----
    The drives count as fewer: their number over the design effect, and less for how little so few
    rounds tell of that effect.

    References
    ----------
    Korn and Graubard 1998, Confidence intervals for proportions with small expected number of
    positive counts estimated from survey data, Survey Methodology 24:193-201: effective number,
    here in the range of Brown, Cai and DasGupta 2001 (from memory).
    """
    if len(drives) < 2:
        return None
    quantile = 0.5 + 0.5 * level
    few = (_normal_quantile(quantile) / _t_quantile(quantile, len(drives) - 1)) ** 2
    count = sum(drives) / design_effect(hits, drives) * few
    return wilson_interval(sum(hits) / sum(drives) * count, count, level)


def mean_interval(
    means: Sequence[float], counts: Sequence[int], level: float = LEVEL
) -> tuple[float | None, float | None]:
    """Return the range of the mean over rounds, from how much rounds differ.

    Parameters
    ----------
    means : sequence of float
        Of each round.
    counts : sequence of int
        How many balls each is of.
    level : float

    Returns
    -------
    tuple of (float, float) or of (None, None)
        None from fewer than two rounds.

    References
    ----------
    Cochran 1977, Sampling Techniques, 3rd ed., section 2.11 (from memory), rounds as clusters.
    """
    rounds, balls = len(means), sum(counts)
    if rounds < 2:
        return None, None
    mean = sum(one * count for one, count in zip(means, counts, strict=True)) / balls
    apart = sum((count * (one - mean)) ** 2 for one, count in zip(means, counts, strict=True))
    error = sqrt(rounds / (rounds - 1) * apart) / balls
    error = max(error, _READ_TO / sqrt(rounds))
    half = _t_quantile(0.5 + 0.5 * level, rounds - 1) * error
    return mean - half, mean + half


def _compared(
    said: float | None,
    seen: float,
    ends: tuple[float | None, float | None],
    doubt: float,
    counts: tuple[int, int],
) -> Compared:
    low, high = ends
    return Compared(
        said=said,
        seen=seen,
        low=low,
        high=high,
        doubt=doubt,
        rounds=counts[0],
        balls=counts[1],
        word=None if said is None else _word(said, low, high, doubt, counts[0]),
    )


def _word(
    said: float, low: float | None, high: float | None, doubt: float, rounds: int
) -> CourseWord:
    if low is None or high is None or rounds < FEWEST_ROUNDS:
        return CourseWord.TOO_FEW
    if high < said - doubt:
        return CourseWord.LESS
    if low > said + doubt:
        return CourseWord.MORE
    if low >= said - 2.0 * doubt and high <= said + 2.0 * doubt:
        return CourseWord.AS_SAID
    return CourseWord.TOO_FEW


def _normal_quantile(chance: float) -> float:
    from scipy.special import ndtri  # noqa: PLC0415 - scipy is slow to import

    return float(ndtri(chance))


def _t_quantile(chance: float, freedom: int) -> float:
    from scipy.special import stdtrit  # noqa: PLC0415 - scipy is slow to import

    return float(stdtrit(freedom, chance))
