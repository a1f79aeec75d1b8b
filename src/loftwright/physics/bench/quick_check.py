"""Weight, balance and one frequency of today against a kept shaft.

Three figures make no profile. They tell whether a piece is still the one whose profile is kept,
and as it was; where they differ, every usual handling is tried on paper and the best that then
fits is named.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import isfinite, log
from types import MappingProxyType
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import MILLIMETRE
from loftwright.errors import InputError
from loftwright.physics.bench.handling import (
    Bench,
    Cause,
    Handling,
    QuickReading,
    handlings,
    predicted,
)
from loftwright.physics.bench.readings import Balance, Frequency, Mass
from loftwright.physics.shaft.limits import LENGTH, within
from loftwright.physics.shaft.profile import Profile

AGREES: Final = 3.0
LENGTH_ERROR: Final = 1.0 * MILLIMETRE
ANOTHER_BY: Final = (0.05, 0.01, 0.04, 0.01)
"""How far another piece of a rack lies off: mass, balance, frequency, length; judgements."""
OF_A_SIZE: Final = 6.0
MARKED: Final = 1.0
"""What another weight pays more than another clamp depth: weights are marked, clamps are set."""
_NO_OTHERS: Final[Mapping[str, "Kept"]] = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Kept:
    """A kept shaft, and how well it foretells figures in any set-up.

    Attributes
    ----------
    profile : Profile
        Of the bare shaft, as it is kept.
    mass_error, balance_error, frequency_error : float
        Relative, one standard deviation each.
    """

    profile: Profile
    mass_error: float
    balance_error: float
    frequency_error: float

    def __post_init__(self) -> None:
        for name in ("mass_error", "balance_error", "frequency_error"):
            error = getattr(self, name)
            if not (isfinite(error) and error >= 0.0):
                raise InputError(
                    f"an error of {100.0 * error:g} % cannot be used",
                    place=name.replace("_", " "),
                    mend="Give how well the kept shaft foretells it, nothing or more.",
                )


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """One of today's figures beside the kept shaft's.

    Attributes
    ----------
    figure : str
        "mass", "balance", "frequency" or "length".
    read, expected : float
        [kg, m, s^-1, m]
    off : float
        Relative, read against expected.
    surprise : float
        In standard deviations of both.
    """

    figure: str
    read: float
    expected: float
    off: float
    surprise: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Explanation:
    """What may have made the figures differ.

    Attributes
    ----------
    cause : Cause
    size : float, optional
        What was cut, put on or held otherwise [m or kg]; none where there is no size.
    name : str
        Of the kept piece that fits, for labels mixed up; else empty.
    left : float
        The largest surprise that is then left, in standard deviations.
    score : float
        By which explanations are ordered, the least first.
    """

    cause: Cause
    size: float | None = None
    name: str = ""
    left: float
    score: float


@dataclass(frozen=True, slots=True, kw_only=True)
class QuickCheck:
    """What a quick check says.

    Attributes
    ----------
    agrees : bool
        Whether every figure lies within three standard deviations of the kept shaft's.
    figures : tuple of Compared
        In the order of the readings, the length last.
    likely : tuple of Explanation
        The likeliest first; none if all agrees.
    """

    agrees: bool
    figures: tuple[Compared, ...]
    likely: tuple[Explanation, ...]


def quick_check(
    kept: Kept,
    readings: Sequence[QuickReading],
    *,
    length: float | None = None,
    others: Mapping[str, Kept] = _NO_OTHERS,
) -> QuickCheck:
    """Return whether today's figures are those of a kept shaft, and if not, what is likely.

    Parameters
    ----------
    kept : Kept
    readings : sequence of Mass, Balance or Frequency
        Today's, each with its set-up; at least one. Two of one kind may stand in it.
    length : float, optional
        As it was measured today [m].
    others : mapping of str to Kept
        The other kept pieces by name, among which a label may have wandered.

    Returns
    -------
    QuickCheck

    Raises
    ------
    InputError
        If there is no reading, or a set-up does not suit the kept shaft.

    Notes
    -----
    A cause with a size to find pays 6 for it, about what a size twenty times a figure's error is
    worth in twice the logarithm of the odds. Another piece is any other shaft of a rack: every
    figure may lie off by `ANOTHER_BY`. Of one figure that is off alone, clamp, end weight and
    another piece may explain it equally well: read a second frequency.
    """
    if not readings:
        raise InputError(
            "there is no figure of today",
            place="quick check",
            mend="Weigh the shaft, balance it, and read one frequency.",
        )
    if length is not None:
        within(length, LENGTH, "length")
    today = tuple(readings)
    figures = _compared(kept, Bench(profile=kept.profile, readings=today), today, length)
    agrees = all(abs(one.surprise) <= AGREES for one in figures)
    likely = () if agrees else _likely(kept, today, length, others)
    return QuickCheck(agrees=agrees, figures=figures, likely=likely)


def _likely(
    kept: Kept,
    today: tuple[QuickReading, ...],
    length: float | None,
    others: Mapping[str, Kept],
) -> tuple[Explanation, ...]:
    bench = Bench(profile=kept.profile, readings=today)
    found = [_another_piece(kept, bench, today, length)]
    for handling in handlings(bench):
        explained = _handled(kept, handling, today, length)
        if explained is not None:
            found.append(explained)
    for name, other in others.items():
        try:
            moved = Bench(profile=other.profile, readings=today)
            figures = _compared(other, moved, today, length)
        except InputError:  # a shaft that cannot be in this set-up is not the one
            continue
        if _left(figures) <= AGREES:
            score = _squares(figures) + OF_A_SIZE
            found.append(
                Explanation(cause=Cause.LABELS, name=name, left=_left(figures), score=score)
            )
    return tuple(sorted(found, key=lambda one: one.score))


def _handled(
    kept: Kept, handling: Handling, today: tuple[QuickReading, ...], length: float | None
) -> Explanation | None:
    """Return the best size of a cause, or none if it explains nothing of it."""
    from scipy.optimize import minimize_scalar  # noqa: PLC0415 - scipy is slow to import

    def figures(size: float) -> tuple[Compared, ...]:
        return _compared(kept, handling.done(size), today, length)

    def squares(size: float) -> float:
        try:
            return _squares(figures(size))
        except InputError:  # no bench holds it so
            return 1e9

    low, high = handling.sizes
    size = low
    if high > low:
        starts = np.linspace(low, high, 9)
        at = int(np.argmin([squares(float(one)) for one in starts]))
        bounds = (float(starts[max(at - 1, 0)]), float(starts[min(at + 1, 8)]))
        size = float(minimize_scalar(squares, bounds=bounds, method="bounded").x)
    try:
        left = _left(figures(size))
    except InputError:
        return None
    if left > AGREES:
        return None
    sized = high > low
    return Explanation(
        cause=handling.cause,
        size=size if sized else None,
        left=left,
        score=squares(size) + OF_A_SIZE + (MARKED if handling.cause is Cause.WEIGHT else 0.0),
    )


def _another_piece(
    kept: Kept, bench: Bench, today: tuple[QuickReading, ...], length: float | None
) -> Explanation:
    """Return how well any other shaft of a rack would explain it."""
    figures = _compared(kept, bench, today, length)
    off = np.array([log(one.read / one.expected) for one in figures])
    error = _errors(kept, today, length)
    wide = [ANOTHER_BY[_FIGURES.index(one.figure)] for one in figures]
    variance = error**2 + np.array(wide) ** 2
    score = float((off**2 / variance + np.log(variance / error**2)).sum())
    left = float(np.abs(off / np.sqrt(variance)).max())
    return Explanation(cause=Cause.ANOTHER_PIECE, left=left, score=score)


_FIGURES: Final = ("mass", "balance", "frequency", "length")


def _compared(
    kept: Kept, bench: Bench, today: tuple[QuickReading, ...], length: float | None
) -> tuple[Compared, ...]:
    """Return today's figures beside those of a shaft in its set-ups."""
    expected = [predicted(bench.profile, one) for one in bench.readings]
    read = [one.value for one in today]
    names = [_name(one) for one in today]
    if length is not None:
        expected.append(bench.profile.length)
        read.append(length)
        names.append("length")
    errors = _errors(kept, today, length)
    return tuple(
        Compared(
            figure=name,
            read=is_read,
            expected=should,
            off=is_read / should - 1.0,
            surprise=log(is_read / should) / float(error),
        )
        for name, is_read, should, error in zip(names, read, expected, errors, strict=True)
    )


def _errors(kept: Kept, today: Sequence[QuickReading], length: float | None) -> FloatArray:
    """Return the relative errors of today's figures and of the kept shaft's together."""
    known = {
        "mass": kept.mass_error,
        "balance": kept.balance_error,
        "frequency": kept.frequency_error,
    }
    errors = [float(np.hypot(one.sigma, known[_name(one)])) for one in today]
    if length is not None:
        errors.append(LENGTH_ERROR / length)
    return frozen_array(np.array(errors))


def _name(reading: QuickReading) -> str:
    match reading:
        case Mass():
            return "mass"
        case Balance():
            return "balance"
        case Frequency():
            return "frequency"


def _squares(figures: Sequence[Compared]) -> float:
    return sum(one.surprise**2 for one in figures)


def _left(figures: Sequence[Compared]) -> float:
    return max(abs(one.surprise) for one in figures)
