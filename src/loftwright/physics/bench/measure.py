"""Readings of one shaft to a piece, with every reading that looks wrong named and none removed."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.errors import InputError
from loftwright.physics.bench.beliefs import Beliefs, Unknowns, unknowns
from loftwright.physics.bench.fit import Solution, solve
from loftwright.physics.bench.piece import Estimate, Piece, piece_of
from loftwright.physics.bench.readings import Diameter, Reading
from loftwright.physics.bench.rows import row_of
from loftwright.physics.bench.slips import Mend, likely

STRANGE: Final = 4.0
MOST_DOUBTED: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreement:
    """How one reading fits the shaft that all of them make.

    Attributes
    ----------
    reading : Reading
    predicted : float
        What it should have been, in its own unit.
    residual : float
        Of its logarithm, in its own errors.
    surprise : float
        How far it lies from what all others say of it, in standard deviations of both.
    """

    reading: Reading
    predicted: float
    residual: float
    surprise: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """A reading that looks wrong.

    Attributes
    ----------
    place : int
        Of the reading among those given, from 0.
    surprise : float
        How far it lies from what the readings that are not doubted say of it.
    mends : tuple of Mend
        What was probably done wrong, the likeliest first.
    """

    place: int
    surprise: float
    mends: tuple[Mend, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Measured:
    """A measured shaft.

    Attributes
    ----------
    piece : Piece
        From all readings.
    agreements : tuple of Agreement
        In the order of the readings.
    doubts : tuple of Doubt
        The strangest first.
    without : Piece, optional
        From the readings that are not doubted; none if none is.
    solution : Solution
        Of all readings.
    """

    piece: Piece
    agreements: tuple[Agreement, ...]
    doubts: tuple[Doubt, ...]
    without: Piece | None
    solution: Solution


def measure(
    length: float,
    readings: Sequence[Reading],
    diameters: Sequence[Diameter] = (),
    beliefs: Beliefs | None = None,
) -> Measured:
    """Return the shaft behind some readings.

    Parameters
    ----------
    length : float
        From butt to tip end, as it was measured [m].
    readings : sequence of Reading
        At least one.
    diameters : sequence of Diameter
    beliefs : Beliefs, optional

    Returns
    -------
    Measured

    Raises
    ------
    InputError
        If there is no reading, or a set-up does not suit the shaft.
    ConvergenceError
        If the readings do not settle on one shaft.
    """
    if not readings:
        raise InputError(
            "there is no reading",
            place="readings",
            mend="Weigh the shaft and read one frequency at least.",
        )
    for one in diameters:
        if one.station > length:
            raise InputError(
                f"a diameter at {one.station:g} m is beyond a shaft of {length:g} m",
                place="diameter",
                mend="Stations count from the butt.",
            )
    layout = unknowns(length, Beliefs() if beliefs is None else beliefs)
    whole = solve(layout, readings)
    doubted, trusted = _doubted(layout, readings, whole)
    kept = tuple(diameters)
    return Measured(
        piece=piece_of(whole, kept),
        agreements=tuple(
            Agreement(reading=one, predicted=float(said), residual=float(off), surprise=float(far))
            for one, said, off, far in zip(
                readings, whole.predicted, whole.residuals, whole.surprises, strict=True
            )
        ),
        doubts=_doubts(readings, doubted, trusted),
        without=piece_of(trusted, kept) if doubted else None,
        solution=whole,
    )


def expected(solution: Solution, reading: Reading) -> Estimate:
    """Return what a bench would read of a measured shaft under the set-up of a reading.

    Parameters
    ----------
    solution : Solution
    reading : Reading
        Its value does not count.

    Returns
    -------
    Estimate
        In the reading's own unit; its spread is what the readings left open.
    """
    value, slopes = row_of(reading, solution.layout).says(solution.unknown)
    spread = float(np.sqrt(slopes @ solution.covariance @ slopes))
    return Estimate(float(np.exp(value)), float(np.exp(value)) * spread)


def _doubted(
    layout: Unknowns, readings: Sequence[Reading], whole: Solution
) -> tuple[list[int], Solution]:
    """Return the places of strange readings, and the solution without them.

    One after the other, the strangest first, because a wrong reading makes its neighbours look
    strange as well.
    """
    doubted: list[int] = []
    left, trusted = list(range(len(readings))), whole
    while len(doubted) < min(MOST_DOUBTED, max(1, len(readings) // 3)):
        worst = int(np.abs(trusted.surprises).argmax())
        if abs(trusted.surprises[worst]) <= STRANGE:
            break
        doubted.append(left.pop(worst))
        trusted = solve(layout, [readings[place] for place in left])
    return doubted, trusted


def _doubts(
    readings: Sequence[Reading], doubted: Sequence[int], trusted: Solution
) -> tuple[Doubt, ...]:
    doubts = [
        Doubt(
            place=place,
            surprise=trusted.of_another(readings[place]),
            mends=likely(readings[place], trusted),
        )
        for place in doubted
    ]
    return tuple(sorted(doubts, key=lambda doubt: -abs(doubt.surprise)))
