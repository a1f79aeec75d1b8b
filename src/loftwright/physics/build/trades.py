"""What can be built instead of a club that cannot: the nearest that parts allow."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from itertools import product
from typing import Final

import numpy as np

from loftwright.constants import INCH
from loftwright.errors import InputError
from loftwright.physics.build.club import Club, assembled, kept_length, longest
from loftwright.physics.build.parts import BuildParts
from loftwright.physics.build.solve import (
    LEAST_ADDED,
    Answer,
    Free,
    Quantity,
    Target,
    gain_of,
    places_of,
    solve,
    value_of,
)
from loftwright.physics.build.swingweight import POINT

STEP: Final = INCH / 16.0
FARTHEST: Final = 2.0 * INCH


class Trade(StrEnum):
    """What is given up.

    Attributes
    ----------
    HELD
        One target is met, the other as nearly as it can be.
    NEAREST
        Neither is met, both are missed by the fewest tolerances.
    LENGTH
        All are met at another length.
    """

    HELD = "held"
    NEAREST = "nearest"
    LENGTH = "length"


@dataclass(frozen=True, slots=True, kw_only=True)
class Instead:
    """A club that can be built instead.

    Attributes
    ----------
    trade : Trade
    held : Quantity, optional
        The target that is met, where one is.
    head_added, butt_added : float
        Nothing or more [kg].
    club : Club
    """

    trade: Trade
    held: Quantity | None = None
    head_added: float
    butt_added: float
    club: Club


def nearest_trades(
    parts: BuildParts, answer: Answer, tolerances: Mapping[Quantity, float]
) -> tuple[Instead, ...]:
    """Return the nearest clubs that can be built where the one asked for cannot.

    Parameters
    ----------
    parts : BuildParts
    answer : Answer
        That cannot be built; of one that can there are none.
    tolerances : mapping of Quantity to float
        What one counts as a miss: points, kilograms and kg m^2.

    Returns
    -------
    tuple of Instead
        First those that hold a target, then the nearest to all, then another length.

    Notes
    -----
    With one target held, the other moves evenly along what may be added, so that the nearest lies
    where head or butt has nothing or all that it can hold.
    """
    if answer.feasible:
        return ()
    wanted = answer.target
    length = min(wanted.length, longest(parts))
    sizes = {
        one: size * POINT if one is Quantity.SWINGWEIGHT else size
        for one, size in tolerances.items()
    }
    base = assembled(parts, kept_length(parts, length))
    found = [*_held(parts, base, wanted, sizes), *_nearest(parts, base, wanted, sizes)]
    other = _other_length(parts, wanted, length)
    return (*found, other) if other is not None else tuple(found)


def _held(
    parts: BuildParts, base: Club, target: Target, sizes: Mapping[Quantity, float]
) -> Iterator[Instead]:
    for held, value in target.wanted.items():
        lacking = value - value_of(held, base)
        choices = [
            (_missed(parts, base, target, sizes, head, butt), head + butt, head, butt)
            for head, butt in _at_an_end(places_of(parts, base), held, lacking)
        ]
        if choices:
            *_, head, butt = min(choices)
            yield _instead(parts, base, Trade.HELD, head, butt, held)


def _at_an_end(
    places: tuple[Free, Free], held: Quantity, lacking: float
) -> Iterator[tuple[float, float]]:
    """Yield the pairs of masses that meet one target with one place empty or full."""
    for fixed, amount in ((0, 0.0), (0, places[0].most), (1, 0.0), (1, places[1].most)):
        other = 1 - fixed
        gain = gain_of(held, places[other])
        rest = lacking - amount * gain_of(held, places[fixed])
        needed = rest / gain
        if -LEAST_ADDED <= needed <= places[other].most + LEAST_ADDED:
            needed = min(max(needed, 0.0), places[other].most)
            yield (amount, needed) if fixed == 0 else (needed, amount)


def _nearest(
    parts: BuildParts, base: Club, target: Target, sizes: Mapping[Quantity, float]
) -> Iterator[Instead]:
    """Yield the club that misses all targets by the fewest tolerances, on an end of the room."""
    places = places_of(parts, base)
    wanted = target.wanted
    rows = np.array([[gain_of(one, place) / sizes[one] for place in places] for one in wanted])
    lacking = np.array(
        [(value - value_of(one, base)) / sizes[one] for one, value in wanted.items()]
    )
    candidates = []
    for fixed, full in product((0, 1), (False, True)):
        masses = np.zeros(2)
        masses[fixed] = places[fixed].most if full else 0.0
        other = 1 - fixed
        rest = lacking - rows[:, fixed] * masses[fixed]
        free = float(rows[:, other] @ rest) / float(rows[:, other] @ rows[:, other])
        masses[other] = min(max(free, 0.0), places[other].most)
        miss = float(np.hypot(*np.resize(rows @ masses - lacking, 2)))
        candidates.append((miss, float(masses[0]), float(masses[1])))
    _, head, butt = min(candidates)
    if len(wanted) > 1:
        yield _instead(parts, base, Trade.NEAREST, head, butt)


def _other_length(parts: BuildParts, target: Target, start: float) -> Instead | None:
    """Return the nearest length at which every target is met, by sixteenths of an inch."""
    steps = int(FARTHEST / STEP)
    lengths = [start] if start < target.length else []
    for step in range(1, steps + 1):
        lengths += [target.length - step * STEP, target.length + step * STEP]
    for length in lengths:
        if not length <= longest(parts):
            continue
        try:
            answer = solve(parts, _at(target, length))
        except InputError:
            continue
        if answer.feasible and answer.club is not None:
            return Instead(
                trade=Trade.LENGTH,
                head_added=max(answer.head_added or 0.0, 0.0),
                butt_added=max(answer.butt_added or 0.0, 0.0),
                club=answer.club,
            )
    return None


def _at(target: Target, length: float) -> Target:
    return Target(
        length=length,
        swingweight=target.swingweight,
        mass=target.mass,
        inertia=target.inertia,
        scale=target.scale,
    )


def _missed(
    parts: BuildParts,
    base: Club,
    target: Target,
    sizes: Mapping[Quantity, float],
    head: float,
    butt: float,
) -> float:
    club = assembled(parts, kept_length(parts, base.length), head, butt)
    return sum(
        abs(value_of(one, club) - value) / sizes[one] for one, value in target.wanted.items()
    )


def _instead(
    parts: BuildParts,
    base: Club,
    trade: Trade,
    head: float,
    butt: float,
    held: Quantity | None = None,
) -> Instead:
    club = assembled(parts, kept_length(parts, base.length), head, butt)
    return Instead(trade=trade, held=held, head_added=head, butt_added=butt, club=club)
