"""What each fitting adds to figures of the whole shop, worked out once and kept beside the store.

A fitting's part rests on its record alone, so it is kept under the record's end and the version
of the program. It holds counts of balls and names of things, nothing of a golfer. The cache may be
removed at any time: it is made again.
"""

import json
import logging
import sqlite3
import zlib
from collections.abc import Callable, Mapping, Sequence
from contextlib import closing
from pathlib import Path
from threading import RLock
from typing import Final, TypeAlias
from weakref import WeakKeyDictionary

from loftwright import __version__
from loftwright.services.studio import Studio
from loftwright.store.overview import Outline

Part: TypeAlias = Mapping[str, Sequence[int]]
"""Counts by what they count; those of all fittings are added up place by place."""
Make: TypeAlias = Callable[[Studio, str], Part]

FOLDER: Final = "cache"
FILE: Final = "summaries.sqlite"
_AT_ONCE: Final = 200
"""Parts that are written together."""
_TABLE: Final = (
    "CREATE TABLE IF NOT EXISTS parts (name TEXT, fitting TEXT, last INTEGER, program TEXT, "
    "told BLOB, PRIMARY KEY (name, fitting))"
)

log: Final = logging.getLogger(__name__)


class Added:
    """The counts of all fittings of a studio, brought up to date by those that grew.

    Parameters
    ----------
    name : str
        Under which its parts are kept.
    make : callable
        Works out a fitting's part from its record.
    """

    def __init__(self, name: str, make: Make) -> None:
        self._name, self._make = name, make
        self._lock = RLock()
        self._parts: WeakKeyDictionary[Studio, dict[str, tuple[int, bytes]]] = WeakKeyDictionary()
        self._sums: WeakKeyDictionary[Studio, dict[str, list[int]]] = WeakKeyDictionary()

    def over(
        self, studio: Studio, outlines: Sequence[Outline], most: int | None = None
    ) -> tuple[Part, int]:
        """Return the counts over some fittings, and how many of these are not counted yet.

        Parameters
        ----------
        studio : Studio
        outlines : sequence of Outline
            The fittings that count, each time all of them.
        most : int, optional
            How many missing parts may be worked out now; all of them without it.
        """
        with self._lock:
            if studio not in self._parts:
                self._parts[studio], self._sums[studio] = {}, {}
                try:
                    ends = {one.fitting: one.end for one in outlines}
                    self._take(studio, kept_parts(studio.folder, self._name, ends))
                except (ValueError, zlib.error) as error:
                    log.warning("summaries of fittings are made again: %s", error)
                    self._parts[studio], self._sums[studio] = {}, {}
            parts = self._parts[studio]
            wanted = {one.fitting: one.end for one in outlines}
            for fitting in [one for one in parts if one not in wanted]:
                self._add(studio, parts.pop(fitting)[1], -1)
            stale = [name for name, end in wanted.items() if parts.get(name, (-1,))[0] != end]
            now = stale if most is None else stale[:most]
            for first in range(0, len(now), _AT_ONCE):
                some = {one: wanted[one] for one in now[first : first + _AT_ONCE]}
                made = {
                    one: (end, _packed(self._make(studio, one) if end else {}))
                    for one, end in some.items()
                }
                self._take(studio, made)
                keep_parts(studio.folder, self._name, made)
            # A copy: whoever reads it does so while others count on.
            return dict(self._sums[studio]), len(stale) - len(now)

    def _take(self, studio: Studio, fresh: Mapping[str, tuple[int, bytes]]) -> None:
        parts = self._parts[studio]
        for fitting, part in fresh.items():
            if fitting in parts:
                self._add(studio, parts[fitting][1], -1)
            self._add(studio, part[1], 1)
            parts[fitting] = part

    def _add(self, studio: Studio, told: bytes, sign: int) -> None:
        sums = self._sums[studio]
        for what, counts in json.loads(zlib.decompress(told)).items():
            known = sums.get(what)
            summed = [sign * one for one in counts]
            if known is not None:
                summed = [one + more for one, more in zip(known, summed, strict=True)]
            if any(summed):
                sums[what] = summed
            else:
                sums.pop(what, None)


def forget_summaries(studio: Studio, fittings: Sequence[str]) -> None:
    """Remove what is kept of fittings, as of those of a golfer who is erased."""
    rows = [(one,) for one in fittings]
    _asked(
        studio.folder,
        lambda file: file.executemany("DELETE FROM parts WHERE fitting = ?", rows).fetchall(),
    )


def _packed(part: Part) -> bytes:
    told = {what: list(counts) for what, counts in part.items() if any(counts)}
    return zlib.compress(json.dumps(told, ensure_ascii=False).encode())


def kept_parts(folder: Path, name: str, ends: Mapping[str, int]) -> dict[str, tuple[int, bytes]]:
    """Return what is kept under a name and still holds, by fitting with its record's end."""
    asked = "SELECT fitting, last, told FROM parts WHERE name = ? AND program = ?"
    rows = _asked(folder, lambda file: file.execute(asked, (name, __version__)).fetchall())
    return {fitting: (end, told) for fitting, end, told in rows if ends.get(fitting) == end}


def keep_parts(folder: Path, name: str, made: Mapping[str, tuple[int, bytes]]) -> None:
    """Keep something of fittings under a name, each with its record's end."""
    rows = [(name, fitting, end, __version__, told) for fitting, (end, told) in made.items()]
    put = "INSERT OR REPLACE INTO parts VALUES (?, ?, ?, ?, ?)"
    _asked(folder, lambda file: file.executemany(put, rows).fetchall())


def _asked(
    folder: Path, ask: Callable[[sqlite3.Connection], list[tuple[str, int, bytes]]]
) -> list[tuple[str, int, bytes]]:
    """Ask the cache's file; nothing where there can be none, which costs time and nothing else."""
    try:
        (folder / FOLDER).mkdir(parents=True, exist_ok=True)
        with closing(sqlite3.connect(folder / FOLDER / FILE, timeout=5.0)) as file, file:
            file.execute("PRAGMA synchronous=OFF")
            # What goes is written over, so that no byte of the file names an erased fitting.
            file.execute("PRAGMA secure_delete=ON").fetchone()
            file.execute(_TABLE)
            return ask(file)
    except (OSError, sqlite3.Error) as error:
        log.warning("summaries of fittings could not be kept or read: %s", error)
        return []
