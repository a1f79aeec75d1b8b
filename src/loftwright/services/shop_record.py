"""What a fitting leaves in the shop record, of golfers who said yes to it."""

from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from statistics import median
from typing import Final

import numpy as np

from loftwright.bay.now import FittingNow
from loftwright.bay.setups import set_ups
from loftwright.domain.golfer import Golfer, Hand
from loftwright.evidence.compare import Comparison
from loftwright.services.belongings import belongs_of, speed_word
from loftwright.services.evidence import Desk
from loftwright.services.one_golfer import first_of
from loftwright.services.settings import read_settings
from loftwright.services.shaft_shifts import shaft_shifts
from loftwright.services.studio import Studio
from loftwright.shop.record import Recorded, erase, keep

FOLDER: Final = "shop"
"""In the data folder; what is in it can be made again from the fittings."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """What became of the shop record when it was brought up to date.

    Attributes
    ----------
    fittings : int
        That are in it.
    left_out : int
        Whose golfer did not agree, that are invented, or whose balls cannot be compared.
    """

    fittings: int
    left_out: int


def record_shop(studio: Studio, desk: Desk) -> Kept:
    """Bring the shop record up to date with every fitting of the studio.

    Parameters
    ----------
    studio : Studio
    desk : Desk

    Returns
    -------
    Kept

    Raises
    ------
    StoreError
        If the record cannot be written; what was there stays.
    """
    folder = record_folder(studio)
    kept = left_out = 0
    silent: set[str] = set()
    for opened in studio.store.fittings():
        fitting = opened.value
        golfer = studio.store.golfer(fitting.golfer).value
        if not golfer.consents.shop_record:
            silent.add(golfer.id)
            left_out += 1
            continue
        recorded = None if fitting.invented else recorded_of(studio, desk, fitting.id)
        if recorded is None:
            left_out += 1
            continue
        keep(folder, recorded)
        kept += 1
    for golfer_id in sorted(silent):
        erase(folder, code_of_golfer(golfer_id))
    return Kept(fittings=kept, left_out=left_out)


def record_folder(studio: Studio) -> Path:
    """Return the folder of a studio's shop record."""
    return studio.folder / FOLDER


def code_of_golfer(golfer: str) -> str:
    """Return the code that stands for a golfer in the shop record."""
    return sha256(f"golfer {golfer}".encode()).hexdigest()[:16]


def recorded_of(studio: Studio, desk: Desk, fitting: str) -> Recorded | None:
    """Return a fitting as the shop record keeps it; None where no ball can be compared."""
    opened = studio.store.fitting(fitting).value
    golfer = studio.store.golfer(opened.golfer).value
    now = studio.standing(fitting)
    convention = read_settings(studio).settings.convention
    shifts = shaft_shifts(studio, golfer, now)
    compared = desk.compared(fitting, now, golfer, convention, shifts)
    found = compared.comparison
    if found is None:
        return None
    setup = found.visit.setup
    cards = set_ups(now, convention)
    rack = studio.store.rack()
    return Recorded(
        fitting=fitting,
        golfer=code_of_golfer(first_of(golfer)),
        left_handed=golfer.hand is Hand.LEFT,
        bays=tuple(visit.bay for visit in now.visits),
        devices=tuple(visit.device.name for visit in now.visits),
        balls=setup.balls,
        weights=_weights(found),
        belongs={
            club: belongs_of(rack, cards[club].card.head_piece, cards[club].card.shaft_piece)
            for club in setup.balls.clubs
        },
        shifts={
            club: traits.shift
            for club, traits in zip(setup.balls.clubs, compared.table.traits, strict=True)
        },
        speed=speed_kind(golfer, now),
        loading="" if golfer.change is None else golfer.change.value,
        ability=golfer.ability or "",
    )


def _weights(found: Comparison) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """Return every ball's robust weight as a share of an ordinary ball's."""
    launch = found.visit.launch
    df = found.visit.setup.launch_prior.tail_df
    ordinary = (df + len(found.visit.setup.columns.responses)) / df
    return np.minimum(launch.weights / ordinary, 1.0)


def speed_kind(golfer: Golfer, now: FittingNow) -> str:
    """Return how fast a golfer is, in a word; empty where nobody read or said it."""
    read = [
        swing.numbers.head_speed
        for swing in now.balls
        if swing.numbers is not None and swing.numbers.head_speed is not None
    ]
    return speed_word(median(read) if read else golfer.head_speed)
