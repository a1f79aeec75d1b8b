"""What a fitting leaves in the shop record, of golfers who said yes to it."""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from datetime import datetime
from statistics import median

import numpy as np

from loftwright.bay.now import FittingNow, VisitNow
from loftwright.bay.setups import set_ups
from loftwright.domain.fitting import Fitting
from loftwright.domain.golfer import Golfer, Hand
from loftwright.errors import StoreError
from loftwright.evidence.compare import Comparison
from loftwright.services.belongings import belongs_of, speed_word
from loftwright.services.doubted_pieces import doubted, without_doubted
from loftwright.services.evidence import Compared, Desk, compare_clubs
from loftwright.services.one_golfer import first_of
from loftwright.services.settings import read_settings
from loftwright.services.shaft_shifts import shaft_shifts
from loftwright.services.shop_folder import (
    code_of_golfer,
    forget_trouble,
    may_stand,
    note_trouble,
    place_of,
    record_folder,
)
from loftwright.services.shop_leaving import fittings_of_pieces
from loftwright.services.studio import Studio
from loftwright.shop.record import Recorded, drop_all, keep, standing


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """What became of the shop record when it was brought up to date.

    Attributes
    ----------
    fittings : int
        That are in it.
    left_out : int
        Whose golfer did not agree or was erased, that are not closed or are invented, or whose
        balls cannot be compared.
    """

    fittings: int
    left_out: int


def record_shop(
    studio: Studio, desk: Desk, told: Callable[[int, int], None] | None = None
) -> Kept:
    """Bring the shop record up to date with every fitting of the studio.

    Parameters
    ----------
    studio : Studio
    desk : Desk
    told : callable, optional
        Takes how many fittings were looked at, and of how many, before each.

    Returns
    -------
    Kept

    Raises
    ------
    StoreError
        If the record cannot be read or written; what was there stays.
    """
    folder = record_folder(studio)
    pieces = doubted(studio)
    places: dict[str, tuple[str, str] | None] = {}
    every = studio.store.fittings()
    for number, opened in enumerate(every):
        if told is not None:
            told(number, len(every))
        recorded = _standing_of(studio, desk, opened.value, pieces)
        if recorded is not None:
            keep(folder, recorded)
        there = None if recorded is None else (recorded.fitting, recorded.golfer)
        places[opened.value.id] = there
    # What the store does not know stays: nobody can say here whose it is.
    drop_all(folder, [one for one in standing(folder) if places.get(one[0], one) != one])
    forget_trouble(studio)
    kept = sum(one is not None for one in places.values())
    return Kept(fittings=kept, left_out=len(places) - kept)


def keep_fitting(studio: Studio, desk: Desk, fitting: str) -> bool:
    """Bring one fitting up to date in the shop record: keep it there, or take it out.

    Parameters
    ----------
    studio : Studio
    desk : Desk
    fitting : str

    Returns
    -------
    bool
        Whether it stands in the record now.

    Raises
    ------
    NotFoundError
        If there is no such fitting.
    StoreError
        If the record cannot be written; a note of it is kept.
    """
    opened = studio.store.fitting(fitting).value
    folder = record_folder(studio)
    try:
        recorded = _standing_of(studio, desk, opened, doubted(studio))
        if recorded is not None:
            keep(folder, recorded)
        # Who says no while this is worked out has been taken out before it was written.
        stands = recorded is not None and may_stand(studio, opened)
        if not stands and folder.exists():
            drop_all(folder, {place_of(studio, opened)})
    except StoreError as error:
        note_trouble(studio, fitting, str(error))
        raise
    note_trouble(studio, fitting, "")
    return stands


def record_recall(studio: Studio, desk: Desk, pieces: Collection[str]) -> int:
    """Write every fitting anew in which pieces were hit, without their balls while in doubt.

    Parameters
    ----------
    studio : Studio
    desk : Desk
    pieces : collection of str

    Returns
    -------
    int
        Fittings that were looked at.

    Raises
    ------
    StoreError
        If the record cannot be written; a note of it is kept.
    """
    touched = fittings_of_pieces(studio, pieces)
    for fitting in touched:
        keep_fitting(studio, desk, fitting)
    return len(touched)


def recorded_of(
    studio: Studio,
    desk: Desk,
    fitting: str,
    pieces: Mapping[str, datetime | None] | None = None,
) -> Recorded | None:
    """Return a fitting as the shop record keeps it; None where no ball can be compared.

    Parameters
    ----------
    studio : Studio
    desk : Desk
    fitting : str
    pieces : mapping of str to datetime, optional
        Those in doubt; as the studio knows them without it.

    Notes
    -----
    Balls are weighed by physics alone, also in a fitting that was compared by what the shop had
    learned: what is learned never follows from what was learned before, and whoever is taken out
    of the record leaves nothing behind in the weights of others.
    """
    golfer = studio.store.golfer(studio.store.fitting(fitting).value.golfer).value
    stood = studio.standing(fitting)
    now = without_doubted(stood, doubted(studio) if pieces is None else pieces)
    convention = read_settings(studio).settings.convention
    shifts = shaft_shifts(studio, golfer, now)
    if now is stood and not now.learned:
        compared = desk.compared(fitting, now, golfer, convention, shifts)
    else:
        compared = compare_clubs(now, golfer, convention, shifts)
    found = compared.comparison
    if found is None:
        return None
    setup = found.visit.setup
    cards = set_ups(now, convention)
    rack = studio.store.rack()
    visits = _visits(now, compared)
    return Recorded(
        fitting=fitting,
        golfer=code_of_golfer(first_of(golfer)),
        left_handed=golfer.hand is Hand.LEFT,
        bays=tuple(visit.bay for visit in visits),
        devices=tuple(visit.device.name for visit in visits),
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


def _standing_of(
    studio: Studio, desk: Desk, fitting: Fitting, pieces: Mapping[str, datetime | None]
) -> Recorded | None:
    """Return what a fitting leaves in the record; None if it may not stand in it."""
    if not may_stand(studio, fitting) or not studio.standing(fitting.id).closed:
        return None
    return recorded_of(studio, desk, fitting.id, pieces)


def _visits(now: FittingNow, compared: Compared) -> tuple[VisitNow, ...]:
    """Return the visits with balls that are compared; the balls count these alone."""
    rows = {shot.row for shot in compared.table.table.shots}
    hit = {swing.visit for swing in now.balls if swing.number in rows}
    return tuple(visit for visit in now.visits if visit.index in hit)


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
