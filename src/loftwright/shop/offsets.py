"""By how much devices and bays read differently, told from golfers by golfers who hit on several.

The level of a golfer on one visit is common + golfer + device + bay + rest. Without a golfer on
both, two devices are told apart only as far as many golfers average out, and the stated doubts
are then as wide as that.

References
----------
Laird & Ware 1982, Random-effects models for longitudinal data, Biometrics 38:963.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray, frozen_array
from loftwright.shop.cells import FittingSums
from loftwright.shop.columns import RESPONSES
from loftwright.shop.grams import launch_gram
from loftwright.shop.learned import HeadSlopes, Offset
from loftwright.shop.physics import at_usual_loft, physics_at
from loftwright.shop.population import Population, of_any_level, posterior

KINDS: Final = ("device", "bay")
_SIZE: Final = len(RESPONSES)
_OFFSET_SD: Final = {"device": (0.5, 0.4, 0.5, 0.25, 0.3), "bay": (0.25, 0.2, 0.25, 0.12, 0.3)}
"""How devices and bays differ before anything was learned [scaled units] (judgement)."""
_GOLFER_SD: Final = (4.0, 3.0, 2.5, 2.0, 1.5)
_REST_SD: Final = (1.0, 0.6, 0.75, 0.5, 0.7)
"""How golfers differ, and one golfer's days (judgement)."""
_WORTH: Final = 5.0
"""Golfers, days, devices and bays that each judgement is worth."""
_FREE: Final = 1e4
_ROUNDS: Final = 40


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Level:
    """Where a golfer's launch lay on one visit, beyond physics at a usual loft.

    Attributes
    ----------
    golfer, fitting, device, bay : str
    mean : FloatArray, shape (R,)
    doubt : FloatArray, shape (R, R)
    """

    golfer: str
    fitting: str
    device: str
    bay: str
    mean: FloatArray
    doubt: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Spread:
    """Covariances of golfers, of their days, and of each kind of offset."""

    golfer: FloatArray
    rest: FloatArray
    kinds: dict[str, FloatArray]


def levels_of(
    fittings: Sequence[FittingSums], belief: Population, heads: Sequence[HeadSlopes] = ()
) -> tuple[Level, ...]:
    """Return the level of every golfer on every visit.

    Parameters
    ----------
    fittings : sequence of FittingSums
    belief : Population
        What physics leaves out of launch.
    heads : sequence of HeadSlopes

    Notes
    -----
    The loft is not the golfer's own: that is solved from the launch, and a device that reads
    launch too high would look like a golfer with more loft.
    """
    free = of_any_level(belief)
    known = {one.head: one.slopes for one in heads}
    found = []
    for fitting in fittings:
        physics = physics_at(at_usual_loft(fitting.delivery))
        for visit in fitting.visits:
            cells = tuple(cell for cell in fitting.cells if cell.visit == visit)
            there = replace(fitting, cells=cells)
            gram = launch_gram(there, physics, known)
            one = posterior(gram, free, np.zeros((len(gram.clubs), _SIZE)))
            found.append(
                Level(
                    golfer=fitting.golfer,
                    fitting=fitting.fitting,
                    device=cells[0].device,
                    bay=cells[0].bay,
                    mean=frozen_array(one.slopes[0]),
                    doubt=frozen_array(one.covariance[:, 0, :, 0]),
                )
            )
    return tuple(found)


def offsets_of(levels: Sequence[Level]) -> tuple[Offset, ...]:
    """Return by how much every named device and bay reads differently.

    Parameters
    ----------
    levels : sequence of Level

    Notes
    -----
    Expectation-maximisation over the covariances of golfers, days, devices and bays; in every
    pass golfers and days are integrated out of what is common, devices and bays.
    """
    names = [
        (kind, name) for kind in KINDS for name in sorted({getattr(one, kind) for one in levels})
    ]
    names = [one for one in names if one[1]]
    if not names:
        return ()
    spread = _judged()
    for _ in range(_ROUNDS):
        means, covariance = _expected(levels, names, spread)
        spread = _next(levels, names, spread, means, covariance)
    means, covariance = _expected(levels, names, spread)
    sd = np.sqrt(np.diag(covariance))
    return tuple(
        Offset(
            kind=kind,
            name=name,
            fittings=len({one.fitting for one in levels if getattr(one, kind) == name}),
            mean=frozen_array(means[place * _SIZE : (place + 1) * _SIZE]),
            sd=frozen_array(sd[place * _SIZE : (place + 1) * _SIZE]),
        )
        for place, (kind, name) in enumerate(names, 1)
    )


def _judged() -> _Spread:
    return _Spread(
        golfer=np.diag(np.square(_GOLFER_SD)),
        rest=np.diag(np.square(_REST_SD)),
        kinds={kind: np.diag(np.square(_OFFSET_SD[kind])) for kind in KINDS},
    )


def _by_golfer(levels: Sequence[Level]) -> list[list[Level]]:
    found: dict[str, list[Level]] = {}
    for one in levels:
        found.setdefault(one.golfer, []).append(one)
    return [found[golfer] for golfer in sorted(found)]


def _golfers_rows(
    own: Sequence[Level], names: Sequence[tuple[str, str]], spread: _Spread
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return one golfer's levels, which offsets are in them, and their precision."""
    chosen = np.zeros((len(own), 1 + len(names)))
    chosen[:, 0] = 1.0
    for row, one in enumerate(own):
        for kind in KINDS:
            if getattr(one, kind):
                chosen[row, 1 + names.index((kind, getattr(one, kind)))] = 1.0
    whole = np.kron(np.ones((len(own), len(own))), spread.golfer)
    for row, one in enumerate(own):
        part = slice(row * _SIZE, (row + 1) * _SIZE)
        whole[part, part] += spread.rest + one.doubt
    said = np.asarray(np.concatenate([one.mean for one in own]), dtype=np.float64)
    ways = np.asarray(np.kron(chosen, np.eye(_SIZE)), dtype=np.float64)
    return said, ways, np.asarray(np.linalg.inv(whole))


def _expected(
    levels: Sequence[Level], names: Sequence[tuple[str, str]], spread: _Spread
) -> tuple[FloatArray, FloatArray]:
    """Return means and covariance of what is common, and of devices and bays."""
    size = (1 + len(names)) * _SIZE
    information, pull = np.zeros((size, size)), np.zeros(size)
    information[:_SIZE, :_SIZE] = np.eye(_SIZE) / _FREE
    for place, (kind, _) in enumerate(names, 1):
        part = slice(place * _SIZE, (place + 1) * _SIZE)
        information[part, part] = np.linalg.inv(spread.kinds[kind])
    for own in _by_golfer(levels):
        said, ways, precision = _golfers_rows(own, names, spread)
        information += ways.T @ precision @ ways
        pull += ways.T @ precision @ said
    covariance = np.linalg.inv(information)
    return np.asarray(covariance @ pull), np.asarray(covariance)


def _next(
    levels: Sequence[Level],
    names: Sequence[tuple[str, str]],
    spread: _Spread,
    means: FloatArray,
    covariance: FloatArray,
) -> _Spread:
    """Return the covariances that the expected squares come to, joined by what was judged."""
    judged = _judged()
    golfers = _by_golfer(levels)
    golfer, rest = _WORTH * judged.golfer, _WORTH * judged.rest
    for own in golfers:
        said, ways, precision = _golfers_rows(own, names, spread)
        pulled = precision @ (said - ways @ means)
        # What is not explained by devices and bays, less what they themselves are unsure of.
        lost = precision - precision @ ways @ covariance @ ways.T @ precision
        golfer += _square(np.tile(spread.golfer, len(own)), spread.golfer, pulled, lost)
        for row in range(len(own)):
            way = np.zeros((_SIZE, len(said)))
            way[:, row * _SIZE : (row + 1) * _SIZE] = spread.rest
            rest += _square(way, spread.rest, pulled, lost)
    kinds = {}
    for kind in KINDS:
        places = [place for place, one in enumerate(names, 1) if one[0] == kind]
        total = _WORTH * judged.kinds[kind]
        for place in places:
            part = slice(place * _SIZE, (place + 1) * _SIZE)
            total = total + np.outer(means[part], means[part]) + covariance[part, part]
        kinds[kind] = total / (_WORTH + len(places))
    return _Spread(
        golfer=golfer / (_WORTH + len(golfers)),
        rest=rest / (_WORTH + len(levels)),
        kinds=kinds,
    )


def _square(way: FloatArray, own: FloatArray, pulled: FloatArray, lost: FloatArray) -> FloatArray:
    """Return the expected square of an effect of covariance `own` that reaches levels by `way`."""
    mean = way @ pulled
    return np.asarray(np.outer(mean, mean) + own - way @ lost @ way.T)
