"""What lies in a studio's shop record, and what was left out of it."""

from dataclasses import dataclass
from pathlib import Path
from typing import Final

from loftwright.errors import StoreError
from loftwright.services.kept_by_studio import KeptByStudio
from loftwright.services.shop_folder import may_stand, record_folder, record_trouble
from loftwright.services.studio import Studio
from loftwright.shop.record import files


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
    for opened in studio.store.fittings():
        fitting = opened.value
        if fitting.id in held.fittings:
            continue
        if fitting.invented:
            invented += 1
        elif not may_stand(studio, fitting):
            no_consent += 1
        elif not studio.standing(fitting.id).closed:
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
    found = files(record_folder(studio))
    stamps = tuple((str(one), one.stat().st_mtime_ns, one.stat().st_size) for one in found)
    return _HELD.of(studio, stamps, lambda: _read(found))


def _read(found: list[Path]) -> _Held:
    import pyarrow as pa  # noqa: PLC0415 - only the shop record needs it
    import pyarrow.parquet as pq  # noqa: PLC0415 - only the shop record needs it

    fittings: set[str] = set()
    golfers: set[str] = set()
    balls = 0
    for one in found:
        try:
            table = pq.read_table(one, columns=["fitting", "golfer"], partitioning=None)
        except (OSError, pa.ArrowException) as error:
            raise StoreError(
                f"a file of the shop record cannot be read: {error}",
                place=str(one),
                mend="Move it away and bring the record up to date; fittings are kept elsewhere.",
            ) from error
        fittings |= set(table["fitting"].unique().to_pylist())
        golfers |= set(table["golfer"].unique().to_pylist())
        balls += table.num_rows
    return _Held(fittings=frozenset(fittings), golfers=len(golfers), balls=balls)
