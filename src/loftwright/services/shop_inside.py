"""What lies in a studio's shop record, and what was left out of it."""

from dataclasses import dataclass
from pathlib import Path
from typing import Final

from loftwright.services.kept_by_studio import KeptByStudio
from loftwright.services.overviews import may_be_open
from loftwright.services.shop_folder import places_allowed, record_folder, record_trouble
from loftwright.services.studio import Studio
from loftwright.shop.record import files, standing


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """The record in figures.

    Attributes
    ----------
    fittings, golfers, balls : int
        That are in it.
    no_consent : int
        Fittings of golfers who did not agree to it.
    invented : int
        Fittings of invented golfers.
    not_closed : int
        Fittings of golfers who agreed that are not closed yet.
    others : int
        Fittings that are not in it for another reason: not brought up to date since, or without
        balls that can be compared.
    trouble : tuple of str
        Why something could not be written; empty where all was.
    """

    fittings: int
    golfers: int
    balls: int
    no_consent: int
    invented: int
    not_closed: int
    others: int
    trouble: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Held:
    fittings: frozenset[str]
    golfers: int
    balls: int


_HELD: Final = KeptByStudio[_Held]()


def inside(studio: Studio) -> Inside:
    """Return what lies in the shop record, and what was left out and why.

    Raises
    ------
    StoreError
        If a file of the record cannot be read.
    """
    held = _held(studio)
    no_consent = invented = not_closed = others = 0
    outlines = studio.store.outlines()
    allowed = places_allowed(studio, outlines)
    is_open = {one.fitting for one in may_be_open(studio)}
    for one in outlines:
        if one.fitting in held.fittings:
            continue
        if one.invented:
            invented += 1
        elif one.fitting not in allowed:
            no_consent += 1
        elif one.fitting in is_open and not studio.standing(one.fitting).closed:
            not_closed += 1
        else:
            others += 1
    return Inside(
        fittings=len(held.fittings),
        golfers=held.golfers,
        balls=held.balls,
        no_consent=no_consent,
        invented=invented,
        not_closed=not_closed,
        others=others,
        trouble=tuple(sorted(set(record_trouble(studio).values()))),
    )


def _held(studio: Studio) -> _Held:
    folder = record_folder(studio)
    stamps = tuple(_stamp(one) for one in files(folder))
    return _HELD.of(studio, stamps, lambda: _read(folder))


def _stamp(file: Path) -> tuple[str, int, int]:
    try:
        stat = file.stat()
    except FileNotFoundError:
        # Taken out since it was listed.
        return str(file), 0, 0
    return str(file), stat.st_mtime_ns, stat.st_size


def _read(folder: Path) -> _Held:
    there = standing(folder)
    return _Held(
        fittings=frozenset(fitting for fitting, _ in there),
        golfers=len({golfer for _, golfer in there}),
        balls=sum(there.values()),
    )
