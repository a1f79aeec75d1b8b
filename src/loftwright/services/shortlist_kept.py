"""The shortlist of a golfer whose fitting is open, kept until what it stands on changes."""

from statistics import median
from typing import Final

from loftwright.bay.now import FittingNow
from loftwright.domain.golfer import Golfer
from loftwright.domain.names import OWN
from loftwright.evidence.shortlist import Listed
from loftwright.services.kept_by_studio import KeptByStudio
from loftwright.services.measuring import measured
from loftwright.services.shortlist import list_for_golfer, shafts_on_hand
from loftwright.services.studio import Studio

_kept: Final[KeptByStudio[Listed]] = KeptByStudio()


def listed_now(studio: Studio, golfer: Golfer, now: FittingNow, bay: str) -> Listed:
    """Return the shortlist for a golfer as the rack stands.

    Parameters
    ----------
    studio : Studio
    golfer : Golfer
    now : FittingNow
    bay : str
        Where the golfer hits.

    Raises
    ------
    InputError, ConvergenceError
        If no swing with the own shaft reaches the golfer's speed.
    """
    speed = speed_of(golfer, now)
    rack = studio.store.rack()
    club = rack.assemblies.get(golfer.own or "")
    shafts = tuple(
        (one.measured.id, one.name, one.place, one.elsewhere)
        for one in shafts_on_hand(studio, hand=golfer.hand, bay=bay)
    )
    own = None if club is None else measured(studio).get(club.shaft)
    parts = None if club is None else (club, rack.pieces[club.head].mass, rack.head_of(club).loft)
    key = (golfer, speed, bay, shafts, parts, None if own is None else own.id)
    return _kept.of(
        studio, key, lambda: list_for_golfer(studio, golfer, head_speed=speed, bay=bay)
    )


def speed_of(golfer: Golfer, now: FittingNow) -> float | None:
    """Return a golfer's head speed with the own club: measured, else as stated [m s^-1]."""
    measured_speeds = [
        swing.numbers.head_speed
        for swing in now.swings
        if swing.club == OWN
        and swing.number
        and not (swing.odd or swing.not_ours)
        and swing.numbers is not None
        and swing.numbers.head_speed is not None
    ]
    return median(measured_speeds) if len(measured_speeds) >= 2 else golfer.head_speed
