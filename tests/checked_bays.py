"""An invented house of three bays with a rack that moves and weeks of checks."""

from dataclasses import dataclass, replace

import numpy as np

from loftwright.constants import DEGREE, MILE_PER_HOUR, REVOLUTION_PER_MINUTE
from loftwright.domain.fitting import DeviceCard
from loftwright.domain.golfer import Golfer, Hand, Identity
from loftwright.domain.numbers import ShotNumbers
from loftwright.domain.piece_code import code_of
from loftwright.domain.place import AWAY
from loftwright.domain.rack import Piece
from loftwright.services.bay_check import (
    BALLS,
    add_person,
    end_check,
    name_club,
    start_check,
)
from loftwright.services.fittings import open_fitting
from loftwright.services.golfers import add_golfer
from loftwright.services.places import check_out
from loftwright.services.settings import change_settings, read_settings
from loftwright.services.shots import Incoming, take
from loftwright.services.studio import Studio, new_id
from studios import Clock, a_club, a_head, a_shaft, studio_in_memory

BAYS = ("Bay 1", "Bay 2", "Bay 3")
METER = DeviceCard(name="Bay meter")


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckedHouse:
    """The house, its clock and the shaft that Bay 2 has."""

    studio: Studio
    clock: Clock
    shaft: Piece
    person: Golfer


def a_checked_house(weeks: int = 4, apart: float = 300.0) -> CheckedHouse:
    """Return a house whose second bay reads so many rpm more; its last checks are a week old."""
    clock = Clock()
    studio = studio_in_memory(clock)
    kept = read_settings(studio)
    settings = replace(kept.settings, bays=BAYS, devices=(METER,), zone="UTC")
    change_settings(studio, settings, version=kept.version)
    club = a_club(studio, a_head(studio), "Osier", 62.0, 45.0)
    name_club(studio, club.id, version=0)
    person = add_person(studio, "Ann Reed", Hand.RIGHT, version=1)
    rng = np.random.default_rng(20)
    for _ in range(weeks):
        for bay in BAYS:
            one_check(studio, bay, person, 2700.0 + apart * (bay == "Bay 2"), rng)
        clock.forward(7 * 24 * 60.0)
    golfer = add_golfer(studio, Golfer(id=""), Identity(name="Ottoline Brambleby"))
    add_golfer(studio, Golfer(id=""), Identity(name="O. Brambleby"))
    open_fitting(studio, golfer.id, bay="Bay 1", fitter="Bo Marsh")
    shaft, _ = a_shaft(studio, "Reedmace")
    other, _ = a_shaft(studio, "Bulrush", 55.0)
    check_out(studio, code_of(shaft.id), "Bay 2", by="Bo Marsh")
    check_out(studio, code_of(other.id), AWAY, by="Bo Marsh", golfer=golfer.id)
    clock.forward(12.0)
    return CheckedHouse(studio=studio, clock=clock, shaft=shaft, person=person)


def one_check(
    studio: Studio, bay: str, person: Golfer, spin: float, rng: np.random.Generator
) -> None:
    """Hit ten balls with the check club in a bay and close the check."""
    fitting = start_check(studio, bay, person.id, METER).id
    for _ in range(BALLS):
        numbers = ShotNumbers(
            ball_speed=rng.normal(146.0, 1.5) * MILE_PER_HOUR,
            launch=rng.normal(12.0, 1.0) * DEGREE,
            direction=rng.normal(0.5, 1.5) * DEGREE,
            spin=rng.normal(spin, 150.0) * REVOLUTION_PER_MINUTE,
            axis=rng.normal(2.0, 4.0) * DEGREE,
        )
        take(studio, fitting, Incoming(numbers=numbers, key=new_id()), source="feed")
    end_check(studio, fitting)
