"""What readings say a bench would read of a shaft under a set-up, with all that they left open."""

from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.domain.bench_figures import USUAL, BenchFigures, SetUp
from loftwright.domain.sections import Section, extent
from loftwright.physics.bench.measure import Measured, expected
from loftwright.physics.bench.piece import Estimate, Piece
from loftwright.physics.bench.readings import Balance, Frequency, Mass, Reading, Torque
from loftwright.physics.shaft.beam import TipBody
from loftwright.physics.shaft.mount import Mount

_STEP: Final = 0.001
_HALF: Final = 0.5


def read_figures(found: Measured, set_up: SetUp = USUAL, *, whole: bool = True) -> BenchFigures:
    """Return what a bench would read of a shaft that was just measured.

    Parameters
    ----------
    found : Measured
    set_up : SetUp
    whole : bool
        Whether its length is known, so that its tip end may be spoken of.

    Returns
    -------
    BenchFigures
        The frequency is None if the shaft was neither weighed nor swung, the torque if it was
        never twisted, weight and balance point if they were not read.

    Raises
    ------
    InputError
        If the set-up does not suit the shaft.

    Notes
    -----
    Unlike the figures of a profile that was kept, these carry the whole covariance of the
    readings: a frequency that was read is as sure as its reading.
    """
    piece = found.piece
    held = Mount(clamp=set_up.clamp)
    swing = Frequency(mount=held, weight=TipBody(mass=set_up.weight), value=_ANY_RATE)
    turn = Torque(
        clamp=set_up.clamp,
        load_at=piece.length - set_up.reach,
        moment=set_up.moment,
        value=_ANY_TURN,
    )

    def says(reading: Reading, *kinds: type) -> Estimate | None:
        known = whole and any(isinstance(one.reading, kinds) for one in found.agreements)
        return expected(found.solution, reading) if known else None

    return BenchFigures(
        length=piece.length,
        bending=section_means(piece),
        frequency=says(swing, Mass, Frequency),
        torque=says(turn, Torque),
        mass=piece.mass if whole and _was_read(found, Mass) else None,
        balance=piece.balance if whole and _was_read(found, Balance) else None,
    )


_ANY_RATE: Final = 4.0
_ANY_TURN: Final = 0.07


def section_means(piece: Piece) -> dict[Section, Estimate]:
    """Return the geometric mean of EI of every section of which more than half was read."""
    found: dict[Section, Estimate] = {}
    for section in Section:
        lies = extent(section, piece.length)
        if lies is None:
            continue
        parts = _parts(piece.stations, *lies)
        seen = np.interp(_places(*lies), piece.stations, piece.bending.seen.astype(np.float64))
        if np.mean(seen > 1.0 - 1e-9) < _HALF:
            continue
        value = float(np.exp(parts @ np.log(piece.bending.values)))
        spread = float(np.sqrt(parts @ piece.bending.covariance @ parts))
        found[section] = Estimate(value, value * spread)
    return found


def _was_read(found: Measured, kind: type) -> bool:
    return any(isinstance(one.reading, kind) for one in found.agreements)


def _parts(stations: FloatArray, low: float, high: float) -> FloatArray:
    """Return how much each station counts in the mean of a section."""
    places = _places(low, high)
    each = [np.interp(places, stations, one).mean() for one in np.eye(stations.size)]
    found: FloatArray = np.array(each)
    return found


def _places(low: float, high: float) -> FloatArray:
    return np.linspace(low, high, 1 + max(1, round((high - low) / _STEP)))
