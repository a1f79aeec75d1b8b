"""Before the first ball: what these columns and so many balls will allow to be said."""

from dataclasses import replace
from typing import Final

import numpy as np

from loftwright.arrays import FloatArray
from loftwright.bay.now import FittingNow
from loftwright.bay.outside import is_outside
from loftwright.domain.device import Origin
from loftwright.domain.fitting import DeviceCard, PlanCard
from loftwright.domain.home import Hole, Home
from loftwright.domain.names import OWN
from loftwright.evidence.balls import Balls
from loftwright.evidence.claims import claims_ladder
from loftwright.evidence.columns import columns_of
from loftwright.evidence.result import Claim
from loftwright.evidence.scales import DELIVERY_NAMES, DISTANCE, LAUNCH_NAMES

_STRIKE: Final = ("strike toe", "strike high")


_AS_READ: Final = (
    Claim(
        say="what the device shows of every club",
        may=True,
        why="plain averages, held against nothing",
    ),
    Claim(
        say="which club goes further or scores better",
        may=False,
        why="no driver is in the plan: flight and value were checked for drivers",
    ),
)


def promised_now(
    now: FittingNow, device: DeviceCard, home: Home, *, marked: bool
) -> tuple[Claim, ...]:
    """Return the claims ladder of a fitting's plan; only its drivers count.

    Parameters
    ----------
    now : FittingNow
    device : DeviceCard
    home : Home
    marked : bool
        Whether strikes are marked on the face.

    Returns
    -------
    tuple of Claim
        None without a plan.
    """
    if now.plan is None:
        return ()
    other = {club.name for club in now.clubs if is_outside(club.card)}
    plan = now.plan.plan
    sets = tuple(one for one in plan.sets if one[0] not in other)
    if plan.sets and not sets:
        return _AS_READ
    return promised_claims(replace(plan, sets=sets), device, home, marked=marked)


def promised_claims(
    plan: PlanCard, device: DeviceCard, home: Home, *, marked: bool
) -> tuple[Claim, ...]:
    """Return the claims ladder of a fitting whose every planned ball is hit and read.

    Parameters
    ----------
    plan : PlanCard
    device : DeviceCard
        A column that it calculates counts as not given; one of unknown origin as given, but no
        strike is promised of a device nobody knows.
    home : Home
    marked : bool
        Whether strikes are marked on the face.
    """
    balls = _planned_balls(plan, device, marked=marked)
    columns = columns_of(balls)
    by_carry = not set(columns.responses) >= DISTANCE and gives(device, "carry")
    hole = None if home.holes else Hole().length
    return claims_ladder(balls, columns, device_carry=by_carry, standard_hole=hole)


def gives(device: DeviceCard, means: str) -> bool:
    """Return whether a device is taken to give a column; without any known origin, every one."""
    if not device.origins:
        return True
    return device.origins.get(means, Origin.ABSENT) in {Origin.MEASURED, Origin.UNKNOWN}


def _planned_balls(plan: PlanCard, device: DeviceCard, *, marked: bool) -> Balls:
    """Return the planned balls with a zero where a number will be, and nothing where not."""
    names = tuple(dict.fromkeys(club for club, _ in plan.sets))
    clubs = [names.index(club) for club, count in plan.sets for _ in range(count)]
    number = len(clubs)
    strikes = marked or (bool(device.origins) and all(gives(device, one) for one in _STRIKE))
    return Balls(
        clubs=names,
        own=names.index(OWN) if OWN in names else None,
        club=np.array(clubs, dtype=np.int64),
        row=np.arange(1, number + 1),
        order=np.arange(number, dtype=np.float64),
        launch=_table(number, [gives(device, _words(name)) for name in LAUNCH_NAMES]),
        delivery=_table(number, [gives(device, _words(name)) for name in DELIVERY_NAMES]),
        marks=_table(number, [strikes, strikes]),
        mark_set=np.full(number, -1),
        carry=_table(number, [gives(device, "carry")])[:, 0],
    )


def _table(rows: int, given: list[bool]) -> FloatArray:
    return np.tile(np.where(given, 0.0, np.nan), (rows, 1))


def _words(name: str) -> str:
    return name.replace("_", " ")
