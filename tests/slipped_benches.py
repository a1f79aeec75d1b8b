"""Simulated benches with one slip each, and whether the bench found and named it.

Three invented shafts, 11 and 22 stations, loads of 20, 50 and 100 N over 300 mm, 1 % of noise and
1.25 % common to all. A slip counts if it moved a reading by more than four standard deviations:
against what stands in the table without it, in standard deviations of the reading's own error
together with what the others leave open about it.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import pairwise
from math import log
from typing import NamedTuple

import numpy as np

from bench_readings import LENGTH, SPAN, TRUTHS, swing, weighed
from loftwright.constants import GRAM, GRAVITY, INCH, MILLIMETRE, POUND_FORCE
from loftwright.errors import ConvergenceError, InputError
from loftwright.physics.bench.beliefs import Beliefs, unknowns
from loftwright.physics.bench.fit import Solution, solve
from loftwright.physics.bench.measure import Measured, measure
from loftwright.physics.bench.readings import Frequency, Reading, ThreePoint, reads
from loftwright.physics.bench.slips import Slip
from loftwright.physics.shaft.deflection import three_point
from loftwright.physics.shaft.profile import Profile

COUNTS = {11: 76.2 * MILLIMETRE, 22: 38.1 * MILLIMETRE}
LOADS = (20.0, 50.0, 100.0)
NOISE, COMMON, CLAMPED = 0.01, 0.0125, 0.003
OTHER_SPANS = tuple(
    [one * MILLIMETRE for one in (200.0, 250.0, 350.0, 400.0)]
    + [one * INCH for one in (10.0, 12.0, 14.0)]
)
MOVED = 4.0


class Typed(NamedTuple):
    """A table as it was typed: station, span, load, digits [mm], the unit of the digits [m]."""

    station: float
    span: float
    load: float
    digits: str
    unit: float = MILLIMETRE


@dataclass(frozen=True, kw_only=True)
class Bench:
    """A table without its slip, and what the shaft would say in any set-up."""

    truth: Profile
    rows: list[Typed]
    noise: list[float]
    rng: np.random.Generator

    def digits(self, row: Typed, at: int, unit: float = MILLIMETRE) -> str:
        """Return what the gauge shows in a set-up, with the noise of a row."""
        bent = three_point(self.truth, row.station, row.span, row.load) * self.noise[at]
        return f"{bent / unit:.3f}" if unit == MILLIMETRE else f"{bent / unit:.4f}"


Slipped = tuple[list[Typed], list[int]]


def bench_of(seed: int, quiet: bool = False) -> Bench:
    """Return a bench, if wanted without noise; truths, counts and loads change with the seed."""
    rng = np.random.default_rng(seed)
    truth = TRUTHS[list(TRUTHS)[seed % 3]]
    count = list(COUNTS)[seed // 3 % 2]
    load = LOADS[seed // 6 % 3]
    common = COMMON * rng.standard_normal()
    noise = np.exp(common + NOISE * rng.standard_normal(count + 1)).tolist()
    blank = [Typed(0.15 + COUNTS[count] * at, SPAN, load, "") for at in range(count)]
    noise = [1.0] * len(noise) if quiet else noise
    bench = Bench(truth=truth, rows=blank, noise=noise, rng=rng)
    rows = [row._replace(digits=bench.digits(row, at)) for at, row in enumerate(blank)]
    return replace(bench, rows=rows)


def swapped(bench: Bench) -> Slipped:
    """Swap two neighbouring digits of one deflection."""
    at = int(bench.rng.integers(len(bench.rows)))
    text = bench.rows[at].digits
    places = [place for place, letter in enumerate(text) if letter.isdigit()]
    pairs = [(a, b) for a, b in pairwise(places) if text[a] != text[b]]
    a, b = pairs[int(bench.rng.integers(len(pairs)))]
    letters = list(text)
    letters[a], letters[b] = letters[b], letters[a]
    return _one(bench, at, digits="".join(letters))


def one_span(bench: Bench) -> Slipped:
    """Read one row over another span than was typed."""
    at, span = int(bench.rng.integers(len(bench.rows))), _other_span(bench)
    row = bench.rows[at]
    if row.station - 0.5 * span < 0.0 or row.station + 0.5 * span > LENGTH:
        span = 200.0 * MILLIMETRE
    return _one(bench, at, digits=bench.digits(row._replace(span=span), at))


def spans_from(bench: Bench) -> Slipped:
    """Read every row from some row on over another span, shorter near the end of the shaft."""
    span = float(bench.rng.choice([one for one in OTHER_SPANS if one < SPAN]))
    start = int(bench.rng.integers(2, len(bench.rows) - 1))
    return _from(bench, start, lambda row, at: bench.digits(row._replace(span=span), at))


def all_spans(bench: Bench) -> Slipped:
    """Read every row over another span than was typed."""
    span = float(bench.rng.choice([one for one in OTHER_SPANS if one < SPAN]))
    return _from(bench, 0, lambda row, at: bench.digits(row._replace(span=span), at))


def one_station(bench: Bench) -> Slipped:
    """Read one row at another station, up to four away."""
    at = int(bench.rng.integers(len(bench.rows)))
    near = [other for other in range(max(at - 4, 0), min(at + 5, len(bench.rows))) if other != at]
    other = bench.rows[int(bench.rng.choice(near))]
    return _one(bench, at, digits=bench.digits(other, at))


def left_out(bench: Bench) -> Slipped:
    """Leave a deflection out while typing: all later ones stand one station too early."""
    start = int(bench.rng.integers(1, len(bench.rows) - 2))
    digits = [row.digits for row in bench.rows]
    typed = [
        row._replace(digits=text)
        for row, text in zip(bench.rows, digits[:start] + digits[start + 1 :], strict=False)
    ]
    return typed, list(range(start, len(typed)))


def typed_twice(bench: Bench) -> Slipped:
    """Type a deflection twice: all later ones stand one station too late."""
    start = int(bench.rng.integers(1, len(bench.rows) - 2))
    digits = [row.digits for row in bench.rows]
    digits = digits[:start] + digits[start - 1 : -1]
    typed = [row._replace(digits=text) for row, text in zip(bench.rows, digits, strict=True)]
    return typed, list(range(start, len(typed)))


def one_inch(bench: Bench) -> Slipped:
    """Type one deflection in the other of the two units."""
    at = int(bench.rng.integers(len(bench.rows)))
    row = bench.rows[at]
    if bench.rng.random() < 0.5:
        return _one(bench, at, digits=bench.digits(row, at, INCH))
    inches = [
        one._replace(digits=bench.digits(one, n, INCH), unit=INCH)
        for n, one in enumerate(bench.rows)
    ]
    inches[at] = inches[at]._replace(digits=row.digits)
    return inches, [at]


def all_inches(bench: Bench) -> Slipped:
    """Type all deflections in the other of the two units."""
    if bench.rng.random() < 0.5:
        return _from(bench, 0, lambda row, at: bench.digits(row, at, INCH))
    return [row._replace(unit=INCH) for row in bench.rows], list(range(len(bench.rows)))


def one_load(bench: Bench) -> Slipped:
    """Type the load of one row in g, kg or lb where N stand."""
    at, unit = int(bench.rng.integers(len(bench.rows))), _force(bench)
    return _one(bench, at, load=bench.rows[at].load / unit)


def all_loads(bench: Bench) -> Slipped:
    """Type the load of every row in g, kg or lb where N stand."""
    unit = _force(bench)
    rows = [row._replace(load=row.load / unit) for row in bench.rows]
    return rows, list(range(len(rows)))


def clean(bench: Bench) -> Slipped:
    """Return the table as it is."""
    return bench.rows, []


@dataclass(frozen=True, kw_only=True)
class Kind:
    """A slip, what it is to be called, whether other rows are read for it, and whether the
    shaft was weighed, balanced and swung as well."""

    words: str
    slip: Callable[[Bench], Slipped]
    names: tuple[Slip, ...] = ()
    moves_rows: bool = False
    swung: bool = False


KINDS = {
    "clean": Kind(words="no slip", slip=clean),
    "digits": Kind(words="two digits swapped", slip=swapped, names=(Slip.SWAPPED_DIGITS,)),
    "span": Kind(words="one row over another span", slip=one_span, names=(Slip.SPAN,)),
    "spans": Kind(words="another span from some row on", slip=spans_from, names=(Slip.SPAN,)),
    "all spans": Kind(words="another span in all rows", slip=all_spans, names=(Slip.SPAN,)),
    "station": Kind(
        words="one row at another station",
        slip=one_station,
        names=(Slip.STATION,),
        moves_rows=True,
    ),
    "left out": Kind(
        words="a station left out",
        slip=left_out,
        names=(Slip.MISSING,),
        moves_rows=True,
    ),
    "twice": Kind(
        words="a station twice",
        slip=typed_twice,
        names=(Slip.MISSING,),
        moves_rows=True,
    ),
    "inch": Kind(words="mm for in, one row", slip=one_inch, names=(Slip.UNIT,)),
    "inches": Kind(words="mm for in, all rows", slip=all_inches, names=(Slip.UNIT,)),
    "load": Kind(words="g, kg or lb for N, one row", slip=one_load, names=(Slip.UNIT,)),
    "loads": Kind(words="g, kg or lb for N, all rows", slip=all_loads, names=(Slip.UNIT,)),
    "inches, swung": Kind(
        words="mm for in, all rows, and a frequency",
        slip=all_inches,
        names=(Slip.UNIT,),
        swung=True,
    ),
    "loads, swung": Kind(
        words="g, kg or lb for N, all rows, and a frequency",
        slip=all_loads,
        names=(Slip.UNIT,),
        swung=True,
    ),
    "all spans, swung": Kind(
        words="another span in all rows, and a frequency",
        slip=all_spans,
        names=(Slip.SPAN,),
        swung=True,
    ),
    "clean, swung": Kind(words="no slip, and a frequency", slip=clean, swung=True),
}


class Case(NamedTuple):
    """What a slip did and what was said of it.

    `moved`: the most it moved a reading, in standard deviations. `refused`: the table was not
    taken, and the unit asked for. `first`, `listed`: how the slip stands among those named.
    `instead`: what was named first. `change`: the most by which EI is off where it is seen.
    """

    moved: float
    caught: bool
    first: bool
    listed: bool
    refused: bool
    instead: str
    change: float


def case(name: str, seed: int) -> Case:
    """Return what became of one bench."""
    kind, bench = KINDS[name], bench_of(seed)
    also = swung(bench.truth, seed) if kind.swung else []
    right = [*readings_of(bench.rows), *also]
    rows, at = kind.slip(bench)
    moved = moved_by(kind, seed, right, (bench.rows, rows))
    try:
        wrong = [*readings_of(rows), *also]
        found = measure(LENGTH, wrong)
    except InputError as error:
        named = "unit" in error.mend.casefold()
        return Case(moved, True, named, named, True, error.place, 0.0)
    except ConvergenceError as error:
        place = int(error.place.removeprefix("reading ")) - 1
        return Case(moved, place in at, False, False, True, "unsettled", 0.0)
    caught, first, listed, instead = judged(kind, found, at)
    change = 0.0 if moved > MOVED or not at else changed(found, measure(LENGTH, right))
    return Case(moved, caught, first, listed, False, instead, change)


def judged(kind: Kind, found: Measured, at: list[int]) -> tuple[bool, bool, bool, str]:
    """Return whether something was said of the rows, and whether the slip was named."""
    many = [(mend.slip, set(mend.places)) for mend in found.table_mends]
    single = [(mend.slip, {doubt.place}) for doubt in found.doubts for mend in doubt.mends]
    if len(at) == 1:  # doubts of other rows are told as well, and do not count
        single = [one for one in single if one[1] == set(at)]
    told = [*many, *single] if found.undone else [*single, *many]
    meant = [about_right(places, at) and slip in kind.names for slip, places in told]
    instead = "" if not told else str(told[0][0])
    caught = any(about_right(places, at) for _, places in told) if at else bool(told)
    return caught, bool(meant) and meant[0], any(meant[:3]), instead


def about_right(places: set[int], at: list[int]) -> bool:
    """Return whether rows that are named are those of the slip: one row, or most of many."""
    if len(at) == 1:
        return places == set(at)
    return len(places & set(at)) >= 0.5 * len(places | set(at))


def readings_of(rows: list[Typed]) -> list[Reading]:
    return [
        ThreePoint(
            station=row.station,
            span=row.span,
            force=row.load,
            value=float(row.digits) * row.unit,
            sigma=NOISE,
            typed=row.digits,
        )
        for row in rows
    ]


def swung(truth: Profile, seed: int) -> list[Reading]:
    """Return weight, balance point and one frequency, with their noise and the clamp's."""
    rng = np.random.default_rng([seed, 1])
    found: list[Reading] = []
    for one in (*weighed(truth), swing(truth)):
        off = one.sigma * rng.standard_normal()
        if isinstance(one, Frequency):
            off += CLAMPED * rng.standard_normal()
        found.append(reads(one, one.value * float(np.exp(off))))
    return found


def moved_by(
    kind: Kind, seed: int, right: list[Reading], typed: tuple[list[Typed], list[Typed]]
) -> float:
    """Return the most by which a slip moved a reading, in its standard deviations.

    Where other rows are read instead, their noise does not count as moved.
    """
    if kind.moves_rows:
        bench = bench_of(seed, quiet=True)
        typed = bench.rows, kind.slip(bench)[0]
    solution: Solution = solve(unknowns(LENGTH, Beliefs()), right)
    spread = solution.slopes @ solution.layout.covariance @ solution.slopes.T
    errors = np.array([one.sigma for one in right])
    precision = np.linalg.inv(spread + np.diag(errors**2))
    most = 0.0
    for at, (meant, told) in enumerate(zip(*typed, strict=False)):
        apart = abs(_compliance(told) / _compliance(meant))
        far = abs(log(apart)) if apart > 0.0 else np.inf
        most = max(most, far * float(np.sqrt(precision[at, at])))
    return most


def _compliance(row: Typed) -> float:
    return float(row.digits) * row.unit / row.load


def changed(found: Measured, right: Measured) -> float:
    """Return the most by which a slip changed EI where it is seen, relative."""
    seen = found.piece.bending.seen & right.piece.bending.seen
    if not seen.any():
        return 0.0
    ratio = found.piece.bending.values[seen] / right.piece.bending.values[seen] - 1.0
    return float(np.abs(ratio).max())


def forces() -> tuple[float, ...]:
    return GRAM * GRAVITY, GRAVITY, POUND_FORCE


def _force(bench: Bench) -> float:
    return float(bench.rng.choice(forces()))


def _other_span(bench: Bench) -> float:
    return float(bench.rng.choice(OTHER_SPANS))


def _one(bench: Bench, at: int, digits: str | None = None, load: float | None = None) -> Slipped:
    rows, row = list(bench.rows), bench.rows[at]
    rows[at] = row._replace(
        digits=row.digits if digits is None else digits, load=row.load if load is None else load
    )
    return rows, [at]


def _from(bench: Bench, start: int, digits: Callable[[Typed, int], str]) -> Slipped:
    rows = [
        row if at < start else row._replace(digits=digits(row, at))
        for at, row in enumerate(bench.rows)
    ]
    return rows, list(range(start, len(rows)))
