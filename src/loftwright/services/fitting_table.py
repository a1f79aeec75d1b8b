"""A fitting as the table of shots that the comparison and the report read."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Final

import numpy as np

from loftwright.bay.now import FittingNow, Swing
from loftwright.bay.outside import is_outside, not_compared
from loftwright.bay.setups import SetUp, set_up_of, set_ups
from loftwright.domain.device import Column, Origin
from loftwright.domain.golfer import Hand
from loftwright.domain.names import OWN
from loftwright.domain.numbers import FIELDS
from loftwright.domain.shot import Refusal, Shot, ShotTable
from loftwright.evidence.balls import Balls
from loftwright.evidence.clubs import ClubTraits
from loftwright.physics.sleeve import Convention
from loftwright.services.hands import handedness
from loftwright.services.read import balls_of
from loftwright.services.shaft_shifts import NO_SHIFTS, Shifts, expected_of

MARKS: Final = ("strike toe", "strike high")
MEANS: Final = {
    "ball_speed": "ball speed",
    "launch": "launch",
    "direction": "direction",
    "spin": "spin",
    "axis": "axis",
    "head_speed": "head speed",
    "attack": "attack",
    "path": "path",
    "face": "face",
    "dynamic_loft": "dynamic loft",
    "strike_toe": "strike toe",
    "strike_high": "strike high",
    "carry": "carry",
    "total": "total",
    "offline": "offline",
    "peak_height": "peak height",
    "landing_angle": "landing angle",
    "flight_time": "flight time",
}
"""Field of a shot and what it means in the words of the column list."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FittingTable:
    """The balls of a fitting, ready to be compared.

    Attributes
    ----------
    table : ShotTable
        A row is a ball's number.
    balls : Balls, optional
        None while no ball can be compared.
    traits : tuple of ClubTraits
        One a club of `balls`.
    shifts : mapping of str to tuple of float
        What is believed of shafts, by their piece.
    """

    table: ShotTable
    balls: Balls | None
    traits: tuple[ClubTraits, ...]
    shifts: Shifts = field(default_factory=dict)


def fitting_table(
    now: FittingNow, hand: Hand, convention: Convention, shifts: Shifts = NO_SHIFTS
) -> FittingTable:
    """Return the balls of a fitting that can be compared.

    Parameters
    ----------
    now : FittingNow
    hand : Hand
    convention : Convention
        How a sleeve's setting turns into loft, lie and face.
    shifts : mapping of str to tuple of float
        What is believed of shafts, by their piece; those left out are as the own one.

    Returns
    -------
    FittingTable
    """
    used, unread, refused = [], [], []
    shots: dict[int, Shot] = {}
    drivers = {club.name for club in now.clubs if not is_outside(club.card)}
    valued = any(_flies(swing) for swing in now.balls if swing.club in drivers)
    for swing in now.balls:
        label = set_up_of(swing, now)
        why = _why_not(swing, now, valued=valued)
        if label is None:
            continue
        shots[swing.number] = _shot(swing, label)
        if why:
            refused.append(Refusal(row=swing.number, why=why))
            unread += [swing] if swing.numbers is None else []
        else:
            used.append(swing)
    table = ShotTable(
        read=len(now.balls),
        shots=tuple(shots[swing.number] for swing in used),
        refused=tuple(refused),
        columns=_columns(now, used),
    )
    if not used:
        return FittingTable(table=table, balls=None, traits=(), shifts=shifts)
    spare = tuple(shots[swing.number] for swing in unread)
    own = OWN if any(shot.club == OWN for shot in table.shots) else None
    balls = _with_bay(balls_of(table, handedness(hand), own, spare), used, now)
    traits = _traits(balls.clubs, set_ups(now, convention), hand, shifts)
    return FittingTable(table=table, balls=balls, traits=traits, shifts=shifts)


def _flies(swing: Swing) -> bool:
    numbers = swing.numbers
    return numbers is not None and None not in {numbers.ball_speed, numbers.launch, numbers.spin}


def _why_not(swing: Swing, now: FittingNow, *, valued: bool) -> str:
    """Return why a ball does not enter the comparison; empty if it does."""
    club = now.club(swing.club or "")
    if swing.numbers is None:
        return "hit, not read"
    if club is not None and club.out:
        return f"{club.name} is out: {club.out}"
    if club is not None and is_outside(club.card):
        return not_compared(club.card)
    numbers = swing.numbers
    launch = (numbers.ball_speed, numbers.launch, numbers.spin)
    told = launch if valued else (numbers.ball_speed, numbers.carry)
    return "no launch number in it" if all(one is None for one in told) else ""


def _shot(swing: Swing, label: str) -> Shot:
    numbers = swing.numbers
    told = {} if numbers is None else {name: getattr(numbers, name) for name in FIELDS}
    if swing.mark is not None:
        told |= {"strike_toe": swing.mark.toe, "strike_high": swing.mark.high}
    return Shot(
        row=swing.number,
        order=swing.order,
        club=label,
        mark_set=None if swing.mark_set is None else str(swing.mark_set),
        read=swing.numbers is not None,
        time=swing.time or None,
        **told,
    )


def _columns(now: FittingNow, used: Iterable[Swing]) -> tuple[Column, ...]:
    """Return every column with its origin; marks read on the face are measured."""
    origins: dict[str, Origin] = {}
    for visit in now.visits:
        for means, origin in visit.device.origins.items():
            known = origins.setdefault(means, origin)
            origins[means] = Origin.CALCULATED if Origin.CALCULATED in {known, origin} else known
    told = [swing for swing in used if swing.numbers is not None]
    marked = any(swing.mark is not None for swing in told)
    found = []
    for name, means in MEANS.items():
        present = any(getattr(swing.numbers, name) is not None for swing in told)
        by_hand = means in MARKS and marked
        origin = origins.get(means, Origin.UNKNOWN if present else Origin.ABSENT)
        if by_hand:
            origin = Origin.MEASURED
        elif not present:
            origin = Origin.ABSENT
        found.append(
            Column(
                column="" if origin is Origin.ABSENT else means,
                means=means,
                unit="",
                origin=origin,
                source="marks on the face" if by_hand else "the device's own card",
            )
        )
    return tuple(found)


def _with_bay(balls: Balls, used: list[Swing], now: FittingNow) -> Balls:
    """Add what only a bay knows: visits, the error of each mark and balls set aside."""
    device_error = [visit.device.mark_error for visit in now.visits]
    places = {visit: place for place, visit in enumerate(sorted({one.visit for one in used}))}
    return replace(
        balls,
        visit=np.array([places[swing.visit] for swing in used]),
        mark_error=np.array(
            [swing.mark.error if swing.mark else device_error[swing.visit] for swing in used]
        ),
        set_aside=np.array([swing.odd for swing in used]),
    )


def _traits(
    clubs: tuple[str, ...], found: dict[str, SetUp], hand: Hand, shifts: Shifts
) -> tuple[ClubTraits, ...]:
    """Return what is known of each set-up: shared heads and shafts, its loft and its shaft."""
    expected = np.array(
        [expected_of(found[one].angles, found[one].card, hand, shifts) for one in clubs]
    )
    return tuple(
        ClubTraits(
            head=found[club].card.head_piece,
            shaft=found[club].card.shaft_piece,
            shift=tuple(row.tolist()),
        )
        for club, row in zip(clubs, expected - expected.mean(axis=0), strict=True)
    )
