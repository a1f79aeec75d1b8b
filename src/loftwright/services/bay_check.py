"""The house's check club: who hits it in which bay, when it is due, and what it found."""

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass, replace
from datetime import date
from enum import StrEnum
from typing import Final
from weakref import WeakKeyDictionary

import numpy as np

from loftwright.bay.now import FittingNow, Swing
from loftwright.domain.acts import Act, Closed, ClubJoined, HandedOver, Planned, VisitOpened
from loftwright.domain.fitting import DeviceCard, Fitting, PlanCard, Strip
from loftwright.domain.golfer import Golfer, Hand, Identity
from loftwright.domain.names import TREES
from loftwright.domain.rack import Assembly, Rack
from loftwright.errors import ConflictError, InputError
from loftwright.services.acting import act
from loftwright.services.golfers import add_golfer
from loftwright.services.kept_by_studio import KeptByStudio
from loftwright.services.rack import card_of
from loftwright.services.settings import read_settings
from loftwright.services.studio import Studio, new_id
from loftwright.shop.bay_check import BETWEEN, BayCheck, BayOffset, bay_offsets

NAME: Final = "bay check"
BALLS: Final = 10
"""Balls of a check."""
WEEK: Final = 7
"""Days after which a bay is due."""
OVERDUE: Final = 14
"""Days after which it is overdue (judgement)."""
CLUB: Final = TREES[0]
"""What the check club is called in its fitting."""

_KEPT: Final[KeptByStudio[tuple[BayOffset, ...]]] = KeptByStudio()
_VISITS: Final[WeakKeyDictionary[Studio, dict[str, tuple[int, "tuple[_Made, ...]"]]]] = (
    WeakKeyDictionary()
)
"""Of each check, with the end of its record: only those that went on are replayed again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """What the house checks its bays with.

    Attributes
    ----------
    club : str
        Id of the assembly; empty while none is named.
    people : tuple of str
        Ids of the golfers of the house who hit it.
    """

    club: str = ""
    people: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseRead:
    """The house's check and the version under which it was read."""

    house: House
    version: int


class Due(StrEnum):
    """How a bay stands with its weekly check."""

    RUNNING = "running"
    NEVER = "never"
    OVERDUE = "overdue"
    DUE = "due"
    DONE = "done"


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckedBay:
    """A bay with its checks.

    Attributes
    ----------
    last : date, optional
        Of its newest check.
    days : int, optional
        Since then.
    device : str
        That read that check.
    running : str
        Fitting of a check that is under way; empty without one.
    hit : int
        Balls of that check so far.
    """

    bay: str
    due: Due
    last: date | None = None
    days: int | None = None
    device: str = ""
    running: str = ""
    hit: int = 0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Made:
    """A visit of a check fitting with its balls of the check club."""

    fitting: str
    person: str
    bay: str
    device: str
    day: date
    club: str
    balls: tuple[Swing, ...]
    closed: bool


def read_house(studio: Studio) -> HouseRead:
    """Return what the house checks its bays with."""
    kept = studio.store.setting(NAME)
    if not kept.value:
        return HouseRead(house=House(), version=kept.version)
    told = json.loads(kept.value)
    house = House(club=told["club"], people=tuple(told["people"]))
    return HouseRead(house=house, version=kept.version)


def name_club(studio: Studio, club: str, *, version: int) -> int:
    """Name the check club, an assembly of the shop's, and return the setting's new version.

    Raises
    ------
    InputError
        If it is no club of the shop's.
    ConflictError
        If somebody else changed it since it was read.
    """
    _club(studio.store.rack(), club)
    return _change(studio, replace(read_house(studio).house, club=club), version)


def add_person(studio: Studio, name: str, hand: Hand, *, version: int) -> Golfer:
    """Write down who hits the check club, and return that golfer of the house.

    Raises
    ------
    InputError
        If the name is empty.
    ConflictError
        If somebody else changed the house's check since it was read.
    """
    who = Identity(name=name)
    with studio.lock:
        known = read_house(studio)
        if known.version != version:
            raise ConflictError(
                "the house’s check was changed meanwhile",
                place="version",
                mend="Look at what stands now and add the person again.",
            )
        kept = add_golfer(studio, Golfer(id="", hand=hand), who)
        house = replace(known.house, people=(*known.house.people, kept.id))
        _change(studio, house, known.version)
    return kept


def start_check(
    studio: Studio, bay: str, person: str, device: DeviceCard, *, by: str = "", key: str = ""
) -> Fitting:
    """Open a check of a bay: an ordinary record, ten balls with the check club.

    Parameters
    ----------
    studio : Studio
    bay, person : str
        Where it is hit, and the id of the golfer of the house who hits.
    device : DeviceCard
        What reads the balls.
    by, key : str
        Who acts, and under which key it is written once.

    Raises
    ------
    InputError
        If no check club is named, or bay or person are not the house's.
    ConflictError
        If a check of this bay is under way.
    """
    house = read_house(studio).house
    if person not in house.people:
        raise InputError(
            "nobody is chosen who hits the check club", place="person", mend="Choose who hits."
        )
    if bay not in read_settings(studio).settings.bays:
        raise InputError(f"the shop has no {bay!r}", place="bay", mend="Choose one of its bays.")
    rack = studio.store.rack()
    club = _club(rack, house.club)
    with studio.lock:
        under_way = next((one for one in checked_bays(studio) if one.bay == bay), None)
        if under_way is not None and under_way.running:
            raise ConflictError(
                f"a check of {bay} is under way", place="bay", mend="Go on with that one."
            )
        fitting = Fitting(
            id=new_id(), golfer=person, opened=studio.today(), bay=bay, bay_check=True
        )
        studio.store.open_fitting(fitting)
        plan = PlanCard(sets=((CLUB, BALLS),), in_order=True)
        acts: list[Act] = [
            VisitOpened(day=studio.today(), bay=bay, device=device, strip=Strip(), warm_up=False),
            ClubJoined(club=CLUB, card=card_of(rack, club)),
            Planned(plan=plan),
            HandedOver(club=CLUB),
        ]
        act(studio, fitting.id, acts, by=by, key=key)
    return fitting


def end_check(studio: Studio, fitting: str, *, by: str = "", key: str = "") -> FittingNow:
    """Close a check; what was hit counts.

    Raises
    ------
    InputError
        If it is no check.
    """
    if not studio.store.fitting(fitting).value.bay_check:
        raise InputError(
            "this is a golfer’s fitting and no check", place="fitting", mend="Close it in its bay."
        )
    return act(studio, fitting, [Closed()], by=by, key=key)


def checked_bays(studio: Studio) -> tuple[CheckedBay, ...]:
    """Return every bay of the shop with its newest check, in the shop's order."""
    made, today = _made(studio), studio.today()
    return tuple(
        _standing(bay, [one for one in made if one.bay == bay], today)
        for bay in read_settings(studio).settings.bays
    )


def found_offsets(studio: Studio) -> tuple[BayOffset, ...]:
    """Return what each bay reads otherwise, from all checks with its present device and club."""
    made = tuple(one for one in _made(studio) if one.balls)
    key = tuple((one.fitting, one.day, one.balls) for one in made)
    return _KEPT.of(studio, key, lambda: bay_offsets(_checks(made)))


def _standing(bay: str, made: Sequence[_Made], today: date) -> CheckedBay:
    open_one = next((one for one in made if not one.closed and one.day == today), None)
    done = [one for one in made if one is not open_one and one.balls]
    newest = max(done, key=lambda one: one.day, default=None)
    days = None if newest is None else (today - newest.day).days
    if open_one is not None:
        due = Due.RUNNING
    elif days is None:
        due = Due.NEVER
    else:
        due = Due.OVERDUE if days > OVERDUE else Due.DUE if days >= WEEK else Due.DONE
    return CheckedBay(
        bay=bay,
        due=due,
        last=None if newest is None else newest.day,
        days=days,
        device="" if newest is None else newest.device,
        running="" if open_one is None else open_one.fitting,
        hit=0 if open_one is None else len(open_one.balls),
    )


def _made(studio: Studio) -> tuple[_Made, ...]:
    """Return every visit of every check, in the order in which they came."""
    checks = [one for one in reversed(studio.store.outlines()) if one.bay_check]
    before = _VISITS.get(studio, {})
    known = {
        one.fitting: before[one.fitting]
        if one.fitting in before and before[one.fitting][0] == one.end
        else (one.end, _visits(studio, one.fitting))
        for one in checks
    }
    _VISITS[studio] = known
    return tuple(visit for one in checks for visit in known[one.fitting][1])


def _visits(studio: Studio, check: str) -> tuple[_Made, ...]:
    fitting, now = studio.store.fitting(check).value, studio.standing(check)
    assembly = next((one.card.assembly for one in now.clubs if one.name == CLUB), "")
    return tuple(
        _Made(
            fitting=check,
            person=fitting.golfer,
            bay=visit.bay,
            device=visit.device.name,
            day=visit.day,
            club=assembly,
            balls=tuple(
                one
                for one in now.balls
                if one.visit == visit.index and one.club == CLUB and not one.odd
            ),
            closed=now.closed,
        )
        for visit in now.visits
    )


def _checks(made: Sequence[_Made]) -> list[BayCheck]:
    """Return what counts: of each bay the checks that its present device read."""
    device = {one.bay: one.device for one in sorted(made, key=lambda one: one.day)}
    return [
        BayCheck(
            bay=one.bay,
            day=one.day,
            person=one.person,
            club=one.club,
            balls={quantity: _read(one.balls, quantity) for quantity in BETWEEN},
        )
        for one in made
        if one.device == device[one.bay]
    ]


def _read(balls: Sequence[Swing], quantity: str) -> "np.ndarray[tuple[int], np.dtype[np.float64]]":
    told = [getattr(one.numbers, quantity) for one in balls if one.numbers is not None]
    return np.array([one for one in told if one is not None], dtype=np.float64)


def _club(rack: Rack, club: str) -> Assembly:
    found = rack.assemblies.get(club)
    if found is None or found.owner is not None:
        raise InputError(
            "no check club is named" if not club else "this is no club of the shop’s",
            place="club",
            mend="Choose a club of the rack that stays in the house.",
        )
    return found


def _change(studio: Studio, house: House, version: int) -> int:
    text = json.dumps(asdict(house), ensure_ascii=False, sort_keys=True)
    return studio.store.set_setting(NAME, text, version=version)
