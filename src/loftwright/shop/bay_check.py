"""By how much each bay reads differently, from the house's check club hit in all of them.

Each quantity alone: the mean of a check is the level of its person and club, what that person did
otherwise on that day, what the bay reads otherwise, and what it read otherwise on that day. The
level is free; the three others are normal around nought with unknown spreads, which are averaged
over on a grid, so that few checks say little.

References
----------
Laird & Ware 1982, Random-effects models for longitudinal data, Biometrics 38:963, equations 3.1
to 3.3: estimates of random effects at known spreads.
Harville 1977, Maximum likelihood approaches to variance component estimation and to related
problems, J. Amer. Statist. Assoc. 72:320: the restricted likelihood of the spreads.
Gelman 2006, Prior distributions for variance parameters in hierarchical models, Bayesian Analysis
1:515, section 7: a half-normal or half-t on a spread where groups are few.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import product
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.errors import InputError
from loftwright.shop.random_effects import Range, combined, random_effects

FEWEST_BALLS: Final = 3
"""Balls of a quantity without which a check says nothing of it (judgement)."""

REMEMBERED: Final = 12
"""Checks of a bay that count, the newest ones (judgement): a quarter of a year, one a week."""

BETWEEN: Final = {
    "ball_speed": 1.0 * MILE_PER_HOUR,
    "launch": 0.4 * DEGREE,
    "spin": 150.0 * REVOLUTION_PER_MINUTE,
    "axis": 2.0 * DEGREE,
    "direction": 0.7 * DEGREE,
}
"""What bays may read apart, as the scale of a half-normal spread (judgement)."""

_OF_A_DAY: Final = 0.5
"""The scale of what one bay reads otherwise from check to check, by that between bays."""
_GRID: Final = (0.1, 0.3, 0.6, 1.0, 1.5, 2.2)
"""Spreads that are averaged over, by their scales."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BayCheck:
    """One check of a bay: balls of one person with one club.

    Attributes
    ----------
    bay : str
    day : date
    person, club : str
        Ids; each pair of them has a level of its own.
    balls : dict of str to array of float
        By quantity, those that were read [m s^-1, rad, rad s^-1].
    """

    bay: str
    day: date
    person: str
    club: str
    balls: dict[str, FloatArray]


@dataclass(frozen=True, slots=True, kw_only=True)
class BayOffset:
    """What a bay reads otherwise than the mean of others.

    Attributes
    ----------
    quantity : str
    others : tuple of str
        Those that read alike, without the bay itself.
    offset : Range
        At the newest check, shrunk towards nought.
    drift : Range, optional
        Of that check against the bay's checks before it; None with one check.
    checks, balls : int
        That say something of it.
    last : date
        Day of the newest one.
    linked : bool
        Whether one of its persons and clubs was hit in another bay too: else it is not known.
    """

    bay: str
    quantity: str
    others: tuple[str, ...]
    offset: Range
    drift: Range | None
    checks: int
    balls: int
    last: date
    linked: bool

    @property
    def off(self) -> bool:
        """Whether the bay reads clearly, and by an amount that matters, apart from the others."""
        return (
            self.linked and self.offset.clear and abs(self.offset.mean) >= BETWEEN[self.quantity]
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Table:
    """Checks of one quantity as the equations take them, in units of its scale."""

    checks: tuple[BayCheck, ...]
    bays: tuple[str, ...]
    mean: FloatArray
    error: FloatArray
    level: FloatArray
    bay: FloatArray
    day: FloatArray


def bay_offsets(checks: Sequence[BayCheck]) -> tuple[BayOffset, ...]:
    """Return what each bay reads otherwise than the others, quantity by quantity.

    Parameters
    ----------
    checks : sequence of BayCheck
        In any order.

    Returns
    -------
    tuple of BayOffset
        By bay and quantity; nothing where fewer than two bays were checked.

    Notes
    -----
    The spread of single balls is pooled over all checks and taken as known; with ten balls a
    check it is, to a tenth, from the fifth check on. The others' mean counts each bay once.
    """
    found: list[BayOffset] = []
    for quantity, scale in BETWEEN.items():
        table = _table(_newest(checks, quantity), quantity, scale)
        if table is None:
            continue
        found += _of_quantity(table, quantity, scale)
    return tuple(sorted(found, key=lambda one: one.bay))


def _of_quantity(table: _Table, quantity: str, scale: float) -> list[BayOffset]:
    """Return what each bay reads otherwise than those that read alike.

    One bay that is off must not make the others look off the other way: the farthest is called
    off first and no more counted among the others, then the next, while two are left.
    """
    averaged = _averaged(table)
    told: dict[str, BayOffset] = {}
    alike = list(table.bays)
    while True:
        for bay in alike:
            others = [one for one in alike if one != bay] or [
                one for one in table.bays if one != bay
            ]
            told[bay] = _told(table, averaged, bay, others, quantity, scale)
        off = [told[bay] for bay in alike if told[bay].off]
        if not off or len(alike) <= 2:
            return [told[bay] for bay in table.bays]
        alike.remove(max(off, key=lambda one: abs(one.offset.mean)).bay)


def _told(
    table: _Table,
    averaged: tuple[FloatArray, FloatArray, FloatArray],
    bay: str,
    others: Sequence[str],
    quantity: str,
    scale: float,
) -> BayOffset:
    weights, means, covariances = averaged
    mine = [at for at, one in enumerate(table.checks) if one.bay == bay]
    taken = _against(table, bay, others)
    offset = combined(weights, *_of(means, covariances, taken))
    drift = None
    if len(mine) > 1:
        drift = combined(weights, *_of(means, covariances, _since(table, mine))).times(scale)
    return BayOffset(
        bay=bay,
        quantity=quantity,
        others=tuple(others),
        offset=offset.times(scale),
        drift=drift,
        checks=len(mine),
        balls=sum(table.checks[at].balls[quantity].size for at in mine),
        last=table.checks[mine[-1]].day,
        linked=_linked(table, bay, others),
    )


def _newest(checks: Sequence[BayCheck], quantity: str) -> tuple[BayCheck, ...]:
    good = [one for one in checks if one.balls.get(quantity, np.empty(0)).size >= FEWEST_BALLS]
    for one in good:
        if not np.isfinite(one.balls[quantity]).all():
            raise InputError(
                f"a check of {one.bay} holds a {quantity} that is no number",
                place=one.bay,
                mend="Leave out what was not read.",
            )
    ordered = sorted(good, key=lambda one: (one.day, one.bay))
    kept: list[BayCheck] = []
    for bay in sorted({one.bay for one in ordered}):
        kept += [one for one in ordered if one.bay == bay][-REMEMBERED:]
    return tuple(sorted(kept, key=lambda one: (one.day, one.bay)))


def _table(checks: tuple[BayCheck, ...], quantity: str, scale: float) -> _Table | None:
    bays = tuple(sorted({one.bay for one in checks}))
    if len(bays) < 2:
        return None
    balls = [one.balls[quantity] / scale for one in checks]
    squares = sum(float(np.sum((one - one.mean()) ** 2)) for one in balls)
    spread = np.sqrt(squares / sum(one.size - 1 for one in balls))
    sizes = np.array([one.size for one in balls], dtype=np.float64)
    return _Table(
        checks=checks,
        bays=bays,
        mean=np.array([one.mean() for one in balls]),
        # Balls that are all alike were typed or rounded: a hundredth of the scale is left.
        error=np.maximum(spread, 0.01) / np.sqrt(sizes),
        level=_marks([(one.person, one.club) for one in checks]),
        bay=_marks([one.bay for one in checks]),
        day=_marks([(one.person, one.day) for one in checks]),
    )


def _marks(names: Sequence[object]) -> FloatArray:
    """Return one column for each name, 1 where it stands; columns in the names' order."""
    order = sorted(set(names), key=str)
    made = np.zeros((len(names), len(order)))
    for row, name in enumerate(names):
        made[row, order.index(name)] = 1.0
    return made


def _averaged(table: _Table) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return weights of the spreads, and the effects with their covariance at each."""
    count, bays = table.bay.shape
    days = table.day.shape[1]
    effects = np.hstack([table.bay, table.day, np.eye(count)])
    told = []
    for between, person, drift in product(_GRID, repeat=3):
        spread = np.concatenate(
            [
                np.full(bays, between),
                np.full(days, person),
                np.full(count, drift * _OF_A_DAY),
            ]
        )
        estimate, covariance, likely = random_effects(
            table.mean, table.error, table.level, effects, spread
        )
        # Half-normal in the spread; the steps of the grid grow with it.
        prior = -0.5 * (between**2 + person**2 + drift**2) + np.log(between * person * drift)
        told.append((likely + prior, estimate, covariance))
    heights = np.array([one[0] for one in told])
    weights = np.exp(heights - heights.max())
    return (
        weights / weights.sum(),
        np.array([one[1] for one in told]),
        np.array([one[2] for one in told]),
    )


def _against(table: _Table, bay: str, others: Sequence[str]) -> FloatArray:
    """Return what takes others' mean from a bay, each at its newest check."""
    first = table.bay.shape[1] + table.day.shape[1]
    taken = np.zeros(first + len(table.checks))
    for name, share in ((bay, 1.0), *((one, -1.0 / len(others)) for one in others)):
        newest = max(row for row, one in enumerate(table.checks) if one.bay == name)
        taken[table.bays.index(name)] += share
        taken[first + newest] += share
    return taken


def _since(table: _Table, mine: list[int]) -> FloatArray:
    """Return what takes a bay's earlier checks from its newest one."""
    first = table.bay.shape[1] + table.day.shape[1]
    taken = np.zeros(first + len(table.checks))
    taken[first + mine[-1]] = 1.0
    for at in mine[:-1]:
        taken[first + at] = -1.0 / (len(mine) - 1)
    return taken


def _of(
    means: FloatArray, covariances: FloatArray, taken: FloatArray
) -> tuple[FloatArray, FloatArray]:
    variance = np.einsum("kij,i,j->k", covariances, taken, taken)
    return means @ taken, np.sqrt(np.maximum(variance, 0.0))


def _linked(table: _Table, bay: str, others: Sequence[str]) -> bool:
    mine = {(one.person, one.club) for one in table.checks if one.bay == bay}
    return any(one.bay in others and (one.person, one.club) in mine for one in table.checks)
