"""Readings of one shaft to a piece, with every reading that looks wrong named and none removed."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from loftwright.errors import InputError
from loftwright.physics.bench.beliefs import Beliefs, unknowns
from loftwright.physics.bench.fit import Solution, solve
from loftwright.physics.bench.piece import Estimate, Piece, piece_of
from loftwright.physics.bench.readings import Diameter, Reading
from loftwright.physics.bench.rows import row_of
from loftwright.physics.bench.slips import Mend, Slip, likely
from loftwright.physics.bench.strange import Sifted, sift
from loftwright.physics.bench.table_slips import TableMend, table_slips

DECIDED: Final = 5.0
"""By how much a slip of many rows must be likelier than doubts of some to stand for them."""


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
        The strangest first; if a slip of many rows is undone, those that are strange then still.
    table_mends : tuple of TableMend
        Slips of many rows at once, the likeliest first; none if the table is as probable as it
        stands.
    without : Piece, optional
        From the readings that are not doubted; none if nothing is doubted.
    undone : bool
        Whether in it the likeliest slip of many rows is undone; it is not where doubts of single
        rows explain the table nearly as well.
    solution : Solution
        Of all readings.
    """

    piece: Piece
    agreements: tuple[Agreement, ...]
    doubts: tuple[Doubt, ...]
    table_mends: tuple[TableMend, ...]
    without: Piece | None
    undone: bool
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
    typed = sift(layout, readings, whole)
    mends = table_slips(layout, readings, whole, typed)
    doubts = _doubts(readings, typed)
    told = any(doubt.mends[0].slip is not Slip.UNKNOWN for doubt in doubts)
    undone = bool(mends) and (not told or mends[0].gain > DECIDED)
    sifted = mends[0].sifted if undone else typed
    kept = tuple(diameters)
    return Measured(
        piece=piece_of(whole, kept),
        agreements=tuple(
            Agreement(reading=one, predicted=float(said), residual=float(off), surprise=float(far))
            for one, said, off, far in zip(
                readings, whole.predicted, whole.residuals, whole.surprises, strict=True
            )
        ),
        doubts=_doubts(mends[0].readings, sifted) if undone else doubts,
        table_mends=mends,
        without=piece_of(sifted.trusted, kept) if undone or sifted.doubted else None,
        undone=undone,
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


def _doubts(readings: Sequence[Reading], sifted: Sifted) -> tuple[Doubt, ...]:
    doubts = [
        Doubt(
            place=place,
            surprise=sifted.trusted.of_another(readings[place]),
            mends=likely(readings[place], sifted.trusted),
        )
        for place in sifted.doubted
    ]
    return tuple(sorted(doubts, key=lambda doubt: -abs(doubt.surprise)))
