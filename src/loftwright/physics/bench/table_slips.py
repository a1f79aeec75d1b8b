"""Slips of many rows at once: another unit or span from some row on, or a station left out.

One such slip leaves every row near its neighbours, so that no row looks strange or the wrong ones
do. Each is undone on paper over every range of rows, and the table's probability as it was typed
is held against the probability as it was probably meant. Nothing is changed by it.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from math import log
from typing import Final, NamedTuple, TypeAlias

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.constants import GRAM, GRAVITY, INCH, MILLIMETRE, POUND_FORCE
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.bench.beliefs import Unknowns
from loftwright.physics.bench.fit import Solution, log_density, solve
from loftwright.physics.bench.readings import Cantilever, Reading, ThreePoint, Torque
from loftwright.physics.bench.rows import Said, row_of
from loftwright.physics.bench.slips import MOMENTS, SPANS, Slip
from loftwright.physics.bench.strange import Sifted, sift

HAPPENS: Final = 0.01
"""How often a table has its loads, lengths or spans otherwise; a judgement."""
ASKS: Final = 4.0
"""What a station left out must add to the logarithm of a table's probability; of clean tables, one
of a hundred gains so much by chance."""
TRIED: Final = 4
NEAR: Final = 3.0
ANY: Final = 5e-3
"""A deflection or twist that a bench can read, where it does not count [m, rad]."""
FEWEST: Final = 3
_FORCES: Final = (POUND_FORCE, GRAVITY, GRAM * GRAVITY)

Turn: TypeAlias = Callable[[Reading], Reading]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TableMend:
    """A slip of many rows and the table as it would be without it.

    Attributes
    ----------
    slip : Slip
    places : tuple of int
        The rows it befell, from 0.
    readings : tuple of Reading
        The whole table as it was probably meant.
    gain : float
        By how much the logarithm of the table's probability then rises, less what the slip must
        gain to be named.
    sifted : Sifted
        The mended table with what is strange in it still.
    """

    slip: Slip
    places: tuple[int, ...]
    readings: tuple[Reading, ...]
    gain: float
    sifted: Sifted


class _Undone(NamedTuple):
    """One way of undoing, over the rows of a kind, and the logarithm of how usual it is."""

    slip: Slip
    rows: tuple[int, ...]
    mended: tuple[Reading | None, ...]
    usual: float


class _Range(NamedTuple):
    """Some rows undone in one way, and the logarithm of the table's probability."""

    undone: _Undone
    start: int
    end: int
    score: float


def table_slips(
    layout: Unknowns, readings: Sequence[Reading], whole: Solution, typed: Sifted
) -> tuple[TableMend, ...]:
    """Return the slips of many rows that make a table much more probable, the likeliest first.

    Parameters
    ----------
    layout : Unknowns
    readings : sequence of Reading
        As they were typed.
    whole : Solution
        Of all of them.
    typed : Sifted
        The same, with strange readings set aside.

    Returns
    -------
    tuple of TableMend
        One of each slip at most; none if the table is as probable as it stands.

    Notes
    -----
    All ranges of rows are ranked by a normal approximation about the table as typed; the best few
    are solved. A slip is named if it makes the table more probable after what it costs to be so
    rare; a station left out is asked for at less, if no row looks strange, since it moves no row
    far and a shaft may be so.
    """
    ranges = sorted(_ranked(layout, readings, whole), key=lambda one: -one.score)
    best: dict[Slip, TableMend] = {}
    near = [one for one in ranges if one.score > whole.evidence - NEAR]
    for one in _apart(near):
        try:
            mend = _mended(layout, readings, one, typed)
        except (ConvergenceError, InputError):  # no shaft is so: no mend
            continue
        if mend.gain > 0.0 and (mend.slip not in best or mend.gain > best[mend.slip].gain):
            best[mend.slip] = mend
    return tuple(sorted(best.values(), key=lambda mend: -mend.gain))


def _apart(ranges: Sequence[_Range]) -> list[_Range]:
    """Return the best range of each way of undoing, the best few ways."""
    chosen: dict[int, _Range] = {}
    for one in ranges:
        chosen.setdefault(id(one.undone), one)
        if len(chosen) == TRIED:
            break
    return list(chosen.values())


def _mended(
    layout: Unknowns, readings: Sequence[Reading], one: _Range, typed: Sifted
) -> TableMend:
    meant = list(readings)
    places = one.undone.rows[one.start : one.end]
    for place, mended in zip(places, one.undone.mended[one.start : one.end], strict=True):
        if mended is not None:
            meant[place] = mended
    sifted = sift(layout, meant, solve(layout, meant))
    usual = one.undone.usual + _of_range(one.undone, one.start, one.end)
    if one.undone.slip is Slip.MISSING and typed.doubted:
        usual = log(HAPPENS / (2.0 * (len(one.undone.rows) - 1.0)))
    return TableMend(
        slip=one.undone.slip,
        places=places,
        readings=tuple(meant),
        gain=sifted.score - typed.score + usual,
        sifted=sifted,
    )


def _of_range(undone: _Undone, start: int, end: int) -> float:
    """Return the logarithm of how usual a range of rows is: half of all slips are in all rows."""
    count = len(undone.rows)
    if undone.slip is Slip.MISSING:
        return 0.0
    return log(0.5) if end - start == count else log(0.5 / (2.0 * count))


def _ranked(layout: Unknowns, readings: Sequence[Reading], whole: Solution) -> Iterator[_Range]:
    """Yield every range of rows that may have been typed otherwise, with its score."""
    about = _About(layout=layout, unknown=whole.unknown, known={})
    off, slopes = about.linear(readings)
    errors = np.array([one.sigma for one in readings])
    for undone in _ways(readings):
        known = [place for place, one in enumerate(undone.mended) if about.suits(one)]
        other_off, other_slopes = about.linear(
            [one for place in known if (one := undone.mended[place]) is not None]
        )
        both_off = np.concatenate([off, other_off])
        both = np.concatenate([slopes, other_slopes])
        spread = both @ layout.covariance @ both.T
        place_of = {place: len(readings) + at for at, place in enumerate(known)}
        ranges = [
            (start, end)
            for start, end in _ranges(undone)
            if all(place in place_of for place in range(start, end))
        ]
        if not ranges:
            continue
        chosen = np.tile(np.arange(len(readings)), (len(ranges), 1))
        for at, (start, end) in enumerate(ranges):
            for place in range(start, end):
                chosen[at, undone.rows[place]] = place_of[place]
        covariance = spread[chosen[:, :, None], chosen[:, None, :]] + np.diag(errors**2)
        scores = log_density(frozen_array(both_off[chosen]), frozen_array(covariance))
        for (start, end), score in zip(ranges, scores.tolist(), strict=True):
            yield _Range(undone, start, end, score + undone.usual + _of_range(undone, start, end))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _About:
    """Readings made linear about a shaft, each set-up worked out once."""

    layout: Unknowns
    unknown: FloatArray
    known: dict[Reading, Said]

    def linear(self, readings: Sequence[Reading]) -> tuple[FloatArray, FloatArray]:
        """Return ln readings less what the mean shaft would give, and slopes."""
        said = [self.says(one) for one in readings]
        slopes = np.array([one.slopes for one in said]).reshape(len(said), self.unknown.size)
        values = np.array([one.value for one in said])
        logs = np.log([one.value for one in readings])
        return frozen_array(logs - values + slopes @ (self.unknown - self.layout.mean)), slopes

    def says(self, reading: Reading) -> Said:
        """Return what would be read; under a load, that of 1 and the logarithm of the load."""
        load = 1.0
        match reading:
            case ThreePoint(force=load) | Cantilever(force=load):
                setup: Reading = replace(reading, force=1.0, value=ANY, sigma=1.0, typed="")
            case Torque(moment=load):
                setup = replace(reading, moment=1.0, value=ANY, sigma=1.0, typed="")
            case _:
                setup = reading
        if setup not in self.known:
            self.known[setup] = row_of(setup, self.layout).says(self.unknown)
        value, slopes = self.known[setup]
        return Said(value + log(load), slopes)

    def suits(self, reading: Reading | None) -> bool:
        """Return whether a shaft can be in a set-up."""
        if reading is None:
            return False
        try:
            self.says(reading)
        except InputError:
            return False
        return True


def _ranges(undone: _Undone) -> Iterator[tuple[int, int]]:
    """Yield from some row on and, but for a station left out, up to some row; two at least."""
    count = len(undone.rows)
    shifted = undone.slip is Slip.MISSING
    yield from ((start, count) for start in range(int(shifted), count - 1))
    if not shifted:
        yield from ((0, end) for end in range(2, count))


def _ways(readings: Sequence[Reading]) -> Iterator[_Undone]:
    """Yield every way of undoing a slip of many rows."""
    for kind in (ThreePoint, Cantilever, Torque):
        rows = tuple(place for place, one in enumerate(readings) if isinstance(one, kind))
        if len(rows) < FEWEST:
            continue
        of_kind = [readings[place] for place in rows]
        turns = [*_units(kind), *(_spans(of_kind) if kind is ThreePoint else [])]
        for slip in (Slip.UNIT, Slip.SPAN):
            alike = [turn for named, turn in turns if named is slip]
            for turn in alike:
                mended = tuple(_turned(one, turn) for one in of_kind)
                if list(mended) != of_kind:
                    yield _Undone(slip, rows, mended, log(HAPPENS / len(alike)))
        if kind is ThreePoint:
            yield from _shifts(rows, [one for one in of_kind if isinstance(one, ThreePoint)])


def _units(kind: type) -> Iterator[tuple[Slip, Turn]]:
    if kind is not Torque:
        for factor in (INCH / MILLIMETRE, MILLIMETRE / INCH):
            yield Slip.UNIT, partial(_times, "value", factor)
    name, units = ("moment", MOMENTS) if kind is Torque else ("force", _FORCES)
    for unit in units:
        for factor in (unit, 1.0 / unit):
            yield Slip.UNIT, partial(_times, name, factor)


def _spans(readings: Sequence[Reading]) -> Iterator[tuple[Slip, Turn]]:
    used = {one.span for one in readings if isinstance(one, ThreePoint)}
    for span in sorted(used | set(SPANS)):
        yield Slip.SPAN, partial(_with, "span", span)


def _shifts(rows: tuple[int, ...], readings: Sequence[ThreePoint]) -> Iterator[_Undone]:
    """Yield the stations of the next and of the row before, beyond the last by the last step."""
    stations = [one.station for one in readings]
    onward = [*stations[1:], 2.0 * stations[-1] - stations[-2]]
    back = [2.0 * stations[0] - stations[1], *stations[:-1]]
    for moved in (onward, back):
        mended = tuple(
            _turned(one, partial(_with, "station", to))
            for one, to in zip(readings, moved, strict=True)
        )
        yield _Undone(Slip.MISSING, rows, mended, -ASKS)


def _times(name: str, factor: float, reading: Reading) -> Reading:
    return _with(name, factor * float(getattr(reading, name)), reading)


def _with(name: str, figure: float, reading: Reading) -> Reading:
    changed: Reading = replace(reading, **{name: figure})  # type: ignore[arg-type]
    return changed


def _turned(reading: Reading, turn: Turn) -> Reading | None:
    """Return a reading as it was probably meant; none if no bench reads it so."""
    try:
        return turn(reading)
    except InputError:
        return None
